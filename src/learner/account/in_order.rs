//! The answers of the course, brought into the order in which they were given.

use jiff::Timestamp;

use super::step;
use crate::learner::course::{Course, Step};
use crate::learner::{Gather, Glance};
use crate::question::Verdict;

/// As much of every answer as the course needs.
#[derive(Default)]
pub(super) struct InOrder(Vec<(Timestamp, Step, bool, Option<u32>)>);

impl Gather for InOrder {
    fn take(&mut self, answer: &Glance<'_>) {
        if let Some(step) = step(answer).filter(|_| !answer.repeat) {
            let millis = answer
                .millis
                .map(|millis| u32::try_from(millis).unwrap_or(u32::MAX));
            let right = answer.verdict == Verdict::Right;
            self.0.push((answer.time, step, right, millis));
        }
    }

    fn join(&mut self, later: InOrder) {
        self.0.extend(later.0);
    }
}

impl InOrder {
    /// Goes through the answers, the earliest first; those of one second as they stand in the journal.
    pub(super) fn course(mut self) -> Course {
        self.0.sort_by_key(|(time, ..)| *time);
        let mut course = Course::default();
        for (time, step, right, millis) in self.0 {
            course.take(time, step, right, millis.map(u64::from));
        }
        course
    }
}
