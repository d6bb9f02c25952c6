//! How a session of calculation is to go.

use serde::{Deserialize, Serialize};

use super::super::bound::{Looks, Millis, PerRound, Plies, Rounds};
use super::super::script::{Script, ScriptError};
use super::super::staircase::Staircase;
use crate::question::Kind;

/// How a session of calculation is to go. The journal keeps it, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AheadSettings {
    /// The games that positions are taken from, round by round in turn; a game's sidelines too, where
    /// its script has them.
    pub games: Vec<Script>,
    /// How a position is given.
    pub show: Show,
    /// How many plies are read from each position; `None` to follow the learner.
    #[serde(deserialize_with = "Plies::number_or_none")]
    pub plies: Option<usize>,
    /// Where the learner stood before the session; followed where `plies` is `None`.
    pub staircase: Staircase,
    /// How many rounds there are; 0 counts as 1.
    #[serde(deserialize_with = "Rounds::number")]
    pub rounds: usize,
    /// How many questions each round has at most; 0 counts as 1.
    #[serde(deserialize_with = "PerRound::number")]
    pub per_round: usize,
    /// The kinds of question that may be asked; those over the bare board are passed over.
    pub ask: Vec<Kind>,
    /// The think time in milliseconds; replies after it are marked late.
    #[serde(deserialize_with = "Millis::number_or_none")]
    pub think_millis: Option<u64>,
    /// How many looks at the board the learner may take in all; `None` for any number.
    #[serde(deserialize_with = "Looks::number_or_none")]
    pub looks: Option<u32>,
    /// The seed of all choices.
    pub seed: u64,
}

/// How a position is given before plies are read from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Show {
    /// The board is drawn and stays before the eyes, unchanged, while plies are read.
    Diagram,
    /// The pieces are read out.
    List,
    /// As heard so far: the game is read aloud up to there.
    None,
}

/// Why there can be no session of calculation.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum AheadError {
    /// No question of the given kinds would be left.
    #[error("there is nothing to ask: give --ask a kind over a position")]
    NothingToAsk,
    /// No position of the games has so many plies to follow.
    #[error(
        "from no position can {asked} plies be read: the longest line has {longest}; give --plies \
         {longest} or less, or choose a longer game"
    )]
    TooShort {
        /// The plies asked for.
        asked: usize,
        /// The plies of the longest stretch that could be read.
        longest: usize,
    },
    /// No game has a ply to read.
    #[error("there is no ply to read ahead: choose a game with more moves")]
    NoPlies,
    /// A line that was written down cannot be played.
    #[error(transparent)]
    Broken(#[from] ScriptError),
}

impl AheadSettings {
    /// The kinds that can be asked: all over a position, for a ply at least has been read.
    pub(super) fn kinds(&self) -> Vec<Kind> {
        let asked = self.ask.iter().copied();
        asked.filter(|kind| Kind::LINE.contains(kind)).collect()
    }

    pub(super) fn rounds(&self) -> usize {
        self.rounds.max(1)
    }
}
