//! The questions of one place, put one after the other; and a line that is read up to them.

use std::rc::Rc;
use std::vec::IntoIter;

use super::choice::choose;
use super::dice::Dice;
use super::settings::By;
use super::step::{Place, Step, read_by};
use crate::game::Line;
use crate::question::{Kind, LineQuestion, Scene};

/// The questions of one place that are still to be put.
#[derive(Clone, Debug, Default)]
pub(super) struct Questions {
    rest: IntoIter<LineQuestion>,
    of: usize,
}

impl Questions {
    pub(super) fn new(questions: Vec<LineQuestion>) -> Questions {
        Questions {
            of: questions.len(),
            rest: questions.into_iter(),
        }
    }

    /// Takes the next question with its number, counted from 1, and the number of all.
    pub(super) fn next(&mut self) -> Option<(LineQuestion, (usize, usize))> {
        let question = self.rest.next()?;
        Some((question, (self.of - self.rest.len(), self.of)))
    }

    /// Counts them all.
    pub(super) const fn count(&self) -> usize {
        self.of
    }
}

/// A line that is read from some ply on to its end, where questions are asked.
#[derive(Clone, Debug)]
pub(super) struct Round {
    pub(super) line: Rc<Line>,
    /// The plies played when the reading begins.
    pub(super) begins: usize,
    /// The plies read so far.
    read: usize,
    pub(super) questions: Questions,
}

impl Round {
    /// Chooses at most so many questions over the end of a line.
    pub(super) fn new(line: Line, begins: usize, kinds: &[Kind], most: usize, seed: u64) -> Round {
        let scene = Scene::new(&line, line.len());
        let questions = choose(scene, kinds, most, &mut Dice::new(seed, 0));
        Round {
            line: Rc::new(line),
            begins,
            read: begins,
            questions: Questions::new(questions),
        }
    }

    /// Returns the place where the reading begins.
    pub(super) fn start(&self) -> Place {
        Place::new(self.line.clone(), self.begins)
    }

    /// Returns the place of the questions.
    pub(super) fn end(&self) -> Place {
        Place::new(self.line.clone(), self.line.len())
    }

    /// Counts the plies that are read.
    pub(super) fn plies(&self) -> usize {
        self.line.len() - self.begins
    }

    /// Reads on by a move, until all is read.
    pub(super) fn read(&mut self) -> Option<Step> {
        read_on(&self.line, &mut self.read)
    }
}

/// Reads a line on by a move, until all is read.
pub(super) fn read_on(line: &Rc<Line>, read: &mut usize) -> Option<Step> {
    if *read == line.len() {
        return None;
    }
    let from = Place::new(line.clone(), *read);
    *read = read_by(By::Move, line.plies(), *read).min(line.len());
    Some(Step::Read { from, to: *read })
}
