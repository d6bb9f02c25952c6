//! The bare board in words: questions, truths and whys.
//!
//! A square's name keeps its small letter at the head of a sentence ("g6 is light."), as the FIDE
//! Laws' appendix writes it.

mod attacks;
mod lines;
mod travel;
mod view;

use super::words::BareWords;
use crate::question::{BareQuestion, each_bare};

pub(crate) use view::marked_board;

/// Names a question in a list.
pub(super) fn item(question: &BareQuestion) -> String {
    each_bare!(BareQuestion, question, asked => asked.item())
}
