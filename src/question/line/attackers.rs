//! A side's pieces that attack or guard a square.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Board, Color, Piece, Square};

use super::super::json::text;
use super::super::{Bearing, Choice, Form, LineKind, Reply, Scene, Secret, Sight, Tally, Truth};
use crate::game::TrackedPiece;

/// Asks which of a side's pieces attack a square, or guard it where it holds a piece of theirs; pinned
/// pieces count (FIDE 3.1.3).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Attackers {
    /// The side whose pieces are asked for.
    #[serde(with = "text")]
    pub color: Color,
    /// The square.
    #[serde(with = "text")]
    pub square: Square,
}

/// A piece that was named or forgotten as an attacker of a square, and what it sees of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Looker {
    /// No piece stands on the square that was named.
    Nobody,
    /// A piece of the side that was not asked for stands there.
    OtherSide(Piece),
    /// A piece of the side asked for stands there.
    Piece(Piece, Sight),
}

impl Looker {
    pub(super) fn new(board: &Board, from: Square, side: Color, to: Square) -> Looker {
        match board.piece_at(from) {
            None => Looker::Nobody,
            Some(piece) if piece.color != side => Looker::OtherSide(piece),
            Some(piece) => Looker::Piece(piece, Sight::new(board, from, to)),
        }
    }
}

/// What each piece that was forgotten or named without need sees of a square.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AttackersWhy {
    /// The square that is looked at.
    pub square: Square,
    /// The pieces that were not named, by their squares.
    pub missed: Vec<(Square, Looker)>,
    /// The squares that should not have been named.
    pub extra: Vec<(Square, Looker)>,
}

impl AttackersWhy {
    pub(super) fn new(board: &Board, side: Color, square: Square, tally: &Tally) -> AttackersWhy {
        let look = |from| (from, Looker::new(board, from, side, square));
        AttackersWhy {
            square,
            missed: tally.missed.into_iter().map(look).collect(),
            extra: tally.extra.into_iter().map(look).collect(),
        }
    }
}

impl LineKind for Attackers {
    const FORM: Form = Form::Squares;

    type Why = AttackersWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        let board = scene.board();
        Truth::squares(board.attacks_to(self.square, self.color, board.occupied()))
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, _: Option<&Reply>) -> AttackersWhy {
        AttackersWhy::new(scene.board(), self.color, self.square, tally)
    }

    fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        scene.piece_on(self.square)
    }

    fn reveal(self, secret: &mut Secret, _: &Truth, _: Scene<'_>) {
        secret.moves = Bearing::Some;
    }

    /// A square and a side; five times in six one that some piece of that side attacks or guards.
    fn draw(choice: &mut Choice<'_>) -> Option<Attackers> {
        let board = choice.scene.board();
        let color = *choice.dice.pick(&Color::ALL)?;
        let reached: Bitboard = Square::ALL
            .into_iter()
            .filter(|square| board.attacks_to(*square, color, board.occupied()).any())
            .collect();
        let pool = if choice.dice.chance(5, 6) {
            reached
        } else {
            !reached
        };
        let pieces = board.occupied() | choice.squares;
        let square = choice.pick(pool & choice.squares, pool & pieces & !choice.squares)?;
        Some(Attackers { color, square })
    }
}
