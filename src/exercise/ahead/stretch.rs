//! Stretches of a game that are worth calculating: positions from which something happens.

use shakmaty::{EnPassantMode, Position};

use super::super::dice::Dice;
use super::super::hardness::Lines;
use super::super::script::{Script, ScriptError};
use crate::game::{Line, Ply};

/// Of the stretches, sorted by how much happens in them, the first of so many parts is drawn from.
const BEST_PART: usize = 4;
/// So many stretches are drawn from at least, so that a seed decides something in a short game too.
const LEAST_CHOICE: usize = 4;

/// One line of a game, from the game's start.
#[derive(Clone, Debug)]
pub(super) struct Strand {
    /// Which of the games.
    pub(super) game: usize,
    pub(super) line: Line,
    /// The plies that belong to another line too: a stretch that ends among them is that line's.
    shared: usize,
}

/// Some plies of a strand, and the position before them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Stretch {
    /// Which strand.
    pub(super) strand: usize,
    /// The plies played before.
    pub(super) from: usize,
    /// The plies played at its end.
    pub(super) to: usize,
}

impl Strand {
    /// Plays every line of every game.
    pub(super) fn all(games: &[Script]) -> Result<Vec<Strand>, ScriptError> {
        let mut strands = Vec::new();
        for (game, script) in games.iter().enumerate() {
            for number in 0..script.lines() {
                strands.push(Strand {
                    game,
                    line: script.line(number)?,
                    shared: script.shared(number),
                });
            }
        }
        Ok(strands)
    }

    /// The last ply after which there is something to ask: no line is read up to where the game is over,
    /// for the last words would tell most of the answers.
    fn end(&self) -> usize {
        let over = self.line.end().legal_moves().is_empty();
        self.line.len() - usize::from(over && !self.line.is_empty())
    }

    /// Tells whether the position after so many plies can be shown: where a pawn can be taken en
    /// passant, neither a diagram nor a list of pieces tells so.
    pub(super) fn can_be_shown(&self, plies: usize) -> bool {
        let position = self.line.position(plies);
        position.ep_square(EnPassantMode::Legal).is_none()
    }

    /// The length of the longest stretch.
    pub(super) fn longest(&self, shown: bool) -> usize {
        let mut starts = 0..=self.end();
        let first = starts.find(|from| !shown || self.can_be_shown(*from));
        first.map_or(0, |from| self.end() - from)
    }

    /// The stretches of so many plies that begin no earlier than `from`.
    fn stretches(
        &self,
        strand: usize,
        from: usize,
        plies: usize,
        shown: bool,
    ) -> impl Iterator<Item = Stretch> {
        let last = self.end().checked_sub(plies);
        let starts = from..last.map_or(from, |last| last + 1).max(from);
        starts
            .filter(move |from| from + plies > self.shared)
            .filter(move |from| !shown || self.can_be_shown(*from))
            .map(move |from| Stretch {
                strand,
                from,
                to: from + plies,
            })
    }
}

impl Stretch {
    fn overlaps(self, other: Stretch) -> bool {
        self.strand == other.strand && self.from < other.to && other.from < self.to
    }
}

/// How much happens on a stretch: captures, checks, lines of sight that open or close, promotions and
/// castling. The first of each counts most, so that a stretch with some of all goes before one with
/// many of one sort.
pub(super) fn interest(line: &Line, from: usize, to: usize) -> usize {
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

/// Where the next stretch may lie.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wanted<'a> {
    /// Which of the games.
    pub(super) game: usize,
    pub(super) plies: usize,
    /// Whether the position before it is shown; else the game goes on from the last one.
    pub(super) shown: bool,
    /// The stretches read before.
    pub(super) used: &'a [Stretch],
    /// How many rounds are still to come in this game, this one included.
    pub(super) rounds_left: usize,
}

impl Wanted<'_> {
    /// Lists the stretches in the order in which they are to be tried: those where most happens first,
    /// shuffled among themselves, and those that repeat what was read before last.
    pub(super) fn ordered(self, strands: &[Strand], dice: &mut Dice) -> Vec<Stretch> {
        let mut rated: Vec<(bool, usize, Stretch)> = self
            .possible(strands)
            .into_iter()
            .map(|stretch| {
                let line = &strands[stretch.strand].line;
                let again = self.used.iter().any(|used| used.overlaps(stretch));
                (again, interest(line, stretch.from, stretch.to), stretch)
            })
            .filter(|(_, _, stretch)| !self.used.contains(stretch))
            .collect();
        // Stable: of two alike, the earlier one in the game comes first.
        rated.sort_by_key(|(again, interest, _)| (*again, std::cmp::Reverse(*interest)));
        let fresh = rated.iter().filter(|(again, ..)| !again).count();
        let best = (fresh / BEST_PART).max(LEAST_CHOICE).min(rated.len());
        let mut order: Vec<Stretch> = rated.into_iter().map(|(_, _, stretch)| stretch).collect();
        dice.shuffle(&mut order[..best]);
        order
    }

    fn possible(self, strands: &[Strand]) -> Vec<Stretch> {
        let of_game = strands
            .iter()
            .enumerate()
            .filter(|(_, strand)| strand.game == self.game);
        if self.shown {
            return of_game
                .flat_map(|(number, strand)| strand.stretches(number, 0, self.plies, true))
                .collect();
        }
        // The game is read once from its start to its end: each round has its share of what is left.
        let Some((number, strand)) = of_game.take(1).next() else {
            return Vec::new();
        };
        let mut earlier = self.used.iter().rev();
        let read = earlier
            .find(|used| used.strand == number)
            .map_or(0, |used| used.to);
        let share = strand.end().saturating_sub(read) / self.rounds_left.max(1);
        strand
            .stretches(number, read, self.plies, false)
            .take_while(|stretch| stretch.from <= read + share.saturating_sub(self.plies))
            .collect()
    }
}
