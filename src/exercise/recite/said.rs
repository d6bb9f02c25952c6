//! Tries at a move that is to be said from memory.

use crate::exercise::{Output, Told};
use crate::game::{MoveNumber, Ply};
use crate::question::LegalityWhy;
use crate::rules::MoveFault;

/// A wrong try at a move.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Missed {
    /// The words as typed.
    pub said: String,
    /// What is wrong with it.
    pub slip: Slip,
    /// Where the game has this move of this side instead, the nearest place of all.
    pub elsewhere: Option<Elsewhere>,
}

impl Missed {
    /// Tells what is wrong with the try.
    pub(in crate::exercise) fn told(self) -> Output {
        Output::Told(Told::Missed(Box::new(self)))
    }
}

/// What is wrong with a wrong move.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Slip {
    /// It is legal and was not played.
    NotPlayed(Ply),
    /// It is illegal, for one reason.
    Illegal(LegalityWhy),
    /// No piece can make it, and several are meant or none.
    NoMan(MoveFault),
}

/// Where the game has a move that was said at another place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Elsewhere {
    /// It was played before.
    Earlier(MoveNumber),
    /// It comes later.
    Later(MoveNumber),
}

/// What a learner's tries at one move were.
#[derive(Clone, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
pub struct Tries {
    /// The words of each try that counted, in order; the last is the reply, unless the move was given up.
    pub said: Vec<String>,
    /// Whether the piece that moves was named before the last try.
    pub hint: bool,
}
