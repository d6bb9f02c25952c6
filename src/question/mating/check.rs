//! Which moves can give check, told without playing them.

use shakmaty::{Bitboard, ByRole, Chess, Move, Position, Role, attacks};

/// The ways in which the side to move of one position can give check.
pub(super) struct CheckWays {
    /// The squares from which a piece of each role attacks the enemy king.
    squares: ByRole<Bitboard>,
    /// The pieces that alone stand between a long-range piece of their side and the enemy king.
    screens: Bitboard,
}

impl CheckWays {
    pub(super) fn new(position: &Chess) -> CheckWays {
        let board = position.board();
        let occupied = board.occupied();
        let king = board
            .king_of(!position.turn())
            .expect("each side has its king");
        let bishop = attacks::bishop_attacks(king, occupied);
        let rook = attacks::rook_attacks(king, occupied);
        let ours = position.us();
        let far = Bitboard::EMPTY;
        let snipers = ours
            & (attacks::rook_attacks(king, far) & board.rooks_and_queens()
                | attacks::bishop_attacks(king, far) & board.bishops_and_queens());
        let screens = snipers
            .into_iter()
            .map(|sniper| attacks::between(king, sniper) & occupied)
            .filter(|between| between.count() == 1)
            .fold(Bitboard::EMPTY, |screens, between| screens | between);
        CheckWays {
            squares: ByRole {
                pawn: attacks::pawn_attacks(!position.turn(), king),
                knight: attacks::knight_attacks(king),
                bishop,
                rook,
                queen: bishop | rook,
                king: Bitboard::EMPTY,
            },
            screens: screens & ours,
        }
    }

    /// Tells whether a legal move may give check: `true` for every one that does, and for some that
    /// do not.
    pub(super) fn may(&self, mv: Move) -> bool {
        match mv {
            Move::Normal {
                role,
                from,
                to,
                promotion: None,
                ..
            } => self.screens.contains(from) || self.squares[role].contains(to),
            // These change the lines of the board in more than one place.
            Move::Normal { .. } | Move::EnPassant { .. } | Move::Castle { .. } => true,
            // Not a move of chess.
            Move::Put { .. } => false,
        }
    }
}

/// Tells whether the piece that moves takes one.
pub(super) fn takes(mv: Move) -> bool {
    mv.is_capture() || mv.promotion() == Some(Role::Queen)
}
