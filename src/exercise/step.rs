//! What an exercise does next.

use std::fmt;
use std::rc::Rc;

use super::output::{Ask, Asked, Checkpoint, Ending, Given, Opening, Stand, Told};
use super::past::Past;
use super::posed::AskedQuestion;
use super::recite::Recited;
use super::summary::Own;
use crate::game::{Line, Ply};
use crate::question::{BareQuestion, Kind, LineQuestion, Scene};

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
    fn summary(&self, past: &Past) -> Own;

    /// What the session around it goes by.
    fn rules(&self) -> Rules;
}

/// What a session goes by in everything that exercises share.
#[derive(Clone, Copy, Debug)]
pub struct Rules {
    /// How many plies `again` says again, where no position was given; after one, it says all from there.
    pub trail: usize,
    /// The think time of every kind, in milliseconds.
    pub think_millis: Option<u64>,
    /// The think time of a kind that has no other.
    pub usual_millis: fn(Kind) -> Option<u64>,
    /// How many looks may be taken in all; `None` for any number.
    pub looks: Option<u32>,
}

impl Rules {
    /// Rules under which nothing is late and any number of looks is allowed.
    pub(super) const fn free(trail: usize) -> Rules {
        Rules {
            trail,
            think_millis: None,
            usual_millis: |_| None,
            looks: None,
        }
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
        given: Given,
        /// Where it stands.
        place: Place,
    },
    /// A question is put.
    Ask(Asking),
    /// All has been read and asked.
    End(Ending),
}

/// A line after some of its plies.
#[derive(Clone, Debug)]
pub struct Place {
    pub(super) line: Rc<Line>,
    pub(super) plies: usize,
}

impl Place {
    /// Looks at `line` after `plies` plies.
    pub(super) const fn new(line: Rc<Line>, plies: usize) -> Place {
        Place { line, plies }
    }

    /// Looks at the line here.
    pub(super) fn scene(&self) -> Scene<'_> {
        Scene::new(&self.line, self.plies)
    }

    /// Returns the plies played so far.
    pub(super) fn played(&self) -> &[Ply] {
        &self.line.plies()[..self.plies]
    }
}

/// A question that is put.
#[derive(Debug)]
pub struct Asking {
    pub(super) posed: Box<dyn AskedQuestion>,
    pub(super) place: Option<Place>,
    pub(super) ask: Ask,
    /// The move that is to be said from memory, where one is: it has two tries.
    pub(super) recited: Option<Recited>,
    /// Whether it comes again in a drill, after it was missed or slow.
    pub(super) repeat: bool,
}

impl Asking {
    /// A question over the bare board.
    pub(super) fn bare(question: BareQuestion, number: usize, of: usize) -> Asking {
        let form = question.form();
        Asking {
            posed: Box::new(question),
            place: None,
            ask: Ask {
                asked: Asked::Bare(question),
                number,
                of,
                form,
            },
            recited: None,
            repeat: false,
        }
    }

    /// A question over a line, at the place that has been reached.
    pub(super) fn over(
        question: LineQuestion,
        place: Place,
        checkpoint: Option<Checkpoint>,
        (number, of): (usize, usize),
    ) -> Asking {
        let ask = Ask::over(question, place.scene(), checkpoint, (number, of));
        Asking {
            posed: Box::new((question, place.clone())),
            place: Some(place),
            ask,
            recited: None,
            repeat: false,
        }
    }
}

impl Ask {
    /// Puts a question over a line where it stands.
    pub(super) fn over(
        question: LineQuestion,
        scene: Scene<'_>,
        checkpoint: Option<Checkpoint>,
        (number, of): (usize, usize),
    ) -> Ask {
        let piece = match question {
            LineQuestion::Whereabouts(question) => scene.line().roster().piece(question.piece),
            _ => None,
        };
        let stand = Stand {
            checkpoint,
            turn: shakmaty::Position::turn(scene.position()),
            piece: piece.map(|piece| piece.piece),
            chess960: scene.line().start().mode().is_chess960(),
        };
        Ask {
            asked: Asked::Line(question, stand),
            number,
            of,
            form: question.form(),
        }
    }
}

/// How many plies are played when `plies` are read on from `first`: one, a whole move up to Black's ply,
/// or all of them.
pub(super) fn read_by(by: super::By, plies: &[Ply], first: usize) -> usize {
    use super::By;
    match by {
        By::Ply => first + 1,
        By::Move => first + 1 + usize::from(plies[first].side().is_white()),
        By::Checkpoint => plies.len(),
    }
}
