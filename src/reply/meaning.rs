//! What a reply means, once read.

use shakmaty::{Bitboard, Board, Color, Piece, Role, Square};

use crate::board::{Alignment, Seen, SquareColor};
use crate::rules::{Attempt, MoveFault};

use super::captured::CapturedPieces;
use super::wings::Wings;

/// What the learner said, once read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Reply {
    /// A square.
    Square(Square),
    /// The piece has left the board.
    Gone,
    /// A piece of a named side, or `None` for an empty square.
    Piece(Option<Piece>),
    /// A piece whose side was left unsaid.
    Role(Role),
    /// A set of squares.
    Squares(Bitboard),
    /// Legal or not.
    Legal(bool),
    /// Every piece's square.
    Placement(Board),
    /// A set of moves, legal or not.
    Moves(Vec<MoveSaid>),
    /// One move, legal or not.
    Move(MoveSaid),
    /// No move.
    NoMove,
    /// A number of points.
    Points(i32),
    /// A set of wings.
    Wings(Wings),
    /// Pieces by their roles.
    Taken(CapturedPieces),
    /// Files from the left and rows from the bottom.
    Place(Seen),
    /// Light or dark.
    Color(SquareColor),
    /// Which line two squares share.
    Line(Alignment),
    /// A number of moves.
    Distance(u32),
    /// The squares of a route, in order, with or without the one where it starts.
    Route(Vec<Square>),
    /// The piece never gets there.
    Never,
}

impl Reply {
    /// Returns the one square that it stands for, when the board is seen from a side.
    #[must_use]
    pub const fn square(&self, view: Color) -> Option<Square> {
        match self {
            Reply::Square(square) => Some(*square),
            Reply::Place(seen) => Some(seen.square(view)),
            _ => None,
        }
    }

    /// Returns the moves that it names.
    pub(crate) fn moves(&self) -> &[MoveSaid] {
        match self {
            Reply::Moves(moves) => moves,
            Reply::Move(mv) => std::slice::from_ref(mv),
            _ => &[],
        }
    }
}

/// A move as a reply names it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MoveSaid {
    /// Its squares are certain; it is legal or not.
    Named(Attempt),
    /// No piece of the side to move can make it: none has its name, or several have and none goes there.
    Impossible {
        /// The word that names it.
        word: String,
        /// What is wrong with it.
        fault: MoveFault,
    },
}

impl MoveSaid {
    /// Returns the move by its squares, where they are certain.
    #[must_use]
    pub const fn squares(&self) -> Option<Attempt> {
        match self {
            MoveSaid::Named(attempt) => Some(*attempt),
            MoveSaid::Impossible { .. } => None,
        }
    }
}
