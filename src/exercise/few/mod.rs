//! A few pieces are read out, some plies are played on, then questions are asked: round after round.

mod excerpts;
mod exposure;
mod plies;
mod position;
mod round;
mod settings;

use super::output::{Ending, Given, OfFew, Opening, RoundPieces};
use super::past::Past;
use super::round::Round;
use super::step::{Asking, Exercise, Rules, Step};
use super::summary::Own;
use crate::game::Line;

pub use excerpts::excerpts;
pub use plies::play_on;
pub use position::{PIECES, draw};
pub use settings::{FewError, FewSettings};

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
    /// [`FewError`] when no such drill can be held.
    pub fn new(settings: FewSettings) -> Result<Few, FewError> {
        let lines = settings.lines()?;
        if settings.kinds().is_empty() {
            return Err(FewError::NothingToAsk);
        }
        let mut few = Few {
            settings,
            lines,
            next: 0,
            round: None,
        };
        few.next_round(0).ok_or(FewError::NothingToAsk)?;
        few.next = 0;
        Ok(few)
    }

    /// Makes the next round that has a question; `None` where all have been asked.
    fn next_round(&mut self, asked: usize) -> Option<Round> {
        let left = self.settings.count() - asked;
        for number in self.next..self.next + EMPTY_ROUNDS {
            if left == 0 {
                break;
            }
            let round = round::round(&self.settings, &self.lines, number, left);
            if round.questions.count() > 0 {
                self.next = number + 1;
                return Some(round);
            }
        }
        None
    }
}

impl Exercise for Few {
    fn rules(&self) -> Rules {
        Rules {
            think_millis: self.settings.think_millis,
            looks: self.settings.looks,
            ..Rules::free(self.settings.trail)
        }
    }

    fn opening(&self, past: &Past, again: bool) -> Opening {
        Opening::Few(OfFew {
            questions: self.settings.count(),
            resumed: again.then(|| past.answers().len()),
            plies: self.settings.plies,
        })
    }

    fn next(&mut self, past: &Past) -> Step {
        let asked = past.answers().len();
        if let Some(round) = &mut self.round {
            if let Some(step) = round.read() {
                return step;
            }
            if let Some((question, _)) = round.questions.next() {
                // The questions are counted through all rounds.
                let count = (asked + 1, self.settings.count());
                return Step::Ask(Asking::over(question, round.end(), None, count));
            }
        }
        let Some(round) = self.next_round(asked) else {
            return Step::End(Ending::Read(None));
        };
        let step = Step::Show {
            given: Given::Pieces(RoundPieces {
                round: past.rounds() + 1,
                start: round.line.start().clone(),
                plies: round.plies(),
            }),
            place: round.start(),
        };
        self.round = Some(round);
        step
    }

    fn summary(&self, past: &Past) -> Own {
        Own::Few(past.held())
    }
}
