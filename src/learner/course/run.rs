//! The answers at one step, as much of them as decides.

use std::collections::VecDeque;

use super::standing::LOST;
use super::{PassMark, Standing};

/// What the answers at one step come to: in memory that does not grow with them, and such that two
/// halves of a journal can be joined.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Run {
    /// The first answers, one fewer than the mark needs: they complete what an earlier half began.
    first: Vec<Tried>,
    /// The latest answers, as many as the mark needs.
    latest: VecDeque<Tried>,
    /// What the last window of answers that decides has decided.
    passed: Option<bool>,
}

/// One answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Tried {
    right: bool,
    millis: u64,
}

impl Run {
    pub(super) fn take(&mut self, mark: PassMark, right: bool, millis: u64) {
        let tried = Tried { right, millis };
        if self.first.len() + 1 < mark.of {
            self.first.push(tried);
        }
        self.push(mark, tried);
    }

    fn push(&mut self, mark: PassMark, tried: Tried) {
        self.latest.push_back(tried);
        if self.latest.len() > mark.of {
            self.latest.pop_front();
        }
        self.passed = self.decided(mark).or(self.passed);
    }

    /// Decides by the latest answers alone; `None` where they leave all as it was.
    fn decided(&self, mark: PassMark) -> Option<bool> {
        if self.latest.len() < mark.of {
            return None;
        }
        if self.right() < LOST {
            return Some(false);
        }
        let is_met = self.right() >= mark.right && self.median() <= Some(mark.within_millis);
        is_met.then_some(true)
    }

    /// Joins a later run of answers: the windows that reach over the seam decide first, then those that
    /// lie within the later run, each of which decides without a look at what was before.
    pub(super) fn join(&mut self, mark: PassMark, later: Run) {
        let passed = later.passed;
        for tried in &later.first {
            self.take(mark, tried.right, tried.millis);
        }
        // What follows the first ones is in the latest ones, as far as it still counts.
        if later.latest.len() > later.first.len() {
            self.latest = later.latest;
        }
        self.passed = passed.or(self.passed);
    }

    pub(super) fn standing(&self, mark: PassMark) -> Standing {
        let (right, of) = (self.right(), self.latest.len());
        match (self.passed, self.median()) {
            (Some(true), median) => Standing::Passed {
                right,
                of,
                median_millis: median.unwrap_or(0),
            },
            (Some(false) | None, Some(median_millis)) if of >= mark.of && right >= mark.right => {
                Standing::Accurate { median_millis }
            }
            (Some(false) | None, _) if of == 0 => Standing::Untried,
            (Some(false) | None, _) => Standing::Answering { right, of },
        }
    }

    fn right(&self) -> usize {
        self.latest.iter().filter(|tried| tried.right).count()
    }

    /// The median time of the right ones; the lower one of two middle ones.
    fn median(&self) -> Option<u64> {
        let right = self.latest.iter().filter(|tried| tried.right);
        let mut millis: Vec<u64> = right.map(|tried| tried.millis).collect();
        millis.sort_unstable();
        millis.get(millis.len().saturating_sub(1) / 2).copied()
    }
}
