//! An exercise over one game.

use serde::{Deserialize, Serialize};

use super::script::Script;
use crate::game::{GameResult, Line, MoveNumber, Start, Tags};

/// What an exercise over one game needs.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OverGame<S> {
    /// How it is to go.
    pub settings: S,
    /// What of the game is read.
    pub script: Script,
    /// The tags that are told at the beginning.
    pub tags: Vec<(String, String)>,
    /// The result that is told at the end.
    pub result: Option<GameResult>,
}

/// The game that is about to be read or recited.
#[derive(Clone, Debug)]
pub struct GameOpening {
    /// The tag section of the game.
    pub tags: Tags,
    /// The position that the reading starts from.
    pub start: Start,
    /// The number of the first move to be read; `None` when there is no move.
    pub first: Option<MoveNumber>,
    /// How many plies will be read.
    pub plies: usize,
    /// How many checkpoints will be made; `None` where they follow the learner.
    pub checkpoints: Option<usize>,
    /// Whether an earlier session goes on.
    pub resumed: bool,
}

impl<S> OverGame<S> {
    /// Says what is about to be read, of which `main` is the main line.
    pub(super) fn opening(
        &self,
        main: &Line,
        checkpoints: Option<usize>,
        resumed: bool,
    ) -> GameOpening {
        let passages = self.script.passages.iter();
        GameOpening {
            tags: self.tags.iter().cloned().collect(),
            start: main.start().clone(),
            first: main.plies().first().map(|ply| ply.number),
            plies: passages
                .map(|passage| passage.to.saturating_sub(passage.from))
                .sum(),
            checkpoints,
            resumed,
        }
    }
}
