//! What taking on a square wins.

use std::collections::HashMap;

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Chess, Color, Move, Position, Role, Square};

use super::super::json::text;
use super::super::mating::after;
use super::super::{Choice, Disclosure, LineKind, Reply, Scene, Share, Tally, Truth};
use super::worth;
use crate::game::{Ply, TrackedPiece};

/// Asks for the net gain of the side to move if it takes on a square and both sides go on taking
/// there, legally, for as long as it pays each. To be asked only where it can take there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Exchange {
    /// The square, on which a piece of the other side stands.
    #[serde(with = "text")]
    pub square: Square,
}

/// The line of captures that is best for both sides.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ExchangeWhy {
    /// The captures in order, each with the points won so far by the side that began; negative where it
    /// has lost some.
    pub takings: Vec<(Ply, i32)>,
    /// The side that would have to take next.
    pub next: Color,
    /// The capture with which that side could still take, though it does not pay, and the points that it
    /// would win in the end: none or less.
    pub holds_back: Option<(Ply, i32)>,
    /// The points that were said.
    pub said: Option<i32>,
}

/// The best captures on one square. What is left on the board and stands on the square decides everything, in
/// whatever order the others went.
type Known = HashMap<(Bitboard, Role, Color), Option<(Move, i32)>>;

/// Finds the best capture of the side to move on a square, the one by the least piece where several are best,
/// and what it comes to in the end for that side.
fn best(square: Square, position: &Chess, known: &mut Known) -> Option<(Move, i32)> {
    let board = position.board();
    let victim = board.piece_at(square)?;
    if victim.color == position.turn() {
        return None;
    }
    let key = (board.occupied(), victim.role, position.turn());
    if let Some(known) = known.get(&key) {
        return *known;
    }
    let mut found: Option<(Move, i32)> = None;
    for role in Role::ALL {
        for mv in position.san_candidates(role, square) {
            let answer = best(square, &after(position, mv), known);
            let points = gain(mv) - answer.map_or(0, |(_, points)| points.max(0));
            if found.is_none_or(|(_, most)| points > most) {
                found = Some((mv, points));
            }
        }
    }
    known.insert(key, found);
    found
}

/// Finds the most that the side to move can win by taking on one square; 0 where it wins nothing.
pub(crate) fn most_won(position: &Chess) -> i32 {
    let captures = position.capture_moves().into_iter();
    let squares: Bitboard = captures.map(Move::to).collect();
    let best = |square| best(square, position, &mut Known::new());
    let won = squares.into_iter().filter_map(best);
    won.map(|(_, points)| points).max().unwrap_or(0).max(0)
}

/// What a capture wins at once; a pawn that promotes becomes the new piece.
pub(crate) fn gain(mv: Move) -> i32 {
    let becomes = mv.promotion().unwrap_or(Role::Pawn);
    let promoted = worth(becomes) - worth(Role::Pawn);
    mv.capture().map_or(0, worth) + promoted
}

impl Exchange {
    /// Tells whether the side to move can take a piece on a square.
    pub fn can_begin(scene: Scene<'_>, square: Square) -> bool {
        let position = scene.position();
        let mut captures = position.capture_moves().into_iter();
        position.them().contains(square) && captures.any(|mv| mv.to() == square)
    }
}

impl LineKind for Exchange {
    const VARIED: bool = false;

    const TELLS_CHECK: bool = true;

    const MOVES: Share = Share::All;

    type Why = ExchangeWhy;

    /// A capture that cannot be made wins nothing.
    fn truth(self, scene: Scene<'_>) -> Truth {
        let best = best(self.square, scene.position(), &mut Known::new());
        Truth::Points(best.map_or(0, |(_, points)| points))
    }

    fn fits(self, scene: Scene<'_>) -> bool {
        Exchange::can_begin(scene, self.square)
    }

    fn why(self, scene: Scene<'_>, _: &Tally, reply: Option<&Reply>) -> ExchangeWhy {
        let mut known = Known::new();
        let mut position = scene.position().clone();
        let mut takings = Vec::new();
        let mut count = 0;
        loop {
            let next = position.turn();
            let best = best(self.square, &position, &mut known);
            let pays = |(_, points): &_| takings.is_empty() || *points > 0;
            let Some((mv, _)) = best.filter(pays) else {
                let holds_back = best.map(|(mv, points)| (Ply::new(&position, mv), points));
                return ExchangeWhy {
                    takings,
                    next,
                    holds_back,
                    said: reply.and_then(Reply::points),
                };
            };
            let won = gain(mv);
            let is_own = next == scene.position().turn();
            count += if is_own { won } else { -won };
            takings.push((Ply::new(&position, mv), count));
            position.play_unchecked(mv);
        }
    }

    fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        scene.piece_on(self.square)
    }

    fn disclose(self, disclosure: &mut Disclosure, _: &Truth, _: Scene<'_>) {
        disclosure.names(self.square);
    }

    /// A square where the side to move can take.
    fn draw(choice: &mut Choice<'_>) -> Option<Exchange> {
        let them = choice.scene.position().them().into_iter();
        let targets: Bitboard = them
            .filter(|square: &Square| Exchange::can_begin(choice.scene, *square))
            .collect();
        let square = choice.pick(targets & choice.squares, targets & !choice.squares)?;
        Some(Exchange { square })
    }
}
