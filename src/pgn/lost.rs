//! What faults cost a game, what of its text was left out behind them, and the comments that say so in an export.

use std::ops::Range;

use super::comment::inside;
use crate::game::NodeId;

/// What a fault cost the game.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Cost {
    /// No move: a remark.
    Nothing,
    /// The rest of one sideline.
    Sideline,
    /// The rest of the main line: the game is kept up to here.
    Moves,
}

/// A stretch of text that was left out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lost {
    /// The last move before it; `None` at the head of the game.
    pub after: Option<NodeId>,
    /// The bytes in the passage.
    pub text: Range<usize>,
}

impl Lost {
    /// Begins the comment of an export where moves of the main line were lost; a check knows it.
    pub const MOVES: &str = "The moves from here on are lost.";
    /// Begins the comment where moves of a sideline were lost.
    pub const SIDELINE: &str = "Moves of a sideline are lost here.";

    /// Tells what a comment says was lost before.
    pub(super) fn said_in(comment: &[u8]) -> Option<Cost> {
        let text = inside(comment).trim_ascii_start();
        let says = |said: &str| {
            let words = text.split(u8::is_ascii_whitespace);
            let mut words = words.filter(|word| !word.is_empty());
            (said.split(' ')).all(|said| words.next() == Some(said.as_bytes()))
        };
        // Most comments are told apart by this.
        match text.first() {
            Some(b'T') if says(Lost::MOVES) => Some(Cost::Moves),
            Some(b'M') if says(Lost::SIDELINE) => Some(Cost::Sideline),
            _ => None,
        }
    }
}
