//! Questions that were answered, complete enough that a stranger can recheck the verdict, and what they
//! come to.

use serde::{Deserialize, Serialize};
use shakmaty::uci::UciMove;

use super::hardness::Hardness;
use crate::game::fen_of;
use crate::question::{Kind, Mark, Question, Reply, Scene, Truth, Verdict, Why};

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

/// Rounds that had an answer, and those in which all went well.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RoundsSummary {
    /// How many rounds had an answer.
    pub asked: usize,
    /// In how many of them every answer was right and no look was taken.
    pub held: usize,
}

/// How the questions of one kind went.
#[derive(Clone, Debug, PartialEq)]
pub struct KindCount {
    /// The kind.
    pub kind: Kind,
    /// Replies that were right.
    pub right: usize,
    /// Replies that were right in part.
    pub part: usize,
    /// Replies that were wrong.
    pub wrong: usize,
    /// Questions given up.
    pub passed: usize,
    /// The median time of the right replies, in milliseconds.
    pub median_millis: Option<u64>,
}

impl KindCount {
    /// Counts the first tries of every kind that was asked.
    pub(super) fn all(answers: &[Answered]) -> Vec<KindCount> {
        let of_kind = |kind| {
            let counted =
                { answers.iter() }.filter(|answered| answered.counts() && !answered.is_turn());
            counted.filter(move |answered| answered.question.kind() == kind)
        };
        Kind::ALL
            .into_iter()
            .filter(|kind| of_kind(*kind).next().is_some())
            .map(|kind| {
                let count = |verdict| {
                    let of_it = |answered: &&Answered| answered.mark.verdict == verdict;
                    of_kind(kind).filter(of_it).count()
                };
                KindCount {
                    kind,
                    right: count(Verdict::Right),
                    part: count(Verdict::Part),
                    wrong: count(Verdict::Wrong),
                    passed: count(Verdict::Pass),
                    median_millis: median_right(of_kind(kind)),
                }
            })
            .collect()
    }
}

/// Returns the median time of the right replies, in milliseconds.
pub(super) fn median_right<'a>(answers: impl Iterator<Item = &'a Answered>) -> Option<u64> {
    let right = answers.filter(|answered| answered.is_right());
    median(right.filter_map(|answered| answered.millis).collect())
}

/// Returns the middle value; for an even number of them the mean of the two middle ones, rounded down.
/// Every median that the program tells is this one.
pub(crate) fn median(mut values: Vec<u64>) -> Option<u64> {
    let is_even = values.len().is_multiple_of(2);
    let middle = values.len() / 2;
    if values.is_empty() {
        return None;
    }
    let (below, upper, _) = values.select_nth_unstable(middle);
    let lower = below.iter().max().filter(|_| is_even);
    Some(lower.unwrap_or(upper).midpoint(*upper))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_is_the_middle_value_or_the_mean_of_two() {
        assert_eq!(median(Vec::new()), None);
        assert_eq!(median(vec![3_000]), Some(3_000));
        assert_eq!(median(vec![9, 1, 5]), Some(5));
        assert_eq!(median(vec![9, 1, 6, 3]), Some(4));
        assert_eq!(median(vec![u64::MAX, u64::MAX]), Some(u64::MAX));
    }
}
