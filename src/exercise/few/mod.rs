//! A few pieces are read out, some plies are played on, then questions are asked: round after round.

mod play_on;
mod position;

use std::convert::Infallible;

use serde::{Deserialize, Serialize};
use shakmaty::Position;

use super::answers::RoundsSummary;
use super::bound::{Count, FewPieces, FewPlies, Looks, Millis, Questions};
use super::past::Past;
use super::round::{Round, can_be_shown, last_asked, show};
use super::script::Script;
use super::settings::{PlanError, Show};
use super::step::{Begun, Ending, Exercise, KindTimes, Rules, Step};
use crate::game::{Line, Start};
use crate::question::{Dice, Kind, LineQuestion, Truth};
use play_on::play_on;
use position::draw;

/// How many rounds in a row may turn out to have no question before the drill ends early. Of most kinds nearly
/// every round has one; where only mates are asked, few have: 50 of these take 0.8 to 0.9 s of processor time to find
/// (`drill few --ask mate --count 50`, seeds 1 to 3).
const EMPTY_ROUNDS: usize = 6_000;

/// How many rounds over given lines are looked at for a question that was not asked before.
const REPEATS: usize = 16;

/// The most pieces of a position that is drawn; more come out of games.
pub const MOST_DRAWN: usize = 10;

/// How far apart two positions of the same game stand at least, in plies.
const APART: usize = 4;

/// How a drill of few pieces is to go. The journal keeps it, so that another process can go on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct FewSettings {
    /// How many pieces stand on the board, the kings counted; with lines from a game, how many at most.
    pub pieces: FewPieces,
    /// How many plies are played on before the questions come; 0 for none.
    pub plies: FewPlies,
    /// How many questions are asked in all.
    pub count: Count,
    /// How many questions each round has at most.
    pub per_round: Questions,
    /// The kinds of question that may be asked; those over the bare board are passed over.
    pub ask: Vec<Kind>,
    /// The think time in milliseconds; replies after it are marked late.
    pub think_millis: Option<Millis>,
    /// How many looks at the board the learner may take in all; `None` for any number.
    pub looks: Option<Looks>,
    /// The seed of all choices.
    pub seed: u64,
    /// The lines that the rounds go through in turn, as [`excerpts`] cuts them out
    /// of a game; without them, positions are drawn and plies made up.
    pub from: Option<Vec<Script>>,
    /// Whether the think times follow the learner.
    #[serde(default)]
    pub follow: bool,
}

impl FewSettings {
    /// The kinds that can be asked: before any ply, what became of the pieces is no question, nor are
    /// rights to castle where positions are drawn without any.
    pub(super) fn kinds(&self) -> Vec<Kind> {
        let can_be_asked = |kind: &Kind| match kind {
            Kind::Whereabouts | Kind::Taken | Kind::Played => self.plies.size() > 0,
            Kind::Rights => self.from.is_some(),
            kind => Kind::LINE.contains(kind),
        };
        self.ask.iter().copied().filter(can_be_asked).collect()
    }

    /// Plays the lines that the rounds go through in turn; none where positions are drawn.
    pub(super) fn lines(&self) -> Result<Vec<Line>, PlanError> {
        let scripts = self.from.iter().flatten();
        Ok(scripts
            .map(|script| script.line(0))
            .collect::<Result<_, _>>()?)
    }
}

/// A drill of few pieces: each round reads pieces out, plays some plies on, and asks.
#[derive(Debug)]
pub struct Few {
    settings: FewSettings,
    /// The lines that rounds go through in turn; without any, each round draws its own.
    lines: Vec<Line>,
    /// The number of the next round, counted from 0, those without a question included.
    next: usize,
    round: Option<Round>,
    /// What was asked over the given lines, with its answers.
    asked: Vec<(LineQuestion, Truth)>,
}

impl Few {
    /// Makes the next round that has a question, with its number; `None` where all have been asked. The first round
    /// takes what is hardly worth asking, where there is nothing better.
    fn next_round(&self, asked: usize) -> Option<(usize, Round)> {
        let all = self.settings.count.size();
        let left = all - asked;
        let find = |strict| {
            let mut numbers = (self.next..).take(if left == 0 { 0 } else { EMPTY_ROUNDS });
            let rounds = numbers.by_ref().filter_map(|number| {
                let round = round(&self.settings, &self.lines, number, strict, left)?;
                Some((number, round.counted_on(asked, all)))
            });
            let mut first = None;
            for (number, round) in rounds.take(REPEATS) {
                let fresh = round.clone().without(&self.asked);
                if fresh.is_some() {
                    return fresh.map(|fresh| (number, fresh));
                }
                first.get_or_insert((number, round));
            }
            first
        };
        find(true).or_else(|| if asked == 0 { find(false) } else { None })
    }
}

impl Exercise for Few {
    type Plan = FewSettings;
    type Opening = Begun<FewSettings>;
    type Told = Infallible;
    type Summary = RoundsSummary;

    fn new(settings: FewSettings) -> Result<Few, PlanError> {
        let lines = settings.lines()?;
        if settings.kinds().is_empty() || (lines.is_empty() && settings.from.is_some()) {
            return Err(PlanError::NothingToAsk);
        }
        let few = Few {
            settings,
            lines,
            next: 0,
            round: None,
            asked: Vec::new(),
        };
        few.next_round(0).ok_or(PlanError::NothingToAsk)?;
        Ok(few)
    }

    fn rules(&self) -> Rules {
        Rules {
            kind_times: KindTimes::Wished.following(self.settings.follow),
            think_millis: self.settings.think_millis,
            looks: self.settings.looks,
            ..Rules::default()
        }
    }

    fn opening(&self, past: &Past, again: bool) -> Begun<FewSettings> {
        Begun::new(&self.settings, again.then_some(past.answers.len()))
    }

    fn next(&mut self, past: &Past) -> Step<Infallible> {
        if let Some(step) = self.round.as_mut().and_then(Round::next) {
            return step;
        }
        let Some((number, round)) = self.next_round(past.answers.len()) else {
            return Step::End(Ending::Read(None));
        };
        self.next = number + 1;
        let place = round.place.clone();
        if !self.lines.is_empty() {
            self.asked.extend(round.asked());
        }
        self.round = Some(round);
        show(place, (past.rounds() + 1, None), None, Show::List)
    }

    fn summary(&self, past: &Past) -> RoundsSummary {
        past.rounds_held()
    }
}

/// Makes round `number`, counted from 0, which asks no more than `left` questions; `None` where it has none.
/// Its number and the settings fix all of it.
pub(super) fn round(
    settings: &FewSettings,
    lines: &[Line],
    number: usize,
    strict: bool,
    left: usize,
) -> Option<Round> {
    let mut dice = Dice::new(settings.seed, number as u64);
    let line = if lines.is_empty() {
        let start = draw(settings.pieces.size().min(MOST_DRAWN), &mut dice);
        play_on(&start, settings.plies.size(), &mut dice)
    } else {
        lines[number % lines.len()].clone()
    };
    let most = settings.per_round.size().min(left);
    Round::new(line, 0, strict, &settings.kinds(), most, dice.own_seed())
}

/// Plays some plies on from a position of one's own; the seed and the number fix them.
pub fn played_on(start: &Start, plies: usize, seed: u64, number: u64) -> Script {
    Script::of_line(&play_on(start, plies, &mut Dice::new(seed, number)))
}

/// Cuts lines of up to `plies` plies out of `line`, from positions with `pieces` pieces or fewer, in the
/// order of the game and not overlapping.
///
/// A line is shorter only where the game ends too soon for one of full length. No line ends with the
/// game over, and none starts where a pawn can be taken en passant, which a list of pieces does not
/// tell.
///
/// # Errors
///
/// [`PlanError::TooManyPieces`] when the game never gets down to so few pieces, and
/// [`PlanError::NothingPlayedOn`] when nothing is played on from there.
pub fn excerpts(line: &Line, pieces: usize, plies: usize) -> Result<Vec<Script>, PlanError> {
    let count = |at: usize| line.position(at).board().occupied().count();
    let fewest = count(line.len());
    if fewest > pieces {
        return Err(PlanError::TooManyPieces {
            asked: pieces,
            fewest,
        });
    }
    let end = last_asked(line);
    let starts = || {
        let few = (0..=end).filter(|at| count(*at) <= pieces && can_be_shown(line, *at));
        few.filter(|at| !line.position(*at).legal_moves().is_empty())
    };
    let mut cuts = Vec::new();
    let mut free = 0;
    for from in starts().filter(|from| from + plies <= end) {
        if from >= free {
            cuts.push((from, from + plies));
            free = from + plies.max(APART);
        }
    }
    if cuts.is_empty() {
        let first = starts().find(|from| *from < end);
        cuts.extend(first.map(|from| (from, end)));
    }
    if cuts.is_empty() {
        return Err(PlanError::NothingPlayedOn { pieces });
    }
    Ok(cuts
        .into_iter()
        .map(|(from, to)| Script::of_line(&line.cut(from, to)))
        .collect())
}

#[cfg(test)]
mod tests;
