//! What a learner can do now and how it has changed, in words; and what several can, for their coach.

mod class;
mod course;
mod games;
pub(crate) mod held;
pub(crate) mod parents;
mod squares;

use jiff::Timestamp;

use super::by_mouth;
use super::naming::count;
use super::time::duration;
use crate::exercise::Score;
use crate::learner::account::{Account, MonthReach, Trend};
use crate::learner::pace::Reach;
use crate::question::Kind;

pub(crate) use super::naming::percent;
pub(crate) use super::time::{day, tenths};
pub(crate) use class::{ROW_HEADS, of_group, row};
pub(crate) use course::{
    mark, next_lesson, next_step, stand, standing, standing_at, step_title, steps,
};
pub(crate) use games::games;
pub(crate) use squares::{chart_title, chart_view, missed, mistaken, weakest_squares};

/// Fewer answers lately or before tell nothing of a change.
pub(crate) const ENOUGH_FOR_A_TREND: u32 = 10;
/// So many questions that are missed most are told, and so many mistaken squares.
pub(crate) const MOST_TOLD: usize = 10;
/// So many months are told of, the latest.
const MONTHS_TOLD: usize = 6;

/// What is said where there is no answer yet.
pub(crate) fn nothing_yet(name: &str) -> String {
    format!("{name} has no answer yet that counts.")
}

/// Said where no learner has a journal.
pub(crate) const NOBODY_YET: &str = "No learner has answered a question yet.";

/// Says what a learner can do now, a fact a line, how it has changed, and with which command the next lesson begins.
pub(crate) fn progress(
    name: &str,
    account: &Account,
    now: Timestamp,
    lesson: &str,
    plain: bool,
) -> Vec<String> {
    if account.answers == 0 {
        return vec![nothing_yet(name), format!("To begin: {lesson}")];
    }
    let mut said = vec![opening(name, account)];
    said.extend(stand(&account.course));
    // A page begins where the eye rests, and plain text ends there.
    let go_on = || format!("To go on: {lesson}");
    said.extend((!plain).then(go_on));
    said.push(reach(&account.reach()));
    said.extend(steps(&account.course, plain));
    said.extend(months(account));
    said.extend(first_weeks(account, now));
    said.extend(games(&account.games));
    said.extend(account.kinds(now).iter().map(kind_words));
    said.extend(account.recall_bands().iter().map(recall_words));
    said.extend(squares::squares(account, plain));
    let by_mouth = || by_mouth::counted(account.heard, account.taken_back);
    said.extend((account.heard > 0).then(by_mouth));
    said.extend(account.missed(MOST_TOLD).iter().map(missed));
    said.extend(account.mistaken(MOST_TOLD).into_iter().map(mistaken));
    said.extend(plain.then(go_on));
    said
}

/// Says how many answers there are and from when to when.
pub(crate) fn opening(name: &str, account: &Account) -> String {
    let answers = count(account.answers, "answer", "answers");
    match account.from_to.map(|(first, last)| (day(first), day(last))) {
        Some((first, last)) if first == last => format!("{name}: {answers} on {first}."),
        Some((first, last)) => format!("{name}: {answers} from {first} to {last}."),
        None => format!("{name}: {answers}."),
    }
}

/// Says how far ahead a learner sees.
pub(crate) fn reach(reach: &Reach) -> String {
    let meaning = match reach {
        Reach::NotMeasured { .. } => "",
        Reach::Measured { .. } => " At that distance you know three answers in four.",
    };
    format!("How far ahead: {}.{meaning}", measured(reach))
}

/// Says a reach without a sentence around it.
fn measured(reach: &Reach) -> String {
    match *reach {
        Reach::NotMeasured { answers, of, .. } if answers < of => {
            format!(
                "not measured yet: {answers} of the {of} answers that it takes, from the exercise ahead"
            )
        }
        Reach::NotMeasured { levels, .. } => {
            let lengths = count(levels, "length", "lengths");
            format!("not measured yet: lines of {lengths} only, where 3 are needed")
        }
        Reach::Measured { .. } => measured_briefly(reach),
    }
}

/// Says a reach in a table of many.
pub(crate) fn measured_briefly(reach: &Reach) -> String {
    match *reach {
        Reach::NotMeasured { answers, of, .. } if answers < of => {
            format!("{answers} of {of} answers")
        }
        Reach::NotMeasured { .. } => "too few lengths".to_owned(),
        Reach::Measured { plies, low, high } => match high {
            Some(high) => format!("{plies:.1} plies, very likely {low:.1} to {high:.1}"),
            None => format!("{plies:.1} plies or more, very likely above {low:.1}"),
        },
    }
}

/// Says how far ahead the learner saw in the latest months that were measured, oldest first.
fn months(account: &Account) -> Vec<String> {
    let is_measured = |month: &MonthReach| matches!(month.reach, Reach::Measured { .. });
    let latest = account.reach_by_month().rev().filter(is_measured);
    let told = |month| format!("{}: {}.", month_title(&month), measured(&month.reach));
    let mut said: Vec<String> = latest.take(MONTHS_TOLD).map(told).collect();
    said.reverse();
    said
}

/// Says how the last seven days went beside the seven before, where no four weeks can be told from others yet.
fn first_weeks(account: &Account, now: Timestamp) -> Option<String> {
    let [[_, earlier, _], _] = account.two_months(now);
    let weeks = account.weeks(now);
    let [.., (_, [_, before, right_before]), (_, [_, lately, right])] = weeks[..] else {
        return None;
    };
    let is_told = earlier == 0 && before.min(lately) >= u64::from(ENOUGH_FOR_A_TREND);
    is_told.then(|| {
        format!(
            "Of the last seven days {right} of {lately} answers were right, of the seven before {right_before} of {before}."
        )
    })
}

/// Names a month.
pub(crate) fn month_title(reach: &MonthReach) -> String {
    reach.month.strftime("%B %-Y").to_string()
}

/// Names a month in little room: "3/26".
pub(crate) fn month_short(reach: &MonthReach) -> String {
    reach.month.strftime("%-m/%y").to_string()
}

/// Says how many broken lines were not told one by one.
pub(crate) fn more_broken_lines(number: usize) -> String {
    let lines = count(number, "more line", "more lines");
    format!("{lines} cannot be read: skipped and left unchanged")
}

/// Says how a kind went altogether, and how lately.
fn kind_words((kind, trend): &(Kind, Trend)) -> String {
    let all = share_of(trend.all.right, trend.all.answers());
    let median = trend.all.median();
    let median = median.map(|median| format!(", median {}", duration(median)));
    let change = trend.change(ENOUGH_FOR_A_TREND).map(|change| {
        let lately = share_of(trend.lately.right, trend.lately.answers());
        let change = change_words(change);
        format!(" In the last four weeks {lately}: {change}.")
    });
    let (median, change) = (median.unwrap_or_default(), change.unwrap_or_default());
    format!("{kind}: {all}{median}.{change}")
}

/// Says by how many points of a hundred a share has changed.
pub(crate) fn change_words(change: f64) -> String {
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

/// Says how many answers were right at so many plies after the board was last seen.
fn recall_words(((from, to), recall): &((u32, u32), Score)) -> String {
    let band = band_title(*from, *to);
    let share = share_of(recall.right, recall.answers());
    format!("{band} after the board was last seen: {share}.")
}

/// Names a band of plies.
pub(crate) fn band_title(from: u32, to: u32) -> String {
    if from == to {
        count(from, "ply", "plies")
    } else if to == u32::MAX {
        format!("{from} plies and more")
    } else {
        format!("{from} to {to} plies")
    }
}
