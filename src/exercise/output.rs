//! What a session says: values without wording, which `voice` puts into sentences.

use std::collections::BTreeMap;

use shakmaty::{Board, Color, Role};

use super::answers::{Answered, Dialogue};
use super::asking::Ask;
use super::beside::OpenQuestion;
use super::guide::Guided;
use super::registry::{Opening, OwnSummary, Told};
use super::said::Said;
use super::score::Score;
use super::step::{Ending, GivenPosition};
use super::tries::Missed;
use crate::game::Ply;
use crate::question::{BareWhy, Form, Kind};
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
    /// A question is put whose answer nobody grades.
    AskOpen(OpenQuestion),
    /// The reply could not be read; the question stands.
    Unread {
        /// What could not be read.
        unread: Unread,
        /// The form that a reply must have.
        form: Form,
        /// Whether all else is kept, and only this word is to be said again.
        kept: bool,
    },
    /// Enter alone was typed while a question stands.
    ReplyWanted(Form),
    /// This was typed, which is something else than Enter, while no question stands.
    NothingAsked(String),
    /// A try at a question that has two was wrong.
    Missed(Box<Missed>),
    /// A clue to a question that is taught, after so many misses.
    Clue {
        /// What the last reply is held against.
        why: Box<BareWhy>,
        /// How many replies were not right.
        number: usize,
    },
    /// The piece that makes the move that is asked for.
    Hint(Role),
    /// A question was answered or given up: the verdict.
    Answered(Box<Answered>),
    /// The truth of what was missed waits until the learner wants it.
    TruthWaits {
        /// The dialogue in which it can be found, where there is one.
        dialogue: Option<Dialogue>,
        /// Whether another try was made, which is not marked.
        tried: bool,
    },
    /// What is true, and why.
    Explained(Box<Answered>),
    /// What is told while a learner is led to what was missed.
    Guided(Guided),
    /// The answer to the question that stands will not count, because of what is said next.
    Helped,
    /// Something was asked for that cannot be had here.
    NotHere(NotHere),
    /// Something is said in a game beside the learner's own moves, or in reply to a question that nobody grades.
    Said(Said),
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
        /// Whether it stays before the eyes.
        stays: bool,
    },
    /// The board was asked for, and no look is left.
    NoLook,
    /// The board was asked for, and there is no position.
    NoPosition,
    /// Which words can be said here.
    Help(Help),
    /// The session is over.
    Ended(Ending),
    /// How it went: the last word of every session.
    Summary(Box<Summary>),
}

/// What can be said at a prompt.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Help {
    /// The form that a reply must have, when a question stands.
    pub form: Option<Form>,
    /// The words that can be said, in the order of telling.
    pub words: Vec<PromptWord>,
}

/// A word of the prompt, and what it is good for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PromptWord {
    /// Enter alone tells the truth of what was missed.
    Truth,
    /// Enter alone reads on.
    GoOn,
    /// What was missed can be found in a dialogue.
    Back(Dialogue),
    /// There is something to hear again.
    Again,
    /// Any number of plies can be heard again.
    AgainPlies,
    /// The question can be heard again.
    Question,
    /// The board can be looked at.
    Look,
    /// The reason of the last truth can be heard.
    Why,
    /// The question can be given up.
    Pass,
    /// The last move can be taken back.
    TakeBack,
    /// A draw can be claimed or offered.
    Draw,
    /// The game can be given up.
    Resign,
    /// These words can be heard.
    Help,
    /// The session can be ended.
    Stop,
    /// The piece that moves can be named.
    Hint,
}

/// What cannot be had here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotHere {
    /// A reason: nothing was answered since the last move was read.
    Why,
    /// A way back: nothing was missed over moves that were read.
    Back,
    /// More plies, while a move is asked for.
    AgainPlies,
    /// Passing, where a move of one's own is asked for.
    Pass,
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
    pub kinds: BTreeMap<Kind, Score>,
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
