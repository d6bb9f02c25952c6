//! The bare board in words: questions, truths and whys.
//!
//! A square's name keeps its small letter at the head of a sentence ("g6 is light."), as the FIDE
//! Laws' appendix writes it.

mod attacks;
mod lines;
mod travel;
mod view;

use super::question::reasons;
use super::words::BareWords;
use crate::question::{BareQuestion, Mark, Why, each_bare};

pub(super) use view::marked;
pub(crate) use view::marked_board;

/// Tells the rule by which questions of this kind are answered.
pub(super) fn rule(question: &BareQuestion) -> &'static str {
    each_bare!(BareQuestion, question, <K> _asked => K::RULE)
}

/// Gives a clue to somebody whose replies so far were not right: one reason after the other, and the rule
/// before them where there are few; in the end all of them together.
pub(super) fn clue(question: &BareQuestion, number: usize) -> String {
    let why = question.why(&Mark::pass(&question.truth()), None);
    let reasons = reasons(&Why::Bare(why)).into_iter();
    let rule = Some(rule(question).to_owned()).filter(|_| reasons.len() < 2);
    let clues: Vec<String> = rule.into_iter().chain(reasons).collect();
    clues
        .get(number - 1)
        .cloned()
        .unwrap_or_else(|| clues.join(" "))
}

/// Names a question in a list.
pub(super) fn item(question: &BareQuestion) -> String {
    each_bare!(BareQuestion, question, asked => asked.item())
}
