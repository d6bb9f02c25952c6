//! What a lesson consists of, as the journal keeps it, and how its parts are held one after the other.

use serde::{Deserialize, Serialize};

use crate::cli::failure::Failure;
use crate::cli::request::Request;
use crate::cli::shared::{PartOfLesson, Shared};
use crate::learner::Record;
use crate::question::BareQuestion;

/// A lesson: what another process needs to go on with it.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
pub(super) struct Outline {
    /// Its title; `None` where the program has chosen it.
    pub(super) title: Option<String>,
    /// What is read out before the first part.
    pub(super) notes: Option<String>,
    /// The parts, in order.
    pub(super) parts: Vec<LessonPart>,
}

/// One part of a lesson: an exercise.
#[derive(Clone, Debug, Serialize, Deserialize)]
pub(super) struct LessonPart {
    /// What it is headed with, without an end mark.
    pub(super) heading: String,
    /// What is read out before it.
    pub(super) notes: Option<String>,
    pub(super) request: Request,
    /// Where its chance comes from, where that is not left to the lesson.
    pub(super) seed: Option<u64>,
    /// The questions over the bare board that were chosen beforehand.
    pub(super) chosen: Vec<BareQuestion>,
    /// How many right replies it asks for.
    pub(super) pass: Option<usize>,
}

impl LessonPart {
    /// Holds the part from its beginning, or goes on with it; `seed` is where its chance comes from unless
    /// the part names another.
    pub(super) fn hold(
        &self,
        session: String,
        seed: u64,
        resumed: bool,
        lesson: &Shared,
    ) -> Result<(), Failure> {
        let chosen = self.chosen.clone();
        let part = PartOfLesson { session, chosen };
        if resumed {
            self.request.go_on(&lesson.of_part(part, None))
        } else {
            let seed = self.seed.unwrap_or(seed);
            self.request.run(&lesson.of_part(part, Some(seed)))
        }
    }
}

/// Where the chance of a part comes from, the parts counted from 1.
pub(super) const fn seed_of_part(lesson: u64, number: usize) -> u64 {
    lesson.wrapping_add(number as u64)
}

/// How far a part has come, as the journal tells it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stage {
    /// It has not begun.
    Ahead,
    /// It was begun and not finished.
    Begun,
    /// All of it was read and asked.
    Over,
}

impl Stage {
    /// Looks up how far the session of this name has come.
    pub(super) fn of(records: &[Record], session: &str) -> Stage {
        let mut stage = Stage::Ahead;
        for record in records {
            if record.stamp().session != session {
                continue;
            }
            match record {
                Record::Start(_) => stage = Stage::Begun,
                Record::End(end) if end.finished => stage = Stage::Over,
                Record::End(_) | Record::Answer(_) | Record::Seal(_) => {}
            }
        }
        stage
    }
}
