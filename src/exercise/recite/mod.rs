//! A game from memory: the learner says move after move of it, with two tries at each, and at wished-for
//! places where every piece stands.

mod summary;

use std::rc::Rc;

use super::asking::Asking;
use super::output::{Ending, GameOpening, Opening, OwnSummary, Told};
use super::past::{Past, Place};
use super::script::{Script, ScriptError};
use super::settings::ReciteSettings;
use super::step::{Exercise, Rules, Step};
use crate::game::{GameResult, Line, Tags};
use crate::question::{LineQuestion, Rebuild};

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
    /// The plies that were said or read out.
    plies: usize,
    /// The plies after which the whole position was asked last.
    rebuilt: usize,
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
        Ok(Recite {
            line: Rc::new(script.line(0)?),
            settings,
            tags,
            result,
            plies: 0,
            rebuilt: 0,
        })
    }

    /// Tells whether the whole position is asked after so many plies; at the end it is, where it is at all.
    fn is_rebuilt(&self, plies: usize) -> bool {
        let due = |every: usize| plies.is_multiple_of(every) || plies == self.line.len();
        self.settings.every.is_some_and(due)
    }

    /// Counts the whole positions that are asked in the first plies.
    fn rebuilds(&self, plies: usize) -> usize {
        (1..=plies).filter(|plies| self.is_rebuilt(*plies)).count()
    }

    /// Counts the moves that the learner says in the first plies.
    fn said(&self, plies: usize) -> usize {
        let played = self.line.plies()[..plies].iter();
        let says = |side| self.settings.sides.says(side);
        played.filter(|ply| says(ply.side())).count()
    }
}

impl Exercise for Recite {
    fn rules(&self) -> Rules {
        Rules {
            trail: TRAIL,
            think_millis: self.settings.think_millis,
            ..Rules::default()
        }
    }

    fn opening(&self, _: &Past, again: bool) -> Opening {
        Opening::Recite {
            game: GameOpening {
                tags: self.tags.clone(),
                start: self.line.start().clone(),
                first: self.line.plies().first().map(|ply| ply.number),
                plies: self.line.len(),
                checkpoints: self.rebuilds(self.line.len()),
                resumed: again,
            },
            sides: self.settings.sides,
        }
    }

    fn next(&mut self, _: &Past) -> Step {
        let (plies, all) = (self.plies, self.line.len());
        let place = Place::new(self.line.clone(), plies);
        if plies > self.rebuilt && self.is_rebuilt(plies) {
            self.rebuilt = plies;
            let checkpoint = (self.rebuilds(plies), self.rebuilds(all));
            let question = LineQuestion::Rebuild(Rebuild {});
            return Step::ask(Asking::over(question, place, Some(checkpoint), (1, 1)));
        }
        let Some(ply) = self.line.plies().get(plies) else {
            return Step::End(Ending::Read(self.result));
        };
        self.plies += 1;
        if self.settings.sides.says(ply.side()) {
            let count = (self.said(plies + 1), self.said(all));
            return Step::ask(Asking::next_move(place, count, self.settings.hint));
        }
        Step::Tell {
            told: Told::ReadOut(*ply),
            to: Some(Place::new(self.line.clone(), plies + 1)),
        }
    }

    fn summary(&self, past: &Past) -> OwnSummary {
        let summary = ReciteSummary::new(&self.line, &past.answers);
        OwnSummary::Recite(Box::new(summary))
    }
}
