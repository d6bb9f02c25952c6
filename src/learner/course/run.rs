//! The answers at one step, as much of them as decides.

use std::collections::VecDeque;

use jiff::Timestamp;

use super::standing::LOST;
use super::{PassMark, Standing};
use crate::exercise::median;

/// What the answers at one step come to: in memory that does not grow with them, and such that two
/// halves of a journal can be joined.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Run {
    /// The first answers, one fewer than the mark needs: they complete what an earlier half began.
    first: Vec<Tried>,
    /// The latest answers, as many as the mark needs.
    latest: VecDeque<Tried>,
    /// When the mark was first met since the step was last lost; `None` where it is not passed.
    passed: Option<Timestamp>,
    /// Whether there was a time at which so few were right that a passed step was lost.
    lost: bool,
}

/// One answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Tried {
    pub(super) time: Timestamp,
    pub(super) right: bool,
    /// `None` where nobody knows.
    pub(super) millis: Option<u64>,
}

impl Run {
    pub(super) fn take(&mut self, mark: PassMark, tried: Tried) {
        if self.first.len() + 1 < mark.of {
            self.first.push(tried);
        }
        self.latest.push_back(tried);
        if self.latest.len() > mark.of {
            self.latest.pop_front();
        }
        self.decide(mark, tried.time);
    }

    /// Decides by the latest answers alone, which may leave all as it was.
    fn decide(&mut self, mark: PassMark, now: Timestamp) {
        if self.latest.len() < mark.of {
            return;
        }
        if self.right().count() < LOST {
            self.passed = None;
            self.lost = true;
        } else if self.meets(mark) {
            self.passed.get_or_insert(now);
        }
    }

    /// Tells whether enough of the latest answers are right, and half of those in time: an answer whose
    /// time is not known is not in time.
    fn meets(&self, mark: PassMark) -> bool {
        let within = |millis| millis <= mark.within_millis;
        let right = self.right().count();
        let in_time = self
            .right()
            .filter(|tried| tried.millis.is_some_and(within));
        right >= mark.right && in_time.count() * 2 >= right
    }

    /// Joins a later run of answers: the windows that reach over the seam decide first, then those that
    /// lie within the later run, each of which decides without a look at what was before.
    pub(super) fn join(&mut self, mark: PassMark, later: Run) {
        for tried in &later.first {
            self.take(mark, *tried);
        }
        // What follows the first ones is in the latest ones, as far as it still counts.
        if later.latest.len() > later.first.len() {
            self.latest = later.latest;
        }
        self.passed = if later.lost {
            later.passed
        } else {
            self.passed.or(later.passed)
        };
        self.lost |= later.lost;
    }

    pub(super) fn standing(&self, mark: PassMark) -> Standing {
        let (right, of) = (self.right().count(), self.latest.len());
        let known = self.right().filter_map(|tried| tried.millis);
        let median_millis = median(known.collect());
        match self.passed {
            Some(on) => Standing::Passed {
                on,
                right,
                of,
                median_millis,
            },
            None if of >= mark.of && right >= mark.right => Standing::Accurate {
                median_millis: median_millis.filter(|median| *median > mark.within_millis),
            },
            None if of == 0 => Standing::Untried,
            None => Standing::Answering { right, of },
        }
    }

    fn right(&self) -> impl Iterator<Item = &Tried> {
        self.latest.iter().filter(|tried| tried.right)
    }
}
