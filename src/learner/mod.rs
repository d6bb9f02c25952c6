//! What is known of a learner. Everything comes from one file a learner, the [`Journal`]:
//! a line of JSON for every answer, only ever appended.
//!
//! The time of a record and the name of its session are arguments: nothing here reads a clock.

pub mod account;
pub mod course;
mod error;
mod held;
mod journal;
pub mod lesson;
mod line;
mod merge;
mod name;
pub mod pace;
mod past;
mod private;
mod record;
pub mod schedule;
mod session_lock;
mod state;
mod written;

pub use error::{BrokenLine, BrokenLines, JournalError, JournalProblem};
pub use held::{HeldLesson, LessonResults, PartResult, part_number};
pub use journal::{Appended, Contents, Journal};
pub use merge::Merged;
pub use name::{LearnerName, LearnerNameError};
pub use past::{Unfinished, finished_games, unfinished, unfinished_session, weak};
pub use record::{AnswerRecord, EndRecord, GameRecord, Record, SaidRecord, StartRecord, VERSION};
pub use session_lock::SessionLock;
pub use state::LearnerState;
pub use written::{GameRef, Played, RawJson, Stamp};
