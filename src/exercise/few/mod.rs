//! A few pieces are read out, some plies are played on, then questions are asked: round after round.

mod excerpts;
mod play_on;
mod position;

use super::output::{Ending, FewOpening, Opening, OwnSummary};
use super::past::Past;
use super::round::{Round, show};
use super::settings::{FewSettings, PlanError, Show};
use super::step::{Exercise, Rules, Step};
use crate::game::Line;
use crate::question::Dice;
use play_on::play_on;
use position::{PIECES, draw};

pub use excerpts::excerpts;

/// How many rounds in a row may turn out to have no question before the drill ends early. Where one
/// kind alone is asked, hardly a round has none, and it is passed over; but where only exchanges are
/// asked, about nine rounds in ten have none once the captures have been played.
const EMPTY_ROUNDS: usize = 400;

/// A drill of few pieces: each round reads pieces out, plays some plies on, and asks.
#[derive(Debug)]
pub struct Few {
    settings: FewSettings,
    /// The lines that rounds go through in turn; without any, each round draws its own.
    lines: Vec<Line>,
    /// The number of the next round, counted from 0, those without a question included.
    next: usize,
    round: Option<Round>,
}

impl Few {
    /// Prepares a drill.
    ///
    /// # Errors
    ///
    /// [`PlanError`] when no such drill can be held.
    pub fn new(settings: FewSettings) -> Result<Few, PlanError> {
        let lines = match &settings.from {
            None if PIECES.contains(&settings.pieces) => Vec::new(),
            None => {
                return Err(PlanError::Pieces {
                    asked: settings.pieces,
                });
            }
            Some(scripts) if scripts.is_empty() => return Err(PlanError::NothingToAskOfFew),
            Some(scripts) => (scripts.iter())
                .map(|script| script.line(0))
                .collect::<Result<_, _>>()?,
        };
        let few = Few {
            settings,
            lines,
            next: 0,
            round: None,
        };
        few.next_round(0).ok_or(PlanError::NothingToAskOfFew)?;
        Ok(few)
    }

    /// Makes the next round that has a question, with its number; `None` where all have been asked.
    fn next_round(&self, asked: usize) -> Option<(usize, Round)> {
        let all = self.settings.count();
        let left = all - asked;
        let mut numbers = (self.next..).take(if left == 0 { 0 } else { EMPTY_ROUNDS });
        numbers.find_map(|number| {
            let round = round(&self.settings, &self.lines, number, left)?;
            Some((number, round.counted_on(asked, all)))
        })
    }
}

impl Exercise for Few {
    fn rules(&self) -> Rules {
        Rules {
            trail: self.settings.trail,
            think_millis: self.settings.think_millis,
            looks: self.settings.looks,
            ..Rules::default()
        }
    }

    fn opening(&self, past: &Past, again: bool) -> Opening {
        Opening::Few(FewOpening {
            questions: self.settings.count(),
            resumed: again.then(|| past.answers().len()),
            plies: self.settings.plies,
        })
    }

    fn next(&mut self, past: &Past) -> Step {
        if let Some(step) = self.round.as_mut().and_then(Round::next) {
            return step;
        }
        let Some((number, round)) = self.next_round(past.answers().len()) else {
            return Step::End(Ending::Read(None));
        };
        self.next = number + 1;
        let place = round.place.clone();
        self.round = Some(round);
        show(place, (past.rounds() + 1, None), None, Show::List)
    }

    fn summary(&self, past: &Past) -> OwnSummary {
        OwnSummary::Few(past.held())
    }
}

/// Makes round `number`, counted from 0, which asks no more than `left` questions; `None` where it has none.
/// Its number and the settings fix all of it.
fn round(settings: &FewSettings, lines: &[Line], number: usize, left: usize) -> Option<Round> {
    let mut dice = Dice::new(settings.seed, number as u64);
    let line = if lines.is_empty() {
        let start = draw(settings.pieces, &mut dice);
        play_on(&start, settings.plies, &mut dice)
    } else {
        lines[number % lines.len()].clone()
    };
    let most = settings.per_round.clamp(1, left);
    Round::new(line, 0, &settings.kinds(), most, dice.own_seed())
}

#[cfg(test)]
mod tests;
