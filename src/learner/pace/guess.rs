//! The chance of a lucky guess.

use super::Answer;
use crate::learner::Glance;
use crate::question::{Kind, Verdict};

/// The exercise whose answers tell how far ahead a learner sees.
const AHEAD: &str = "ahead";

/// Returns the chance that a learner who saw nothing would be wholly right.
///
/// Yes or no: 1/2. A square: 1/64. What stands on a square: 1/13, for twelve men and none. Lists of squares
/// or moves, counts, men and whole positions have so many answers that luck is left out. These are
/// counts of possible answers, no measurements: a learner who knows some chess guesses better.
#[must_use]
pub fn guess(kind: Kind) -> f64 {
    match kind {
        Kind::Legality | Kind::Color => 1.0 / 2.0,
        Kind::Aligned | Kind::Rights => 1.0 / 4.0,
        Kind::Occupant => 1.0 / 13.0,
        Kind::Name | Kind::Place | Kind::Whereabouts => 1.0 / 64.0,
        Kind::Between
        | Kind::Span
        | Kind::Crossing
        | Kind::Distance
        | Kind::Route
        | Kind::Standing
        | Kind::Attacks
        | Kind::Attackers
        | Kind::Moves
        | Kind::Check
        | Kind::Checks
        | Kind::Captures
        | Kind::Loose
        | Kind::Mate
        | Kind::Exchange
        | Kind::Balance
        | Kind::Taken
        | Kind::Played
        | Kind::Rebuild => 0.0,
    }
}

impl Answer {
    /// Returns what an answer tells of how far ahead its learner sees; `None` for one of another
    /// exercise.
    #[must_use]
    pub fn at_a_glance(answer: &Glance<'_>) -> Option<Answer> {
        let plies = answer.plies.filter(|_| answer.exercise == AHEAD)?;
        Some(Answer {
            plies,
            right: answer.verdict == Verdict::Right,
            guess: guess(answer.kind),
        })
    }
}
