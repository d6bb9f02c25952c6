//! What an exercise is, and what it does next.

use std::collections::HashMap;
use std::fmt;

use super::answers::Answered;
use super::asking::Asking;
use super::awaited::Awaited;
use super::beside::OpenQuestion;
use super::bound::{Looks, Millis};
use super::past::{Past, Place};
use super::script::Script;
use super::settings::{PlanError, Show};
use crate::game::{GameResult, Start};
use crate::question::Kind;

/// An exercise: given all that has happened, what comes next?
///
/// It is asked whenever the step before is done, and keeps only its own way through the material: who
/// replied what and how long it took, who looked, and what was heard stands in the [`Past`]. What all
/// exercises share is the [`Session`](super::Session)'s work.
pub trait Exercise: fmt::Debug + Sized {
    /// What will be held, as the journal keeps it: all that another process needs to hold it again.
    type Plan;
    /// What is said before it begins or goes on.
    type Opening;
    /// What only it tells between questions; [`Infallible`](std::convert::Infallible) where that is nothing.
    type Told;
    /// What only it counts.
    type Summary;

    /// Prepares what is planned.
    ///
    /// # Errors
    ///
    /// [`PlanError`] when it cannot be held.
    fn new(plan: Self::Plan) -> Result<Self, PlanError>;

    /// Returns the one script whose main line is gone through, where there is such a one.
    fn script(_: &Self::Plan) -> Option<&Script> {
        None
    }

    /// What the session around it goes by.
    fn rules(&self) -> Rules;

    /// Says what is about to be held; `again` where an earlier session goes on.
    fn opening(&self, past: &Past, again: bool) -> Self::Opening;

    /// Decides what comes next.
    fn next(&mut self, past: &Past) -> Step<Self::Told>;

    /// Counts what only this exercise counts, at the end or where the learner stopped.
    fn summary(&self, past: &Past) -> Self::Summary;
}

/// What is about to be held, or goes on.
#[derive(Clone, Debug)]
pub struct Begun<S> {
    /// How it is to go.
    pub settings: S,
    /// How much was done in an earlier session that goes on here; `None` for a new one.
    pub done: Option<usize>,
}

impl<S: Clone> Begun<S> {
    pub(super) fn new(settings: &S, done: Option<usize>) -> Begun<S> {
        let settings = settings.clone();
        Begun { settings, done }
    }
}

/// What a session goes by in everything that exercises share.
#[derive(Clone, Copy, Debug, Default)]
pub struct Rules {
    /// How many plies `again` says again, where no position was given; after one, it says all from there.
    pub trail: usize,
    /// The think time of every kind, in milliseconds.
    pub think_millis: Option<Millis>,
    /// Which think times kinds have where none of every kind is set.
    pub kind_times: KindTimes,
    /// How many looks may be taken in all; `None` for any number.
    pub looks: Option<Looks>,
}

/// Which think times the kinds of question have, one by one; a kind without one is never late.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum KindTimes {
    /// Those that are wished for.
    #[default]
    Wished,
    /// Those that are wished for, and else the usual ones.
    Usual,
    /// Those that are wished for, and else the usual ones, shorter and longer as the learner is fast and slow.
    Following,
    /// None.
    None,
}

impl KindTimes {
    /// Makes them follow the learner, where that is wished for.
    pub(super) const fn following(self, wished: bool) -> KindTimes {
        if wished { KindTimes::Following } else { self }
    }

    /// Returns the think time of a kind in milliseconds, where it has one: `wished` is what the learner wishes for, and
    /// `answers` are those so far.
    pub(super) fn think(
        self,
        kind: Kind,
        wished: Option<u64>,
        answers: &[Answered],
    ) -> Option<u64> {
        let usual = kind.think_millis();
        match self {
            KindTimes::Wished => wished,
            KindTimes::Usual => wished.or(Some(usual)),
            KindTimes::Following => wished.or_else(|| Some(following(usual, answers))),
            KindTimes::None => None,
        }
    }
}

/// Makes a think time follow the answers so far: every one that is right in time shortens it by a step,
/// every other lengthens it by three, so that three in four are right in time (Kaernbach 1991, as in
/// [`Staircase`](super::Staircase)); between half of the usual time and double it.
fn following(usual: u64, answers: &[Answered]) -> u64 {
    const STEPS: i64 = 40;
    let step = |at: i64, answered: &Answered| {
        let in_time = answered.is_right() && !answered.late;
        (at + if in_time { -1 } else { 3 }).clamp(-STEPS / 2, STEPS)
    };
    let first = answers.iter().filter(|answered| answered.counts());
    let at = first.fold(0, step);
    usual.saturating_add_signed(usual.cast_signed() * at / STEPS)
}

/// Think times of kinds, in milliseconds, that stand where an exercise has none of its own.
#[derive(Clone, Debug, Default)]
pub struct ThinkTimes {
    /// Those of kinds that stand where the exercise has none.
    pub of_kinds: HashMap<Kind, u64>,
    /// Whether these lengthen also what the exercise has, as a lesson's.
    pub lengthen: bool,
    /// What is added to every think time.
    pub more: u64,
}

/// One step of an exercise.
#[derive(Debug)]
pub enum Step<T> {
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
        told: T,
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
    /// Another place is turned to, of which nothing more has to be heard.
    Turn(Place),
    /// The board is shown, though nobody looks.
    Sight {
        /// Whether it stays before the eyes.
        stays: bool,
    },
    /// A question is put.
    Ask(Box<Asking>),
    /// A question is put whose answer nobody grades.
    AskOpen(OpenQuestion),
    /// The opponent is to move, or to say something.
    Await(Box<Awaited>),
    /// All has been read and asked.
    End(Ending),
}

impl<T> Step<T> {
    pub(super) fn ask(asking: Asking) -> Step<T> {
        Step::Ask(Box::new(asking))
    }

    /// Makes what is told another value.
    pub(super) fn telling<U>(self, make: impl FnOnce(T) -> U) -> Step<U> {
        match self {
            Step::Tell { told, to } => Step::Tell {
                told: make(told),
                to,
            },
            Step::Read { from, to } => Step::Read { from, to },
            Step::Show { given, place } => Step::Show { given, place },
            Step::Turn(place) => Step::Turn(place),
            Step::Sight { stays } => Step::Sight { stays },
            Step::Ask(asking) => Step::Ask(asking),
            Step::AskOpen(question) => Step::AskOpen(question),
            Step::Await(awaited) => Step::Await(awaited),
            Step::End(ending) => Step::End(ending),
        }
    }
}

/// How a session came to its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ending {
    /// All has been read and asked; the result is the one that the game's record gives.
    Read(Option<GameResult>),
    /// All questions were put.
    Asked,
    /// The learner stopped before the end.
    Stopped,
}

/// The position that a round begins with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GivenPosition {
    /// The number of the round, counted from 1.
    pub round: usize,
    /// How many rounds there are in all; `None` where questions are counted and not rounds.
    pub of: Option<usize>,
    /// Which of the games it is from, counted from 0 in the order of the settings; `None` where the session
    /// does not go from game to game.
    pub game: Option<usize>,
    /// How it is given.
    pub show: Show,
    /// The position; with [`Show::None`], the start of the game.
    pub start: Start,
    /// How many plies of the line had been read in the rounds before.
    pub heard_before: usize,
    /// How many plies will be read now.
    pub plies: usize,
}
