//! Which questions give each other away.

use shakmaty::{Bitboard, Square};

use crate::question::{LineQuestion, Reason, Truth};

/// What a question with its answer makes known, and what it wants to hear.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Secret {
    /// The squares whose men become known.
    tells: Bitboard,
    /// The squares whose men are asked for.
    asks: Bitboard,
    /// The man whose ways are asked for: what it attacks, where it can go.
    ways_of: Option<Square>,
    /// Whether the answer says something about checks to the king.
    speaks_of_check: bool,
    /// Whether the whole board is asked for, which no other answer gives away.
    whole_board: bool,
}

impl Secret {
    pub(super) fn new(question: LineQuestion, truth: &Truth) -> Secret {
        let known = match truth {
            Truth::Square { square } => Bitboard::from(*square),
            Truth::Squares { squares, optional } => squares.with(*optional),
            Truth::Placement { placement } => placement.occupied(),
            Truth::Gone { .. }
            | Truth::Piece { .. }
            | Truth::Legal { .. }
            | Truth::Illegal { .. }
            | Truth::Place(_)
            | Truth::Color { .. }
            | Truth::Line { .. }
            | Truth::Distance { .. } => Bitboard::EMPTY,
        };
        let mut secret = Secret {
            tells: known,
            asks: known,
            ways_of: None,
            speaks_of_check: false,
            whole_board: false,
        };
        match question {
            LineQuestion::Whereabouts(_)
            | LineQuestion::Standing(_)
            | LineQuestion::Attackers(_) => {}
            LineQuestion::Occupant(question) => {
                secret.tells = Bitboard::from(question.square);
                secret.asks = secret.tells;
            }
            LineQuestion::Attacks(question) => secret.asks_ways(question.square, truth),
            LineQuestion::Moves(question) => {
                secret.asks_ways(question.square, truth);
                secret.speaks_of_check = true;
            }
            LineQuestion::Legality(question) => {
                secret.asks_ways(question.attempt.from, truth);
                secret.speaks_of_check = matches!(
                    truth,
                    Truth::Illegal { illegal, .. } if matches!(
                        illegal.reason,
                        Reason::CastlingInCheck | Reason::StaysInCheck
                    )
                );
            }
            LineQuestion::Check(_) => secret.speaks_of_check = true,
            LineQuestion::Rebuild(_) => secret.whole_board = true,
        }
        secret
    }

    /// Naming a man's square tells that it stands there, and so do the own men that it guards.
    fn asks_ways(&mut self, from: Square, truth: &Truth) {
        let guarded = match truth {
            Truth::Squares { optional, .. } => *optional,
            _ => Bitboard::EMPTY,
        };
        self.tells = guarded.with(from);
        self.asks = Bitboard::EMPTY;
        self.ways_of = Some(from);
    }

    /// Tells whether one of two questions gives the other away.
    pub(super) fn spoils(&self, other: &Secret) -> bool {
        if self.whole_board || other.whole_board {
            return self.whole_board && other.whole_board;
        }
        let men = (self.tells & other.asks) | (self.asks & other.tells);
        let ways = self.ways_of.is_some() && self.ways_of == other.ways_of;
        men.any() || ways || (self.speaks_of_check && other.speaks_of_check)
    }

    /// Tells whether the question has to come last, because its answer gives all others away.
    pub(super) const fn comes_last(&self) -> bool {
        self.whole_board
    }
}
