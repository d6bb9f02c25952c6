//! Mates to be found: a position is given, and the learner says every move up to the mate, against the
//! best defence.

mod problem;
mod search;
mod settings;

use std::rc::Rc;

use super::output::{Ending, Given, OfMates, Opening, Shown, Told};
use super::past::Past;
use super::round::read_on;
use super::step::{Asking, Exercise, Place, Rules, Step};
use super::summary::Own;
use crate::question::{MoveSaid, Reply, Verdict};
use problem::{Attack, Then};

pub use search::{Problem, Search, Searched};
pub use settings::{MatesError, MatesSettings};

/// Positions with a mate in them, one after the other.
#[derive(Debug)]
pub struct Mates {
    settings: MatesSettings,
    /// The position that is being solved.
    attack: Option<Rc<Attack>>,
    /// The plies of its line that were read.
    read: usize,
    /// Whether its next move was asked for and not yet looked at.
    asked: bool,
    /// How many positions were given.
    given: usize,
    mated: usize,
}

impl Mates {
    /// Prepares a session.
    ///
    /// # Errors
    ///
    /// [`MatesError`] when no such session can be held.
    pub fn new(settings: MatesSettings) -> Result<Mates, MatesError> {
        for problem in &settings.problems {
            problem.script.check()?;
        }
        let first = settings.problems.first().ok_or(MatesError::NoProblem)?;
        Attack::new(first)?;
        Ok(Mates {
            settings,
            attack: None,
            read: 0,
            asked: false,
            given: 0,
            mated: 0,
        })
    }

    /// Turns to the next position, where there is one.
    fn give(&mut self) -> Step {
        let problem = self.settings.problems.get(self.given);
        // A position written down without a mate ends the session: nothing can be asked over it.
        let Some((problem, Ok(attack))) = problem.map(|problem| (problem, Attack::new(problem)))
        else {
            self.attack = None;
            return Step::End(Ending::Read(None));
        };
        self.given += 1;
        self.read = 0;
        let step = Step::Show {
            given: Given::Position(Shown {
                round: self.given,
                of: self.settings.problems.len(),
                game: problem.game,
                show: self.settings.show,
                start: attack.line.start().clone(),
                heard_before: 0,
                plies: attack.given,
            }),
            place: Place::new(attack.line.clone(), 0),
        };
        self.attack = Some(Rc::new(attack));
        step
    }

    /// Plays a right move, and the defence to it.
    fn play(&mut self, past: &Past) -> Option<Step> {
        let attack = self.attack.take()?;
        let last = past.answers().last()?;
        let Some(Reply::Move(MoveSaid::Named(attempt))) = last.reply else {
            return None;
        };
        if last.mark.verdict != Verdict::Right {
            return None;
        }
        let (line, then) = attack.play(attempt);
        self.read = line.len();
        let to = Some(Place::new(line, self.read));
        let told = match then {
            Then::Mated(mv) => {
                self.mated += 1;
                Told::Mated(mv)
            }
            Then::Defended { mv, reply, next } => {
                self.attack = Some(Rc::new(next));
                Told::Defended { mv, reply }
            }
        };
        Some(Step::Tell { told, to })
    }

    /// How many positions were left behind, solved or not.
    fn tried(&self) -> usize {
        self.given - usize::from(self.attack.is_some())
    }
}

impl Exercise for Mates {
    fn rules(&self) -> Rules {
        Rules {
            think_millis: self.settings.think_millis,
            looks: self.settings.looks,
            ..Rules::free(0)
        }
    }

    fn opening(&self, _: &Past, again: bool) -> Opening {
        Opening::Mates(OfMates {
            problems: self.settings.problems.len(),
            resumed: again.then(|| self.tried()),
            show: self.settings.show,
        })
    }

    fn next(&mut self, past: &Past) -> Step {
        if std::mem::take(&mut self.asked)
            && let Some(step) = self.play(past)
        {
            return step;
        }
        let Some(attack) = &self.attack else {
            return self.give();
        };
        if let Some(step) = read_on(&attack.line, &mut self.read) {
            return step;
        }
        self.asked = true;
        let count = (self.given, self.settings.problems.len());
        let place = Place::new(attack.line.clone(), self.read);
        Step::Ask(Asking {
            posed: Box::new(attack.clone()),
            ..Asking::over(attack.question(), place, None, count)
        })
    }

    fn summary(&self, _: &Past) -> Own {
        Own::Mates {
            tried: self.tried(),
            mated: self.mated,
        }
    }
}
