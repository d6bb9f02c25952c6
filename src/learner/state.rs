//! What a lesson is planned by, gathered from a journal.

use super::course::{Course, CourseEvent};
use super::schedule::Memory;
use super::{BrokenLines, Journal, JournalError, Record};

/// What a journal tells of its learner, as far as a lesson is planned by it.
#[derive(Debug, Default)]
pub struct LearnerState {
    /// How the learner stands in the course.
    pub course: Course,
    /// What the learner remembers.
    pub memory: Memory,
    /// Whether a game was read before.
    pub has_read: bool,
    /// Whether a lesson was begun before.
    pub had_lesson: bool,
    /// The session that was to find where the course begins, where the last lesson was left in it.
    pub placing: Option<String>,
}

impl LearnerState {
    /// Gathers the state from a journal, one record after the other, with the lines that are no records.
    ///
    /// # Errors
    ///
    /// As [`Journal::read`].
    pub fn of(journal: &Journal) -> Result<(LearnerState, BrokenLines), JournalError> {
        let mut state = LearnerState::default();
        let broken = journal.read_each(|_, record| {
            if let Some(event) = CourseEvent::of(&record) {
                state.course.hear(record.stamp().time, event);
            }
            match record {
                Record::Answer(answer) => state.memory.take_answer(&answer),
                Record::Start(start) => {
                    state.has_read |= start.exercise == "replay";
                    if start.exercise == "lesson" {
                        (state.had_lesson, state.placing) = (true, None);
                    } else if start.exercise == "placement" {
                        state.placing = Some(start.stamp.session);
                    }
                }
                Record::End(end) if end.finished => {
                    state.placing.take_if(|left| *left == end.stamp.session);
                }
                Record::End(_) | Record::Said(_) | Record::Game(_) | Record::Seal(_) => {}
            }
        })?;
        Ok((state, broken))
    }
}
