//! One round: a position, the plies read from it, and a replay of both.

use super::super::dice::Dice;
use super::super::replay::Replay;
use super::super::script::Script;
use super::super::settings::{By, Checkpoints, Settings, Stop};
use super::super::{Session, ThinkTimes};
use super::settings::{AheadSettings, Show};
use super::stretch::{Strand, Stretch, Wanted};
use crate::game::{Line, Start, Tags};

/// One round. The settings and the rounds before it fix all of it.
#[derive(Debug)]
pub(super) struct Round {
    pub(super) stretch: Stretch,
    /// How many questions it has.
    pub(super) questions: usize,
    pub(super) replay: Replay,
    /// The plies of the replay's line that had been read before this round.
    pub(super) begins: usize,
    /// The plies that are read in this round.
    pub(super) plies: usize,
    /// The position that the line starts from.
    pub(super) start: Start,
}

/// What the rounds before leave behind.
#[derive(Clone, Copy, Debug)]
pub(super) struct Before<'a> {
    pub(super) used: &'a [Stretch],
    pub(super) looks: u32,
    /// The plies to read, as far as the game has so many.
    pub(super) plies: usize,
    /// Where a game goes on from round to round, the plies after which the board was last seen.
    pub(super) seen_at: Option<usize>,
}

impl Round {
    /// Makes the next round; `None` where nothing is left to ask about.
    pub(super) fn next(
        settings: &AheadSettings,
        strands: &[Strand],
        before: Before<'_>,
    ) -> Option<Round> {
        let number = before.used.len();
        if number >= settings.rounds() {
            return None;
        }
        let mut dice = Dice::new(settings.seed, number as u64);
        let games = settings.games.len().max(1);
        // Where a game has nothing more to give, the next one has its turn.
        (0..games).find_map(|turn| {
            let wanted = Wanted {
                game: (number + turn) % games,
                plies: before.plies,
                shown: settings.show != Show::None,
                used: before.used,
                rounds_left: (settings.rounds() - number).div_ceil(games),
            };
            Round::of_game(settings, strands, before, wanted, &mut dice)
        })
    }

    /// Makes a round of one game: of the plies wanted, or of fewer where the learner did not choose
    /// how many.
    fn of_game(
        settings: &AheadSettings,
        strands: &[Strand],
        before: Before<'_>,
        wanted: Wanted<'_>,
        dice: &mut Dice,
    ) -> Option<Round> {
        let fewest = settings.plies.unwrap_or(1);
        (fewest..=wanted.plies).rev().find_map(|plies| {
            let seed = own_seed(dice);
            let order = Wanted { plies, ..wanted }.ordered(strands, dice);
            let rounds = order
                .into_iter()
                .map(|stretch| Round::new(settings, strands, before, stretch, seed));
            rounds.into_iter().find(|round| round.questions > 0)
        })
    }

    fn new(
        settings: &AheadSettings,
        strands: &[Strand],
        before: Before<'_>,
        stretch: Stretch,
        seed: u64,
    ) -> Round {
        let whole = &strands[stretch.strand].line;
        let shown = settings.show != Show::None;
        let from = if shown { stretch.from } else { 0 };
        let earlier = before
            .used
            .last()
            .filter(|used| !shown && used.strand == stretch.strand);
        let begins = earlier.map_or(0, |used| used.to);
        let line: Line = whole.cut(from, stretch.to);
        let plies = line.len() - begins;
        let own = Settings {
            by: By::Move,
            checkpoints: Checkpoints::At(vec![Stop::End]),
            ask: settings.kinds(),
            questions: settings.per_round.max(1),
            trail: plies,
            think_millis: settings.think_millis,
            looks: settings.looks.map(|all| all.saturating_sub(before.looks)),
            seed,
        };
        let mut replay = Replay::new(Script::of_line(&line), own, Tags::default(), None)
            .expect("the script of a line can be played");
        if let Some(seen_at) = before.seen_at.filter(|_| begins > 0) {
            replay.seen_before(seen_at);
        }
        Round {
            stretch,
            questions: replay.questions_at_end(),
            replay,
            begins,
            plies,
            start: line.start().clone(),
        }
    }

    pub(super) fn with_think_times(mut self, think: ThinkTimes) -> Round {
        self.replay = self.replay.with_think_times(think);
        self
    }

    /// The plies of this round that have been heard.
    pub(super) fn heard(&self) -> usize {
        self.replay.heard().saturating_sub(self.begins)
    }
}

/// A seed of the round's own, or every round would roll the same questions.
fn own_seed(dice: &mut Dice) -> u64 {
    dice.below(1 << 31) as u64
}
