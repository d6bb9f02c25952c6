//! A game from memory: the learner says move after move of it, with two tries at each, and at wished-for
//! places where every piece stands.

mod recital_step;
mod said;
mod settings;
mod slip;
mod summary;

use std::rc::Rc;

use super::output::{Ask, Asked, Checkpoint, Ending, OfGame, Opening, Told};
use super::past::Past;
use super::script::{Script, ScriptError};
use super::step::{Asking, Exercise, Place, Rules, Step};
use super::summary::Own;
use crate::game::{GameResult, Line, Tags};
use crate::question::{Form, LineQuestion, Played, Rebuild};
use recital_step::{RecitalStep, recital_steps};

pub use said::{Elsewhere, Missed, Slip, Tries};
pub use settings::{ReciteSettings, Sides};
pub(super) use slip::{Recited, Tried};
pub use summary::{MixUp, ReciteSummary};

/// How many plies `again` says again.
const TRAIL: usize = 2;

/// The saying of a game from memory.
#[derive(Debug)]
pub struct Recite {
    line: Rc<Line>,
    settings: ReciteSettings,
    tags: Tags,
    result: Option<GameResult>,
    recital_steps: Vec<RecitalStep>,
    /// Which step is next.
    at: usize,
}

impl Recite {
    /// Prepares a recital of a script's main line; the tags are told at the beginning, the result at
    /// the end.
    ///
    /// # Errors
    ///
    /// [`ScriptError`] when the line cannot be played.
    pub fn new(
        script: &Script,
        settings: ReciteSettings,
        tags: Tags,
        result: Option<GameResult>,
    ) -> Result<Recite, ScriptError> {
        let line = script.line(0)?;
        Ok(Recite {
            recital_steps: recital_steps(&line, &settings),
            line: Rc::new(line),
            settings,
            tags,
            result,
            at: 0,
        })
    }

    fn place(&self, plies: usize) -> Place {
        Place::new(self.line.clone(), plies)
    }

    /// Counts the whole positions that are asked.
    fn places(&self) -> usize {
        let places = |recital_step: &&RecitalStep| matches!(recital_step, RecitalStep::Place(..));
        self.recital_steps.iter().filter(places).count()
    }

    /// Asks for a move. The question is of the line that it ends: so the journal holds all that proves it.
    fn say(&self, plies: usize) -> Asking {
        let number = self.line.plies()[plies].number;
        let question = LineQuestion::Played(Played::at(number));
        Asking {
            place: Some(self.place(plies)),
            ask: Ask {
                asked: Asked::Move {
                    number,
                    once_more: false,
                },
                number: said(&self.recital_steps[..self.at]),
                of: said(&self.recital_steps),
                form: Form::Move,
            },
            recited: Some(Recited {
                line: self.line.clone(),
                plies,
                hints_by_itself: self.settings.hint,
            }),
            ..Asking::over(question, self.place(plies + 1), None, (1, 1))
        }
    }
}

/// Counts the moves that the learner says.
fn said(recital_steps: &[RecitalStep]) -> usize {
    let says = |recital_step: &&RecitalStep| matches!(recital_step, RecitalStep::Say(_));
    recital_steps.iter().filter(says).count()
}

impl Exercise for Recite {
    fn rules(&self) -> Rules {
        Rules {
            think_millis: self.settings.think_millis,
            ..Rules::free(TRAIL)
        }
    }

    fn opening(&self, _: &Past, again: bool) -> Opening {
        Opening::Recite {
            game: OfGame {
                tags: self.tags.clone(),
                start: self.line.start().clone(),
                first: self.line.plies().first().map(|ply| ply.number),
                plies: self.line.len(),
                checkpoints: self.places(),
                resumed: again,
            },
            sides: self.settings.sides,
        }
    }

    fn next(&mut self, _: &Past) -> Step {
        let recital_step = self.recital_steps.get(self.at).copied();
        self.at += 1;
        match recital_step {
            Some(RecitalStep::ReadOut(plies)) => Step::Tell {
                told: Told::ReadOut(self.line.plies()[plies]),
                to: Some(self.place(plies + 1)),
            },
            Some(RecitalStep::Say(plies)) => Step::Ask(self.say(plies)),
            Some(RecitalStep::Place(plies, number)) => {
                let checkpoint = Checkpoint {
                    number,
                    of: self.places(),
                };
                let question = LineQuestion::Rebuild(Rebuild {});
                let place = self.place(plies);
                Step::Ask(Asking::over(question, place, Some(checkpoint), (1, 1)))
            }
            None => {
                let result = self.result;
                Step::End(Ending::Read(result))
            }
        }
    }

    fn summary(&self, past: &Past) -> Own {
        Own::Recite(Box::new(summary::sum_up(&self.line, past)))
    }
}
