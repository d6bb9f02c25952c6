//! Floor 3: what is known of a learner. Everything comes from one file a learner, the [`Journal`]:
//! a line of JSON for every answer, only ever appended.
//!
//! The time of a record and the name of its session are arguments: nothing here reads a clock.

pub mod account;
mod case;
pub mod course;
mod fault;
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
mod sweep;

pub use case::{Case, CaseError, CaseText};
pub use fault::{BrokenLine, JournalError, MOST_TOLD};
pub use held::Held;
pub use journal::{Contents, Journal, Tail};
pub use line::VERSION;
pub use merge::Merged;
pub use name::{LearnerName, LearnerNameError};
pub use past::{Unfinished, finished_games, unfinished, unfinished_session, weak};
pub use record::{
    AnswerRecord, EndRecord, GameRef, Played, Record, SealRecord, Stamp, StartRecord,
};
pub use sweep::{Gather, Glance, Swept};
