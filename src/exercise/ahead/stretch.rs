//! Stretches of a game that are worth calculating: positions from which something happens.

use super::super::hardness::Lines;
use super::super::round::{can_be_shown, last_asked};
use super::super::script::{Script, ScriptError};
use crate::game::{Line, Ply};
use crate::question::Dice;

/// Of the stretches, sorted by how much happens in them, the first of so many parts is drawn from.
const BEST_PART: usize = 4;
/// So many stretches are drawn from at least, so that a seed decides something in a short game too.
const LEAST_CHOICE: usize = 4;

/// One line of a game, from the game's start.
#[derive(Debug)]
pub(super) struct GameLine {
    /// Which of the games.
    pub(super) game: usize,
    pub(super) line: Line,
    /// The plies that belong to another line too: a stretch that ends among them is that line's.
    shared: usize,
}

/// Some plies of a line, and the position before them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Stretch {
    /// Which line of all.
    pub(super) line: usize,
    /// The plies played before.
    pub(super) from: usize,
    /// The plies played at its end.
    pub(super) to: usize,
}

impl GameLine {
    /// Plays every line of every game.
    pub(super) fn all(games: &[Script]) -> Result<Vec<GameLine>, ScriptError> {
        let mut lines = Vec::new();
        for (game, script) in games.iter().enumerate() {
            for (number, moves) in script.lines.iter().enumerate() {
                lines.push(GameLine {
                    game,
                    line: script.line(number)?,
                    shared: moves.shared,
                });
            }
        }
        Ok(lines)
    }

    /// The length of the longest stretch.
    pub(super) fn longest(&self, shown: bool) -> usize {
        let end = last_asked(&self.line);
        let first = (0..=end).find(|from| !shown || can_be_shown(&self.line, *from));
        first.map_or(0, |from| end - from)
    }

    /// The stretches of so many plies that begin no earlier than `from`; `number` is the line's own.
    pub(super) fn stretches(
        &self,
        number: usize,
        from: usize,
        plies: usize,
        shown: bool,
    ) -> impl Iterator<Item = Stretch> {
        let ends = (last_asked(&self.line) + 1).saturating_sub(plies);
        (from..ends)
            .filter(move |from| from + plies > self.shared)
            .filter(move |from| !shown || can_be_shown(&self.line, *from))
            .map(move |from| Stretch {
                line: number,
                from,
                to: from + plies,
            })
    }
}

impl Stretch {
    fn overlaps(self, other: Stretch) -> bool {
        self.line == other.line && self.from < other.to && other.from < self.to
    }
}

/// How much happens on a stretch: captures, checks, lines of sight that open or close, promotions and
/// castling. The first of each counts most, so that a stretch with some of all goes before one with
/// many of one sort.
fn interest(line: &Line, from: usize, to: usize) -> usize {
    let plies = &line.plies()[from..to];
    let count = |happens: fn(&Ply) -> bool| plies.iter().filter(|ply| happens(ply)).count();
    let lines = Lines::between(line, from, to);
    let rated = |happened: usize| match happened {
        0 => 0,
        more => 4 + more.min(4),
    };
    rated(count(|ply| ply.taken_on().is_some()))
        + rated(count(|ply| ply.san.suffix.is_some()))
        + rated((lines.opened + lines.closed) as usize)
        + rated(count(|ply| ply.mv.is_promotion()))
        + count(|ply| ply.mv.is_castle())
}

/// Puts stretches in the order in which they are to be tried: those where most happens first, shuffled
/// among themselves, and those that repeat what was read before last.
pub(super) fn in_order(
    stretches: Vec<Stretch>,
    lines: &[GameLine],
    used: &[Stretch],
    dice: &mut Dice,
) -> Vec<Stretch> {
    let mut rated: Vec<(bool, usize, Stretch)> = stretches
        .into_iter()
        .filter(|stretch| !used.contains(stretch))
        .map(|stretch| {
            let line = &lines[stretch.line].line;
            let again = used.iter().any(|used| used.overlaps(stretch));
            (again, interest(line, stretch.from, stretch.to), stretch)
        })
        .collect();
    // Stable: of two alike, the earlier one in the game comes first.
    rated.sort_by_key(|(again, interest, _)| (*again, std::cmp::Reverse(*interest)));
    let fresh = rated.iter().filter(|(again, ..)| !again).count();
    let best = (fresh / BEST_PART).max(LEAST_CHOICE).min(rated.len());
    let mut order: Vec<Stretch> = rated.into_iter().map(|(_, _, stretch)| stretch).collect();
    dice.shuffle(&mut order[..best]);
    order
}
