//! The squares that a piece attacks on the empty board, and those that two pieces both attack.

use serde::{Deserialize, Deserializer, Serialize, de};
use shakmaty::{Bitboard, Board, Square};

use super::super::json::{text, texts, two};
use super::super::{BareChoice, BareKind, Form, Ray, Reply, Sight, Tally, Truth};
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

/// What each of the two pieces sees of the squares that were missed or named wrongly.
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
}

impl BareKind for Crossing {
    const FORM: Form = Form::Squares;

    const THINK_MILLIS: u64 = 30_000;

    type Why = CrossingWhy;

    fn truth(self) -> Truth {
        Truth::squares(self.crossed())
    }

    fn why(self, tally: &Tally, _: Option<&Reply>) -> CrossingWhy {
        let pieces = self.pieces.map(|piece| (piece.square(), piece.piece()));
        let board = Board::from_iter(pieces);
        let sights = |at| self.pieces.map(|by| Sight::new(&board, by.square(), at));
        let look = |at| (at, sights(at));
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
