//! A side's pieces that are attacked and not guarded.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Board, Color, Piece, Square};

use super::super::json::text;
use super::super::{Choice, Form, LineKind, Reply, Scene, Share, Tally, Truth};

/// Asks for a side's pieces, the king left out, that the other side attacks and no piece of their own
/// guards; the king and pinned pieces count as guards.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Hanging {
    /// The side whose pieces are asked for.
    #[serde(with = "text")]
    pub color: Color,
}

/// Who attacks a square and who guards it, for the squares that were forgotten or named without
/// need.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HangingWhy {
    /// The side whose pieces were asked for.
    pub color: Color,
    /// The squares, the forgotten ones first.
    pub watched: Vec<Watched>,
}

/// A square with the pieces that see it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Watched {
    /// The square.
    pub square: Square,
    /// The piece that stands there.
    pub piece: Option<Piece>,
    /// The pieces of the other side that attack it.
    pub attackers: Vec<(Square, Piece)>,
    /// The pieces of the side asked for that guard it.
    pub guards: Vec<(Square, Piece)>,
}

impl LineKind for Hanging {
    const FORM: Form = Form::Squares;

    const MOVES: Share = Share::All;

    type Why = HangingWhy;

    fn truth(self, scene: Scene<'_>) -> Truth {
        let board = scene.board();
        let pieces = board.by_color(self.color) & !board.kings();
        Truth::squares(
            pieces
                .into_iter()
                .filter(|square| seen_by(board, *square, !self.color).any())
                .filter(|square| seen_by(board, *square, self.color).is_empty())
                .collect(),
        )
    }

    fn why(self, scene: Scene<'_>, tally: &Tally, _: Option<&Reply>) -> HangingWhy {
        let board = scene.board();
        let pieces = |square, color| {
            let seen = seen_by(board, square, color).into_iter();
            seen.filter_map(|from| Some((from, board.piece_at(from)?)))
                .collect()
        };
        let squares = tally.missed.into_iter().chain(tally.extra);
        HangingWhy {
            color: self.color,
            watched: squares
                .map(|square| Watched {
                    square,
                    piece: board.piece_at(square),
                    attackers: pieces(square, !self.color),
                    guards: pieces(square, self.color),
                })
                .collect(),
        }
    }

    /// A side, four times in five one that has hanging pieces.
    fn draw(choice: &mut Choice<'_>) -> Option<Hanging> {
        let none = Truth::squares(Bitboard::EMPTY);
        let sides = Color::ALL.map(|color| Hanging { color });
        let (hot, cold): (Vec<Hanging>, Vec<Hanging>) = sides
            .into_iter()
            .partition(|question| question.truth(choice.scene) != none);
        choice.rather(&hot, &cold)
    }
}

fn seen_by(board: &Board, square: Square, color: Color) -> Bitboard {
    board.attacks_to(square, color, board.occupied())
}
