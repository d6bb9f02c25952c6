//! Squares in words: which are weak, and which are taken for others.

use shakmaty::{Color, File, Rank, Square};

use crate::board::Seen;
use crate::learner::account::{Account, Chart, MissedOften, Mistaken, Score, SquareMap};

pub use super::super::bare::item;
use super::super::naming::{count, list, side};
use super::percent;

/// So many weak squares are named.
const WEAKEST: usize = 8;

/// Says what a map of squares is of.
#[must_use]
pub const fn chart_title(chart: Chart) -> &'static str {
    match chart {
        Chart::FromWhite => "Squares named and placed from White's side",
        Chart::FromBlack => "Squares named and placed from Black's side",
        Chart::Color => "Colors of squares",
    }
}

/// Returns the side from which a map is drawn.
#[must_use]
pub const fn chart_view(chart: Chart) -> Color {
    match chart {
        Chart::FromWhite | Chart::Color => Color::White,
        Chart::FromBlack => Color::Black,
    }
}

/// Draws a map of the squares that were asked for, or names the weakest.
pub(super) fn squares(account: &Account, plain: bool) -> Vec<String> {
    let mut said = Vec::new();
    for chart in Chart::ALL {
        let map = account.map(chart);
        if map.is_empty() {
            continue;
        }
        if !plain {
            said.push(format!("{}, percent right:", chart_title(chart)));
            said.extend(grid(map, chart_view(chart), |score| {
                percent(score.right, score.answers()).to_string()
            }));
            said.push(format!(
                "{}, seconds of the right ones:",
                chart_title(chart)
            ));
            said.extend(grid(map, chart_view(chart), |score| {
                score.median().map(tenths).unwrap_or_default()
            }));
        }
        said.extend(weakest_squares(chart, map));
    }
    said
}

/// Names the weakest squares of a map, with how often they were right; `None` where none was missed.
#[must_use]
pub fn weakest_squares(chart: Chart, map: &SquareMap) -> Option<String> {
    let mut weak: Vec<(Square, &Score)> = Square::ALL
        .into_iter()
        .map(|square| (square, map.of(square)))
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

/// Draws a board of figures, the nearest row of `view` last, with the names of files and ranks.
fn grid(map: &SquareMap, view: Color, figure: impl Fn(&Score) -> String) -> Vec<String> {
    let square = |left, bottom| Seen::at(left, bottom).map(|seen| seen.square(view));
    let cell = |square: Square| match map.of(square) {
        score if score.answers() == 0 => String::new(),
        score => figure(score),
    };
    let mut rows: Vec<String> = (1..=8)
        .rev()
        .map(|bottom| {
            let squares = (1..=8).filter_map(|left| square(left, bottom));
            let cells: Vec<String> = squares
                .map(|square| format!("{:>5}", cell(square)))
                .collect();
            let cells = cells.concat();
            let rank = square(1, bottom).map_or(' ', |square| Rank::char(square.rank()));
            format!("{rank}{cells}").trim_end().to_owned()
        })
        .collect();
    let files = (1..=8).filter_map(|left| square(left, 1));
    let files: Vec<String> = files
        .map(|square| format!("{:>5}", File::char(square.file())))
        .collect();
    rows.push(format!(" {}", files.concat()));
    rows
}

/// Writes seconds with a tenth, without their name.
#[must_use]
pub fn tenths(millis: u64) -> String {
    let tenths = millis.saturating_add(50) / 100;
    format!("{}.{}", tenths / 10, tenths % 10)
}

/// Says how often a question was missed.
#[must_use]
pub fn missed(missed: &MissedOften) -> String {
    format!(
        "Missed {} of {}: {}",
        missed.missed,
        count(missed.asked as usize, "time", "times"),
        item(&missed.question)
    )
}

/// Says which square was taken for which.
#[must_use]
pub fn mistaken(mistaken: Mistaken, times: u32) -> String {
    let other_side = if mistaken.named == mistaken.asked.rotate_180() {
        ", which is right from the other side"
    } else {
        ""
    };
    format!(
        "Taken for another, seen from {}'s side: {} for {}{other_side}, {}.",
        side(mistaken.view),
        mistaken.asked,
        mistaken.named,
        count(times as usize, "time", "times")
    )
}
