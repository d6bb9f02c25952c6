//! A man on an otherwise bare board.

use std::fmt;
use std::str::FromStr;

use shakmaty::{Bitboard, Piece, Rank, Role, Square, attacks};

/// A man and its square, written as its FEN letter and the square: `Nb3` is a white knight, `pe4` a
/// black pawn. No pawn stands on the first or eighth rank.
///
/// ```
/// use sansvoir::board::BareMan;
///
/// let man: BareMan = "pe4".parse()?;
/// assert_eq!(man.attacks(shakmaty::Bitboard::EMPTY).count(), 2);
/// assert_eq!(man.to_string(), "pe4");
/// # Ok::<(), sansvoir::board::NoBareMan>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct BareMan {
    piece: Piece,
    square: Square,
}

impl BareMan {
    /// Puts a man on a square; `None` for a pawn on the first or eighth rank, where none can stand.
    #[must_use]
    pub const fn new(piece: Piece, square: Square) -> Option<BareMan> {
        let end = matches!(square.rank(), Rank::First | Rank::Eighth);
        if end && matches!(piece.role, Role::Pawn) {
            None
        } else {
            Some(BareMan { piece, square })
        }
    }

    /// Returns the man.
    #[must_use]
    pub const fn piece(self) -> Piece {
        self.piece
    }

    /// Returns where it stands.
    #[must_use]
    pub const fn square(self) -> Square {
        self.square
    }

    /// Returns the squares that it attacks when men stand on `occupied`, the nearest of them on each
    /// line included (FIDE 3.1.2).
    #[must_use]
    pub const fn attacks(self, occupied: Bitboard) -> Bitboard {
        attacks::attacks(self.square, self.piece, occupied)
    }
}

impl fmt::Display for BareMan {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.piece.char(), self.square)
    }
}

/// A text that names no man with its square.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "\"{0}\" names no piece with its square: write the FEN letter and the square, as in Nb3 or pe4"
)]
pub struct NoBareMan(String);

impl FromStr for BareMan {
    type Err = NoBareMan;

    fn from_str(text: &str) -> Result<BareMan, NoBareMan> {
        let mut letters = text.chars();
        let piece = letters.next().and_then(Piece::from_char);
        let square = letters.as_str().parse().ok();
        piece
            .zip(square)
            .and_then(|(piece, square)| BareMan::new(piece, square))
            .ok_or_else(|| NoBareMan(text.to_owned()))
    }
}
