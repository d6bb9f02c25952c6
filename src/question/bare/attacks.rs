//! The squares that a piece attacks on the empty board, and those that two pieces both attack.

use serde::{Deserialize, Deserializer, Serialize, de};
use shakmaty::{Bitboard, Board, Square};

use super::super::json::{text, texts, two};
use super::super::{BareChoice, BareKind, Ray, Sight, Truth};
use crate::board::PieceAt;

/// Asks which squares a piece attacks on the empty board.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Span {
    /// The piece.
    #[serde(rename = "man", with = "text")]
    pub piece: PieceAt,
}

impl Span {
    /// Follows its lines, where it is a line piece.
    pub fn rays(self) -> Vec<Ray> {
        let (square, piece) = (self.piece.square(), self.piece.piece());
        Ray::all(&Board::from_iter([(square, piece)]), square)
    }
}

impl BareKind for Span {
    fn truth(self) -> Truth {
        Truth::squares(self.piece.attacks(Bitboard::EMPTY))
    }

    fn subject_squares(self) -> Vec<Square> {
        vec![self.piece.square()]
    }

    /// A queen, with more squares than anyone likes to say, only where it is wished for.
    fn draw(choice: &mut BareChoice<'_>) -> Span {
        let piece = choice.piece("NBRKPp", |_| true);
        Span { piece }
    }
}

/// How often a draw is tried again when the lines do not cross.
const TRIES: usize = 64;

/// Asks for the squares that both of two pieces attack, only those two on the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Crossing {
    #[serde(
        rename = "men",
        serialize_with = "texts::serialize",
        deserialize_with = "apart"
    )]
    pieces: [PieceAt; 2],
}

fn apart<'de, D: Deserializer<'de>>(from: D) -> Result<[PieceAt; 2], D::Error> {
    let pieces: [PieceAt; 2] = two(from)?;
    let on = pieces[0].square();
    let fault = format!("both pieces stand on {on}: put one of them on another square");
    let asked = Crossing::new(pieces).ok_or_else(|| de::Error::custom(fault))?;
    Ok(asked.pieces)
}

impl Crossing {
    /// Asks where the lines of two pieces cross; `None` when they stand on one square.
    pub fn new(pieces: [PieceAt; 2]) -> Option<Crossing> {
        (pieces[0].square() != pieces[1].square()).then_some(Crossing { pieces })
    }

    fn crossed(self) -> Bitboard {
        let occupied: Bitboard = self.pieces.map(PieceAt::square).into_iter().collect();
        let [one, other] = self.pieces.map(|piece| piece.attacks(occupied));
        one & other
    }

    /// Returns the two pieces.
    pub const fn pieces(self) -> [PieceAt; 2] {
        self.pieces
    }

    /// Looks from each piece to a square.
    pub fn sights(self, at: Square) -> [Sight; 2] {
        let pieces = self.pieces.map(|by| (by.square(), by.piece()));
        let board = Board::from_iter(pieces);
        pieces.map(|(from, _)| Sight::new(&board, from, at))
    }
}

impl BareKind for Crossing {
    fn truth(self) -> Truth {
        Truth::squares(self.crossed())
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
            let pieces = [(); 2].map(|()| choice.piece("NBRQKPp", |_| true));
            let Some(question) = Crossing::new(pieces) else {
                continue;
            };
            if question.crossed().any() || !want_some || tries > TRIES {
                return question;
            }
        }
    }
}
