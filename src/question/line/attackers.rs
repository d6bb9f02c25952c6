//! A side's men that attack or guard a square.

use serde::{Deserialize, Serialize};
use shakmaty::{Board, Color, Piece, Square};

use super::super::json::{side, text};
use super::super::{Scene, Sight, Tally, Truth};

/// Asks which of a side's men attack a square, or guard it where it holds a man of theirs; pinned
/// men count (FIDE 3.1.3).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Attackers {
    /// The side whose men are asked for.
    #[serde(with = "side")]
    pub color: Color,
    /// The square.
    #[serde(with = "text")]
    pub square: Square,
}

/// A man that was named or forgotten as an attacker of a square, and what it sees of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Looker {
    /// No man stands on the square that was named.
    Nobody,
    /// A man of the side that was not asked for stands there.
    OtherSide(Piece),
    /// A man of the side asked for stands there.
    Man(Piece, Sight),
}

impl Looker {
    pub(super) fn new(board: &Board, from: Square, side: Color, to: Square) -> Looker {
        match board.piece_at(from) {
            None => Looker::Nobody,
            Some(piece) if piece.color != side => Looker::OtherSide(piece),
            Some(piece) => Looker::Man(piece, Sight::new(board, from, to)),
        }
    }
}

/// What each man that was forgotten or named without need sees of a square.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AttackersWhy {
    /// The square that is looked at.
    pub square: Square,
    /// The men that were not named, by their squares.
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

impl Attackers {
    pub(super) fn truth(self, scene: Scene<'_>) -> Truth {
        let board = scene.board();
        Truth::squares(board.attacks_to(self.square, self.color, board.occupied()))
    }

    pub(super) fn why(self, scene: Scene<'_>, tally: &Tally) -> AttackersWhy {
        AttackersWhy::new(scene.board(), self.color, self.square, tally)
    }
}
