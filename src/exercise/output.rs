//! What a session says: values without wording, which `voice` puts into sentences.

use shakmaty::{Board, Color, Piece, Role};

use super::answers::{Answered, KindCount, RoundsSummary};
use super::drill::DrillSummary;
use super::recite::ReciteSummary;
use super::settings::{Show, Sides};
use super::tries::Missed;
use crate::game::{GameResult, MoveNumber, Ply, Start, Tags};
use crate::question::{BareQuestion, Form, Kind, LineQuestion, Played, Question};
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
    /// Something else than Enter was typed while no question stands.
    NothingAsked {
        /// What was typed.
        text: String,
    },
    /// A try at a question that has two was wrong.
    Missed(Box<Missed>),
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
    /// The board was asked for, and is not shown.
    NoBoard {
        /// Whether there is a position at all: then no look is left.
        exists: bool,
    },
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

/// What is about to be held, or goes on.
#[derive(Clone, Debug)]
pub enum Opening {
    /// A game is read.
    Replay(GameOpening),
    /// A game is recited.
    Recite {
        /// The game, and how much of it.
        game: GameOpening,
        /// Whose moves the learner says.
        sides: Sides,
    },
    /// Questions over the bare board.
    Drill(DrillOpening),
    /// Questions over a few pieces.
    Few(FewOpening),
    /// Calculation.
    Ahead(AheadOpening),
    /// Mates to be found.
    Mates(MatesOpening),
}

/// What only one exercise says.
#[derive(Clone, Debug)]
pub enum Told {
    /// A sideline begins.
    SidelineBegins {
        /// The ply of the game that it replaces.
        instead_of: Ply,
        /// How many plies it has.
        plies: usize,
    },
    /// The sideline is over; the game goes on after this ply.
    SidelineEnds {
        /// The last ply of the game that was read before the sideline.
        back_after: Ply,
    },
    /// A move of the other side in a recital.
    ReadOut(Ply),
    /// A right move is played, and the reply to it where the game goes on.
    Played(Vec<Ply>),
}

/// How a session came to its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// All has been read and asked; the result is the one that the game's record gives.
    Read(Option<GameResult>),
    /// All questions were put.
    Asked,
    /// The learner stopped before the end.
    Stopped,
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
    /// How many checkpoints will be made.
    pub checkpoints: usize,
    /// Whether an earlier session goes on.
    pub resumed: bool,
}

/// What a drill is about to ask.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DrillOpening {
    /// The kinds of question.
    pub kinds: Vec<Kind>,
    /// How many questions will be put.
    pub count: usize,
    /// Whether an earlier run goes on.
    pub resumed: bool,
}

/// What a drill of few pieces is about to ask.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FewOpening {
    /// How many questions there are in all.
    pub questions: usize,
    /// How many were answered in an earlier session that goes on here; `None` for a new one.
    pub resumed: Option<usize>,
    /// How many plies are played on in each round, as far as the game allows.
    pub plies: usize,
}

/// What a session of calculation is about to ask.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AheadOpening {
    /// How many rounds there are, as far as the games have so many positions.
    pub rounds: usize,
    /// How many rounds were done in an earlier session that goes on here; `None` for a new one.
    pub resumed: Option<usize>,
    /// How many plies are read in each round; `None` where they follow the learner.
    pub plies: Option<usize>,
    /// How positions are given.
    pub show: Show,
}

/// What a session of mates is about to ask.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MatesOpening {
    /// How many mates are to be found.
    pub problems: usize,
    /// How many were tried in an earlier session that goes on here; `None` for a new one.
    pub resumed: Option<usize>,
    /// How positions are given.
    pub show: Show,
}

/// The position that a round begins with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GivenPosition {
    /// The number of the round, counted from 1.
    pub round: usize,
    /// How many rounds there are in all; `None` where questions are counted and not rounds.
    pub of: Option<usize>,
    /// Which of the games it is from, counted from 0 in the order of the settings; `None` where the session
    /// does not go from game to game.
    pub game: Option<usize>,
    /// How it is given.
    pub show: Show,
    /// The position; with [`Show::None`], the start of the game.
    pub start: Start,
    /// How many plies of the line had been read in the rounds before.
    pub heard_before: usize,
    /// How many plies will be read now.
    pub plies: usize,
}

/// Plies that are read aloud in one go.
#[derive(Clone, Debug)]
pub struct Heard {
    /// The plies, oldest first.
    pub plies: Vec<Ply>,
    /// Whether the side to move is stalemated after the last of them (FIDE 5.2.1).
    pub stalemate: bool,
}

/// A question, as it is put.
#[derive(Clone, Debug, PartialEq)]
pub struct Ask {
    /// What is asked.
    pub asked: Asked,
    /// Its number among those that are put in a row, counted from 1.
    pub number: usize,
    /// How many are put in a row.
    pub of: usize,
    /// The form that a reply must have.
    pub form: Form,
}

/// What is asked, and where it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Asked {
    /// A question over a position reached by a line.
    Line(LineQuestion, Stand),
    /// A question over the bare board.
    Bare(BareQuestion),
    /// A move that is to be said from memory.
    Move {
        /// Which.
        number: MoveNumber,
        /// Whether a try at it was wrong already.
        once_more: bool,
    },
}

impl Asked {
    /// Returns the question alone.
    pub const fn question(&self) -> Question {
        match self {
            Asked::Line(question, _) => Question::Line(*question),
            Asked::Bare(question) => Question::Bare(*question),
            Asked::Move { number, .. } => Question::Line(LineQuestion::Played(Played::at(*number))),
        }
    }
}

/// Where a question over a line stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stand {
    /// The number of the checkpoint that asks, counted from 1, and how many there are in all; `None` in a
    /// drill, whose questions are counted through.
    pub checkpoint: Option<(usize, usize)>,
    /// The side to move.
    pub turn: Color,
    /// The piece that stood on the square of a `whereabouts` question at the start.
    pub piece: Option<Piece>,
    /// Whether the rules are those of Chess960, where castling is named as king takes own rook.
    pub chess960: bool,
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

/// What only one exercise counts.
#[derive(Clone, Debug, PartialEq)]
pub enum OwnSummary {
    /// A replay.
    Replay {
        /// The last move before the first checkpoint at which a reply was not right.
        first_miss: Option<MoveNumber>,
        /// The most plies heard in a row, up to a checkpoint, without a miss or a look.
        longest_run: usize,
    },
    /// A drill over the bare board.
    Drill(Box<DrillSummary>),
    /// A drill of few pieces: in how many rounds the picture held.
    Few(RoundsSummary),
    /// Calculation.
    Ahead {
        /// In how many rounds the picture held.
        rounds: RoundsSummary,
        /// How many plies the next round would have, where that follows the learner.
        next: Option<usize>,
    },
    /// Mates.
    Mates {
        /// How many positions had an answer.
        tried: usize,
        /// How many of them were led to the mate.
        mated: usize,
    },
    /// A recital.
    Recite(Box<ReciteSummary>),
}
