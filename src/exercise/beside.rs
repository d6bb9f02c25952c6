//! What stands beside the moves of a line: comments, and the questions of a coach.

use serde::{Deserialize, Serialize};

use crate::question::LineQuestion;

/// What stands beside a line after some of its plies.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Remark {
    /// Which line, and how many of its plies are played.
    pub(super) at: (usize, usize),
    pub(super) what: Beside,
}

/// What stands beside the moves: a coach's questions, and comments.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Beside {
    /// A question whose truth is computed.
    Ask(LineQuestion),
    /// One whose answer is the coach's.
    Open(OpenQuestion),
    /// A comment that is read.
    Comment(String),
}

/// A question that is answered in one's own words. The answer that is told then is that of whoever wrote the question,
/// and nothing is graded.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct OpenQuestion {
    /// The question; `None` where a file of positions asks for the best move.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub say: Option<String>,
    /// The answer.
    pub answer: String,
}

impl Beside {
    /// Takes a comment without the commands to programs that stand in it (`[%clk 0:10:00]`, a supplement to the PGN
    /// standard); `None` where nothing is left.
    pub(super) fn comment(text: &str) -> Option<Beside> {
        let mut parts = text.split("[%");
        let first = parts.next()?.to_owned();
        let spoken = parts.fold(first, |text, part| {
            text.trim_end().to_owned() + part.split_once(']').map_or("", |(_, rest)| rest)
        });
        (!spoken.trim().is_empty()).then_some(Beside::Comment(spoken))
    }
}
