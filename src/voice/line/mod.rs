//! The words of the kinds over a position reached by a line.

mod attackers;
mod attacks;
mod effects;
mod illegal;
mod journey;
mod legality;
mod points;

use super::words::LineWords;
use crate::exercise::Stand;
use crate::question::{LineQuestion, LineWhy, Truth, each_line};

/// Asks a question.
pub(super) fn question(question: LineQuestion, stand: &Stand) -> String {
    each_line!(LineQuestion, question, asked => asked.ask(stand))
}

/// Says the right answer.
pub(super) fn truth(question: LineQuestion, truth: &Truth) -> String {
    each_line!(LineQuestion, question, asked => asked.tell(truth))
}

/// Explains why the truth is what it is, one fact a line.
pub(super) fn why(why: &LineWhy) -> Vec<String> {
    each_line!(LineWhy, why, <K> why => K::explain(why))
}
