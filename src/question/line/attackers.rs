//! A side's pieces that attack or guard a square, and those that give check.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Board, Color, Piece, Position, Square};

use super::super::json::text;
use super::super::{Choice, Form, LineKind, Reply, Scene, Share, Sight, Tally, Truth};
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

/// Asks for the squares of the pieces that give check; none when there is no check (FIDE 3.9.1).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Check {}

/// A piece that was named or forgotten as an attacker of a square, and what it sees of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Attacker {
    /// No piece stands on the square that was named.
    Nobody,
    /// A piece of the side that was not asked for stands there.
    OtherSide(Piece),
    /// A piece of the side asked for stands there.
    Piece(Piece, Sight),
}

/// What each piece that was missed or named wrongly sees of a square.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AttackersWhy {
    /// The square that is looked at.
    pub square: Square,
    /// The pieces that were not named, by their squares.
    pub missed: Vec<(Square, Attacker)>,
    /// The squares that should not have been named.
    pub extra: Vec<(Square, Attacker)>,
}

impl AttackersWhy {
    fn new(board: &Board, side: Color, square: Square, tally: &Tally) -> AttackersWhy {
        let look = |from| {
            let attacker = match board.piece_at(from) {
                None => Attacker::Nobody,
                Some(piece) if piece.color != side => Attacker::OtherSide(piece),
                Some(piece) => Attacker::Piece(piece, Sight::new(board, from, square)),
            };
            (from, attacker)
        };
        AttackersWhy {
            square,
            missed: tally.missed.into_iter().map(look).collect(),
            extra: tally.extra.into_iter().map(look).collect(),
        }
    }
}

impl LineKind for Attackers {
    const FORM: Form = Form::Squares;

    const MOVES: Share = Share::Some;

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

impl LineKind for Check {
    const FORM: Form = Form::Squares;

    /// A learner who sees nothing says that there is no check; who gives it is hardly asked beyond that.
    const GUESS: f64 = 1.0 / 2.0;

    const TELLS_CHECK: bool = true;

    type Why = AttackersWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        Truth::squares(scene.position().checkers())
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, _: Option<&Reply>) -> AttackersWhy {
        let side = scene.position().turn();
        let king = scene.board().king_of(side).expect("each side has its king");
        AttackersWhy::new(scene.board(), !side, king, tally)
    }

    /// Announcing a move tells of the check that the moved piece gives, and of no check; only a check from
    /// behind it is still a question.
    fn draw(choice: &mut Choice<'_>) -> Option<Check> {
        let checkers = choice.scene.position().checkers();
        let last = choice.scene.played().last();
        let unspoken = last.is_none_or(|ply| checkers.without(ply.to()).any());
        (!choice.strict || unspoken).then_some(Check {})
    }
}
