//! A piece on an otherwise bare board.

use std::fmt;
use std::str::FromStr;

use shakmaty::{Bitboard, Piece, Rank, Role, Square, attacks};

/// A piece and its square, written as its FEN letter and the square: `Nb3` is a white knight, `pe4` a
/// black pawn. No pawn stands on the first or eighth rank.
///
/// ```
/// use sansvoir::board::PieceAt;
///
/// let piece: PieceAt = "pe4".parse()?;
/// assert_eq!(piece.attacks(shakmaty::Bitboard::EMPTY).count(), 2);
/// assert_eq!(piece.to_string(), "pe4");
/// # Ok::<(), sansvoir::board::ParsePieceAtError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct PieceAt {
    piece: Piece,
    square: Square,
}

impl PieceAt {
    /// Puts a piece on a square; `None` for a pawn on the first or eighth rank, where none can stand.
    #[must_use]
    pub const fn new(piece: Piece, square: Square) -> Option<PieceAt> {
        let end = matches!(square.rank(), Rank::First | Rank::Eighth);
        if end && matches!(piece.role, Role::Pawn) {
            None
        } else {
            Some(PieceAt { piece, square })
        }
    }

    /// Returns the piece.
    #[must_use]
    pub const fn piece(self) -> Piece {
        self.piece
    }

    /// Returns where it stands.
    #[must_use]
    pub const fn square(self) -> Square {
        self.square
    }

    /// Returns the squares that it attacks when pieces stand on `occupied`, the nearest of them on each
    /// line included (FIDE 3.1.2).
    #[must_use]
    pub const fn attacks(self, occupied: Bitboard) -> Bitboard {
        attacks::attacks(self.square, self.piece, occupied)
    }
}

impl fmt::Display for PieceAt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.piece.char(), self.square)
    }
}

/// A text that names no piece with its square.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "\"{0}\" names no piece with its square: write the FEN letter and the square, as in Nb3 or pe4"
)]
pub struct ParsePieceAtError(String);

impl FromStr for PieceAt {
    type Err = ParsePieceAtError;

    fn from_str(text: &str) -> Result<PieceAt, ParsePieceAtError> {
        let mut letters = text.chars();
        let piece = letters.next().and_then(Piece::from_char);
        let square = letters.as_str().parse().ok();
        piece
            .zip(square)
            .and_then(|(piece, square)| PieceAt::new(piece, square))
            .ok_or_else(|| ParsePieceAtError(text.to_owned()))
    }
}
