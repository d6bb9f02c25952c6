//! Squares in words: which are weak, and which are taken for others.

use shakmaty::{Color, Square};

use crate::exercise::{Mistaken, Score};
use crate::learner::account::{Account, Chart, MissedOften, SquareMap};
use crate::voice::bare::item;
use crate::voice::boards::drawn;
use crate::voice::naming::{count, list, percent, side};
use crate::voice::time::tenths;

/// So many weak squares are named.
const WEAKEST: usize = 8;

/// Says what a map of squares is of.
pub(crate) const fn chart_title(chart: Chart) -> &'static str {
    match chart {
        Chart::FromWhite => "Squares named and placed from White's side",
        Chart::FromBlack => "Squares named and placed from Black's side",
        Chart::Color => "Colors of squares",
    }
}

/// Returns the side from which a map is drawn.
pub(crate) const fn chart_view(chart: Chart) -> Color {
    match chart {
        Chart::FromWhite | Chart::Color => Color::White,
        Chart::FromBlack => Color::Black,
    }
}

/// Draws a map of the squares that were asked for, or names the weakest.
pub(super) fn squares(account: &Account, plain: bool) -> Vec<String> {
    let mut said = Vec::new();
    for chart in Chart::ALL {
        let (title, map) = (chart_title(chart), account.map(chart));
        if map.is_empty() {
            continue;
        }
        if !plain {
            let draw = |figure: fn(&Score) -> String| {
                let figure = |square| map.get(&square).map(figure).unwrap_or_default();
                let width = 1 + Square::ALL
                    .map(|square| figure(square).len())
                    .into_iter()
                    .fold(1, usize::max);
                let cell = |square| format!("{:>width$}", figure(square));
                drawn(chart_view(chart), "", cell, |letter| {
                    format!("{letter:>width$}")
                })
            };
            said.push(format!("{title}, percent right:"));
            said.extend(draw(|score| {
                percent(score.right, score.answers()).to_string()
            }));
            said.push(format!("{title}, seconds of the right ones:"));
            said.extend(draw(|score| score.median().map(tenths).unwrap_or_default()));
        }
        said.extend(weakest_squares(chart, map));
    }
    said
}

/// Names the weakest squares of a map, with how often they were right; `None` where none was missed.
pub(crate) fn weakest_squares(chart: Chart, map: &SquareMap) -> Option<String> {
    let mut weak: Vec<(&Square, &Score)> = map
        .iter()
        .filter(|(_, score)| score.right < score.answers())
        .collect();
    // The share is compared crosswise, so that no rounding decides; more misses come first among equals.
    weak.sort_by(|(_, one), (_, other)| {
        let cross = |a: &Score, b: &Score| u64::from(a.right) * u64::from(b.answers());
        cross(one, other)
            .cmp(&cross(other, one))
            .then(other.answers().cmp(&one.answers()))
    });
    weak.truncate(WEAKEST);
    let named = weak
        .iter()
        .map(|(square, score)| format!("{square} {} of {}", score.right, score.answers()));
    let named = list(named);
    (!weak.is_empty()).then(|| format!("{}, weakest first: {named} right.", chart_title(chart)))
}

/// Says how often a question was missed.
pub(crate) fn missed(missed: &MissedOften) -> String {
    let times = count(missed.asked, "time", "times");
    format!(
        "Missed {} of {times}: {}",
        missed.missed,
        item(&missed.question)
    )
}

/// Says which square was taken for which.
pub(crate) fn mistaken((mistaken, times): (Mistaken, u32)) -> String {
    let Mistaken { asked, named, view } = mistaken;
    let (side, times) = (side(view), count(times, "time", "times"));
    let other_side = if mistaken.is_right_from_the_other_side() {
        ", which is right from the other side"
    } else {
        ""
    };
    format!("Taken for another, seen from {side}'s side: {asked} for {named}{other_side}, {times}.")
}
