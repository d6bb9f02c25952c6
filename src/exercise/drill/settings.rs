//! How a drill is to go.

use serde::{Deserialize, Serialize};

use crate::exercise::bound::{Blockers, Count, Millis};
use crate::question::{BareQuestion, Kind, Views};

/// How a drill is to go. The journal keeps it, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct DrillSettings {
    /// The kinds of question, all of the bare board.
    pub kinds: Vec<Kind>,
    /// How many questions are put, those that return included.
    pub count: Count,
    /// From which side squares are seen.
    pub view: Views,
    /// The think time in milliseconds; without it, each kind has its own ([`Kind::think_millis`]).
    pub think_millis: Option<Millis>,
    /// The roles of the pieces that travel and attack, by their FEN letters.
    pub pieces: Vec<char>,
    /// How many blockers stand in the way of a piece that travels.
    pub blockers: Blockers,
    /// The seed of all choices.
    pub seed: u64,
    /// Questions that were missed or slow in earlier runs; about one in three is taken from them.
    pub weak: Vec<BareQuestion>,
    /// The first questions, chosen beforehand; what is left of the count is drawn.
    #[serde(default)]
    pub chosen: Vec<BareQuestion>,
    /// Whether the questions are taught and not asked: a rule and an example come first, what is missed is
    /// asked again with clues, and squares are named on a board that shows less and less.
    #[serde(default)]
    pub teach: bool,
    /// Whether the think times follow the learner.
    #[serde(default)]
    pub follow: bool,
}

impl DrillSettings {
    /// Returns the think time of a kind in this drill, in milliseconds.
    pub fn think(&self, kind: Kind) -> u64 {
        (self.think_millis).map_or_else(|| kind.think_millis(), |think| think.get().into())
    }
}
