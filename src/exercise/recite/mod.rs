//! A game from memory: the learner says move after move of it, with two tries at each, and at wished-for
//! places where every piece stands.

mod summary;

use std::rc::Rc;

use serde::{Deserialize, Serialize};
use shakmaty::Color;

use super::asking::Asking;
use super::bound::{Every, Millis};
use super::over_game::{GameOpening, OverGame};
use super::past::{Past, Place};
use super::script::Script;
use super::settings::PlanError;
use super::step::{Ending, Exercise, KindTimes, Rules, Step};
use crate::game::{Line, Ply};
use crate::question::{LineQuestion, Rebuild};

pub use summary::{MixUp, ReciteSummary};

/// How many plies `again` says again.
const TRAIL: usize = 2;

/// The settings of a recital. Nothing in it is left to chance.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ReciteSettings {
    /// Whose moves the learner says.
    pub sides: Sides,
    /// The whole position is asked every so many plies and at the end; `None` for never.
    pub every: Option<Every>,
    /// Whether the piece that moves is named by itself after a first miss.
    pub hint: bool,
    /// Milliseconds after which a reply is late; `None` for never.
    pub think_millis: Option<Millis>,
}

/// Whose moves the learner says.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Sides {
    /// Both sides'.
    #[default]
    Both,
    /// White's; Black's are read out.
    White,
    /// Black's; White's are read out.
    Black,
}

impl Sides {
    /// Tells whether the learner says the moves of this side.
    pub const fn says(self, color: Color) -> bool {
        match self {
            Sides::Both => true,
            Sides::White => color.is_white(),
            Sides::Black => color.is_black(),
        }
    }
}

/// The game that is about to be recited.
#[derive(Clone, Debug)]
pub struct ReciteOpening {
    /// The game, and how much of it.
    pub game: GameOpening,
    /// Whose moves the learner says.
    pub sides: Sides,
}

/// A move of the other side.
#[derive(Clone, Debug)]
pub struct ReadOut(pub Ply);

/// The saying of a game from memory.
#[derive(Debug)]
pub struct Recite {
    plan: OverGame<ReciteSettings>,
    line: Rc<Line>,
    /// The plies that were said or read out.
    plies: usize,
    /// The plies after which the whole position was asked last.
    rebuilt: usize,
}

impl Recite {
    /// Tells whether the whole position is asked after so many plies; at the end it is, where it is at all.
    fn is_rebuilt(&self, plies: usize) -> bool {
        let due = |every: Every| plies.is_multiple_of(every.size()) || plies == self.line.len();
        self.plan.settings.every.is_some_and(due)
    }

    /// Counts the whole positions that are asked in the first plies.
    fn rebuilds(&self, plies: usize) -> usize {
        (1..=plies).filter(|plies| self.is_rebuilt(*plies)).count()
    }

    /// Counts the moves that the learner says in the first plies.
    fn said(&self, plies: usize) -> usize {
        let played = self.line.plies()[..plies].iter();
        let says = |side| self.plan.settings.sides.says(side);
        played.filter(|ply| says(ply.side())).count()
    }
}

impl Exercise for Recite {
    type Plan = OverGame<ReciteSettings>;
    type Opening = ReciteOpening;
    type Told = ReadOut;
    type Summary = ReciteSummary;

    fn new(plan: OverGame<ReciteSettings>) -> Result<Recite, PlanError> {
        Ok(Recite {
            line: Rc::new(plan.script.line(0)?),
            plan,
            plies: 0,
            rebuilt: 0,
        })
    }

    fn script(plan: &OverGame<ReciteSettings>) -> Option<&Script> {
        Some(&plan.script)
    }

    fn rules(&self) -> Rules {
        Rules {
            trail: TRAIL,
            think_millis: self.plan.settings.think_millis,
            kind_times: KindTimes::None,
            ..Rules::default()
        }
    }

    fn opening(&self, _: &Past, again: bool) -> ReciteOpening {
        let checkpoints = self.rebuilds(self.line.len());
        ReciteOpening {
            game: self.plan.opening(&self.line, checkpoints, again),
            sides: self.plan.settings.sides,
        }
    }

    fn next(&mut self, _: &Past) -> Step<ReadOut> {
        let (plies, all) = (self.plies, self.line.len());
        let place = Place::new(self.line.clone(), plies);
        if plies > self.rebuilt && self.is_rebuilt(plies) {
            self.rebuilt = plies;
            let checkpoint = (self.rebuilds(plies), self.rebuilds(all));
            let question = LineQuestion::Rebuild(Rebuild {});
            return Step::ask(Asking::over(question, place, Some(checkpoint), (1, 1)));
        }
        let Some(ply) = self.line.plies().get(plies) else {
            return Step::End(Ending::Read(self.plan.result));
        };
        self.plies += 1;
        if self.plan.settings.sides.says(ply.side()) {
            let count = (self.said(plies + 1), self.said(all));
            return Step::ask(Asking::next_move(place, count, self.plan.settings.hint));
        }
        Step::Tell {
            told: ReadOut(*ply),
            to: Some(Place::new(self.line.clone(), plies + 1)),
        }
    }

    fn summary(&self, past: &Past) -> ReciteSummary {
        ReciteSummary::new(&self.line, &past.answers)
    }
}
