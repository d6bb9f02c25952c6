//! What a session says: values without wording, which `voice` puts into sentences.

use shakmaty::uci::UciMove;
use shakmaty::{Board, Color, Piece, Role};

use crate::game::{GameResult, Line, MoveNumber, Ply, Start, Tags, fen_of};
use crate::question::{
    BareQuestion, Form, Kind, LineQuestion, Mark, Played, Question, Reply, Scene, Truth, Why,
};
use crate::reply::Unread;

use super::{Hardness, Missed, Show, Sides, Summary, Tries};

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
    Given(Box<Given>),
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
    Help(Help),
    /// The session is over.
    Ended(Ending),
    /// How it went: the last word of every session.
    Summary(Box<Summary>),
}

/// What is about to be held, or goes on.
#[derive(Clone, Debug)]
pub enum Opening {
    /// A game is read.
    Replay(OfGame),
    /// A game is recited.
    Recite {
        /// The game, and how much of it.
        game: OfGame,
        /// Whose moves the learner says.
        sides: Sides,
    },
    /// Questions over the bare board.
    Drill(OfDrill),
    /// Questions over a few pieces.
    Few(OfFew),
    /// Calculation.
    Ahead(OfAhead),
    /// Mates to be found.
    Mates(OfMates),
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
    /// A try at a move to be recited was wrong.
    Missed(Box<Missed>),
    /// The piece that makes the move to be recited.
    Hint(Role),
    /// The defence replies to a right move; the mate is still to come.
    Defended {
        /// The learner's move.
        mv: Ply,
        /// The reply that holds out longest.
        reply: Ply,
    },
    /// A right move mates.
    Mated(Ply),
}

/// A position that is given.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Given {
    /// A few pieces are read out.
    Pieces(RoundPieces),
    /// A position to calculate from.
    Position(Shown),
}

/// What can be said here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Help {
    /// The form that a reply must have, when a question stands.
    pub form: Option<Form>,
    /// Whether there is something to hear again.
    pub again: bool,
    /// Whether the board can be looked at.
    pub look: bool,
    /// Whether the piece that moves can be named.
    pub hint: bool,
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
pub struct OfGame {
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
pub struct OfDrill {
    /// The kinds of question.
    pub kinds: Vec<Kind>,
    /// How many questions will be put.
    pub count: usize,
    /// Whether an earlier run goes on.
    pub resumed: bool,
}

/// What a drill of few pieces is about to ask.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OfFew {
    /// How many questions there are in all.
    pub questions: usize,
    /// How many were answered in an earlier session that goes on here; `None` for a new one.
    pub resumed: Option<usize>,
    /// How many plies are played on in each round, as far as the game allows.
    pub plies: usize,
}

/// The pieces of one round of a drill.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RoundPieces {
    /// The number of the round, counted from 1.
    pub round: usize,
    /// Where they stand, and who is to move.
    pub start: Start,
    /// How many plies will be read from here.
    pub plies: usize,
}

/// What a session of calculation is about to ask.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OfAhead {
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
pub struct OfMates {
    /// How many mates are to be found.
    pub problems: usize,
    /// How many were tried in an earlier session that goes on here; `None` for a new one.
    pub resumed: Option<usize>,
    /// How positions are given.
    pub show: Show,
}

/// The position of a round.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// The number of the round, counted from 1.
    pub round: usize,
    /// How many rounds there are in all.
    pub of: usize,
    /// Which of the games it is from, counted from 0 in the order of the settings.
    pub game: usize,
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
    #[must_use]
    pub const fn question(&self) -> Question {
        match self {
            Asked::Line(question, _) => Question::Line(*question),
            Asked::Bare(question) => Question::Bare(*question),
            Asked::Move { number, .. } => Question::Line(LineQuestion::Played(Played::at(*number))),
        }
    }
}

/// One checkpoint among all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Checkpoint {
    /// Its number, counted from 1.
    pub number: usize,
    /// How many there are in all.
    pub of: usize,
}

/// Where a question over a line stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stand {
    /// The checkpoint that asks; `None` in a drill, whose questions are counted through.
    pub checkpoint: Option<Checkpoint>,
    /// The side to move.
    pub turn: Color,
    /// The piece that stood on the square of a `whereabouts` question at the start.
    pub piece: Option<Piece>,
    /// Whether the rules are those of Chess960, where castling is named as king takes own rook.
    pub chess960: bool,
}

/// A question that was answered or given up, with all that a stranger needs to recheck the verdict.
#[derive(Clone, Debug, PartialEq)]
pub struct Answered {
    /// The question.
    pub question: Question,
    /// Where it stood; `None` over the bare board.
    pub setting: Option<Setting>,
    /// The right answer.
    pub truth: Truth,
    /// The words of the reply; empty when the question was given up.
    pub text: String,
    /// The reply as it was read; `None` when the question was given up.
    pub reply: Option<Reply>,
    /// The grade.
    pub mark: Mark,
    /// Why the truth is what it is, for a reply that is not right.
    pub why: Option<Why>,
    /// Milliseconds from question to reply; `None` where that is not known, as on paper.
    pub millis: Option<u64>,
    /// Whether the reply took longer than the think time.
    pub late: bool,
    /// Whether the question came again in a drill, after it was missed or slow: only first tries count.
    pub repeat: bool,
    /// How many looks at the board were taken since the last answer.
    pub looks: u32,
    /// What makes the question hard; `None` over the bare board.
    pub hardness: Option<Hardness>,
    /// The tries at a move of a recital; `None` where one reply counts.
    pub tries: Option<Tries>,
}

/// Where a question stands, in the standard's own notation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Setting {
    /// Whether the rules are those of Chess960.
    pub chess960: bool,
    /// The FEN that the line starts from.
    pub start: String,
    /// The moves from there, in UCI form.
    pub moves: Vec<UciMove>,
    /// The FEN that the question is about.
    pub position: String,
}

impl Setting {
    /// Writes down where `scene` is.
    #[must_use]
    pub fn of(scene: Scene<'_>) -> Setting {
        let line: &Line = scene.line();
        Setting {
            chess960: line.start().mode().is_chess960(),
            start: line.start().fen(),
            moves: line.uci(scene.plies()).collect(),
            position: fen_of(scene.position()),
        }
    }
}
