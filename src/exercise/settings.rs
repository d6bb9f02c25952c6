//! How a replay is to go.

use serde::{Deserialize, Serialize};

use super::bound::{Every, Looks, Millis, Questions, Trail};
use crate::question::Kind;

/// How a replay is to go. The journal keeps it, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Settings {
    /// How much is read in one go.
    pub by: By,
    /// Where checkpoints are made.
    pub checkpoints: Checkpoints,
    /// The kinds of question that may be asked.
    pub ask: Vec<Kind>,
    /// How many questions each checkpoint has.
    #[serde(deserialize_with = "Questions::number")]
    pub questions: usize,
    /// How many plies `again` says again, and how many stay readable.
    #[serde(deserialize_with = "Trail::number")]
    pub trail: usize,
    /// The think time in milliseconds; replies after it are marked late.
    #[serde(deserialize_with = "Millis::number_or_none")]
    pub think_millis: Option<u64>,
    /// How many looks at the board the learner may take; `None` for any number.
    #[serde(deserialize_with = "Looks::number_or_none")]
    pub looks: Option<u32>,
    /// The seed of all choices.
    pub seed: u64,
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
    Every(#[serde(deserialize_with = "Every::number")] usize),
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
