//! Several learners, for their coach: a row each in every table, so that paper holds them all.

use jiff::Timestamp;
use maud::{Markup, html};

use super::Learner;
use crate::learner::course::{Standing, Step};
use crate::question::Kind;
use crate::voice::progress::{self as words, percent};

/// So many steps stand beside each other on a sheet of A4 or Letter, told in words.
const STEPS_ABREAST: usize = 4;
/// So many kinds do, told in figures.
const KINDS_ABREAST: usize = 6;

/// What all of them can do, then the steps of the course that somebody has tried, then the kinds.
pub(super) fn page(learners: &[Learner], now: Timestamp) -> Markup {
    let standing = |learner: &Learner, step| learner.account.course().standing(step);
    let steps = Step::ALL.into_iter().filter(|step| {
        let tried = |learner| standing(learner, *step) != Standing::Untried;
        learners.iter().any(tried)
    });
    let kinds: Vec<_> = learners
        .iter()
        .map(|learner| learner.account.kinds(now))
        .collect();
    let score = |learner: usize, kind| {
        let mut known = kinds[learner].iter();
        known
            .find(|(known, _)| *known == kind)
            .map(|(_, trend)| &trend.all)
    };
    let asked = Kind::ALL
        .iter()
        .copied()
        .filter(|kind| (0..learners.len()).any(|learner| score(learner, *kind).is_some()));
    let passed = |learner: &Learner| {
        let steps = Step::ALL.into_iter();
        let passed = steps.filter(|step| standing(learner, *step).is_passed());
        format!("{} of {}", passed.count(), Step::ALL.len())
    };
    html! {
        section {
            h2 { "All together" }
            (table(learners, &["Answers", "How far ahead", "Steps passed", "Next step"], |at| {
                let account = &learners[at].account;
                html! {
                    td class="figure" { (account.answers()) }
                    td { (words::measured_briefly(&account.reach())) }
                    td class="figure" { (passed(&learners[at])) }
                    td { (account.course().current().map_or("", words::step_title)) }
                }
            }))
        }
        section {
            h2 { "The course" }
            @for steps in steps.collect::<Vec<_>>().chunks(STEPS_ABREAST) {
                (table(learners, &steps.iter().map(|step| words::step_title(*step)).collect::<Vec<_>>(), |at| html! {
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
            h2 { "Kinds of question" }
            @for kinds in asked.collect::<Vec<_>>().chunks(KINDS_ABREAST) {
                (table(learners, &kinds.iter().map(|kind| kind.name()).collect::<Vec<_>>(), |at| html! {
                    @for kind in kinds {
                        td class="figure" {
                            @if let Some(all) = score(at, *kind) {
                                (percent(all.right, all.answers())) " % of " (all.answers())
                            }
                        }
                    }
                }))
            }
        }
    }
}

/// A table with a row for each learner, from its place among them.
fn table(learners: &[Learner], heads: &[&str], cells: impl Fn(usize) -> Markup) -> Markup {
    html! {
        div class="wide" role="region" tabindex="0" aria-label="A row for each learner" {
            table class="group" {
                thead { tr {
                    th scope="col" { "Learner" }
                    @for head in heads { th scope="col" { (head) } }
                } }
                tbody {
                    @for (at, learner) in learners.iter().enumerate() {
                        tr {
                            th scope="row" dir="auto" { (learner.name) }
                            (cells(at))
                        }
                    }
                }
            }
        }
    }
}
