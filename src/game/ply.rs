//! One move of one side, and its number in the game: `14.` and `14...`.

use std::fmt;
use std::num::NonZeroU32;
use std::str::FromStr;

use shakmaty::san::SanPlus;
use shakmaty::{Chess, Color, Move, Piece, Position, Square};

/// A ply's place in the game, as PGN writes it (PGN standard, 8.2.2): `14.` is White's fourteenth
/// move, `14...` Black's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct MoveNumber {
    /// The full move, counted from 1.
    pub number: NonZeroU32,
    /// The side that moves.
    pub side: Color,
}

impl MoveNumber {
    /// Returns the number of the move that is about to be played in `position`.
    pub fn next_in(position: &Chess) -> MoveNumber {
        MoveNumber {
            number: position.fullmoves(),
            side: position.turn(),
        }
    }

    /// Counts half moves, so that move numbers can be compared and subtracted: `1.` is 2, `1...` is 3.
    pub const fn half_moves(self) -> u64 {
        self.number.get() as u64 * 2 + if self.side.is_white() { 0 } else { 1 }
    }
}

impl fmt::Display for MoveNumber {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let dots = self.side.fold_wb(".", "...");
        write!(f, "{}{dots}", self.number)
    }
}

/// What is wrong with a text that should be a move number.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "\"{0}\" is no move number: write 14 or 14. for White's fourteenth move, 14... for Black's"
)]
pub struct ParseMoveNumberError(String);

impl FromStr for MoveNumber {
    type Err = ParseMoveNumberError;

    fn from_str(text: &str) -> Result<MoveNumber, ParseMoveNumberError> {
        let digits = text.trim_end_matches('.');
        let side = match text.len() - digits.len() {
            0 | 1 => Some(Color::White),
            2 | 3 => Some(Color::Black),
            _ => None,
        };
        let is_number = digits.bytes().all(|byte| byte.is_ascii_digit());
        let number = digits.parse().ok().filter(|_| is_number);
        number
            .zip(side)
            .map(|(number, side)| MoveNumber { number, side })
            .ok_or_else(|| ParseMoveNumberError(text.to_owned()))
    }
}

/// One move of one side, as it was played.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ply {
    /// The move, as the rules library knows it.
    pub mv: Move,
    /// Standard algebraic notation with `+` or `#` (PGN standard, 8.2.3).
    pub san: SanPlus,
    /// Which move of which side it is.
    pub number: MoveNumber,
}

impl Ply {
    /// Numbers and writes a legal move of a position.
    pub fn new(position: &Chess, mv: Move) -> Ply {
        Ply {
            mv,
            san: SanPlus::from_move(position.clone(), mv),
            number: MoveNumber::next_in(position),
        }
    }

    /// Returns the side that moved.
    pub const fn side(&self) -> Color {
        self.number.side
    }

    /// Returns the piece that moved, as it was before; the king in castling.
    pub const fn piece(&self) -> Piece {
        self.mv.role().of(self.side())
    }

    /// Returns the square that the moving piece left; for castling, the king's.
    ///
    /// # Panics
    ///
    /// Never for the moves of chess; only drops, which this crate does not know, have no such square.
    pub fn from(&self) -> Square {
        self.mv.from().expect("a move of chess starts on a square")
    }

    /// Returns the square where the moving piece arrives; for castling, the king's.
    pub fn to(&self) -> Square {
        self.mv
            .castling_side()
            .map_or(self.mv.to(), |wing| wing.king_to(self.side()))
    }

    /// Returns the square of the piece that was taken, if one was: behind the arrival square when it
    /// was taken en passant.
    pub fn taken_on(&self) -> Option<Square> {
        match self.mv {
            Move::EnPassant { from, to } => Some(Square::from_coords(to.file(), from.rank())),
            Move::Normal {
                capture: Some(_),
                to,
                ..
            } => Some(to),
            _ => None,
        }
    }

    /// Returns the piece that was taken, if one was, and its square.
    pub fn taken(&self) -> Option<(Square, Piece)> {
        let square = self.taken_on()?;
        Some((square, self.mv.capture()?.of(!self.side())))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_move_number_reads_back_as_written() {
        for text in ["1.", "1...", "14.", "14...", "200..."] {
            assert_eq!(text.parse::<MoveNumber>().unwrap().to_string(), text);
        }
        assert_eq!("14".parse::<MoveNumber>().unwrap().to_string(), "14.");
    }

    #[test]
    fn what_is_no_move_number_is_refused() {
        for text in [
            "",
            ".",
            "0",
            "0.",
            "-3",
            "+3",
            "e4",
            "14....",
            "1 4",
            "99999999999",
        ] {
            assert!(text.parse::<MoveNumber>().is_err(), "{text}");
        }
    }

    #[test]
    fn black_moves_after_white_and_before_the_next_white() {
        let number = |text: &str| text.parse::<MoveNumber>().unwrap();
        assert!(number("14.").half_moves() < number("14...").half_moves());
        assert!(number("14...").half_moves() < number("15.").half_moves());
    }
}
