//! What learners can do now and how it has changed, as a page and as data.

mod chart;
mod held;
mod html;
mod json;
mod parents;
mod table;

pub(crate) use held::lesson_page;
pub(crate) use html::{Learner, html};
pub(crate) use json::json;
pub(crate) use parents::reports;
pub(crate) use table::{answer, answers, lesson, pupils};

use std::cmp::Reverse;

use crate::learner::course::CourseStep;
use crate::learner::pace::Reach;

/// Sorts a group: first who has come farthest in the course, then who sees farthest ahead, then by name.
pub(crate) fn sort(learners: &mut [Learner]) {
    learners.sort_by_cached_key(|Learner { name, account }| {
        let passed = CourseStep::ALL.map(|step| account.course.standing(step).is_passed());
        let passed = passed.iter().filter(|passed| **passed).count();
        let ahead = match account.reach() {
            Reach::Measured { plies, .. } => plies.to_bits(),
            Reach::NotMeasured { .. } => 0,
        };
        (Reverse((passed, ahead)), name.clone())
    });
}
