//! How a replay is to go.

use serde::{Deserialize, Serialize};

use super::bound::{self, OutOfBounds, read_with_check};
use crate::question::Kind;

/// How a replay is to go. The journal keeps it, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(remote = "Self")]
pub struct Settings {
    /// How much is read in one go.
    pub by: By,
    /// Where checkpoints are made.
    pub checkpoints: Checkpoints,
    /// The kinds of question that may be asked.
    pub ask: Vec<Kind>,
    /// How many questions each checkpoint has.
    pub questions: usize,
    /// How many plies `again` says again, and how many stay readable.
    pub trail: usize,
    /// The think time in milliseconds; replies after it are marked late.
    pub think_millis: Option<u64>,
    /// How many looks at the board the learner may take; `None` for any number.
    pub looks: Option<u32>,
    /// The seed of all choices.
    pub seed: u64,
}

read_with_check!(Settings);

impl Settings {
    /// Sees to it that every number is one that an option takes.
    ///
    /// # Errors
    ///
    /// [`OutOfBounds`]
    pub fn check(&self) -> Result<(), OutOfBounds> {
        if let Checkpoints::Every(plies) = self.checkpoints {
            bound::EVERY.check(plies)?;
        }
        bound::QUESTIONS.check(self.questions)?;
        bound::TRAIL.check(self.trail)?;
        bound::MILLIS.check_given(self.think_millis)?;
        bound::LOOKS.check_given(self.looks)
    }
}

/// How much is read in one go.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum By {
    /// One ply.
    Ply,
    /// A whole move, up to Black's ply.
    Move,
    /// All up to the next checkpoint.
    Checkpoint,
}

/// Where checkpoints are made.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Checkpoints {
    /// After every so many plies, and at the end.
    Every(usize),
    /// After these moves of the main line.
    At(Vec<Stop>),
}

/// A place for a checkpoint.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Stop {
    /// After so many plies of the main line.
    Plies(usize),
    /// At the end of the main line.
    End,
}
