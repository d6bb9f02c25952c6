//! Mates to be found: a position is given, and the learner says every move up to the mate, against the
//! best defence.

mod search;

use std::rc::Rc;

use serde::{Deserialize, Serialize};
use shakmaty::Position;

use super::asking::Asking;
use super::bound::{Looks, MateMoves, Millis};
use super::past::{Past, Place};
use super::round::{read_on, show};
use super::script::Script;
use super::settings::{By, PlanError, Show};
use super::step::{Begun, Ending, Exercise, KindTimes, Rules, Step};
use crate::game::{Line, Ply, fen_of};
use crate::question::mating::best_defence;
use crate::question::{Attempt, LineQuestion, Mate, MoveSaid, Reply, Scene, Truth};

pub use search::{Search, Searched};

/// How a session of mates is to go. The journal keeps it, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MatesSettings {
    /// The positions, in the order of asking.
    pub problems: Vec<Problem>,
    /// How they are given.
    pub show: Show,
    /// The most moves that a mate was searched for.
    pub within: MateMoves,
    /// The think time in milliseconds; replies after it are marked late.
    pub think_millis: Option<Millis>,
    /// How many looks at the board the learner may take in all; `None` for any number.
    pub looks: Option<Looks>,
    /// The seed; nothing depends on it so far.
    pub seed: u64,
}

/// A position from which the side to move forces mate.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Problem {
    /// The line up to the position: the game's moves where they are to be heard, else the position
    /// alone.
    pub script: Script,
    /// Which of the games it is from, counted from 0.
    pub game: usize,
    /// The fewest moves that force mate.
    pub within: MateMoves,
}

/// A right move that is played, and the best defence to it, where it does not mate.
#[derive(Clone, Debug)]
pub struct MovesPlayed(pub Vec<Ply>);

/// How the mates went.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MatesSummary {
    /// How many positions had an answer.
    pub tried: usize,
    /// How many of them were led to the mate.
    pub mated: usize,
}

/// Positions with a mate in them, one after the other.
#[derive(Debug)]
pub struct Mates {
    settings: MatesSettings,
    /// The position that is being solved.
    attack: Option<Attack>,
    /// Whether its next move was asked for and not yet looked at.
    asked: bool,
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
        let attack = Attack::at(Place::new(line, 0), problem.within.get());
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
    /// Turns to the next position after so many, where there is one.
    fn give(&mut self, given: usize) -> Step<MovesPlayed> {
        let problem = self.settings.problems.get(given);
        // A position written down without a mate ends the session: nothing can be asked over it.
        let Some((problem, Ok(attack))) = problem.map(|problem| (problem, Attack::new(problem)))
        else {
            self.attack = None;
            return Step::End(Ending::Read(None));
        };
        let count = (given + 1, Some(self.settings.problems.len()));
        let place = attack.place.clone();
        self.attack = Some(attack);
        show(place, count, Some(problem.game), self.settings.show)
    }

    /// Plays the move that was answered, where it mates in time, and the best defence to it.
    fn play(&mut self, past: &Past) -> Option<Step<MovesPlayed>> {
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
            None => self.mated += usize::from(last.counts()),
        }
        Some(Step::Tell {
            told: MovesPlayed(end.played()[before..].to_vec()),
            to: Some(end),
        })
    }
}

impl Exercise for Mates {
    type Plan = MatesSettings;
    type Opening = Begun<MatesSettings>;
    type Told = MovesPlayed;
    type Summary = MatesSummary;

    fn new(settings: MatesSettings) -> Result<Mates, PlanError> {
        for problem in &settings.problems {
            problem.script.check()?;
        }
        let first = settings.problems.first().ok_or(PlanError::NoProblem)?;
        Attack::new(first)?;
        Ok(Mates {
            settings,
            attack: None,
            asked: false,
            mated: 0,
        })
    }

    fn rules(&self) -> Rules {
        Rules {
            think_millis: self.settings.think_millis,
            kind_times: KindTimes::None,
            looks: self.settings.looks,
            ..Rules::default()
        }
    }

    fn opening(&self, past: &Past, again: bool) -> Begun<MatesSettings> {
        Begun::new(&self.settings, again.then(|| past.rounds_done()))
    }

    fn next(&mut self, past: &Past) -> Step<MovesPlayed> {
        if std::mem::take(&mut self.asked) {
            // Nobody answers on paper.
            self.attack.take_if(|_| past.on_paper);
            if let Some(step) = self.play(past) {
                return step;
            }
        }
        let Some(attack) = &mut self.attack else {
            return self.give(past.rounds());
        };
        let end = attack.place.line.len();
        if let Some(step) = read_on(&mut attack.place, By::Move, end) {
            return step;
        }
        self.asked = true;
        let question = LineQuestion::Mate(attack.question);
        Step::ask(Asking {
            truth: Some(attack.truth.clone()),
            ..Asking::over(question, attack.place.clone(), None, (1, 1))
        })
    }

    fn summary(&self, past: &Past) -> MatesSummary {
        MatesSummary {
            tried: past.rounds_done(),
            mated: self.mated,
        }
    }
}
