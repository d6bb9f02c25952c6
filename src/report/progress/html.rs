//! The page of one learner, or of several for their coach: a row each in every table, so that paper holds
//! them all.

use std::collections::HashMap;

use jiff::Timestamp;
use maud::{Markup, html};

use super::super::page::page;
use super::chart;
use crate::learner::account::{Account, Chart, SquareMap, Trend};
use crate::learner::course::{CourseStep, StepStatus};
use crate::question::Kind;
use crate::voice::progress::{
    self as words, MOST_TOLD, band_title, chart_title, chart_view, month_title, step_title,
};
use crate::voice::{self, duration, page as titles};

/// The style sheet and its SHA-256.
pub(super) const STYLE: (&str, &str) = (
    include_str!("style.css"),
    "AjI2EKEUn/nyN1dYn19KWQDJ6udrSr/FLOmEMFRoHmI=",
);

/// So many steps stand beside each other on a sheet of A4 or Letter, told in words.
const STEPS_ABREAST: usize = 4;
/// So many kinds do, told in figures.
const KINDS_ABREAST: usize = 6;

/// A learner and what all answers come to.
#[derive(Clone, Debug)]
pub(crate) struct Learner {
    /// The name, cleaned of what could steer a terminal.
    pub(crate) name: String,
    /// The account.
    pub(crate) account: Account,
}

/// Writes the page of one learner, or of a group side by side, which may have a title.
pub(crate) fn html(
    learners: &[Learner],
    is_group: bool,
    title: Option<&str>,
    now: Timestamp,
) -> String {
    let title = match (title, learners) {
        (None, [learner]) if !is_group => titles::title(&learner.name),
        (title, _) => title.unwrap_or(titles::GROUP).to_owned(),
    };
    let main = html! {
        h1 dir="auto" { (title) }
        p class="soft" { (titles::as_of(now)) }
        @match learners {
            [] => p { (words::NOBODY_YET) },
            [learner] if !is_group => (one(learner, now)),
            learners => (group(learners, now)),
        }
    };
    page(&title, STYLE, true, &main)
}

fn one(learner: &Learner, now: Timestamp) -> Markup {
    let account = &learner.account;
    if account.answers == 0 {
        return html! { p { (words::nothing_yet(&learner.name)) } };
    }
    html! {
        p dir="auto" { (words::opening(&learner.name, account)) }
        (steps(account))
        (reach(account))
        @for line in words::games(&account.games) { p { (line) } }
        (kinds(account, now))
        (recall(account))
        @for chart in Chart::ALL {
            @let map = account.map(chart);
            @if !map.is_empty() { (squares(chart, map)) }
        }
        (weak(account))
    }
}

fn steps(account: &Account) -> Markup {
    html! {
        section {
            h2 { (titles::COURSE) }
            p { (words::next_step(&account.course)) }
            (table(None, &titles::STEP_HEADS, &html! {
                @for step in CourseStep::ALL {
                    @let standing = account.course.standing(step);
                    tr class=[standing.is_passed().then_some("done")] {
                        th scope="row" { (step_title(step)) }
                        td { (words::standing(standing, step.mark())) }
                        td { (duration(step.mark().within_millis)) }
                    }
                }
            }))
        }
    }
}

fn reach(account: &Account) -> Markup {
    let months: Vec<_> = account.reach_by_month().collect();
    html! {
        section {
            h2 { (titles::REACH) }
            p { (words::reach(&account.reach())) }
            @if !months.is_empty() {
                figure { (chart::reach(&months)) }
                (table(None, &titles::MONTH_HEADS, &html! {
                    @for month in &months {
                        tr {
                            th scope="row" { (month_title(month)) }
                            td class="figure" { (month.answers) }
                            td { (words::measured_briefly(&month.reach)) }
                        }
                    }
                }))
            }
        }
    }
}

fn kinds(account: &Account, now: Timestamp) -> Markup {
    html! {
        section {
            h2 { (titles::KINDS) }
            (table(Some("kinds"), &titles::KIND_HEADS, &html! {
                @for (kind, trend) in account.kinds(now) {
                    @let all = &trend.all;
                    @let counts = [all.right, all.part, all.wrong, all.passed];
                    tr {
                        th scope="row" { (kind) }
                        td {
                            (chart::lengths(&format!("kind-{kind}"), kind.name(), counts))
                            span class="soft" { (counts.map(|count| count.to_string()).join(", ")) }
                        }
                        td class="figure" { (titles::share(all.right, all.answers())) }
                        td class="figure" { (all.median().map(duration).unwrap_or_default()) }
                        td { (titles::lately(&trend).unwrap_or_default()) }
                    }
                }
            }))
        }
    }
}

fn recall(account: &Account) -> Markup {
    let bands = account.recall_bands();
    let rows: Vec<_> = bands
        .iter()
        .map(|((from, to), recall)| {
            let share = words::percent(recall.right, recall.answers());
            (band_title(*from, *to), share, format!("{share} %"))
        })
        .collect();
    html! {
        @if !bands.is_empty() {
            section {
                h2 { (titles::RECALL) }
                p { (titles::ABOUT_RECALL) }
                figure { (chart::bars("recall", titles::RECALL_CHART, &rows)) }
                (table(None, &titles::RECALL_HEADS, &html! {
                    @for ((from, to), recall) in &bands {
                        tr {
                            th scope="row" { (band_title(*from, *to)) }
                            td class="figure" { (titles::share(recall.right, recall.answers())) }
                            td class="figure" { (recall.answers()) }
                        }
                    }
                }))
            }
        }
    }
}

/// A map, and its figures laid out as the board: the share of right answers and the seconds they took.
fn squares(chart: Chart, map: &SquareMap) -> Markup {
    let board = voice::rows(chart_view(chart));
    html! {
        section {
            h2 { (chart_title(chart)) }
            @if let Some(weakest) = words::weakest_squares(chart, map) { p { (weakest) } }
            figure { (chart::squares(chart, map)) }
            table class="board" {
                caption { (titles::squares_caption(chart)) }
                thead { tr {
                    td {}
                    @for square in board[7] { th scope="col" { (square.file().char()) } }
                } }
                tbody {
                    @for row in board {
                        tr {
                            th scope="row" { (row[0].rank().char()) }
                            @for square in row {
                                td { @if let Some(score) = map.get(&square) {
                                    (score.right) "/" (score.answers())
                                    @if let Some(median) = score.median() {
                                        br; (words::tenths(median))
                                    }
                                } }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn weak(account: &Account) -> Markup {
    let (missed, mistaken) = (account.missed(MOST_TOLD), account.mistaken(MOST_TOLD));
    html! {
        @if !missed.is_empty() || !mistaken.is_empty() {
            section {
                h2 { (titles::MISSED) }
                ul {
                    @for missed in &missed { li { (words::missed(missed)) } }
                    @for mistaken in mistaken { li { (words::mistaken(mistaken)) } }
                }
            }
        }
    }
}

/// What all of several learners can do, then the steps of the course that somebody has tried, then the kinds.
fn group(learners: &[Learner], now: Timestamp) -> Markup {
    let standing = |learner: &Learner, step| learner.account.course.standing(step);
    let steps = CourseStep::ALL.into_iter().filter(|step| {
        let tried = |learner| standing(learner, *step).status != StepStatus::Untried;
        learners.iter().any(tried)
    });
    let known: Vec<HashMap<Kind, Trend>> = learners
        .iter()
        .map(|learner| learner.account.kinds(now).into_iter().collect())
        .collect();
    let asked = Kind::ALL
        .iter()
        .filter(|kind| known.iter().any(|known| known.contains_key(kind)));
    html! {
        section {
            h2 { (titles::ALL_TOGETHER) }
            @let names: Vec<&str> = learners.iter().map(|learner| &*learner.name).collect();
            (named_rows(&names, "group rows", words::ROW_HEADS, |at| html! {
                @for cell in words::row(&learners[at].account, now) {
                    td { (cell) }
                }
            }))
        }
        section {
            h2 { (titles::COURSE) }
            @for steps in steps.collect::<Vec<_>>().chunks(STEPS_ABREAST) {
                (rows(learners, steps.iter().map(|step| step_title(*step)), |at| html! {
                    @for step in steps {
                        @let standing = standing(&learners[at], *step);
                        td class=[standing.is_passed().then_some("done")] {
                            (words::standing(standing, step.mark()))
                        }
                    }
                }))
            }
        }
        section {
            h2 { (titles::KINDS) }
            @for kinds in asked.collect::<Vec<_>>().chunks(KINDS_ABREAST) {
                (rows(learners, kinds.iter().map(|kind| kind.name()), |at| html! {
                    @for kind in kinds {
                        td class="figure" { @if let Some(trend) = known[at].get(kind) { (titles::share_of(&trend.all)) } }
                    }
                }))
            }
        }
    }
}

/// A table with a row for each learner, from its place among them.
fn rows<'a>(
    learners: &[Learner],
    heads: impl IntoIterator<Item = &'a str>,
    cells: impl Fn(usize) -> Markup,
) -> Markup {
    let names: Vec<&str> = learners.iter().map(|learner| &*learner.name).collect();
    named_rows(&names, "group", heads, cells)
}

/// A table with a row for each name.
pub(super) fn named_rows<'a>(
    names: &[&str],
    class: &str,
    heads: impl IntoIterator<Item = &'a str>,
    cells: impl Fn(usize) -> Markup,
) -> Markup {
    let heads: Vec<&str> = [titles::LEARNER].into_iter().chain(heads).collect();
    html! {
        div class="wide" role="region" tabindex="0" aria-label=(titles::learners(&heads)) {
            (table(Some(class), &heads, &html! {
                @for (at, name) in names.iter().enumerate() {
                    tr {
                        th scope="row" dir="auto" { (name) }
                        (cells(at))
                    }
                }
            }))
        }
    }
}

pub(super) fn table(class: Option<&str>, heads: &[&str], rows: &Markup) -> Markup {
    html! {
        table class=[class] {
            thead { tr { @for head in heads { th scope="col" { (head) } } } }
            tbody { (rows) }
        }
    }
}
