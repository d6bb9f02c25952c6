//! The squares that the piece on a square attacks.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Piece, Square};

use super::super::json::text;
use super::super::{
    Choice, Disclosure, Form, LineKind, Ray, Reply, Scene, Share, Sight, Tally, Truth,
};
use crate::game::TrackedPiece;

/// Asks which squares a piece attacks (FIDE 3.1.2 and 3.1.3): a pinned piece still attacks, and the
/// squares of its own side's pieces are guarded, which a reply may name or leave out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Attacks {
    /// The square of the piece.
    #[serde(with = "text")]
    pub square: Square,
}

/// How far the piece sees, and why it does not reach the squares named wrongly.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AttacksWhy {
    /// The piece; `None` where the square is empty.
    pub piece: Option<Piece>,
    /// Its square.
    pub from: Square,
    /// Its lines, where it is a line piece.
    pub rays: Vec<Ray>,
    /// The squares that it attacks and the learner did not name.
    pub missed: Bitboard,
    /// What keeps it from each square that should not have been named.
    pub extra: Vec<(Square, Sight)>,
}

impl LineKind for Attacks {
    const FORM: Form = Form::Squares;

    const MOVES: Share = Share::Some;

    type Why = AttacksWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        let board = scene.board();
        let all = board.attacks_from(self.square);
        let own = board
            .color_at(self.square)
            .map_or(Bitboard::EMPTY, |side| board.by_color(side));
        Truth::Squares {
            squares: all & !own,
            optional: all & own,
        }
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, _: Option<&Reply>) -> AttacksWhy {
        let board = scene.board();
        let extra = tally.extra.into_iter();
        AttacksWhy {
            piece: board.piece_at(self.square),
            from: self.square,
            rays: Ray::all(board, self.square),
            missed: tally.missed,
            extra: extra
                .map(|square| (square, Sight::new(board, self.square, square)))
                .collect(),
        }
    }

    fn piece(self, scene: Scene<'_>) -> Option<&TrackedPiece> {
        scene.piece_on(self.square)
    }

    fn disclose(self, disclosure: &mut Disclosure, truth: &Truth, _: Scene<'_>) {
        disclosure.asks_ways(self.square, truth);
    }

    fn draw(choice: &mut Choice<'_>) -> Option<Attacks> {
        let square = choice.piece(choice.scene.board().occupied())?;
        Some(Attacks { square })
    }
}
