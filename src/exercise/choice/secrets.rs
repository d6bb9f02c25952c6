//! Which questions give each other away.

use shakmaty::{Bitboard, CastlingSide, Color, Position, Square};

use crate::question::{Attempt, LineQuestion, Reason, Scene, Truth};

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
    /// How much the answer says about the men's attacks and legal moves.
    moves: Bearing,
    /// How much the answer says about the number of men.
    material: Bearing,
    /// How much the answer, or the reason for it, says about the moves played.
    score: Bearing,
    /// Whether the whole board is asked for, which no other answer gives away.
    whole_board: bool,
}

/// How an answer bears on a matter that several kinds of question have in common.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Bearing {
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
    pub(super) fn new(question: LineQuestion, truth: &Truth, scene: Scene<'_>) -> Secret {
        let known = match truth {
            Truth::Square { square } => Bitboard::from(*square),
            Truth::Squares { squares, optional } => squares.with(*optional),
            Truth::Placement { placement } => placement.occupied(),
            Truth::Moves { moves } => moves
                .iter()
                .fold(Bitboard::EMPTY, |set, mv| set | ends(*mv)),
            Truth::Move { attempt } => ends(*attempt),
            Truth::Gone { .. }
            | Truth::Piece { .. }
            | Truth::Legal { .. }
            | Truth::Illegal { .. }
            | Truth::Points { .. }
            | Truth::Wings { .. }
            | Truth::Taken { .. }
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
            moves: Bearing::Nothing,
            material: Bearing::Nothing,
            score: Bearing::Nothing,
            whole_board: false,
        };
        match question {
            LineQuestion::Whereabouts(_) | LineQuestion::Standing(_) => {
                secret.material = Bearing::Some;
                secret.score = Bearing::Some;
            }
            LineQuestion::Attackers(_) => secret.moves = Bearing::Some,
            LineQuestion::Occupant(question) => {
                secret.tells = Bitboard::from(question.square);
                secret.asks = secret.tells;
                secret.score = Bearing::Some;
            }
            LineQuestion::Attacks(question) => secret.asks_ways(question.square, truth),
            LineQuestion::Moves(question) => {
                secret.asks_ways(question.square, truth);
                secret.speaks_of_check = true;
            }
            LineQuestion::Legality(question) => {
                secret.asks_ways(question.attempt.from, truth);
                secret.score = Bearing::Some;
                secret.speaks_of_check = matches!(
                    truth,
                    Truth::Illegal { illegal, .. } if matches!(
                        illegal.reason,
                        Reason::CastlingInCheck | Reason::StaysInCheck
                    )
                );
            }
            LineQuestion::Check(_) => secret.speaks_of_check = true,
            LineQuestion::Checks(_) | LineQuestion::Captures(_) | LineQuestion::Mate(_) => {
                secret.moves = Bearing::All;
                secret.speaks_of_check = true;
            }
            LineQuestion::Hanging(_) => secret.moves = Bearing::All,
            LineQuestion::Exchange(question) => {
                secret.tells = Bitboard::from(question.square);
                secret.asks = secret.tells;
                secret.moves = Bearing::All;
                secret.speaks_of_check = true;
            }
            LineQuestion::Balance(_) => secret.material = Bearing::All,
            LineQuestion::Taken(_) => {
                secret.material = Bearing::All;
                secret.score = Bearing::Some;
            }
            LineQuestion::Rights(question) => {
                secret.tells = castling_men(scene, question.color);
                // A castling move to judge, or the king's own moves, would tell of the right.
                secret.asks = secret.tells | king(scene, question.color);
                secret.score = Bearing::Some;
            }
            LineQuestion::Played(_) => secret.score = Bearing::All,
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
        self.moves = Bearing::Some;
    }

    /// Tells whether one of two questions gives the other away.
    pub(super) fn spoils(&self, other: &Secret) -> bool {
        if self.whole_board || other.whole_board {
            return self.whole_board && other.whole_board;
        }
        let men = (self.tells & other.asks) | (self.asks & other.tells);
        let ways = self.ways_of.is_some() && self.ways_of == other.ways_of;
        men.any()
            || ways
            || (self.speaks_of_check && other.speaks_of_check)
            || self.moves.spoils(other.moves)
            || self.material.spoils(other.material)
            || self.score.spoils(other.score)
    }

    /// Tells whether the question has to come last, because its answer gives all others away.
    pub(super) const fn comes_last(&self) -> bool {
        self.whole_board
    }
}

/// The squares that a move names.
fn ends(attempt: Attempt) -> Bitboard {
    Bitboard::from(attempt.from).with(attempt.to)
}

fn king(scene: Scene<'_>, color: Color) -> Bitboard {
    scene.board().kings() & scene.board().by_color(color)
}

/// The men that have never moved, if there is a right to castle.
fn castling_men(scene: Scene<'_>, color: Color) -> Bitboard {
    let castles = scene.position().castles();
    let wings = [CastlingSide::KingSide, CastlingSide::QueenSide];
    let rooks: Bitboard = wings
        .into_iter()
        .filter_map(|wing| castles.rook(color, wing))
        .collect();
    if rooks.is_empty() {
        rooks
    } else {
        rooks | king(scene, color)
    }
}
