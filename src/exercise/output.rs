//! What a session says: values without wording, which `voice` puts into sentences.

use shakmaty::uci::UciMove;
use shakmaty::{Board, Color, Piece};

use crate::game::{GameResult, Line, MoveNumber, Ply, Start, Tags, fen_of};
use crate::question::{
    BareQuestion, Form, Kind, LineQuestion, Mark, Question, Reply, Scene, Truth, Why,
};
use crate::reply::Unread;

use super::{
    AheadSummary, DrillSummary, FewSummary, Hardness, MatesSummary, Recital, Show, Summary, Tries,
};

/// One thing that a session says, in the order of saying.
#[derive(Clone, Debug)]
pub enum Output {
    /// What is about to be read.
    Opening(Box<Opening>),
    /// Plies are read aloud.
    Heard(Heard),
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
    /// A question is put.
    Ask(Ask),
    /// The same question is put again at the learner's wish.
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
    /// The last plies once more, oldest first.
    Again(Vec<Ply>),
    /// No ply has been read yet.
    NothingHeardYet,
    /// The board is shown.
    Board {
        /// The men.
        board: Board,
        /// The side to move.
        turn: Color,
        /// How many looks the learner may still take; `None` for any number.
        looks_left: Option<u32>,
    },
    /// The board was asked for, but no look is left.
    NoLookLeft,
    /// Which words can be said here.
    Help {
        /// The form that a reply must have, when a question stands.
        form: Option<Form>,
        /// Whether there is something to hear again.
        again: bool,
        /// Whether the board can be looked at.
        look: bool,
    },
    /// All has been read and asked.
    Finished {
        /// The result that the game's record gives.
        result: Option<GameResult>,
    },
    /// The learner stopped before the end.
    Stopped,
    /// How it went.
    Summary(Box<Summary>),
    /// A drill is about to begin, or to go on.
    DrillOpening {
        /// The kinds of question.
        kinds: Vec<Kind>,
        /// How many questions will be put.
        count: usize,
        /// Whether an earlier run goes on.
        resumed: bool,
    },
    /// There is no position to look at.
    NothingToSee,
    /// All questions of a drill were put.
    DrillFinished,
    /// How a drill went.
    DrillSummary(Box<DrillSummary>),
    /// What a drill of few men is about to ask.
    FewOpening(FewOpening),
    /// The men of one round are read out.
    Men(Box<Men>),
    /// How a drill of few men went.
    FewSummary(Box<FewSummary>),
    /// What only a recital says.
    Recite(Recital),
    /// What a session of calculation is about to ask.
    AheadOpening(AheadOpening),
    /// The position of a round is given.
    Shown(Box<Shown>),
    /// How a session of calculation went.
    AheadSummary(Box<AheadSummary>),
    /// Which mates are to be found.
    MatesOpening(MatesOpening),
    /// The defence replies to a right move; the mate is still to come.
    Defended(Box<Defended>),
    /// A right move mates.
    Mated(Ply),
    /// How a session of mates went.
    MatesSummary(Box<MatesSummary>),
}

/// What a replay is about to read.
#[derive(Clone, Debug)]
pub struct Opening {
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

/// What a drill of few men is about to ask.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FewOpening {
    /// How many questions there are in all.
    pub questions: usize,
    /// How many were answered in an earlier session that goes on here; `None` for a new one.
    pub resumed: Option<usize>,
    /// How many plies are played on in each round, as far as the game allows.
    pub plies: usize,
}

/// The men of one round of a drill.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Men {
    /// The number of the round, counted from 1.
    pub round: usize,
    /// Where they stand, and who is to move.
    pub start: Start,
    /// How many plies will be read from here.
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

/// A reply of the defence.
#[derive(Clone, Debug)]
pub struct Defended {
    /// The learner's move.
    pub mv: Ply,
    /// The reply that holds out longest.
    pub reply: Ply,
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
}

impl Asked {
    /// Returns the question alone.
    #[must_use]
    pub const fn question(&self) -> Question {
        match self {
            Asked::Line(question, _) => Question::Line(*question),
            Asked::Bare(question) => Question::Bare(*question),
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
    /// The man that stood on the square of a `whereabouts` question at the start.
    pub man: Option<Piece>,
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
