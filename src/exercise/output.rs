//! What a session says: values without wording, which `voice` puts into sentences.

use shakmaty::{Board, Color, Role};

use super::answers::{Answered, KindCount};
use super::asking::Ask;
use super::registry::{Opening, OwnSummary, Told};
use super::step::{Ending, GivenPosition};
use super::tries::Missed;
use crate::game::Ply;
use crate::question::{BareQuestion, Form};
use crate::reply::Unread;

/// One thing that a session says, in the order of saying.
#[derive(Clone, Debug)]
pub enum Output {
    /// What is about to be held.
    Opening(Box<Opening>),
    /// Plies are read aloud.
    Heard(Heard),
    /// What only this exercise says.
    Told(Told),
    /// A position is given: a round begins.
    Given(Box<GivenPosition>),
    /// A question is put.
    Ask(Ask),
    /// The same question is put again.
    AskAgain(Ask),
    /// The reply could not be read; the question stands.
    Unread {
        /// What could not be read.
        unread: Unread,
        /// The form that a reply must have.
        form: Form,
    },
    /// Enter alone was typed while a question stands.
    ReplyWanted(Form),
    /// This was typed, which is something else than Enter, while no question stands.
    NothingAsked(String),
    /// A try at a question that has two was wrong.
    Missed(Box<Missed>),
    /// A clue to a question that is taught, after so many misses.
    Clue {
        /// The question.
        question: BareQuestion,
        /// How many replies were not right.
        number: usize,
    },
    /// The piece that makes the move that is asked for.
    Hint(Role),
    /// A question was answered or given up.
    Answered(Box<Answered>),
    /// The last plies once more, oldest first; none where none has been heard yet.
    Again(Vec<Ply>),
    /// The board is shown.
    Board {
        /// The pieces.
        board: Board,
        /// The side to move.
        turn: Color,
        /// How many looks the learner may still take; `None` for any number.
        looks_left: Option<u32>,
    },
    /// The board was asked for, and no look is left.
    NoLook,
    /// The board was asked for, and there is no position.
    NoPosition,
    /// Which words can be said here.
    Help {
        /// The form that a reply must have, when a question stands.
        form: Option<Form>,
        /// Whether there is something to hear again.
        again: bool,
        /// Whether the board can be looked at.
        look: bool,
        /// Whether the piece that moves can be named.
        hint: bool,
    },
    /// The session is over.
    Ended(Ending),
    /// How it went: the last word of every session.
    Summary(Box<Summary>),
}

/// Plies that are read aloud in one go.
#[derive(Clone, Debug)]
pub struct Heard {
    /// The plies, oldest first.
    pub plies: Vec<Ply>,
    /// Whether the side to move is stalemated after the last of them (FIDE 5.2.1).
    pub stalemate: bool,
}

/// How a session went.
#[derive(Clone, Debug, PartialEq)]
pub struct Summary {
    /// The first tries, for each kind that was asked, in the order of the climb.
    pub kinds: Vec<KindCount>,
    /// How many plies were heard.
    pub heard: usize,
    /// How many looks at the board were taken.
    pub looks: u32,
    /// How many replies came after the think time.
    pub late: usize,
    /// The board at the end, and the side to move there; `None` over the bare board, and where the session
    /// was left before: it can go on, and the board was not seen.
    pub board: Option<(Board, Color)>,
    /// What only this exercise counts.
    pub own: OwnSummary,
}
