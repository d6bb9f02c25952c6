//! What a line has left behind that its last position does not show.

use shakmaty::{Bitboard, ByColor, Color, Move, Position, Role, Square};

use crate::game::Start;

/// What decides about a move and cannot be seen in the position alone: where each king had a right to castle at the start of the line, and which pawns came by a double step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Past {
    /// Where the king of each side had a right to castle at the start of the line.
    pub(super) castling_homes: ByColor<Option<Square>>,
    /// Where the pawns stand that came by their double step in this line.
    pub(super) double_steps: Bitboard,
}

impl Past {
    /// Begins a line.
    pub fn new(start: &Start) -> Past {
        let position = start.position();
        let home = |side: Color| {
            let king = position.board().king_of(side);
            king.filter(|_| position.castles().has_color(side))
        };
        Past {
            castling_homes: ByColor::new_with(home),
            double_steps: Bitboard::EMPTY,
        }
    }

    /// Follows one more ply.
    #[inline]
    pub fn after(mut self, mv: Move) -> Past {
        // Whoever arrives on a square decides for it, and no other move ends where a double step does.
        if let Move::Normal { role, from, to, .. } = mv {
            let is_double = role == Role::Pawn && from.rank().distance(to.rank()) == 2;
            self.double_steps.set(to, is_double);
        }
        self
    }
}
