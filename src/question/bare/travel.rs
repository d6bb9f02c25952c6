//! Journeys worth asking about.

use shakmaty::{Bitboard, Role, Square};

use super::super::choice::BareChoice;
use crate::board::Travel;

/// Draws a piece, a square to go to, and blockers that stand where they matter: near the way.
pub(super) fn draw(choice: &mut BareChoice<'_>) -> Travel {
    loop {
        let piece = choice.piece(|role| role != Role::Pawn);
        let to = choice.square();
        let Ok(open) = Travel::new(piece, to, Bitboard::EMPTY) else {
            continue;
        };
        // A bishop never gets to a square of the other color; that is asked now and then.
        if open.fewest().is_none() && !choice.dice.chance(1, 4) {
            continue;
        }
        if choice.blockers == 0 {
            // Two moves or more, mostly: one move is no journey.
            if open.fewest() != Some(1) || choice.dice.chance(1, 8) {
                return open;
            }
            continue;
        }
        if let Ok(travel) = Travel::new(piece, to, blockers(open, choice)) {
            return travel;
        }
    }
}

/// Puts half of the blockers on a shortest route or beside the piece, and the rest anywhere.
fn blockers(open: Travel, choice: &mut BareChoice<'_>) -> Bitboard {
    let free = !(Bitboard::from(open.piece().square()).with(open.to()));
    let near: Vec<Square> = open
        .route()
        .into_iter()
        .chain(open.steps(open.piece().square()))
        .filter(|square| free.contains(*square))
        .collect();
    let mut set = Bitboard::EMPTY;
    while set.count() < choice.blockers.min(32) {
        let chosen = if choice.dice.chance(1, 2) {
            choice.dice.pick(&near).copied()
        } else {
            Some(choice.square())
        };
        let square = chosen.unwrap_or_else(|| choice.square());
        if free.contains(square) {
            set.add(square);
        }
    }
    set
}
