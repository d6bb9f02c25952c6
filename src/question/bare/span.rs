//! The squares that a piece attacks on the empty board.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Board, Square};

use super::super::json::text;
use super::super::{BareChoice, BareKind, Form, Ray, Reply, Tally, Truth};
use crate::board::{self, PieceAt};

/// Asks which squares a piece attacks on the empty board.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Span {
    /// The piece.
    #[serde(rename = "man", with = "text")]
    pub piece: PieceAt,
}

/// How far the piece sees, and what the edge takes from it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SpanWhy {
    /// The piece.
    pub piece: PieceAt,
    /// Its squares, and the edges that cut them.
    pub span: board::Span,
    /// Its lines, where it is a line piece.
    pub rays: Vec<Ray>,
    /// The squares that it attacks and the learner did not name.
    pub missed: Bitboard,
    /// The squares that it does not attack and the learner named; it does not go that way.
    pub extra: Bitboard,
}

impl BareKind for Span {
    const FORM: Form = Form::Squares;

    const THINK_MILLIS: u64 = 20_000;

    type Why = SpanWhy;

    fn truth(self) -> Truth {
        Truth::squares(self.piece.attacks(Bitboard::EMPTY))
    }

    fn why(self, tally: &Tally, _: Option<&Reply>) -> SpanWhy {
        let board = Board::from_iter([(self.piece.square(), self.piece.piece())]);
        SpanWhy {
            piece: self.piece,
            span: board::Span::of(self.piece),
            rays: Ray::all(&board, self.piece.square()),
            missed: tally.missed,
            extra: tally.extra,
        }
    }

    fn subject_squares(self) -> Vec<Square> {
        vec![self.piece.square()]
    }

    fn draw(choice: &mut BareChoice<'_>) -> Span {
        let piece = choice.piece(|_| true);
        Span { piece }
    }
}
