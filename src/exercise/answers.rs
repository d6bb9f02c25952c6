//! Questions that were answered, complete enough that a stranger can recheck the verdict, and what they
//! come to.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use shakmaty::uci::UciMove;
use shakmaty::{Color, Square};

use super::hardness::Hardness;
use super::score::{Score, median};
use crate::game::fen_of;
use crate::question::{BareQuestion, Kind, Mark, Question, Reply, Scene, Truth, Verdict, Why};

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
    /// Why the truth is what it is, held against a reply that is not right.
    pub why: Why,
    /// Milliseconds from question to reply; `None` where that is not known, as on paper.
    pub millis: Option<u64>,
    /// The think time in milliseconds; `None` where there is none.
    pub think: Option<u64>,
    /// Whether the reply took longer than the think time.
    pub late: bool,
    /// Whether the question came again in a drill, after it was missed or slow: only first tries count.
    pub repeat: bool,
    /// Whether something helped: moves that were heard once more, or a dialogue after a miss. What helped
    /// counts nowhere.
    pub helped: bool,
    /// The dialogue that it was given in; `None` for a question of the exercise.
    pub dialogue: Option<Dialogue>,
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

    /// Returns the tries at a move that was said from memory.
    pub fn recital(&self) -> Option<&Tries> {
        let over_a_line = matches!(self.question, Question::Line(_));
        self.tries.as_ref().filter(|_| over_a_line)
    }

    /// Tells whether it is a move of the learner's own, in a game against an opponent.
    pub fn is_turn(&self) -> bool {
        self.question.kind() == Kind::Turn
    }

    /// Tells whether it was the first try, without help: only such answers count.
    pub(super) const fn counts(&self) -> bool {
        !self.repeat && !self.helped
    }

    /// Tells whether the truth and the reason for it are told without being asked for: not of a move that
    /// was said in the end.
    pub(super) fn is_to_be_explained(&self) -> bool {
        let was_said = self.recital().is_some() && self.mark.verdict == Verdict::Part;
        !(self.is_right() || self.is_turn() || was_said)
    }
}

/// A dialogue that helps after a miss.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Dialogue {
    /// It goes back to where the picture broke.
    Back,
    /// It asks for what is missing of a whole board.
    Rebuild,
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

/// One square taken for another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Mistaken {
    /// The side from which the board was seen.
    pub view: Color,
    /// The square that was asked for.
    pub asked: Square,
    /// The square that the reply stands for.
    pub named: Square,
}

impl Mistaken {
    /// Finds the squares in a reply to a question that was not right; `None` where it is not about one.
    pub(crate) fn of(question: BareQuestion, reply: &Reply) -> Option<Mistaken> {
        let view = question.view()?;
        let asked = *question.subject_squares().first()?;
        let named = reply.square(view)?;
        Some(Mistaken { view, asked, named })
    }

    /// Tells whether the reply would have been right from the other side.
    pub fn is_right_from_the_other_side(self) -> bool {
        self.named == self.asked.rotate_180()
    }
}

/// Rounds that had an answer, and those in which all went well.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RoundsSummary {
    /// How many rounds had an answer.
    pub asked: usize,
    /// In how many of them every answer was right and no look was taken.
    pub held: usize,
}

/// Counts the first tries of every kind that was asked, in the order of the climb; moves of one's own are none.
pub(super) fn by_kind(answers: &[Answered]) -> BTreeMap<Kind, Score> {
    let mut kinds: BTreeMap<Kind, Score> = BTreeMap::new();
    let counted = |answered: &&Answered| answered.counts() && !answered.is_turn();
    for answered in answers.iter().filter(counted) {
        let score = kinds.entry(answered.question.kind()).or_default();
        score.take((answered.mark.verdict, answered.late, answered.millis));
    }
    kinds
}

/// Returns the median time of the right replies, in milliseconds.
pub(super) fn median_right<'a>(answers: impl Iterator<Item = &'a Answered>) -> Option<u64> {
    let right = answers.filter(|answered| answered.is_right());
    median(right.filter_map(|answered| answered.millis).collect())
}
