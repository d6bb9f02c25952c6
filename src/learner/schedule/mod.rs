//! What comes back, and when: the questions over the bare board that a learner is about to forget.

mod trace;

use std::collections::{BTreeMap, HashMap};

use jiff::Timestamp;

pub use trace::{Grade, Trace};

use super::AnswerRecord;
use super::record::question;
use crate::question::{BareQuestion, Kind};

/// A question is due when the chance that it is recalled has fallen below this.
pub const RECALLED: f64 = 0.9;

/// What a learner remembers of every question over the bare board that was asked, gathered from the
/// answers in their order.
///
/// ```
/// use jiff::{Timestamp, ToSpan};
/// use sansvoir::learner::schedule::{Grade, Memory};
/// use sansvoir::question::Kind;
///
/// let monday: Timestamp = "2026-03-02T18:00:00Z".parse()?;
/// let mut memory = Memory::default();
/// memory.take(monday, Kind::Color, r#"{"square":"g6"}"#, Grade::Missed);
/// memory.take(monday, Kind::Color, r#"{"square":"a1"}"#, Grade::Quick);
/// let known = memory.known(monday + 48.hours());
/// assert!(known[0].is_due() && !known[1].is_due());
/// # Ok::<(), jiff::Error>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Memory {
    /// For each kind over the bare board, by the subject as JSON.
    kinds: BTreeMap<Kind, HashMap<Box<str>, Item>>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
struct Item {
    trace: Trace,
    /// When it was answered last.
    last: Timestamp,
}

/// A question that was asked before.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Recalled {
    /// The question.
    pub question: BareQuestion,
    /// The chance that it is recalled now, 0 to 1.
    pub recall: f64,
}

impl Recalled {
    /// Tells whether it is due.
    pub fn is_due(&self) -> bool {
        self.recall < RECALLED
    }
}

impl Memory {
    /// Takes the next answer: when it was given, the kind and the subject as JSON, and how it went.
    /// A kind over a position is passed over: no such question comes a second time.
    pub fn take(&mut self, time: Timestamp, kind: Kind, subject: &str, grade: Grade) {
        if !Kind::BARE.contains(&kind) {
            return;
        }
        let items = self.kinds.entry(kind).or_default();
        if let Some(item) = items.get_mut(subject) {
            item.trace = item.trace.next(grade, whole_days(item.last, time));
            item.last = time;
        } else {
            let trace = Trace::first(grade);
            items.insert(subject.into(), Item { trace, last: time });
        }
    }

    /// Takes the next answer of a journal, what came again in a drill too: it was seen once more, and
    /// the scheduler knows what is answered twice in a day.
    pub fn take_answer(&mut self, answer: &AnswerRecord) {
        let grade = if answer.helped {
            Grade::Missed
        } else {
            Grade::of(answer.kind, answer.verdict, answer.late, answer.millis)
        };
        self.take(answer.stamp.time, answer.kind, answer.subject.get(), grade);
    }

    /// Returns the questions that were asked before, the one most forgotten first, those that are due before the
    /// others. An answer dated after `now` counts as one of this moment.
    pub fn known(&self, now: Timestamp) -> Vec<Recalled> {
        let mut found: Vec<(f64, Kind, &str)> = Vec::new();
        for (kind, items) in &self.kinds {
            found.extend(items.iter().map(|(subject, item)| {
                (item.trace.recall(days(item.last, now)), *kind, &**subject)
            }));
        }
        found.sort_by(|one, other| {
            let same = (one.1, one.2).cmp(&(other.1, other.2));
            one.0.total_cmp(&other.0).then(same)
        });
        // A subject that a strange hand wrote may be no question at all.
        let questions = found.into_iter().filter_map(|(recall, kind, subject)| {
            let question = question(kind, subject)?;
            Some(Recalled { question, recall })
        });
        questions.collect()
    }
}

/// The days between two times; none where the clock went backwards.
fn days(from: Timestamp, to: Timestamp) -> f64 {
    (to.duration_since(from).as_secs_f64() / 86_400.0).max(0.0)
}

fn whole_days(from: Timestamp, to: Timestamp) -> u32 {
    u32::try_from(to.duration_since(from).as_secs() / 86_400).unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use jiff::ToSpan;

    use super::*;

    fn due(memory: &Memory, now: Timestamp) -> Vec<Recalled> {
        let known = memory.known(now).into_iter();
        known.take_while(Recalled::is_due).collect()
    }
    use crate::question::Verdict;

    const G6: &str = r#"{"square":"g6"}"#;
    const A1: &str = r#"{"square":"a1"}"#;

    fn monday() -> Timestamp {
        "2026-03-02T18:00:00Z".parse().unwrap()
    }

    fn squares(due: &[Recalled]) -> Vec<String> {
        due.iter()
            .map(|due| match due.question {
                BareQuestion::Color(color) => color.square.to_string(),
                other => format!("{other:?}"),
            })
            .collect()
    }

    #[test]
    fn accuracy_grades_first_then_time() {
        let grade = |verdict, late, millis| Grade::of(Kind::Color, verdict, late, Some(millis));
        assert_eq!(grade(Verdict::Wrong, false, 100), Grade::Missed);
        assert_eq!(grade(Verdict::Part, false, 100), Grade::Missed);
        assert_eq!(grade(Verdict::Pass, false, 100), Grade::Missed);
        assert_eq!(grade(Verdict::Right, true, 100), Grade::Slow);
        assert_eq!(grade(Verdict::Right, false, 2_501), Grade::Slow);
        assert_eq!(grade(Verdict::Right, false, 2_500), Grade::Known);
        assert_eq!(grade(Verdict::Right, false, 1_250), Grade::Quick);
        let untimed = Grade::of(Kind::Color, Verdict::Right, false, None);
        assert_eq!(untimed, Grade::Slow);
    }

    #[test]
    fn what_is_most_forgotten_comes_first_and_what_is_known_does_not_come() {
        let mut memory = Memory::default();
        for (square, grade) in [
            ("a1", Grade::Known),
            ("b2", Grade::Missed),
            ("c3", Grade::Slow),
            ("d4", Grade::Quick),
        ] {
            let subject = format!(r#"{{"square":"{square}"}}"#);
            memory.take(monday(), Kind::Color, &subject, grade);
        }
        assert!(due(&memory, monday()).is_empty());
        let due = due(&memory, monday() + 72.hours());
        assert_eq!(squares(&due), ["b2", "c3", "a1"]);
        assert_eq!(memory.known(monday() + 72.hours()).len(), 4);
    }

    #[test]
    fn a_clock_that_went_backwards_makes_nothing_due_and_breaks_nothing() {
        let mut memory = Memory::default();
        memory.take(monday() + 9000.hours(), Kind::Color, A1, Grade::Known);
        memory.take(monday(), Kind::Color, A1, Grade::Known);
        memory.take(monday() + 9000.hours(), Kind::Color, G6, Grade::Missed);
        let found = due(&memory, monday());
        assert!(found.is_empty(), "{found:?}");
        let recalls = memory.known(monday());
        assert!(
            recalls
                .iter()
                .all(|known| (known.recall - 1.0).abs() < f64::EPSILON)
        );
        assert!(due(&memory, Timestamp::MIN).is_empty());
        assert_eq!(due(&memory, Timestamp::MAX).len(), 2);
    }

    #[test]
    fn a_subject_that_makes_no_sense_is_passed_over() {
        let mut memory = Memory::default();
        memory.take(monday(), Kind::Color, "[]", Grade::Missed);
        memory.take(monday(), Kind::Color, G6, Grade::Missed);
        assert_eq!(squares(&due(&memory, monday() + 48.hours())), ["g6"]);
    }
}
