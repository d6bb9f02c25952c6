//! How far ahead a learner sees, in plies: where the next question should stand, and what may be said of
//! all the answers so far.
//!
//! Two figures, for two purposes. The [`level`] is for training: it moves with every answer and keeps
//! the learner at three right in four. The [`Reach`] is for telling: it is fitted to many answers, takes
//! guesses off, and comes with an interval or not at all.

mod answers;
mod curve;
mod reach;
mod staircase;
mod tally;

pub use answers::answers;
pub use curve::{Curve, LAPSE};
pub use reach::{ENOUGH_ANSWERS, ENOUGH_LEVELS, Reach, USUAL_WIDTH, WIDTH_SPREAD};
pub use staircase::{level, staircase};

pub use crate::exercise::{START, presented};

/// One answer to a question that stood some plies ahead of the last board known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Answer {
    /// How many plies the learner had to see; from 1 on.
    pub plies: u32,
    /// Whether the answer was wholly right.
    pub right: bool,
    /// The chance that a learner who saw nothing would be right: 1/2 for yes or no, 1/64 for a square, 0 for
    /// a list. From 0 up to, but not including, 1.
    pub guess: f64,
}
