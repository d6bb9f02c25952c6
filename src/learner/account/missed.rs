//! Which questions over the bare board are missed most.

use std::collections::HashMap;

use crate::learner::Glance;
use crate::question::{Kind, Verdict};

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

/// How often each question was asked and missed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Missed {
    of_kind: [HashMap<Box<str>, Tries>; KINDS.len()],
}

/// How often a question was asked and missed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Tries {
    pub(super) asked: u32,
    pub(super) missed: u32,
}

impl Missed {
    pub(super) fn take(&mut self, answer: &Glance<'_>) {
        let Some(kind) = KINDS.iter().position(|kind| *kind == answer.kind) else {
            return;
        };
        let tries = Tries {
            asked: 1,
            missed: u32::from(answer.verdict != Verdict::Right),
        };
        add(&mut self.of_kind[kind], answer.subject, tries);
    }

    pub(super) fn join(&mut self, later: Missed) {
        for (counts, more) in self.of_kind.iter_mut().zip(later.of_kind) {
            for (subject, tries) in more {
                add(counts, &subject, tries);
            }
        }
    }

    /// Returns the subjects, as JSON, of the questions missed most often, those missed in a greater
    /// share of their tries first among equals; a question missed once is not among them.
    pub(super) fn most(&self, number: usize) -> Vec<(Kind, &str, Tries)> {
        let mut all: Vec<(Kind, &str, Tries)> = KINDS
            .iter()
            .zip(&self.of_kind)
            .flat_map(|(kind, counts)| {
                let counted = counts.iter().filter(|(_, tries)| tries.missed > 1);
                counted.map(|(subject, tries)| (*kind, &**subject, *tries))
            })
            .collect();
        all.sort_by(|(kind, subject, one), (other_kind, other_subject, other)| {
            let more_missed = other.missed.cmp(&one.missed);
            let place = |kind: &Kind| KINDS.iter().position(|known| known == kind);
            more_missed
                .then(one.asked.cmp(&other.asked))
                .then(place(kind).cmp(&place(other_kind)))
                .then(subject.cmp(other_subject))
        });
        all.truncate(number);
        all
    }
}

fn add(counts: &mut HashMap<Box<str>, Tries>, subject: &str, tries: Tries) {
    if let Some(known) = counts.get_mut(subject) {
        known.asked += tries.asked;
        known.missed += tries.missed;
    } else if counts.len() < MOST && subject.len() < 256 {
        counts.insert(subject.into(), tries);
    }
}
