//! A question that was answered, complete enough that a stranger can recheck the verdict.

use serde::{Deserialize, Serialize};
use shakmaty::uci::UciMove;

use super::hardness::Hardness;
use crate::game::fen_of;
use crate::question::{Mark, Question, Reply, Scene, Truth, Verdict, Why};

/// A question that was answered or given up.
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
    /// The tries at a question that has two; `None` where one reply counts.
    pub tries: Option<Tries>,
}

impl Answered {
    pub(super) fn is_right(&self) -> bool {
        self.mark.verdict == Verdict::Right
    }
}

/// A learner's tries at one question.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Tries {
    /// The words of each try that counted, in order; the last is the reply, unless the question was given
    /// up.
    pub said: Vec<String>,
    /// Whether a hint was given before the last try.
    pub hint: bool,
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
        let line = scene.line();
        Setting {
            chess960: line.start().mode().is_chess960(),
            start: line.start().fen(),
            moves: line.uci(scene.plies()).collect(),
            position: fen_of(scene.position()),
        }
    }
}
