//! The bare board in words: questions, truths and whys.
//!
//! A square's name keeps its small letter at the head of a sentence ("g6 is light."), as the FIDE
//! Laws' appendix writes it.

mod attacks;
mod lines;
mod travel;
mod view;

use super::naming::list;
use super::words::BareWords;
use crate::question::{BareQuestion, BareWhy, Kind, each_bare};

pub(super) use view::marked;
pub(crate) use view::marked_board;

/// Tells the rule by which questions of this kind are answered.
pub(super) fn rule(question: &BareQuestion) -> &'static str {
    each_bare!(BareQuestion, question, <K> _asked => K::RULE)
}

/// Gives clues to somebody whose replies so far were not right: what of the last one was, then one reason more after
/// each. Where the only reason tells the answer, the rule stands before it.
pub(super) fn clue(why: &BareWhy, number: usize) -> String {
    let hit = why.tally.hit;
    let hit = hit.any().then(|| format!("Right so far: {}.", list(hit)));
    let reasons = explained(why);
    let is_told = reasons.len() < 2 && [Kind::Distance, Kind::Route].contains(&why.question.kind());
    let rule = is_told.then(|| rule(&why.question).to_owned());
    let clues = rule.into_iter().chain(reasons).take(number);
    hit.into_iter().chain(clues).collect::<Vec<_>>().join(" ")
}

/// Explains the answer, one fact a line.
pub(super) fn explained(why: &BareWhy) -> Vec<String> {
    each_bare!(BareQuestion, why.question, asked => asked.explain(why))
}

/// Names a question in a list.
pub(super) fn item(question: &BareQuestion) -> String {
    each_bare!(BareQuestion, question, asked => asked.item())
}
