//! Calculation: from a position shown, some plies are read on, then questions are asked about their end.

mod round;
mod settings;
mod stretch;

use super::output::{Ending, Given, OfAhead, Opening, Shown};
use super::past::Past;
use super::round::Round;
use super::staircase::Staircase;
use super::step::{Asking, Exercise, Rules, Step};
use super::summary::Own;
use crate::question::Verdict;
use stretch::{Strand, Stretch};

pub use settings::{AheadError, AheadSettings, Show};

/// Rounds of calculation. How many plies the next round has follows from every answer before it, unless
/// the settings say how many.
#[derive(Debug)]
pub struct Ahead {
    settings: AheadSettings,
    strands: Vec<Strand>,
    round: Option<Round>,
    /// The stretch of every round begun.
    used: Vec<Stretch>,
}

impl Ahead {
    /// Prepares a session.
    ///
    /// # Errors
    ///
    /// [`AheadError`] when no such session can be held.
    pub fn new(settings: AheadSettings) -> Result<Ahead, AheadError> {
        if settings.kinds().is_empty() {
            return Err(AheadError::NothingToAsk);
        }
        let strands = Strand::all(&settings.games)?;
        let shown = settings.show != Show::None;
        let longest = strands.iter().map(|strand| strand.longest(shown)).max();
        let longest = longest.filter(|longest| *longest > 0);
        let longest = longest.ok_or(AheadError::NoPlies)?;
        if let Some(asked) = settings.plies.filter(|plies| *plies > longest) {
            return Err(AheadError::TooShort { asked, longest });
        }
        let ahead = Ahead {
            settings,
            strands,
            round: None,
            used: Vec::new(),
        };
        let plies = ahead.plies(&Past::default());
        round::next(&ahead.settings, &ahead.strands, &[], plies).ok_or(AheadError::NothingToAsk)?;
        Ok(ahead)
    }

    /// How many plies the next round has, where the game has so many.
    fn plies(&self, past: &Past) -> usize {
        self.settings.plies.unwrap_or_else(|| {
            let mut staircase: Staircase = self.settings.staircase;
            for answered in past.answers() {
                // Where the position itself was in sight, the answer says nothing of how far one sees.
                let plies = answered.hardness.map_or(0, |hardness| hardness.plies);
                if plies > 0 {
                    staircase.hear(plies, answered.mark.verdict == Verdict::Right);
                }
            }
            staircase.presented() as usize
        })
    }
}

impl Exercise for Ahead {
    fn rules(&self) -> Rules {
        Rules {
            think_millis: self.settings.think_millis,
            looks: self.settings.looks,
            ..Rules::free(0)
        }
    }

    fn opening(&self, past: &Past, again: bool) -> Opening {
        // Of the rounds begun, the last one is still going on, unless all is over.
        let going_on = usize::from(self.round.is_some());
        Opening::Ahead(OfAhead {
            rounds: self.settings.rounds(),
            resumed: again.then(|| past.rounds() - going_on),
            plies: self.settings.plies,
            show: self.settings.show,
        })
    }

    fn next(&mut self, past: &Past) -> Step {
        if let Some(round) = &mut self.round {
            if let Some(step) = round.read() {
                return step;
            }
            if let Some((question, count)) = round.questions.next() {
                return Step::Ask(Asking::over(question, round.end(), None, count));
            }
        }
        let plies = self.plies(past);
        let next = round::next(&self.settings, &self.strands, &self.used, plies);
        let Some((stretch, round)) = next else {
            self.round = None;
            return Step::End(Ending::Read(None));
        };
        self.used.push(stretch);
        let step = Step::Show {
            given: Given::Position(Shown {
                round: self.used.len(),
                of: self.settings.rounds(),
                game: self.strands[stretch.strand].game,
                show: self.settings.show,
                start: round.line.start().clone(),
                heard_before: round.begins,
                plies: round.plies(),
            }),
            place: round.start(),
        };
        self.round = Some(round);
        step
    }

    fn summary(&self, past: &Past) -> Own {
        let follows = self.settings.plies.is_none();
        Own::Ahead {
            rounds: past.held(),
            next: follows.then(|| self.plies(past)),
        }
    }
}
