//! A game from memory: the learner says move after move of it, with two tries at each, and at wished-for
//! places where every piece stands.

mod chunks;
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
use crate::game::{Line, MoveNumber, Ply};
use crate::question::{LineQuestion, Rebuild};

use chunks::Chunks;

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
    /// How many plies are heard and said at a time while the game is being learned; `None` where all of it is
    /// said from memory.
    pub chunk: Option<Every>,
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
    /// How many plies are learned at a time; `None` where all is said from memory.
    pub chunk: Option<usize>,
    /// Whose moves the learner says.
    pub sides: Sides,
}

/// What is told between the moves.
#[derive(Clone, Debug)]
pub enum ReciteTold {
    /// A move of the other side.
    ReadOut(Ply),
    /// So many plies are about to be read, to be said then.
    Listen {
        /// How many.
        plies: usize,
        /// Whether they come back after a slip.
        again: bool,
    },
    /// All from the start is to be said.
    Together {
        /// The last move.
        last: MoveNumber,
        /// Whether that is the whole game, said from memory for the first time: this counts.
        counts: bool,
    },
}

/// The saying of a game from memory.
#[derive(Debug)]
pub struct Recite {
    plan: OverGame<ReciteSettings>,
    line: Rc<Line>,
    /// The plies that were said or read out.
    plies: usize,
    /// The plies after which the whole position was asked last.
    rebuilt: usize,
    /// Where the learning stands, in a game that is learned in chunks.
    chunks: Option<Chunks>,
    /// What is told and read before the stretch is said, the last first.
    due: Vec<Step<ReciteTold>>,
    /// How many answers there were before the stretch.
    answers: usize,
    /// How often the whole game was begun from memory.
    wholes: usize,
}

impl Recite {
    /// Turns to the next stretch where one has been said; `None` once all is said.
    fn turn(&mut self, past: &Past) -> Option<()> {
        let Some(chunks) = &mut self.chunks else {
            return (self.plies < self.line.len()).then_some(());
        };
        if self.plies == chunks.pass.to {
            let said = past.answers[self.answers..].iter();
            let mut slips = said.filter(|answered| !answered.is_right());
            let slip = slips.find_map(|answered| summary::said_at(answered));
            chunks.turn(slip.map(|(ply, _)| ply)).then_some(())?;
            self.answers = past.answers.len();
            (self.plies, self.rebuilt) = (chunks.pass.from, 0);
            self.lead();
        }
        Some(())
    }

    /// Lays out what is told and read before a stretch is said.
    fn lead(&mut self) {
        let Some(pass) = self.chunks.as_ref().map(|chunks| chunks.pass) else {
            return;
        };
        let told = if pass.is_heard {
            let from = Place::new(self.line.clone(), pass.from);
            self.due.push(Step::Read { from, to: pass.to });
            let (plies, again) = (pass.to - pass.from, pass.again);
            ReciteTold::Listen { plies, again }
        } else {
            self.wholes += usize::from(self.is_whole());
            ReciteTold::Together {
                last: self.line.plies()[pass.to - 1].number,
                counts: self.wholes == 1,
            }
        };
        self.due.push(Step::Tell { told, to: None });
    }

    /// Tells whether the whole game is being said from memory.
    fn is_whole(&self) -> bool {
        self.chunks.as_ref().is_none_or(Chunks::is_whole)
    }

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
    type Told = ReciteTold;
    type Summary = ReciteSummary;

    fn new(plan: OverGame<ReciteSettings>) -> Result<Recite, PlanError> {
        let line = Rc::new(plan.script.line(0)?);
        let chunk = plan.settings.chunk.filter(|_| !line.is_empty());
        let mut recite = Recite {
            chunks: chunk.map(|size| Chunks::new(size, line.len())),
            line,
            plan,
            plies: 0,
            rebuilt: 0,
            due: Vec::new(),
            answers: 0,
            wholes: 0,
        };
        recite.lead();
        Ok(recite)
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
            game: self.plan.opening(&self.line, Some(checkpoints), again),
            sides: self.plan.settings.sides,
            chunk: self.plan.settings.chunk.map(Every::size),
        }
    }

    fn next(&mut self, past: &Past) -> Step<ReciteTold> {
        let (plies, all) = (self.plies, self.line.len());
        let place = Place::new(self.line.clone(), plies);
        if plies > self.rebuilt && self.is_rebuilt(plies) && self.is_whole() {
            self.rebuilt = plies;
            let checkpoint = (self.rebuilds(plies), Some(self.rebuilds(all)));
            let question = LineQuestion::Rebuild(Rebuild {});
            let mut asking = Asking::over(question, place, Some(checkpoint), (1, 1));
            asking.repeat = self.wholes > 1;
            return Step::ask(asking);
        }
        if self.turn(past).is_none() {
            let end = Place::new(self.line.clone(), all);
            if !past.is_at(&end) {
                return Step::Turn(end);
            }
            return Step::End(Ending::Read(self.plan.result));
        }
        if let Some(step) = self.due.pop() {
            return step;
        }
        let (from, to) = match &self.chunks {
            Some(chunks) => (chunks.pass.from, chunks.pass.to),
            None => (0, all),
        };
        let plies = self.plies;
        let ply = self.line.plies()[plies];
        self.plies += 1;
        if self.plan.settings.sides.says(ply.side()) {
            let before = self.said(from);
            let count = (self.said(plies + 1) - before, self.said(to) - before);
            let place = Place::new(self.line.clone(), plies);
            let mut asking = Asking::next_move(place, count, self.plan.settings.hint);
            asking.helped = !self.is_whole();
            asking.repeat = self.is_whole() && self.wholes > 1;
            return Step::ask(asking);
        }
        Step::Tell {
            told: ReciteTold::ReadOut(ply),
            to: Some(Place::new(self.line.clone(), plies + 1)),
        }
    }

    fn summary(&self, past: &Past) -> ReciteSummary {
        let learned = self.chunks.as_ref().map(|chunks| chunks.learned);
        ReciteSummary::new(&self.line, &past.answers, learned)
    }
}
