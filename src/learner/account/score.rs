//! How a number of answers went.

use super::Times;
use crate::learner::Glance;
use crate::question::Verdict;

/// How a number of answers went, and how long the right ones took.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Score {
    /// Right replies.
    pub right: u32,
    /// Replies that were right in part.
    pub part: u32,
    /// Wrong replies.
    pub wrong: u32,
    /// Questions given up.
    pub passed: u32,
    /// Replies of any kind that came after the think time.
    pub late: u32,
    /// How long the right replies took, as far as that is known.
    pub times: Times,
}

impl Score {
    pub(super) fn take(&mut self, answer: &Glance<'_>) {
        let count = match answer.verdict {
            Verdict::Right => &mut self.right,
            Verdict::Part => &mut self.part,
            Verdict::Wrong => &mut self.wrong,
            Verdict::Pass => &mut self.passed,
        };
        *count += 1;
        self.late += u32::from(answer.late);
        if answer.verdict == Verdict::Right
            && let Some(millis) = answer.millis
        {
            self.times.add(millis);
        }
    }

    pub(super) fn join(&mut self, others: &Score) {
        self.right += others.right;
        self.part += others.part;
        self.wrong += others.wrong;
        self.passed += others.passed;
        self.late += others.late;
        self.times.join(&others.times);
    }

    /// Returns how many answers there are.
    #[must_use]
    pub fn answers(&self) -> u32 {
        self.right + self.part + self.wrong + self.passed
    }

    /// Returns the share that was wholly right, 0 to 1; `None` without answers.
    #[must_use]
    pub fn share(&self) -> Option<f64> {
        let answers = self.answers();
        (answers > 0).then(|| f64::from(self.right) / f64::from(answers))
    }
}
