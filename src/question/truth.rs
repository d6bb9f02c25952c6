//! The right answer to a question.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Board, Piece, Square};

use super::json::{piece, text, texts};
use super::{Attempt, CapturedPieces, Illegal, MoveSaid, Reply, Wings};
use crate::board::{Alignment, Seen, SquareColor};

/// A right answer; in JSON, the journal's `expected` object.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Truth {
    /// The piece stands on a square.
    Square(#[serde(with = "text")] Square),
    /// The piece has left the board.
    Gone(Always<true>),
    /// A square holds a piece; `None` when it is empty.
    Piece(#[serde(with = "piece")] Option<Piece>),
    /// A move is legal.
    Legal(Always<true>),
    /// Every piece stands on its square.
    Placement(#[serde(with = "text")] Board),
    /// A set of moves in the order of their squares, the empty set included; of a mate, any one of them.
    Moves(#[serde(with = "texts")] Vec<Attempt>),
    /// Something comes to so many points.
    Points(i32),
    /// A side may castle on some wings, or none.
    Wings(Wings),
    /// Some pieces have been taken, or none.
    #[serde(rename = "pieces")]
    Taken(#[serde(with = "text")] CapturedPieces),
    /// A move was played.
    Move(#[serde(with = "text")] Attempt),
    /// A square has a color.
    Color(SquareColor),
    /// Two squares share a line, or none.
    Line(Alignment),
    /// A set of squares, the empty set included.
    #[serde(untagged)]
    Squares {
        /// The squares that a full reply names.
        #[serde(with = "texts")]
        squares: Bitboard,
        /// The squares that a reply may name or leave out.
        #[serde(with = "texts", default, skip_serializing_if = "is_empty")]
        optional: Bitboard,
    },
    /// A move is illegal, for one reason.
    #[serde(untagged)]
    Illegal {
        /// `false`
        legal: Always<false>,
        /// Why.
        #[serde(flatten)]
        illegal: Illegal,
    },
    /// A square lies so many files from the left and rows from the bottom.
    #[serde(untagged)]
    Place(Seen),
    /// A piece needs so many moves to a square.
    #[serde(untagged)]
    Distance {
        /// The fewest; `None` when it never gets there.
        // A number or `null`; a missing key makes another truth.
        #[serde(deserialize_with = "Option::deserialize")]
        moves: Option<u32>,
    },
}

/// A field that is always `true`, or always `false`, and so tells one answer from the others.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "bool", into = "bool")]
pub struct Always<const VALUE: bool>;

impl<const VALUE: bool> TryFrom<bool> for Always<VALUE> {
    type Error = &'static str;

    fn try_from(value: bool) -> Result<Always<VALUE>, &'static str> {
        let right = (value == VALUE).then_some(Always);
        right.ok_or("the other truth value is meant")
    }
}

impl<const VALUE: bool> From<Always<VALUE>> for bool {
    fn from(_: Always<VALUE>) -> bool {
        VALUE
    }
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands a reference")]
fn is_empty(set: &Bitboard) -> bool {
    set.is_empty()
}

impl Truth {
    /// A set of squares without optional ones.
    pub const fn squares(squares: Bitboard) -> Truth {
        Truth::Squares {
            squares,
            optional: Bitboard::EMPTY,
        }
    }

    /// A set of moves, put in the order of their squares.
    pub fn moves(moves: impl IntoIterator<Item = Attempt>) -> Truth {
        let mut moves: Vec<Attempt> = moves.into_iter().collect();
        moves.sort_unstable();
        Truth::Moves(moves)
    }

    /// Returns the one reply that says it, where it takes one word.
    pub(super) fn reply(&self) -> Option<Reply> {
        Some(match self {
            Truth::Square(square) => Reply::Square(*square),
            Truth::Gone(_) => Reply::Gone,
            Truth::Piece(piece) => Reply::Piece(*piece),
            Truth::Legal(_) => Reply::Legal(true),
            Truth::Illegal { .. } => Reply::Legal(false),
            Truth::Points(points) => Reply::Points(*points),
            Truth::Move(attempt) => Reply::Move(MoveSaid::Named(*attempt)),
            Truth::Place(seen) => Reply::Place(*seen),
            Truth::Color(color) => Reply::Color(*color),
            Truth::Line(line) => Reply::Line(*line),
            Truth::Distance { moves } => moves.map_or(Reply::Never, Reply::Distance),
            Truth::Squares { .. }
            | Truth::Placement(_)
            | Truth::Moves(_)
            | Truth::Wings(_)
            | Truth::Taken(_) => return None,
        })
    }

    /// Returns the squares that a full reply names.
    pub fn set(&self) -> Bitboard {
        match self {
            Truth::Squares { squares, .. } => *squares,
            Truth::Placement(placement) => placement.occupied(),
            _ => Bitboard::EMPTY,
        }
    }

    /// Returns the squares that a reply may name or leave out.
    pub const fn optional(&self) -> Bitboard {
        match self {
            Truth::Squares { optional, .. } => *optional,
            _ => Bitboard::EMPTY,
        }
    }

    /// Returns the points; none where something else is asked for.
    pub const fn points(&self) -> i32 {
        match self {
            Truth::Points(points) => *points,
            _ => 0,
        }
    }

    /// Returns the wings; none where something else is asked for.
    pub fn wings(&self) -> Wings {
        match self {
            Truth::Wings(wings) => *wings,
            _ => Wings::default(),
        }
    }

    /// Returns the pieces that were taken; none where something else is asked for.
    pub fn taken(&self) -> CapturedPieces {
        match self {
            Truth::Taken(pieces) => *pieces,
            _ => CapturedPieces::default(),
        }
    }

    /// Returns the moves that are right, where moves are asked for.
    pub fn attempts(&self) -> &[Attempt] {
        match self {
            Truth::Moves(moves) => moves,
            Truth::Move(attempt) => std::slice::from_ref(attempt),
            _ => &[],
        }
    }
}
