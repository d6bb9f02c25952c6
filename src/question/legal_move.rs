//! A legal move as a coach tells it: who goes where, what it takes, and what it does to the enemy king.

use shakmaty::{CastlingMode, CastlingSide, Chess, Move, Piece, Position, Role, Square};

use super::Attempt;

/// A legal move with its piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LegalMove {
    /// The move.
    pub attempt: Attempt,
    /// The piece that goes; the king in castling.
    pub piece: Piece,
    /// The piece that it takes and where that one stood.
    pub takes: Option<(Square, Piece)>,
    /// The wing on which it castles.
    pub castling: Option<CastlingSide>,
}

/// A legal move and what it does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct MoveEffect {
    /// The move.
    pub legal_move: LegalMove,
    /// The pieces that give check after it, the lowest square first.
    pub checkers: Vec<(Square, Piece)>,
    /// A legal move with which the other side goes on, the king's before all others; `None` where
    /// it has none.
    pub answer: Option<LegalMove>,
}

impl LegalMove {
    pub(super) fn new(position: &Chess, mv: Move, mode: CastlingMode) -> LegalMove {
        let side = position.turn();
        let taken_on = match mv {
            Move::EnPassant { from, to } => Square::from_coords(to.file(), from.rank()),
            Move::Normal { .. } | Move::Castle { .. } | Move::Put { .. } => mv.to(),
        };
        LegalMove {
            attempt: Attempt::of(mv, mode),
            piece: mv.role().of(side),
            takes: mv.capture().map(|role| (taken_on, role.of(!side))),
            castling: mv.castling_side(),
        }
    }
}

impl MoveEffect {
    pub(super) fn new(position: &Chess, mv: Move, mode: CastlingMode) -> MoveEffect {
        let mut after = position.clone();
        after.play_unchecked(mv);
        let board = after.board();
        let checkers = after.checkers().into_iter();
        let answers = after.legal_moves();
        let answer = answers
            .iter()
            .find(|answer| answer.role() == Role::King)
            .or_else(|| answers.first());
        MoveEffect {
            legal_move: LegalMove::new(position, mv, mode),
            checkers: checkers
                .filter_map(|square| Some((square, board.piece_at(square)?)))
                .collect(),
            answer: answer.map(|answer| LegalMove::new(&after, *answer, mode)),
        }
    }

    /// Names the reply that meets the move in `after`, the position behind it.
    pub(super) fn meet(&mut self, after: &Chess, reply: Move, mode: CastlingMode) {
        self.answer = Some(LegalMove::new(after, reply, mode));
    }

    /// Tells whether the move mates.
    #[must_use]
    pub fn mates(&self) -> bool {
        !self.checkers.is_empty() && self.answer.is_none()
    }
}
