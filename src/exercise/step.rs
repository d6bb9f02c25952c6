//! What an exercise does next.

use std::fmt;

use super::asking::Asking;
use super::output::{Ending, GivenPosition, Opening, OwnSummary, Told};
use super::past::{Past, Place};
use crate::question::Kind;

/// An exercise: given all that has happened, what comes next?
///
/// It is asked whenever the step before is done, and keeps only its own way through the material: who
/// replied what and how long it took, who looked, and what was heard stands in the [`Past`]. What all
/// exercises share is the [`Session`](super::Session)'s work.
pub trait Exercise: fmt::Debug {
    /// Says what is about to be held; `again` where an earlier session goes on.
    fn opening(&self, past: &Past, again: bool) -> Opening;

    /// Decides what comes next.
    fn next(&mut self, past: &Past) -> Step;

    /// Counts what only this exercise counts, at the end or where the learner stopped.
    fn summary(&self, past: &Past) -> OwnSummary;

    /// What the session around it goes by.
    fn rules(&self) -> Rules;
}

/// What a session goes by in everything that exercises share.
#[derive(Clone, Copy, Debug, Default)]
pub struct Rules {
    /// How many plies `again` says again, where no position was given; after one, it says all from there.
    pub trail: usize,
    /// The think time of every kind, in milliseconds.
    pub think_millis: Option<u64>,
    /// Whether a kind for which no think time is set has its usual one; else nothing is late then.
    pub usual_think: bool,
    /// How many looks may be taken in all; `None` for any number.
    pub looks: Option<u32>,
}

/// Think times of kinds, in milliseconds, that stand where an exercise has none of its own.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ThinkTimes(Vec<(Kind, u64)>);

impl ThinkTimes {
    /// Returns the think time of a kind, where one is wished for.
    pub(super) fn of(&self, kind: Kind) -> Option<u64> {
        let wished = self.0.iter().find(|(of, _)| *of == kind);
        wished.map(|(_, millis)| *millis)
    }
}

impl FromIterator<(Kind, u64)> for ThinkTimes {
    fn from_iter<T: IntoIterator<Item = (Kind, u64)>>(times: T) -> ThinkTimes {
        ThinkTimes(times.into_iter().collect())
    }
}

/// One step of an exercise.
#[derive(Debug)]
pub enum Step {
    /// Plies of a line are read, once the learner goes on.
    Read {
        /// Where they begin.
        from: Place,
        /// How many plies of the line are played when they end.
        to: usize,
    },
    /// Something is told at once; what is played in it is heard.
    Tell {
        /// What is told.
        told: Told,
        /// How far the line has come with it, where it plays on.
        to: Option<Place>,
    },
    /// A position is given: a round begins.
    Show {
        /// How it is given.
        given: GivenPosition,
        /// Where it stands.
        place: Place,
    },
    /// A question is put.
    Ask(Box<Asking>),
    /// All has been read and asked.
    End(Ending),
}

impl Step {
    pub(super) fn ask(asking: Asking) -> Step {
        Step::Ask(Box::new(asking))
    }
}
