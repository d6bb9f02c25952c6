//! The words of the kinds over a position reached by a line.

mod attackers;
mod attacks;
mod balance;
mod blame;
mod effects;
mod exchange;
mod hanging;
mod journey;
mod legality;
mod moves;
mod occupant;
mod played;
mod rebuild;
mod refused;
mod rights;
mod standing;
mod taken;
pub(super) mod way;
mod whereabouts;

pub(super) use effects::MISSED;

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

#[cfg(test)]
mod tests;
