//! How far ahead a learner sees, in plies: where the next question should stand, and what may be said of
//! all the answers so far.
//!
//! Two figures, for two purposes. The [`staircase`] is for training: it moves with every answer and keeps
//! the learner at three right in four. The [`Reach`] is for telling: it is fitted to many answers, takes
//! guesses and slips off, follows a learner who changes, and comes with an interval or not at all.

mod answer;
mod reach;

pub use answer::{Answer, Guesses, Telling, answers, staircase};
pub use reach::Reach;
