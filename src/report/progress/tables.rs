//! The tables of the page.

use jiff::Timestamp;
use maud::{Markup, html};
use shakmaty::{File, Rank};

use super::chart;
use crate::board::Seen;
use crate::learner::account::{Account, Chart, MonthReach, Recall, SquareMap};
use crate::learner::course::Step;
use crate::voice::duration;
use crate::voice::progress::{
    self as words, ENOUGH_FOR_A_TREND, band_title, chart_title, chart_view, month_title, percent,
};

pub(super) fn steps(account: &Account) -> Markup {
    html! {
        table {
            thead { tr { th scope="col" { "Step" } th scope="col" { "Now" } th scope="col" { "Passed within" } } }
            tbody {
                @for step in Step::ALL {
                    @let standing = account.course().standing(step);
                    tr class=[standing.is_passed().then_some("done")] {
                        th scope="row" { (words::step_title(step)) }
                        td { (words::standing(standing, step.mark())) }
                        td { (duration(step.mark().within_millis)) }
                    }
                }
            }
        }
    }
}

pub(super) fn months(months: &[MonthReach]) -> Markup {
    html! {
        table {
            thead { tr { th scope="col" { "Month" } th scope="col" { "Answers" } th scope="col" { "How far ahead, with the 90 percent interval" } } }
            tbody {
                @for month in months {
                    tr {
                        th scope="row" { (month_title(month)) }
                        td class="figure" { (month.answers) }
                        td { (words::measured_briefly(&month.reach)) }
                    }
                }
            }
        }
    }
}

pub(super) fn kinds(account: &Account, now: Timestamp) -> Markup {
    html! {
        table class="kinds" {
            thead { tr {
                th scope="col" { "Kind" } th scope="col" { "Right, in part, wrong, passed" }
                th scope="col" { "Right" } th scope="col" { "Median" } th scope="col" { "Last four weeks" }
            } }
            tbody {
                @for (kind, trend) in account.kinds(now) {
                    @let all = &trend.all;
                    @let counts = [all.right, all.part, all.wrong, all.passed];
                    tr {
                        th scope="row" { (kind) }
                        td {
                            (chart::lengths(&format!("kind-{kind}"), kind.name(), counts))
                            span class="soft" { (counts.map(|count| count.to_string()).join(", ")) }
                        }
                        td class="figure" { (percent(all.right, all.answers())) " %" }
                        td class="figure" { (all.median().map(duration).unwrap_or_default()) }
                        td {
                            @if let Some(change) = trend.change(ENOUGH_FOR_A_TREND) {
                                (percent(trend.lately.right, trend.lately.answers())) " %, "
                                (words::change_words(change))
                            }
                        }
                    }
                }
            }
        }
    }
}

pub(super) fn recall(bands: &[((u32, u32), Recall)]) -> Markup {
    html! {
        table {
            thead { tr { th scope="col" { "Board last seen before" } th scope="col" { "Right" } th scope="col" { "Answers" } } }
            tbody {
                @for ((from, to), recall) in bands {
                    tr {
                        th scope="row" { (band_title(*from, *to)) }
                        td class="figure" { (percent(recall.right, recall.answers)) " %" }
                        td class="figure" { (recall.answers) }
                    }
                }
            }
        }
    }
}

/// The figures of a map, laid out as the board: the share of right answers and the seconds they took.
pub(super) fn squares(chart: Chart, map: &SquareMap) -> Markup {
    let view = chart_view(chart);
    let square = |left, bottom| Seen::at(left, bottom).map(|seen| seen.square(view));
    html! {
        table class="board" {
            caption { (chart_title(chart)) ": right answers of all, and the median seconds of the right ones" }
            thead { tr {
                td {}
                @for left in 1..=8 {
                    @if let Some(square) = square(left, 1) { th scope="col" { (File::char(square.file())) } }
                }
            } }
            tbody {
                @for bottom in (1..=8).rev() {
                    tr {
                        @if let Some(square) = square(1, bottom) { th scope="row" { (Rank::char(square.rank())) } }
                        @for left in 1..=8 {
                            @if let Some(score) = square(left, bottom).map(|square| map.of(square)) {
                                td {
                                    @if score.answers() > 0 {
                                        (score.right) "/" (score.answers())
                                        @if let Some(median) = score.median() {
                                            br; (words::tenths(median))
                                        }
                                    }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}
