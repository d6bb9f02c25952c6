//! What a journal's lines say.

use jiff::Timestamp;
use serde::{Deserialize, Serialize};
use shakmaty::uci::UciMove;

use super::{Case, CaseText, LearnerName};
use crate::exercise::{Answered, Hardness, Tries};
use crate::game::Line;
use crate::question::{Kind, Verdict};

/// One line of a journal.
#[derive(Clone, Debug, PartialEq)]
pub enum Record {
    /// A session begins.
    Start(StartRecord),
    /// A question was answered or given up.
    Answer(Box<AnswerRecord>),
    /// A session is over, for now or for good.
    End(EndRecord),
    /// The line before this one was cut off by a crash, and is known to be.
    Seal(SealRecord),
}

/// When a record was made, and in which session.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stamp {
    /// The time, in whole seconds.
    pub time: Timestamp,
    /// The session's name; a resumed session keeps it.
    pub session: String,
}

/// The game that a question was asked over.
#[derive(Clone, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
pub struct GameRef {
    /// The file, as it was named by the learner.
    pub file: String,
    /// The number of the game in that file, counted from 1.
    pub number: usize,
}

/// A line of play in writing: a start position and the moves from there.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Played {
    /// The FEN that the line starts from.
    pub start: String,
    /// The moves in UCI form.
    pub moves: Vec<UciMove>,
}

/// The beginning of a session.
#[derive(Clone, Debug, PartialEq)]
pub struct StartRecord {
    /// When and in which session.
    pub stamp: Stamp,
    /// Whose session it is, by the name as it was typed.
    pub learner: LearnerName,
    /// The exercise, by its command's name.
    pub exercise: String,
    /// The whole line that the session goes through; `None` for the bare board.
    pub played: Option<Played>,
    /// The game that the line is from; `None` where there is none.
    pub game: Option<GameRef>,
    /// The seed of every choice that the session makes.
    pub seed: u64,
    /// The settings of the exercise, which the journal keeps and does not read.
    pub setup: serde_json::Value,
}

/// An answered question, complete enough that a stranger can recheck the verdict.
#[derive(Clone, Debug, PartialEq)]
pub struct AnswerRecord {
    /// When and in which session.
    pub stamp: Stamp,
    /// The exercise, by its command's name.
    pub exercise: String,
    /// The kind of the question.
    pub kind: Kind,
    /// The question, where it stood and its right answer, in the journal's words.
    pub case: CaseText,
    /// The words of the reply; empty when the question was given up.
    pub reply: String,
    /// What came of it.
    pub verdict: Verdict,
    /// The share that was right, 0 to 1.
    pub score: f64,
    /// Milliseconds from question to reply; `None` where that is not known, as on paper.
    pub millis: Option<u64>,
    /// Whether the reply took longer than the think time.
    pub late: bool,
    /// Whether the question came again in a drill, after it was missed or slow: only first tries count.
    pub repeat: bool,
    /// How many looks at the board were taken since the last answer.
    pub looks: u32,
    /// What makes the question hard; `None` over the bare board, and in journals of earlier builds.
    pub hardness: Option<Hardness>,
    /// The tries at a move of a recital; `None` where one reply counts.
    pub tries: Option<Tries>,
    /// The game; `None` where there is none.
    pub game: Option<GameRef>,
}

/// The end of a session, or of one sitting of a session that is resumed later.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EndRecord {
    /// When and in which session.
    pub stamp: Stamp,
    /// Whether all was read and asked.
    pub finished: bool,
    /// How many plies were heard in the whole session, earlier sittings included.
    pub heard: usize,
    /// How many looks at the board were taken in the whole session.
    pub looks: u32,
}

/// The mark behind a line that was cut off: readers pass over that line without a word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SealRecord {
    /// When it was found, and by which session.
    pub stamp: Stamp,
}

impl Stamp {
    /// Stamps with the second that `time` lies in.
    #[must_use]
    pub fn new(time: Timestamp, session: impl Into<String>) -> Stamp {
        Stamp {
            time: Timestamp::from_second(time.as_second()).unwrap_or(time),
            session: session.into(),
        }
    }
}

impl Played {
    /// Writes down a whole line.
    #[must_use]
    pub fn of(line: &Line) -> Played {
        Played {
            start: line.start().fen(),
            moves: line.uci(line.len()).collect(),
        }
    }
}

impl Record {
    /// Returns when the record was made and in which session.
    #[must_use]
    pub fn stamp(&self) -> &Stamp {
        match self {
            Record::Start(start) => &start.stamp,
            Record::Answer(answer) => &answer.stamp,
            Record::End(end) => &end.stamp,
            Record::Seal(seal) => &seal.stamp,
        }
    }
}

impl AnswerRecord {
    /// Keeps an answer over a line of play.
    #[must_use]
    pub fn new(
        stamp: Stamp,
        exercise: impl Into<String>,
        game: Option<GameRef>,
        answered: &Answered,
    ) -> AnswerRecord {
        AnswerRecord {
            stamp,
            exercise: exercise.into(),
            kind: answered.question.kind(),
            case: CaseText::from(&Case {
                question: answered.question,
                setting: answered.setting.clone(),
                expected: answered.truth.clone(),
            }),
            reply: answered.text.clone(),
            verdict: answered.mark.verdict,
            score: answered.mark.score,
            millis: answered.millis,
            late: answered.late,
            repeat: answered.repeat,
            looks: answered.looks,
            hardness: answered.hardness,
            tries: answered.tries.clone(),
            game,
        }
    }
}
