//! The questions of one checkpoint and how far the learner has come with them.

use crate::question::LineQuestion;

/// The questions of one checkpoint, put one after the other.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Round {
    questions: Vec<LineQuestion>,
    done: usize,
}

impl Round {
    /// Opens a round of which the first `done` questions have been answered before.
    pub(super) fn new(questions: Vec<LineQuestion>, done: usize) -> Round {
        Round { questions, done }
    }

    /// Returns the question that stands, unless all are answered.
    pub(super) fn standing(&self) -> Option<LineQuestion> {
        self.questions.get(self.done).copied()
    }

    /// Goes on to the next question.
    pub(super) fn go_on(&mut self) {
        self.done += 1;
    }

    /// Returns the number of the question that stands, counted from 1, and how many there are.
    pub(super) fn count(&self) -> (usize, usize) {
        (self.done + 1, self.questions.len())
    }
}
