//! What a learner can do now and how it has changed, in words.

mod bare;
mod group;
mod standing;

use jiff::Timestamp;

use crate::learner::account::{Account, MonthReach, Recall, Trend};
use crate::learner::pace::Reach;

use super::date::month_name;
use super::duration::duration;
use super::naming::count;

pub use bare::{chart_title, chart_view, item, missed, mistaken, tenths, weakest_squares};
pub use group::{nobody_yet, of_group};
pub use standing::{mark, next_step, standing, step_title};

/// Fewer answers lately or before tell nothing of a change.
pub const ENOUGH_FOR_A_TREND: u32 = 10;
/// So many questions that are missed most are told, and so many mistaken squares.
pub const MOST_TOLD: usize = 10;
/// So many months are told of, the latest.
const MONTHS_TOLD: usize = 6;

/// What is said where there is no answer yet.
#[must_use]
pub fn nothing_yet(name: &str) -> Vec<String> {
    vec![
        format!("{name} has not answered a question yet."),
        "Begin with the names of the squares: sansvoir drill name --view white".to_owned(),
        "Or hear a game: sansvoir replay games-demo/club-evening.pgn".to_owned(),
    ]
}

/// Says what a learner can do now, a fact a line, and how it has changed.
#[must_use]
pub fn progress(name: &str, account: &Account, now: Timestamp, plain: bool) -> Vec<String> {
    if account.answers() == 0 {
        return nothing_yet(name);
    }
    let mut said = vec![opening(name, account)];
    said.extend(standing::course(account.course()));
    said.push(reach(&account.reach()));
    said.extend(months(account));
    said.extend(
        account
            .kinds(now)
            .iter()
            .map(|(kind, trend)| format!("{kind}: {}", trend_words(trend))),
    );
    said.extend(
        account
            .recall_bands()
            .iter()
            .map(|(band, recall)| recall_words(*band, *recall)),
    );
    said.extend(bare::squares(account, plain));
    said.extend(account.missed(MOST_TOLD).iter().map(missed));
    said.extend(
        account
            .mistaken(MOST_TOLD)
            .iter()
            .map(|(confusion, times)| mistaken(*confusion, *times)),
    );
    said.push(standing::go_on(account.course()));
    said
}

/// Says how many answers there are and from when to when.
#[must_use]
pub fn opening(name: &str, account: &Account) -> String {
    let answers = usize::try_from(account.answers()).unwrap_or(usize::MAX);
    let answers = count(answers, "answer", "answers");
    match account.from_to() {
        Some((first, last)) if day(first) == day(last) => {
            format!("{name}: {answers} on {}.", day(first))
        }
        Some((first, last)) => format!("{name}: {answers} from {} to {}.", day(first), day(last)),
        None => format!("{name}: {answers}."),
    }
}

/// Says on which day a time lies, by the clock of Greenwich.
#[must_use]
pub fn day(time: Timestamp) -> String {
    let date = jiff::tz::Offset::UTC.to_datetime(time).date();
    format!(
        "{} {} {}",
        date.day(),
        month_name(date.month()),
        date.year()
    )
}

/// Says how far ahead a learner sees.
#[must_use]
pub fn reach(reach: &Reach) -> String {
    match reach {
        Reach::NotMeasured { .. } => format!("How far ahead: {}.", measured(reach)),
        Reach::Measured { .. } => format!(
            "How far ahead: {}. There, three in four are known.",
            measured(reach)
        ),
    }
}

/// Says a reach without a sentence around it.
#[must_use]
pub fn measured(reach: &Reach) -> String {
    match *reach {
        Reach::NotMeasured {
            answers,
            of,
            levels,
        } => {
            if answers < of {
                format!("not measured yet: {answers} of {of} answers of ahead")
            } else {
                format!(
                    "not measured yet: lines of {} only, where 3 are needed",
                    count(levels, "length", "lengths")
                )
            }
        }
        Reach::Measured { plies, low, high } => match high {
            Some(high) => {
                format!("{plies:.1} plies, with nine chances in ten between {low:.1} and {high:.1}")
            }
            None => format!("{plies:.1} plies or more, with nine chances in ten above {low:.1}"),
        },
    }
}

/// Says a reach in a table of many.
#[must_use]
pub fn measured_briefly(reach: &Reach) -> String {
    match *reach {
        Reach::NotMeasured { answers, of, .. } if answers < of => {
            format!("{answers} of {of} answers")
        }
        Reach::NotMeasured { .. } => "too few lengths".to_owned(),
        Reach::Measured { plies, low, high } => match high {
            Some(high) => format!("{plies:.1} plies ({low:.1} to {high:.1})"),
            None => format!("{plies:.1} plies or more (above {low:.1})"),
        },
    }
}

/// Says how far ahead the learner saw in the latest months that were measured, oldest first.
fn months(account: &Account) -> Vec<String> {
    let measured_months = account
        .reach_by_month()
        .rev()
        .filter(|month| matches!(month.reach, Reach::Measured { .. }));
    let mut said: Vec<String> = measured_months
        .take(MONTHS_TOLD)
        .map(|month| format!("{}: {}.", month_title(&month), measured(&month.reach)))
        .collect();
    said.reverse();
    said
}

/// Names a month.
#[must_use]
pub fn month_title(month: &MonthReach) -> String {
    format!("{} {}", month_name(month.month.month()), month.month.year())
}

/// Names a month in little room: "3/26".
#[must_use]
pub fn month_short(month: &MonthReach) -> String {
    format!(
        "{}/{:02}",
        month.month.month(),
        month.month.year().rem_euclid(100)
    )
}

/// Says how many broken lines were not told one by one.
#[must_use]
pub fn more_broken_lines(number: usize) -> String {
    format!(
        "{} more cannot be read: they are skipped and left as they are",
        count(number, "line", "lines")
    )
}

/// Says how a kind went altogether, and how lately.
fn trend_words(trend: &Trend) -> String {
    let mut said = share_of(trend.all.right, trend.all.answers());
    if let Some(median) = trend.all.median() {
        said.push_str(", median ");
        said.push_str(&duration(median));
    }
    said.push('.');
    if let Some(change) = trend.change(ENOUGH_FOR_A_TREND) {
        said.push_str(" In the last four weeks ");
        said.push_str(&share_of(trend.lately.right, trend.lately.answers()));
        said.push_str(": ");
        said.push_str(&change_words(change));
        said.push('.');
    }
    said
}

/// Says by how many points of a hundred a share has changed.
#[must_use]
pub fn change_words(change: f64) -> String {
    let points = (change * 100.0).round();
    if points > 0.0 {
        format!("{points:.0} points up")
    } else if points < 0.0 {
        format!("{:.0} points down", -points)
    } else {
        "no change".to_owned()
    }
}

/// Says a share: "92 percent of 50 right".
fn share_of(right: u32, answers: u32) -> String {
    format!("{} percent of {answers} right", percent(right, answers))
}

/// Returns a share in whole percent, the nearest number, save that 100 means all and 0 none. Every
/// percentage that the program tells is this one.
#[must_use]
pub fn percent<N: TryInto<u64>>(right: N, answers: N) -> u32 {
    let whole = |number: N| number.try_into().unwrap_or(u64::MAX);
    let (right, answers) = (u128::from(whole(right)), u128::from(whole(answers)));
    if right == 0 {
        return 0;
    }
    if right >= answers {
        return 100;
    }
    let nearest = (right * 100 + answers / 2) / answers;
    u32::try_from(nearest).unwrap_or(100).clamp(1, 99)
}

/// Says how many answers were right at so many plies after the board was last seen.
fn recall_words((from, to): (u32, u32), recall: Recall) -> String {
    format!(
        "{} after the board was last seen: {}.",
        band_title(from, to),
        share_of(recall.right, recall.answers)
    )
}

/// Names a band of plies.
#[must_use]
pub fn band_title(from: u32, to: u32) -> String {
    if from == to {
        count(from as usize, "ply", "plies")
    } else if to == u32::MAX {
        format!("{from} plies and more")
    } else {
        format!("{from} to {to} plies")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_is_told_in_the_nearest_percent_and_only_all_is_a_hundred() {
        assert_eq!(percent(14_u32, 18), 78);
        assert_eq!(percent(1_usize, 3), 33);
        assert_eq!(percent(1_u32, 8), 13);
        assert_eq!(
            [percent(0_u32, 0), percent(0, 9), percent(9, 9)],
            [0, 0, 100]
        );
        assert_eq!([percent(1_u32, 1_000), percent(999, 1_000)], [1, 99]);
        assert_eq!(percent(u32::MAX, u32::MAX), 100);
    }
}
