//! Which questions give each other away.

use shakmaty::{Bitboard, Square};

use super::Truth;

/// How much an answer tells of a matter that several kinds of question have in common.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Share {
    /// Nothing.
    Nothing,
    /// It is about some of it, which an answer about all of it gives away.
    Some,
    /// It is about all of it.
    All,
}

/// What a question with its answer makes known, and what it wants to hear.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Disclosure {
    /// The squares whose pieces become known.
    pub(super) tells: Bitboard,
    /// The squares whose pieces are asked for.
    pub(super) asks: Bitboard,
    /// The piece whose ways are asked for: what it attacks, where it can go.
    pub(super) ways_of: Option<Square>,
    /// Whether the answer says something about checks to the king.
    pub(super) tells_check: bool,
    /// How much is said of the moves, the material and the game.
    shares: [Share; 3],
    /// Whether the whole board is asked for, which no other answer gives away.
    whole_board: bool,
}

impl Disclosure {
    /// What a truth makes known, whatever the question, which says something of checks or not, and so
    /// much of the moves, the material and the game.
    pub(super) fn new(truth: &Truth, tells_check: bool, shares: [Share; 3]) -> Disclosure {
        let mut known = truth.set() | truth.optional();
        if let Truth::Square(square) = truth {
            known.add(*square);
        }
        for attempt in truth.attempts() {
            known |= Bitboard::from(attempt.from).with(attempt.to);
        }
        Disclosure {
            tells: known,
            asks: known,
            ways_of: None,
            tells_check,
            shares,
            whole_board: matches!(truth, Truth::Placement { .. }),
        }
    }

    /// Naming a square tells of it, and asks for it.
    pub(super) fn names(&mut self, square: Square) {
        self.tells = Bitboard::from(square);
        self.asks = self.tells;
    }

    /// Naming a piece's square tells that it stands there, and so do the own pieces that it guards.
    pub(super) fn asks_ways(&mut self, from: Square, truth: &Truth) {
        self.tells = truth.optional().with(from);
        self.asks = Bitboard::EMPTY;
        self.ways_of = Some(from);
    }

    /// Tells whether one of two questions gives the other away.
    pub(crate) fn spoils(&self, other: &Disclosure) -> bool {
        if self.whole_board || other.whole_board {
            return self.whole_board && other.whole_board;
        }
        let pieces = (self.tells & other.asks) | (self.asks & other.tells);
        let ways = self.ways_of.is_some() && self.ways_of == other.ways_of;
        let mut shares = self.shares.into_iter().zip(other.shares);
        pieces.any()
            || ways
            || (self.tells_check && other.tells_check)
            || shares
                .any(|(one, other)| one.max(other) == Share::All && one.min(other) > Share::Nothing)
    }

    /// Tells whether the question has to come last, because its answer gives all others away.
    pub(crate) const fn comes_last(&self) -> bool {
        self.whole_board
    }
}
