//! Calculation: from a position shown, some plies are read on, then questions are asked about their end.

mod stretch;

use super::output::{AheadOpening, Ending, Opening, OwnSummary};
use super::past::Past;
use super::round::{Round, last_asked, show};
use super::settings::{AheadSettings, PlanError, Show};
use super::step::{Exercise, Rules, Step};
use crate::question::Dice;
use stretch::{GameLine, Stretch, in_order};

/// Rounds of calculation. How many plies the next round has follows from every answer before it, unless
/// the settings say how many.
#[derive(Debug)]
pub struct Ahead {
    settings: AheadSettings,
    lines: Vec<GameLine>,
    round: Option<Round>,
    /// The stretch of every round begun.
    used: Vec<Stretch>,
}

impl Ahead {
    /// Prepares a session.
    ///
    /// # Errors
    ///
    /// [`PlanError`] when no such session can be held.
    pub fn new(settings: AheadSettings) -> Result<Ahead, PlanError> {
        if settings.kinds().is_empty() {
            return Err(PlanError::NothingToAsk);
        }
        let ahead = Ahead {
            lines: GameLine::all(&settings.games)?,
            settings,
            round: None,
            used: Vec::new(),
        };
        let longest = (ahead.lines.iter()).map(|line| line.longest(ahead.is_shown()));
        let longest = longest.max().filter(|longest| *longest > 0);
        let longest = longest.ok_or(PlanError::NoPlies)?;
        if let Some(asked) = ahead.settings.plies.filter(|plies| *plies > longest) {
            return Err(PlanError::TooShort { asked, longest });
        }
        let plies = ahead.plies(&Past::default());
        ahead.next_round(plies).ok_or(PlanError::NothingToAsk)?;
        Ok(ahead)
    }

    /// Whether the position before each round is shown; else the game goes on from the last one.
    fn is_shown(&self) -> bool {
        self.settings.show != Show::None
    }

    /// How many plies the next round has, where the game has so many.
    fn plies(&self, past: &Past) -> usize {
        self.settings.plies.unwrap_or_else(|| {
            let mut staircase = self.settings.staircase;
            for answered in &past.answers {
                // Where the position itself was in sight, the answer says nothing of how far one sees.
                let plies = answered.hardness.map_or(0, |hardness| hardness.plies);
                if plies > 0 {
                    staircase.hear(plies, answered.is_right());
                }
            }
            staircase.presented() as usize
        })
    }

    /// Makes the next round, of so many plies, or of fewer where the learner did not choose how many; `None`
    /// where nothing is left to ask about. The settings and the rounds before it fix all of it.
    fn next_round(&self, plies: usize) -> Option<(Stretch, Round)> {
        let number = self.used.len();
        if number >= self.settings.rounds() {
            return None;
        }
        let mut dice = Dice::new(self.settings.seed, number as u64);
        let games = self.settings.games.len().max(1);
        let fewest = self.settings.plies.unwrap_or(1);
        // Where a game has nothing more to give, the next one has its turn.
        (0..games).find_map(|turn| {
            (fewest..=plies).rev().find_map(|plies| {
                let seed = dice.own_seed();
                let stretches = self.stretches((number + turn) % games, plies);
                in_order(stretches, &self.lines, &self.used, &mut dice)
                    .into_iter()
                    .find_map(|stretch| Some((stretch, self.round(stretch, seed)?)))
            })
        })
    }

    /// Lists the stretches of so many plies that a round of a game can have.
    fn stretches(&self, game: usize, plies: usize) -> Vec<Stretch> {
        let lines = self.lines.iter().enumerate();
        let mut of_game = lines.filter(|(_, line)| line.game == game);
        if self.is_shown() {
            return of_game
                .flat_map(|(number, line)| line.stretches(number, 0, plies, true))
                .collect();
        }
        // The game is read once from its start to its end: each round has its share of what is left.
        let Some((number, line)) = of_game.next() else {
            return Vec::new();
        };
        let mut earlier = self.used.iter().rev();
        let read = earlier
            .find(|used| used.line == number)
            .map_or(0, |used| used.to);
        let rounds_left = self.settings.rounds() - self.used.len();
        let rounds_left = rounds_left.div_ceil(self.settings.games.len());
        let share = last_asked(&line.line).saturating_sub(read) / rounds_left;
        let last = read + share.saturating_sub(plies);
        line.stretches(number, read, plies, false)
            .take_while(|stretch| stretch.from <= last)
            .collect()
    }

    fn round(&self, stretch: Stretch, seed: u64) -> Option<Round> {
        let (from, begins) = match self.used.last() {
            _ if self.is_shown() => (stretch.from, 0),
            Some(used) if used.line == stretch.line => (0, used.to),
            Some(_) | None => (0, 0),
        };
        let line = self.lines[stretch.line].line.cut(from, stretch.to);
        let most = self.settings.per_round.max(1);
        Round::new(line, begins, &self.settings.kinds(), most, seed)
    }
}

impl Exercise for Ahead {
    fn rules(&self) -> Rules {
        Rules {
            think_millis: self.settings.think_millis,
            looks: self.settings.looks,
            ..Rules::default()
        }
    }

    fn opening(&self, past: &Past, again: bool) -> Opening {
        // Of the rounds begun, the last one is still going on, unless all is over.
        let going_on = usize::from(self.round.is_some());
        Opening::Ahead(AheadOpening {
            rounds: self.settings.rounds(),
            resumed: again.then(|| past.rounds() - going_on),
            plies: self.settings.plies,
            show: self.settings.show,
        })
    }

    fn next(&mut self, past: &Past) -> Step {
        if let Some(step) = self.round.as_mut().and_then(Round::next) {
            return step;
        }
        let Some((stretch, round)) = self.next_round(self.plies(past)) else {
            self.round = None;
            return Step::End(Ending::Read(None));
        };
        self.used.push(stretch);
        let count = (self.used.len(), Some(self.settings.rounds()));
        let game = self.lines[stretch.line].game;
        let place = round.place.clone();
        self.round = Some(round);
        show(place, count, Some(game), self.settings.show)
    }

    fn summary(&self, past: &Past) -> OwnSummary {
        let follows = self.settings.plies.is_none();
        OwnSummary::Ahead {
            rounds: past.held(),
            next: follows.then(|| self.plies(past)),
        }
    }
}
