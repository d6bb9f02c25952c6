//! Which answers of a journal tell how far ahead a learner sees.

use super::Answer;
use crate::learner::{AnswerRecord, Glance, Record};
use crate::question::{Kind, Mate, Verdict};

/// The exercise whose answers tell how far ahead a learner sees.
const AHEAD: &str = "ahead";

/// Returns the answers that tell how far ahead a learner sees, oldest first.
///
/// They are those of the exercise `ahead` that say how long ago the board was seen. Left out are those
/// given with the very position in sight, and the moves of a mate in more than one: there the
/// learner looks for a way of his own, and the plies tell nothing of how far he sees.
#[must_use]
pub fn answers(records: &[Record]) -> Vec<Answer> {
    let of_record = |record: &Record| match record {
        Record::Answer(answer) => Answer::of(answer),
        Record::Start(_) | Record::End(_) | Record::Seal(_) => None,
    };
    records.iter().filter_map(of_record).collect()
}

impl Answer {
    /// Returns what an answer tells of how far ahead its learner sees; `None` where it tells nothing, see
    /// [`answers`].
    #[must_use]
    pub fn of(record: &AnswerRecord) -> Option<Answer> {
        let answer = Answer::new(record.kind, record.hardness?.plies, record.verdict);
        let subject = || record.case.fields().subject.get();
        answer.filter(|_| {
            record.exercise == AHEAD && !record.repeat && !is_long_mate(record.kind, subject)
        })
    }

    /// Returns the same for an answer that passes by.
    #[must_use]
    pub fn at_a_glance(glance: &Glance<'_>) -> Option<Answer> {
        let answer = Answer::new(glance.kind, glance.plies?, glance.verdict);
        let subject = || glance.subject;
        answer.filter(|_| {
            glance.exercise == AHEAD && !glance.repeat && !is_long_mate(glance.kind, subject)
        })
    }

    fn new(kind: Kind, plies: u32, verdict: Verdict) -> Option<Answer> {
        (plies > 0).then(|| Answer {
            plies,
            right: verdict == Verdict::Right,
            guess: kind.guess(),
        })
    }
}

fn is_long_mate<'a>(kind: Kind, subject: impl FnOnce() -> &'a str) -> bool {
    let read = |text: &str| serde_json::from_str::<Mate>(text);
    kind == Kind::Mate && read(subject()).is_ok_and(|mate| !mate.is_at_once())
}
