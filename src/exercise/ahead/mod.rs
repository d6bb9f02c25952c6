//! Calculation: from a position shown, some plies are read on, then questions are asked about their end.

mod stretch;

use std::convert::Infallible;

use serde::{Deserialize, Serialize};

use super::answers::RoundsSummary;
use super::beside::{Beside, OpenQuestion};
use super::bound::{Looks, Millis, PerRound, Plies, Rounds};
use super::past::Past;
use super::round::{Round, last_asked, show};
use super::script::Script;
use super::settings::{PlanError, Show};
use super::staircase::Staircase;
use super::step::{Begun, Ending, Exercise, KindTimes, Rules, Step};
use crate::question::{Dice, Kind};
use stretch::{GameLine, Stretch, in_order};

/// How a session of calculation is to go. The journal keeps it, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AheadSettings {
    /// The games that positions are taken from, round by round in turn; a game's sidelines too, where
    /// its script has them.
    pub games: Vec<Script>,
    /// How a position is given.
    pub show: Show,
    /// How many plies are read from each position; `None` to follow the learner.
    pub plies: Option<Plies>,
    /// Where the learner stood before the session; followed where `plies` is `None`.
    pub staircase: Staircase,
    /// How many rounds there are.
    pub rounds: Rounds,
    /// How many questions each round has at most.
    pub per_round: PerRound,
    /// The kinds of question that may be asked; those over the bare board are passed over.
    pub ask: Vec<Kind>,
    /// The think time in milliseconds; replies after it are marked late.
    pub think_millis: Option<Millis>,
    /// How many looks at the board the learner may take in all; `None` for any number.
    pub looks: Option<Looks>,
    /// The seed of all choices.
    pub seed: u64,
    /// Whether the think times follow the learner.
    #[serde(default)]
    pub follow: bool,
}

impl AheadSettings {
    /// The kinds that can be asked: all over a position, for a ply at least has been read.
    pub(super) fn kinds(&self) -> Vec<Kind> {
        let asked = self.ask.iter().copied();
        asked.filter(|kind| Kind::LINE.contains(kind)).collect()
    }
}

/// How a session of calculation went.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AheadSummary {
    /// In how many rounds the picture held.
    pub rounds: RoundsSummary,
    /// How many plies the next round would have, where that follows the learner.
    pub next: Option<usize>,
}

/// Rounds of calculation. How many plies the next round has follows from every answer before it, unless
/// the settings say how many.
#[derive(Debug)]
pub struct Ahead {
    settings: AheadSettings,
    lines: Vec<GameLine>,
    round: Option<Round>,
    /// What is asked of the position that is given, before plies are read from it.
    task: Option<OpenQuestion>,
    /// The stretch of every round begun.
    used: Vec<Stretch>,
}

/// So often the dice are thrown for the first round.
const THROWS: usize = 16;

impl Ahead {
    /// Whether the position before each round is shown; else the game goes on from the last one.
    fn is_shown(&self) -> bool {
        self.settings.show != Show::None
    }

    /// How many plies the next round has, where the game has so many.
    fn plies(&self, past: &Past) -> usize {
        let by_answers = || {
            let mut staircase = self.settings.staircase;
            for answered in &past.answers {
                // Where the position itself was in sight, the answer says nothing of how far one sees.
                let plies = answered.hardness.map_or(0, |hardness| hardness.plies);
                if plies > 0 && answered.counts() {
                    staircase.hear(plies, answered.is_right());
                }
            }
            staircase.presented() as usize
        };
        self.settings.plies.map_or_else(by_answers, Plies::size)
    }

    /// Makes the next round, of so many plies, or of fewer where the learner did not choose how many; `None`
    /// where nothing is left that is worth asking about; the first round takes what is hardly so, where there is
    /// nothing better. The settings and the rounds before it fix all of it.
    fn next_round(&self, plies: usize) -> Option<(Stretch, Round)> {
        let number = self.used.len();
        if number >= self.settings.rounds.size() {
            return None;
        }
        let mut dice = Dice::new(self.settings.seed, number as u64);
        let games = self.settings.games.len().max(1);
        let fewest = self.settings.plies.map_or(1, Plies::size);
        let mut find = |strict| {
            // Where a game has nothing more to give, the next one has its turn.
            (0..games).find_map(|turn| {
                (fewest..=plies).rev().find_map(|plies| {
                    let seed = dice.own_seed();
                    let stretches = self.stretches((number + turn) % games, plies);
                    in_order(stretches, &self.lines, &self.used, &mut dice)
                        .into_iter()
                        .find_map(|stretch| Some((stretch, self.round(stretch, strict, seed)?)))
                })
            })
        };
        if number > 0 {
            return find(true);
        }
        // What a throw of the dice refuses may be its turn at another.
        let found = (0..THROWS).find_map(|_| find(true));
        found.or_else(|| find(false))
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
        let rounds_left = self.settings.rounds.size() - self.used.len();
        let rounds_left = rounds_left.div_ceil(self.settings.games.len());
        let share = last_asked(&line.line).saturating_sub(read) / rounds_left;
        let last = read + share.saturating_sub(plies);
        line.stretches(number, read, plies, false)
            .take_while(|stretch| stretch.from <= last)
            .collect()
    }

    fn round(&self, stretch: Stretch, strict: bool, seed: u64) -> Option<Round> {
        let (from, begins) = match self.used.last() {
            _ if self.is_shown() => (stretch.from, 0),
            Some(used) if used.line == stretch.line => (0, used.to),
            Some(_) | None => (0, 0),
        };
        let line = self.lines[stretch.line].line.cut(from, stretch.to);
        let most = self.settings.per_round.size();
        Round::new(line, begins, strict, &self.settings.kinds(), most, seed)
    }
}

impl Exercise for Ahead {
    type Plan = AheadSettings;
    type Opening = Begun<AheadSettings>;
    type Told = Infallible;
    type Summary = AheadSummary;

    fn new(settings: AheadSettings) -> Result<Ahead, PlanError> {
        if settings.kinds().is_empty() {
            return Err(PlanError::NothingToAsk);
        }
        let ahead = Ahead {
            lines: GameLine::all(&settings.games)?,
            settings,
            round: None,
            task: None,
            used: Vec::new(),
        };
        let longest = (ahead.lines.iter()).map(|line| line.longest(ahead.is_shown()));
        let longest = longest.max().filter(|longest| *longest > 0);
        let longest = longest.ok_or(PlanError::NoPlies)?;
        let asked = ahead.settings.plies.map_or(0, Plies::size);
        if asked > longest {
            return Err(PlanError::TooShort { asked, longest });
        }
        let plies = ahead.plies(&Past::default());
        ahead.next_round(plies).ok_or(PlanError::NothingToAsk)?;
        Ok(ahead)
    }

    fn script(settings: &AheadSettings) -> Option<&Script> {
        match settings.games.as_slice() {
            [script] => Some(script),
            _ => None,
        }
    }

    fn rules(&self) -> Rules {
        Rules {
            kind_times: KindTimes::Wished.following(self.settings.follow),
            think_millis: self.settings.think_millis,
            looks: self.settings.looks,
            ..Rules::default()
        }
    }

    fn opening(&self, past: &Past, again: bool) -> Begun<AheadSettings> {
        Begun::new(&self.settings, again.then(|| past.rounds_done()))
    }

    fn next(&mut self, past: &Past) -> Step<Infallible> {
        if let Some(question) = self.task.take() {
            return Step::AskOpen(question);
        }
        if let Some(step) = self.round.as_mut().and_then(Round::next) {
            return step;
        }
        let Some((stretch, round)) = self.next_round(self.plies(past)) else {
            return Step::End(Ending::Read(None));
        };
        self.used.push(stretch);
        let count = (self.used.len(), Some(self.settings.rounds.size()));
        let game = self.lines[stretch.line].game;
        let place = round.place.clone();
        self.round = Some(round);
        let mut beside = self.settings.games[game].beside((0, stretch.from));
        self.task = beside.find_map(|(_, what)| match what {
            Beside::Open(question) => Some(question.clone()),
            Beside::Ask(_) | Beside::Comment(_) => None,
        });
        show(place, count, Some(game), self.settings.show)
    }

    fn summary(&self, past: &Past) -> AheadSummary {
        let follows = self.settings.plies.is_none();
        AheadSummary {
            rounds: past.rounds_held(),
            next: follows.then(|| self.plies(past)),
        }
    }
}
