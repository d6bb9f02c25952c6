//! Which questions over the bare board are missed most, and which squares are taken for others.

use std::cmp::Reverse;
use std::collections::{BTreeMap, HashMap};

use crate::exercise::Mistaken;
use crate::learner::AnswerRecord;
use crate::learner::record::question;
use crate::question::{BareQuestion, Kind, Verdict};

/// The kinds with so few different questions that the same one comes again and again.
const KINDS: [Kind; 6] = [
    Kind::Name,
    Kind::Place,
    Kind::Color,
    Kind::Aligned,
    Kind::Between,
    Kind::Span,
];
/// No kind of [`KINDS`] has more questions; a journal of a stranger's making could.
const MOST: usize = 4_096;

/// A question over the bare board that was missed more than once.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MissedOften {
    /// The question.
    pub question: BareQuestion,
    /// How often it was asked.
    pub asked: u32,
    /// How often its answer was not right.
    pub missed: u32,
}

/// How often each question, by its kind and its subject, was asked and missed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Missed(BTreeMap<Kind, HashMap<Box<str>, (u32, u32)>>);

impl Missed {
    pub(super) fn take(&mut self, answer: &AnswerRecord) {
        if !KINDS.contains(&answer.kind) {
            return;
        }
        let (counts, subject) = (self.0.entry(answer.kind).or_default(), answer.subject.get());
        if counts.len() < MOST && subject.len() < 256 && !counts.contains_key(subject) {
            counts.insert(subject.into(), (0, 0));
        }
        if let Some((asked, missed)) = counts.get_mut(subject) {
            *asked += 1;
            *missed += u32::from(answer.verdict != Verdict::Right);
        }
    }

    /// Returns the questions missed most often, those missed in a greater share of their tries first
    /// among equals; a question missed once is not among them.
    pub(super) fn most(&self, number: usize) -> Vec<MissedOften> {
        let mut all = Vec::new();
        for (kind, counts) in &self.0 {
            let often = counts.iter().filter(|(_, (_, missed))| *missed > 1);
            all.extend(often.map(|(subject, tries)| (*kind, subject, *tries)));
        }
        all.sort_by_key(|(kind, subject, (asked, missed))| {
            (Reverse(*missed), *asked, *kind, *subject)
        });
        let missed = all
            .into_iter()
            .filter_map(|(kind, subject, (asked, missed))| {
                let question = question(kind, subject)?;
                Some(MissedOften {
                    question,
                    asked,
                    missed,
                })
            });
        missed.take(number).collect()
    }
}

/// Returns which square was taken for another in a reply that was not right.
pub(super) fn mistaken(answer: &AnswerRecord) -> Option<Mistaken> {
    if !matches!(answer.verdict, Verdict::Part | Verdict::Wrong) {
        return None;
    }
    let question: BareQuestion = question(answer.kind, answer.subject.get())?;
    let reply = question.form().read(&answer.reply).ok()?;
    Mistaken::of(question, &reply)
}
