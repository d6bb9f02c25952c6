//! Which answers of a journal tell how far ahead a learner sees.

use std::collections::HashMap;
use std::hash::{DefaultHasher, Hash, Hasher};

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
    /// The chance that a learner who saw nothing would be right: the share that one answer has of the questions of
    /// this kind so far. From 0 up to, but not including, 1.
    pub guess: f64,
}

/// The share that was measured counts as so many questions: a learner's own soon count for more. Our own choice.
const BEFORE: f64 = 10.0;
/// Where the commonest answer makes up more than this of a kind's questions, its answers tell nothing.
const TOO_MUCH: f64 = 2.0 / 3.0;

/// How often each answer was the right one, for each kind: so many would be right by a learner who saw nothing and
/// always said the commonest.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Guesses {
    /// The questions of each kind, and how many of them had the commonest answer.
    kinds: HashMap<Kind, (u32, u32)>,
    /// How many questions had this answer.
    answers: HashMap<u64, u32>,
}

/// What an answer of a journal tells of how far ahead its learner sees, with the answer that was right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Telling {
    plies: u32,
    right: bool,
    kind: Kind,
    /// A hash of the right answer: only how often it came matters.
    answer: u64,
}

impl Telling {
    /// Looks at an answer of a journal; `None` where it tells nothing.
    ///
    /// What tells are first tries of the exercise `ahead` that say how long ago the board was seen. Left out
    /// are those given with the very position in sight, and the moves of a mate in more than one: there the
    /// learner looks for a way of his own, and the plies tell nothing of how far he sees.
    pub fn of(record: &AnswerRecord) -> Option<Telling> {
        let plies = record.hardness?.plies;
        let tells =
            plies > 0 && record.exercise == "ahead" && record.counts() && !is_long_mate(record);
        // What a reply may leave out, and why a move is illegal, makes no other answer.
        let said = record.expected.get();
        let said = [",\"optional\"", ",\"reason\""]
            .iter()
            .fold(said, |said, from| {
                said.split_once(from).map_or(said, |(said, _)| said)
            });
        let mut hasher = DefaultHasher::new();
        (record.kind, said).hash(&mut hasher);
        tells.then(|| Telling {
            plies,
            right: record.verdict == Verdict::Right,
            kind: record.kind,
            answer: hasher.finish(),
        })
    }
}

impl Guesses {
    /// Counts the next question, and returns what its answer tells with the share that the commonest answer has of the
    /// questions of its kind so far; `None` for a kind that nearly always had the same answer.
    pub fn hear(&mut self, telling: Telling) -> Option<Answer> {
        let Telling {
            plies,
            right,
            kind,
            answer,
        } = telling;
        let own = self.answers.entry(answer).or_default();
        *own += 1;
        let (all, commonest) = self.kinds.entry(kind).or_default();
        *all += 1;
        *commonest = (*commonest).max(*own);
        let before = BEFORE * kind.guess();
        let guess = (before + f64::from(*commonest)) / (BEFORE + f64::from(*all));
        (guess <= TOO_MUCH).then_some(Answer {
            plies,
            right,
            guess,
        })
    }
}

fn is_long_mate(record: &AnswerRecord) -> bool {
    let mate = || serde_json::from_str::<Mate>(record.subject.get());
    record.kind == Kind::Mate && mate().is_ok_and(|mate| !mate.is_at_once())
}

/// Returns what the answers of a journal tell of how far ahead a learner sees, in their order; see
/// [`Telling::of`].
pub fn answers(records: &[Record]) -> Vec<Answer> {
    let mut guesses = Guesses::default();
    let answers = records.iter().filter_map(Record::answer);
    answers
        .filter_map(|answer| guesses.hear(Telling::of(answer)?))
        .collect()
}

/// Climbs the [`Staircase`] through these answers, oldest first.
pub fn staircase(answers: &[Answer]) -> Staircase {
    let mut staircase = Staircase::default();
    for answer in answers {
        staircase.hear(answer.plies, answer.right);
    }
    staircase
}
