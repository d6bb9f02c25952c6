//! Charts as SVG: shapes and lengths tell everything, tone tells nothing alone. Each chart has a title
//! and a description, and stands beside a table of its figures.

use maud::{Markup, html};
use shakmaty::Square;

use super::super::page::{drawing, edge_names};
use crate::board::Seen;
use crate::learner::account::{Chart, MonthReach, SquareMap};
use crate::learner::pace::Reach;
use crate::voice::page as titles;
use crate::voice::progress::{chart_title, chart_view, month_short, percent};

/// The width of every chart, in units of the drawing.
const WIDTH: u32 = 320;

/// How far ahead, month by month: a dot for the plies, a line for the interval.
pub(super) fn reach(months: &[MonthReach]) -> Markup {
    const LEFT: f64 = 28.0;
    const TOP: f64 = 10.0;
    const HEIGHT: f64 = 130.0;
    let tops = months.iter().map(|month| match month.reach {
        Reach::Measured { plies, high, .. } => high.unwrap_or(plies + 1.0),
        Reach::NotMeasured { .. } => 0.0,
    });
    let highest = tops.fold(4.0, f64::max).ceil();
    let y = |plies: f64| TOP + HEIGHT * (1.0 - plies.min(highest) / highest);
    let step = (f64::from(WIDTH) - LEFT - 10.0)
        / f64::from(u32::try_from(months.len()).unwrap_or(1).max(1));
    let x = |n: usize| LEFT + step * (f64::from(u32::try_from(n).unwrap_or(0)) + 0.5);
    let marks = [0.0, (highest / 2.0).round(), highest];
    // No more than eight names fit below.
    let every = months.len().div_ceil(8).max(1);
    let body = html! {
        @for mark in marks {
            line class="rule" x1=(LEFT) x2=(WIDTH) y1=(y(mark)) y2=(y(mark)) {}
            text class="axis end" x=(LEFT - 4.0) y=(y(mark) + 4.0) { (format!("{mark:.0}")) }
        }
        @for (n, month) in months.iter().enumerate() {
            @if let Reach::Measured { plies, low, high } = month.reach {
                line class="span" x1=(x(n)) x2=(x(n)) y1=(y(low)) y2=(y(high.unwrap_or(highest))) {}
                circle class="dot" cx=(x(n)) cy=(y(plies)) r="4" {}
            }
            @if n % every == 0 {
                text class="axis middle" x=(x(n)) y=(TOP + HEIGHT + 16.0) { (month_short(month)) }
            }
        }
    };
    drawing("reach", titles::REACH_CHART, (WIDTH, 160), &body)
}

/// A bar for each row: its name, how much of the frame is filled in percent, and what stands behind it; `id` is the
/// drawing's own on the page.
pub(super) fn bars(id: &str, told: (&str, &str), rows: &[(String, u32, String)]) -> Markup {
    const LEFT: u32 = 128;
    const BAR: u32 = 22;
    let count = u32::try_from(rows.len()).unwrap_or(0);
    let body = html! {
        @for (n, (name, share, behind)) in (0..).zip(rows) {
            @let top = n * BAR;
            text class="axis end" x=(LEFT - 6) y=(top + 15) { (name) }
            rect class="frame" x=(LEFT) y=(top + 4) width="140" height=(BAR - 8) {}
            rect class="bar" x=(LEFT) y=(top + 4) width=(share * 7 / 5) height=(BAR - 8) {}
            text class="axis" x=(LEFT + 146) y=(top + 15) { (behind) }
        }
    };
    drawing(id, told, (WIDTH, count * BAR + 2), &body)
}

/// A board whose squares hold their share of right answers: a number, and a bar as long.
pub(super) fn squares(chart: Chart, map: &SquareMap) -> Markup {
    const SIDE: u32 = 38;
    const LEFT: u32 = 14;
    let view = chart_view(chart);
    let body = html! {
        @for square in Square::ALL {
            @let seen = Seen::of(square, view);
            @let (x, y) = (LEFT + (seen.from_left() - 1) * SIDE, (8 - seen.from_bottom()) * SIDE);
            rect class="frame" x=(x) y=(y) width=(SIDE) height=(SIDE) {}
            @if let Some(score) = map.get(&square) {
                @let share = percent(score.right, score.answers());
                text class="axis middle" x=(x + SIDE / 2) y=(y + 18) { (share) }
                rect class="bar" x=(x + 3) y=(y + SIDE - 10)
                    width=(format!("{:.1}", f64::from(share) * f64::from(SIDE - 6) / 100.0)) height="6" {}
            }
        }
        @for (n, file, rank) in edge_names(view) {
            text class="axis middle" x=(LEFT + (n - 1) * SIDE + SIDE / 2) y=(8 * SIDE + 13) { (file) }
            text class="axis middle" x="6" y=((8 - n) * SIDE + SIDE / 2 + 4) { (rank) }
        }
    };
    let id = format!("squares-{}", chart as u8);
    let told = (chart_title(chart), titles::SQUARES_CHART);
    drawing(&id, told, (WIDTH, 8 * SIDE + 18), &body)
}

/// One kind's answers as a bar of four lengths: right, in part, wrong, passed.
pub(super) fn lengths(id: &str, title: &str, counts: [u32; 4]) -> Markup {
    const NAMES: [&str; 4] = ["right", "part", "wrong", "passed"];
    let all: u32 = counts.iter().sum();
    let widths = counts.map(|count| f64::from(count) * 100.0 / f64::from(all.max(1)));
    let from = |n: usize| widths[..n].iter().sum::<f64>();
    let body = html! {
        @for (n, name) in NAMES.iter().enumerate().filter(|(n, _)| counts[*n] > 0) {
            rect class=(name) x=(format!("{:.2}", from(n))) y="0"
                width=(format!("{:.2}", widths[n])) height="12" {}
        }
        rect class="frame" x="0" y="0" width="100" height="12" {}
    };
    drawing(id, (title, &titles::verdicts(counts)), (100, 12), &body)
}
