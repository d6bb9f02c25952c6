//! Which answers of a journal tell how far ahead a learner sees.

use crate::exercise::Staircase;
use crate::learner::{AnswerRecord, Record};
use crate::question::{Kind, Mate, Verdict};

/// One answer to a question that stood some plies ahead of the last board known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Answer {
    /// How many plies the learner had to see; from 1 on.
    pub plies: u32,
    /// Whether the answer was wholly right.
    pub right: bool,
    /// The chance that a learner who saw nothing would be right: 1/2 for yes or no, 1/64 for a square, 0 for
    /// a list. From 0 up to, but not including, 1.
    pub guess: f64,
}

impl Answer {
    /// Returns what an answer of a journal tells of how far ahead its learner sees; `None` where it tells
    /// nothing.
    ///
    /// What tells are first tries of the exercise `ahead` that say how long ago the board was seen. Left out
    /// are those given with the very position in sight, and the moves of a mate in more than one: there the
    /// learner looks for a way of his own, and the plies tell nothing of how far he sees.
    pub fn of(record: &AnswerRecord) -> Option<Answer> {
        let plies = record.hardness?.plies;
        let tells =
            plies > 0 && record.exercise == "ahead" && record.counts() && !is_long_mate(record);
        tells.then(|| Answer {
            plies,
            right: record.verdict == Verdict::Right,
            guess: record.kind.guess(),
        })
    }
}

fn is_long_mate(record: &AnswerRecord) -> bool {
    let mate = || serde_json::from_str::<Mate>(record.subject.get());
    record.kind == Kind::Mate && mate().is_ok_and(|mate| !mate.is_at_once())
}

/// Returns what the answers of a journal tell of how far ahead a learner sees, in their order; see
/// [`Answer::of`].
pub fn answers(records: &[Record]) -> Vec<Answer> {
    let of_record = |record: &Record| match record {
        Record::Answer(answer) => Answer::of(answer),
        Record::Start(_) | Record::End(_) | Record::Seal(_) => None,
    };
    records.iter().filter_map(of_record).collect()
}

/// Climbs the [`Staircase`] through these answers, oldest first.
pub fn staircase(answers: &[Answer]) -> Staircase {
    let mut staircase = Staircase::default();
    for answer in answers {
        staircase.hear(answer.plies, answer.right);
    }
    staircase
}
