//! What is wrong with a route.

use shakmaty::{Bitboard, Square, attacks};

use super::{Pair, Travel};

/// The first fault of a route that is not a legal shortest one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Misstep {
    /// The piece does not move so.
    NotItsWay {
        /// Where the step begins.
        from: Square,
        /// Where it should have led.
        to: Square,
    },
    /// A blocker holds the square.
    Held {
        /// Where the step begins.
        from: Square,
        /// The square of the blocker.
        to: Square,
    },
    /// A blocker stands in the way.
    Blocked {
        /// Where the step begins.
        from: Square,
        /// Where it should have led.
        to: Square,
        /// The nearest blocker.
        by: Square,
    },
    /// The route ends on another square.
    EndsElsewhere(Square),
    /// The route gets there, but not in the fewest moves.
    Detour {
        /// Its moves.
        moves: usize,
        /// The fewest.
        fewest: u32,
    },
}

impl Misstep {
    pub(super) fn first(travel: Travel, route: &[Square]) -> Option<Misstep> {
        let start = travel.piece().square();
        let route = match route {
            [first, rest @ ..] if *first == start => rest,
            _ => route,
        };
        let mut at = start;
        for to in route {
            if let Some(fault) = Misstep::of_step(travel, at, *to) {
                return Some(fault);
            }
            at = *to;
        }
        if at != travel.to() {
            return Some(Misstep::EndsElsewhere(at));
        }
        let fewest = travel.fewest()?;
        let moves = route.len();
        (moves != fewest as usize).then_some(Misstep::Detour { moves, fewest })
    }

    fn of_step(travel: Travel, from: Square, to: Square) -> Option<Misstep> {
        if travel.steps(from).contains(to) {
            return None;
        }
        let free = attacks::attacks(from, travel.piece().piece(), Bitboard::EMPTY);
        if !free.contains(to) {
            return Some(Misstep::NotItsWay { from, to });
        }
        let nearest = Pair::new(from, to)
            .and_then(|pair| pair.between().find(|at| travel.blockers().contains(*at)));
        Some(match nearest {
            Some(by) => Misstep::Blocked { from, to, by },
            None => Misstep::Held { from, to },
        })
    }
}
