//! Which questions give each other away.

use shakmaty::{Bitboard, Square};

use super::Truth;

/// What a question with its answer makes known, and what it wants to hear.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Secret {
    /// The squares whose pieces become known.
    pub(super) tells: Bitboard,
    /// The squares whose pieces are asked for.
    pub(super) asks: Bitboard,
    /// The piece whose ways are asked for: what it attacks, where it can go.
    pub(super) ways_of: Option<Square>,
    /// Whether the answer says something about checks to the king.
    pub(super) speaks_of_check: bool,
    /// How much the answer says about the pieces's attacks and legal moves.
    pub(super) moves: Bearing,
    /// How much the answer says about the number of pieces.
    pub(super) material: Bearing,
    /// How much the answer, or the reason for it, says about the moves played.
    pub(super) score: Bearing,
    /// Whether the whole board is asked for, which no other answer gives away.
    pub(super) whole_board: bool,
}

/// How an answer bears on a matter that several kinds of question have in common.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Bearing {
    /// Not at all.
    Nothing,
    /// It is about some of it, which an answer about all of it gives away.
    Some,
    /// It is about all of it.
    All,
}

impl Bearing {
    /// Tells whether one of two answers tells something of the other.
    fn spoils(self, other: Bearing) -> bool {
        match (self, other) {
            (Bearing::All, Bearing::All | Bearing::Some) | (Bearing::Some, Bearing::All) => true,
            (Bearing::Nothing, _) | (_, Bearing::Nothing) | (Bearing::Some, Bearing::Some) => false,
        }
    }
}

impl Secret {
    /// What a truth makes known, whatever the question.
    pub(super) fn new(truth: &Truth) -> Secret {
        let mut known = truth.set() | truth.optional();
        if let Truth::Square { square } = truth {
            known.add(*square);
        }
        for attempt in truth.attempts() {
            known |= Bitboard::from(attempt.from).with(attempt.to);
        }
        Secret {
            tells: known,
            asks: known,
            ways_of: None,
            speaks_of_check: false,
            moves: Bearing::Nothing,
            material: Bearing::Nothing,
            score: Bearing::Nothing,
            whole_board: false,
        }
    }

    /// Naming a square tells of it, and asks for it.
    pub(super) fn names(&mut self, square: Square) {
        self.tells = Bitboard::from(square);
        self.asks = self.tells;
    }

    /// The legal moves, as a whole, tell of checks too.
    pub(super) fn tells_moves(&mut self) {
        self.moves = Bearing::All;
        self.speaks_of_check = true;
    }

    /// Naming a piece's square tells that it stands there, and so do the own pieces that it guards.
    pub(super) fn asks_ways(&mut self, from: Square, truth: &Truth) {
        self.tells = truth.optional().with(from);
        self.asks = Bitboard::EMPTY;
        self.ways_of = Some(from);
        self.moves = Bearing::Some;
    }

    /// Tells whether one of two questions gives the other away.
    pub(crate) fn spoils(&self, other: &Secret) -> bool {
        if self.whole_board || other.whole_board {
            return self.whole_board && other.whole_board;
        }
        let pieces = (self.tells & other.asks) | (self.asks & other.tells);
        let ways = self.ways_of.is_some() && self.ways_of == other.ways_of;
        pieces.any()
            || ways
            || (self.speaks_of_check && other.speaks_of_check)
            || self.moves.spoils(other.moves)
            || self.material.spoils(other.material)
            || self.score.spoils(other.score)
    }

    /// Tells whether the question has to come last, because its answer gives all others away.
    pub(crate) const fn comes_last(&self) -> bool {
        self.whole_board
    }
}
