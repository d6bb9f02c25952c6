//! What a recital says beside what every session says.

use shakmaty::Role;

use super::ReciteSummary;
use super::Sides;
use crate::exercise::{Opening, Output};
use crate::game::{MoveNumber, Ply};
use crate::question::LegalityWhy;
use crate::rules::MoveFault;

/// One thing that only a recital says.
#[derive(Clone, Debug)]
pub enum Recital {
    /// What is about to be recited.
    Opening {
        /// The game, and how much of it.
        of: Box<Opening>,
        /// Whose moves the learner says.
        sides: Sides,
    },
    /// A move is to be said.
    Say {
        /// Which.
        number: MoveNumber,
        /// Whether a try at it was wrong already.
        once_more: bool,
        /// Its number among the moves that the learner says, counted from 1.
        place: usize,
        /// How many moves the learner says.
        of: usize,
    },
    /// A move of the other side is read out.
    ReadOut(Ply),
    /// A try was wrong.
    Missed(Box<Missed>),
    /// The man that moves.
    Hint(Role),
    /// What can be said where a move is to be said.
    Help {
        /// Whether there is something to hear again.
        again: bool,
    },
    /// How it went.
    Summary(Box<ReciteSummary>),
}

impl Recital {
    /// Tells what is wrong with a try.
    pub(in crate::exercise) fn missed(missed: Missed) -> Output {
        Output::Recite(Recital::Missed(Box::new(missed)))
    }
}

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

/// What is wrong with a wrong move.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Slip {
    /// It is legal and was not played.
    NotPlayed(Ply),
    /// It is illegal, for one reason.
    Illegal(LegalityWhy),
    /// No man can make it, and several are meant or none.
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
    /// Whether the man that moves was named before the last try.
    pub hint: bool,
}
