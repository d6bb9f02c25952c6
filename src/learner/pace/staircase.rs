//! The level at which to ask next, by all answers so far.

use super::Answer;
use crate::exercise::Staircase;

/// Climbs the [`Staircase`] through these answers, oldest first.
#[must_use]
pub fn staircase(answers: &[Answer]) -> Staircase {
    let mut staircase = Staircase::default();
    for answer in answers {
        staircase.hear(answer.plies, answer.right);
    }
    staircase
}

/// Returns the level after these answers, oldest first, in plies; see [`Staircase`].
#[must_use]
pub fn level(answers: &[Answer]) -> f64 {
    staircase(answers).level()
}
