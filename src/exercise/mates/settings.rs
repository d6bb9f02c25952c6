//! How a session of mates is to go.

use serde::{Deserialize, Serialize};

use super::super::ahead::Show;
use super::super::bound::{Looks, MateMoves, Millis};
use super::super::script::ScriptError;
use super::search::Problem;

/// How a session of mates is to go. The journal keeps it, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MatesSettings {
    /// The positions, in the order of asking.
    pub problems: Vec<Problem>,
    /// How they are given.
    pub show: Show,
    /// The most moves that a mate was searched for.
    #[serde(deserialize_with = "MateMoves::number")]
    pub within: u32,
    /// The think time in milliseconds; replies after it are marked late.
    #[serde(deserialize_with = "Millis::number_or_none")]
    pub think_millis: Option<u64>,
    /// How many looks at the board the learner may take in all; `None` for any number.
    #[serde(deserialize_with = "Looks::number_or_none")]
    pub looks: Option<u32>,
    /// The seed; nothing depends on it so far.
    pub seed: u64,
}

/// Why there can be no session of mates.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MatesError {
    /// There is no problem.
    #[error("no mate is there to be found: choose another game, or give --mate a larger number")]
    NoProblem,
    /// A position that was written down has no mate.
    #[error("the position {0} has no mate within the moves that are written down for it")]
    NoMate(String),
    /// A line that was written down cannot be played.
    #[error(transparent)]
    Broken(#[from] ScriptError),
}
