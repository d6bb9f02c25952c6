//! One round: a position, and the plies read from it.

use super::super::dice::Dice;
use super::super::round::Round;
use super::settings::{AheadSettings, Show};
use super::stretch::{Strand, Stretch, Wanted};
use crate::game::Line;

/// Makes the next round, of so many plies or fewer, after the stretches that were used before; `None` where
/// nothing is left to ask about. The settings and the rounds before it fix all of it.
pub(super) fn next(
    settings: &AheadSettings,
    strands: &[Strand],
    used: &[Stretch],
    plies: usize,
) -> Option<(Stretch, Round)> {
    let number = used.len();
    if number >= settings.rounds() {
        return None;
    }
    let mut dice = Dice::new(settings.seed, number as u64);
    let games = settings.games.len().max(1);
    // Where a game has nothing more to give, the next one has its turn.
    (0..games).find_map(|turn| {
        let wanted = Wanted {
            game: (number + turn) % games,
            plies,
            shown: settings.show != Show::None,
            used,
            rounds_left: (settings.rounds() - number).div_ceil(games),
        };
        of_game(settings, strands, wanted, &mut dice)
    })
}

/// Makes a round of one game: of the plies wanted, or of fewer where the learner did not choose how
/// many.
fn of_game(
    settings: &AheadSettings,
    strands: &[Strand],
    wanted: Wanted<'_>,
    dice: &mut Dice,
) -> Option<(Stretch, Round)> {
    let fewest = settings.plies.unwrap_or(1);
    (fewest..=wanted.plies).rev().find_map(|plies| {
        let seed = dice.own_seed();
        let order = Wanted { plies, ..wanted }.ordered(strands, dice);
        let rounds = order.into_iter().map(|stretch| {
            (
                stretch,
                round(settings, strands, wanted.used, stretch, seed),
            )
        });
        rounds
            .into_iter()
            .find(|(_, round)| round.questions.count() > 0)
    })
}

fn round(
    settings: &AheadSettings,
    strands: &[Strand],
    used: &[Stretch],
    stretch: Stretch,
    seed: u64,
) -> Round {
    let whole = &strands[stretch.strand].line;
    let shown = settings.show != Show::None;
    let from = if shown { stretch.from } else { 0 };
    let same_game = |used: &&Stretch| !shown && used.strand == stretch.strand;
    let begins = used.last().filter(same_game).map_or(0, |used| used.to);
    let line: Line = whole.cut(from, stretch.to);
    let most = settings.per_round.max(1);
    Round::new(line, begins, &settings.kinds(), most, seed)
}
