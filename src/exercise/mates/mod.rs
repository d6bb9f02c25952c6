//! Mates to be found: a position is given, and the learner says every move up to the mate, against the
//! best defence.

mod search;

use std::rc::Rc;

use shakmaty::Position;

use super::asking::Asking;
use super::output::{Ending, MatesOpening, Opening, OwnSummary, Told};
use super::past::{Past, Place};
use super::round::{read_on, show};
use super::settings::{By, MatesSettings, PlanError, Problem};
use super::step::{Exercise, Rules, Step};
use crate::game::{Line, fen_of};
use crate::question::mating::{best_defence, still_mates};
use crate::question::{Attempt, LineQuestion, Mate, MoveSaid, Reply, Scene, Truth};

pub use search::{Search, Searched};

/// Positions with a mate in them, one after the other.
#[derive(Debug)]
pub struct Mates {
    settings: MatesSettings,
    /// The position that is being solved.
    attack: Option<Attack>,
    /// Whether its next move was asked for and not yet looked at.
    asked: bool,
    /// How many positions were given.
    given: usize,
    mated: usize,
}

/// A position, the moves made from it so far, and what is right now. The truth of a mate in several
/// moves takes a search: it is found once for each position.
#[derive(Debug)]
struct Attack {
    /// How far its line has been read; the position is at the line's end.
    place: Place,
    question: Mate,
    truth: Truth,
}

impl Attack {
    fn new(problem: &Problem) -> Result<Attack, PlanError> {
        let line = Rc::new(problem.script.line(0)?);
        let attack = Attack::at(Place::new(line, 0), problem.within);
        match &attack.truth {
            Truth::Moves(moves) if !moves.is_empty() => Ok(attack),
            _ => Err(PlanError::NoMate(fen_of(attack.place.line.end()))),
        }
    }

    fn at(place: Place, within: u32) -> Attack {
        let question = Mate { within };
        let scene = Scene::new(&place.line, place.line.len());
        Attack {
            truth: LineQuestion::Mate(question).truth(scene),
            place,
            question,
        }
    }
}

impl Mates {
    /// Prepares a session.
    ///
    /// # Errors
    ///
    /// [`PlanError`] when no such session can be held.
    pub fn new(settings: MatesSettings) -> Result<Mates, PlanError> {
        for problem in &settings.problems {
            problem.script.check()?;
        }
        let first = settings.problems.first().ok_or(PlanError::NoProblem)?;
        Attack::new(first)?;
        Ok(Mates {
            settings,
            attack: None,
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
        let count = (self.given, Some(self.settings.problems.len()));
        let place = attack.place.clone();
        self.attack = Some(attack);
        show(place, count, Some(problem.game), self.settings.show)
    }

    /// Plays the move that was answered, where it mates in time, and the best defence to it.
    fn play(&mut self, past: &Past) -> Option<Step> {
        let attack = self.attack.take()?;
        let last = past.answers.last().filter(|last| last.is_right())?;
        let Some(Reply::Move(MoveSaid::Named(attempt))) = last.reply else {
            return None;
        };
        let mut line = Line::clone(&attack.place.line);
        let before = line.len();
        let mut moves = line.end().legal_moves().into_iter();
        let mv = moves
            .find(|mv| Attempt::of(*mv, line.end()) == attempt)
            .expect("a right move is legal");
        debug_assert!(still_mates(line.end(), mv, attack.question.within));
        line.push(mv).expect("a right move is legal");
        let within = attack.question.within.saturating_sub(1);
        let defence = best_defence(line.end(), within);
        if let Some(reply) = defence {
            line.push(reply).expect("the search plays legal moves");
        }
        let plies = line.len();
        let end = Place::new(Rc::new(line), plies);
        match defence {
            Some(_) => self.attack = Some(Attack::at(end.clone(), within)),
            None => self.mated += 1,
        }
        Some(Step::Tell {
            told: Told::Played(end.played()[before..].to_vec()),
            to: Some(end),
        })
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
            ..Rules::default()
        }
    }

    fn opening(&self, _: &Past, again: bool) -> Opening {
        Opening::Mates(MatesOpening {
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
        let Some(attack) = &mut self.attack else {
            return self.give();
        };
        let end = attack.place.line.len();
        if let Some(step) = read_on(&mut attack.place, By::Move, end) {
            return step;
        }
        self.asked = true;
        let count = (self.given, self.settings.problems.len());
        let question = LineQuestion::Mate(attack.question);
        let asking = Asking::over(question, attack.place.clone(), None, count);
        Step::ask(asking.with_truth(attack.truth.clone()))
    }

    fn summary(&self, _: &Past) -> OwnSummary {
        OwnSummary::Mates {
            tried: self.tried(),
            mated: self.mated,
        }
    }
}
