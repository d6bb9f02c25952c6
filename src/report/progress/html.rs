//! The page of one learner or of several.

use jiff::Timestamp;
use maud::{Markup, html};

use super::super::page::{Style, page};
use super::{Learner, chart, group, tables};
use crate::learner::account::{Account, Chart};
use crate::voice::progress::{self as words, MOST_TOLD, chart_title, day};

const STYLE: Style = Style {
    text: include_str!("style.css"),
    hash: "u4vGthV9pCzz7OjRk7KB+ppP5QtFudkBnV7LTMeN6Lg=",
};

/// Writes the page of one learner, or of several side by side.
#[must_use]
pub fn html(learners: &[Learner], now: Timestamp) -> String {
    let title = match learners {
        [learner] => format!("{}: chess without sight of the board", learner.name),
        _ => "A group: chess without sight of the board".to_owned(),
    };
    let main = html! {
        h1 dir="auto" { (title) }
        p class="soft" { "As of " (day(now)) "." }
        @match learners {
            [] => p { (words::nobody_yet().join(" ")) },
            [learner] => (one(learner, now)),
            group => (group::page(group, now)),
        }
    };
    page(&title, STYLE, &main)
}

fn one(learner: &Learner, now: Timestamp) -> Markup {
    let account = &learner.account;
    if account.answers() == 0 {
        return html! { @for line in words::nothing_yet(&learner.name) { p { (line) } } };
    }
    let bands = account.recall_bands();
    html! {
        p dir="auto" { (words::opening(&learner.name, account)) }
        section {
            h2 { "The course" }
            p { (words::next_step(account.course())) }
            (tables::steps(account))
        }
        (reach(account))
        section {
            h2 { "Kinds of question" }
            (tables::kinds(account, now))
        }
        @if !bands.is_empty() {
            section {
                h2 { "Recall" }
                p { "The longer the board is out of sight, the more there is to keep in mind." }
                figure { (chart::recall(&bands)) }
                (tables::recall(&bands))
            }
        }
        (squares(account))
        (weak(account))
    }
}

fn reach(account: &Account) -> Markup {
    let months: Vec<_> = account.reach_by_month().collect();
    html! {
        section {
            h2 { "How far ahead" }
            p { (words::reach(&account.reach())) }
            @if !months.is_empty() {
                figure { (chart::reach(&months)) }
                (tables::months(&months))
            }
        }
    }
}

fn squares(account: &Account) -> Markup {
    let asked = Chart::ALL
        .into_iter()
        .filter(|chart| !account.map(*chart).is_empty());
    html! {
        @for chart in asked {
            @let map = account.map(chart);
            section {
                h2 { (chart_title(chart)) }
                @if let Some(weakest) = words::weakest_squares(chart, map) { p { (weakest) } }
                figure { (chart::squares(chart, chart_title(chart), map)) }
                (tables::squares(chart, map))
            }
        }
    }
}

fn weak(account: &Account) -> Markup {
    let (missed, mistaken) = (account.missed(MOST_TOLD), account.mistaken(MOST_TOLD));
    html! {
        @if !missed.is_empty() || !mistaken.is_empty() {
            section {
                h2 { "Missed and mistaken most" }
                ul {
                    @for missed in &missed { li { (words::missed(missed)) } }
                    @for (confusion, times) in mistaken { li { (words::mistaken(confusion, times)) } }
                }
            }
        }
    }
}
