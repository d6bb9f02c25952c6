//! The bare board in words: questions, truths and whys.
//!
//! A square's name keeps its small letter at the head of a sentence ("g6 is light."), as the FIDE
//! Laws' appendix writes it.

mod attacks;
mod lines;
mod travel;
mod view;

use super::words::BareWords;
use crate::question::{BareQuestion, BareWhy, each_bare};

pub(crate) use view::marked_board;

/// Asks a question.
pub(super) fn question(question: &BareQuestion) -> String {
    each_bare!(BareQuestion, question, asked => asked.ask())
}

/// Says the right answer.
pub(super) fn truth(question: &BareQuestion) -> String {
    each_bare!(BareQuestion, question, asked => asked.tell())
}

/// Explains the right answer.
pub(super) fn why(why: &BareWhy) -> Vec<String> {
    each_bare!(BareWhy, why, <K> why => K::explain(why))
}

/// Names a question in a list.
pub(super) fn item(question: &BareQuestion) -> String {
    each_bare!(BareQuestion, question, asked => asked.item())
}
