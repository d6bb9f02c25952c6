//! Where the lines of two pieces cross.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Board, Square};

use super::super::{BareChoice, BareKind, Form, Reply, Sight, Tally, Truth};
use super::json::pieces;
use crate::board::PieceAt;

/// How often a draw is tried again when the lines do not cross.
const TRIES: usize = 64;

/// Asks for the squares that both of two pieces attack, only those two on the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Subject")]
pub struct Crossing {
    #[serde(rename = "men", with = "pieces")]
    pieces: [PieceAt; 2],
}

#[derive(Deserialize)]
struct Subject {
    #[serde(rename = "men", with = "pieces")]
    pieces: [PieceAt; 2],
}

/// Two pieces on one square.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("both pieces stand on {0}: put one of them on another square")]
pub struct CrossingError(Square);

/// What each of the two pieces sees of the squares that were forgotten or named without need.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CrossingWhy {
    /// The two pieces.
    pub pieces: [PieceAt; 2],
    /// The squares that were not named, and how each piece sees them.
    pub missed: Vec<(Square, [Sight; 2])>,
    /// The squares that should not have been named, and what keeps the pieces from them.
    pub extra: Vec<(Square, [Sight; 2])>,
}

impl Crossing {
    /// Asks where the lines of two pieces cross.
    ///
    /// # Errors
    ///
    /// [`CrossingError`] when they stand on one square.
    pub fn new(pieces: [PieceAt; 2]) -> Result<Crossing, CrossingError> {
        if pieces[0].square() == pieces[1].square() {
            Err(CrossingError(pieces[0].square()))
        } else {
            Ok(Crossing { pieces })
        }
    }

    fn crossed(self) -> Bitboard {
        let occupied: Bitboard = self.pieces.map(PieceAt::square).into_iter().collect();
        let [one, other] = self.pieces.map(|piece| piece.attacks(occupied));
        one & other
    }

    /// Returns the two pieces.
    #[must_use]
    pub const fn pieces(self) -> [PieceAt; 2] {
        self.pieces
    }
}

impl BareKind for Crossing {
    const FORM: Form = Form::Squares;

    const THINK_MILLIS: u64 = 30_000;

    type Why = CrossingWhy;

    fn truth(self) -> Truth {
        Truth::squares(self.crossed())
    }

    fn why(self, tally: &Tally, _: Option<&Reply>) -> CrossingWhy {
        let mut board = Board::empty();
        for piece in self.pieces {
            board.set_piece_at(piece.square(), piece.piece());
        }
        let look = |at| {
            (
                at,
                self.pieces
                    .map(|piece| Sight::new(&board, piece.square(), at)),
            )
        };
        CrossingWhy {
            pieces: self.pieces,
            missed: tally.missed.into_iter().map(look).collect(),
            extra: tally.extra.into_iter().map(look).collect(),
        }
    }

    fn subject_squares(self) -> Vec<Square> {
        self.pieces.map(PieceAt::square).to_vec()
    }

    /// Two pieces whose lines cross, five times in six.
    fn draw(choice: &mut BareChoice<'_>) -> Crossing {
        let want_some = choice.dice.chance(5, 6);
        let mut tries = 0;
        loop {
            tries += 1;
            let pieces = [choice.piece(|_| true), choice.piece(|_| true)];
            let Ok(question) = Crossing::new(pieces) else {
                continue;
            };
            if question.crossed().any() || !want_some || tries > TRIES {
                return question;
            }
        }
    }
}

impl TryFrom<Subject> for Crossing {
    type Error = CrossingError;

    fn try_from(subject: Subject) -> Result<Crossing, CrossingError> {
        Crossing::new(subject.pieces)
    }
}
