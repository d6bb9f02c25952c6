//! A move in a game's text that is understood and illegal, with the one reason why.

use std::fmt;

use shakmaty::san::San;
use shakmaty::{Bitboard, CastlingSide, Piece, Position, Rank, Role, Square};

use super::open_line::OpenLine;
use crate::rules::{Attempt, Illegal, Judge, MoveFault, Reason, Wording, meant, name, side};

/// A move whose squares are known, and why it is illegal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct IllegalMove {
    /// The move.
    pub attempt: Attempt,
    /// The one reason and the square to blame.
    pub illegal: Illegal,
    /// What stands on the from-square.
    pub piece: Option<Piece>,
    /// What stands on the to-square.
    pub target: Option<Piece>,
    /// What stands on the square to blame.
    pub by: Option<Piece>,
    /// The squares that the piece can legally go to.
    pub reaches: Bitboard,
    /// Where a pawn's step was written: the pawns' captures that are legal on that square.
    pub captures: Vec<San>,
}

impl IllegalMove {
    /// Finds out what a text that gives no legal move means at the end of a line. `None` where it is not
    /// understood, where several pieces could be meant, or none.
    pub(super) fn find(said: Wording, fault: &MoveFault, line: &OpenLine) -> Option<IllegalMove> {
        match fault {
            MoveFault::NoSuchMan { .. }
            | MoveFault::CannotGo { .. }
            | MoveFault::CannotCastle { .. } => {}
            MoveFault::Unreadable
            | MoveFault::Ambiguous { .. }
            | MoveFault::NoPromotion { .. }
            | MoveFault::NeedlessPromotion
            | MoveFault::OnlyCastling { .. }
            | MoveFault::Pass => return None,
        }
        let position = line.position();
        let attempt = meant(said, position, line.past().mode())?;
        let illegal = Judge::new(position, line.past()).illegal(attempt)?;
        let on = |square: Square| position.board().piece_at(square);
        let legal = position.legal_moves();
        let own = legal.iter().filter(|mv| mv.from() == Some(attempt.from));
        let piece = on(attempt.from);
        let steps = piece.is_some_and(|piece| piece.role == Role::Pawn)
            && attempt.from.file() == attempt.to.file();
        let captures = legal.iter().filter(|mv| {
            steps
                && mv.role() == Role::Pawn
                && mv.is_capture()
                && (mv.to(), mv.promotion()) == (attempt.to, attempt.promotion)
        });
        Some(IllegalMove {
            attempt,
            illegal,
            piece,
            target: on(attempt.to),
            by: illegal.by.and_then(on),
            reaches: own.map(|mv| mv.to()).collect(),
            captures: captures.map(|mv| San::from_move(position, *mv)).collect(),
        })
    }
}

impl std::error::Error for IllegalMove {}

impl fmt::Display for IllegalMove {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Attempt { from, to, .. } = self.attempt;
        match (self.illegal.reason, self.piece) {
            (Reason::EmptySquare, _) | (_, None) => write!(f, "no piece stands on {from}")?,
            (Reason::WrongSide, Some(piece)) => {
                let (turn, other) = (side(!piece.color), side(piece.color));
                let role = name(piece.role);
                write!(
                    f,
                    "it is {turn}'s turn, and the {role} on {from} is {other}'s"
                )?;
            }
            (reason, Some(piece)) => {
                if self.is_castling(piece) {
                    let wing = match CastlingSide::from_king_side(to > from) {
                        CastlingSide::KingSide => "short",
                        CastlingSide::QueenSide => "long",
                    };
                    write!(f, "{} cannot castle {wing}: ", side(piece.color))?;
                } else {
                    write!(f, "the {} on {from} cannot go to {to}: ", name(piece.role))?;
                }
                self.why(reason, piece, f)?;
            }
        }
        match self.captures.as_slice() {
            [] => f.write_str("; look at the moves before"),
            [first, others @ ..] => {
                write!(f, "; was {first}")?;
                others
                    .iter()
                    .try_for_each(|other| write!(f, " or {other}"))?;
                f.write_str(" meant?")
            }
        }
    }
}

impl IllegalMove {
    /// Tells whether the move was an attempt at castling: nothing blocks any other move of a king.
    fn is_castling(&self, king: Piece) -> bool {
        let is_reason = match self.illegal.reason {
            Reason::CastlingRightLost
            | Reason::CastlingInCheck
            | Reason::CastlingThroughAttack
            | Reason::Blocked => true,
            Reason::EmptySquare
            | Reason::WrongSide
            | Reason::OwnPieceThere
            | Reason::EnPassantExpired
            | Reason::NotItsWay
            | Reason::Pinned
            | Reason::UncoversCheck
            | Reason::StepsIntoCheck
            | Reason::StaysInCheck => false,
        };
        king.role == Role::King && is_reason
    }

    fn why(&self, reason: Reason, piece: Piece, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let turn = side(piece.color);
        let by = Culprit(self.by, self.illegal.by);
        match reason {
            Reason::EmptySquare | Reason::WrongSide => Ok(()),
            Reason::CastlingRightLost => f.write_str("the right to do so is not there"),
            Reason::Blocked => write!(f, "{by} stands in the way"),
            Reason::CastlingInCheck => write!(f, "{by} gives check"),
            Reason::CastlingThroughAttack => {
                write!(f, "{by} attacks a square that the king crosses or reaches")
            }
            Reason::OwnPieceThere if self.attempt.from == self.attempt.to => {
                f.write_str("it stands there already")
            }
            Reason::OwnPieceThere => write!(
                f,
                "a {} of {turn} stands there",
                name(self.target.map_or(Role::Pawn, |target| target.role)),
            ),
            Reason::EnPassantExpired => write!(
                f,
                "{by} could be taken en passant by the very next move only"
            ),
            Reason::NotItsWay => self.off_its_way(piece, f),
            Reason::Pinned => write!(f, "{by} pins it to its king"),
            Reason::UncoversCheck => write!(
                f,
                "taking en passant would open the line from {by} to the king"
            ),
            Reason::StepsIntoCheck => write!(f, "{by} would attack it there"),
            Reason::StaysInCheck => write!(f, "{by} gives check, and that does not meet it"),
        }
    }

    fn off_its_way(&self, piece: Piece, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Attempt { to, promotion, .. } = self.attempt;
        let is_last_rank = to.rank() == piece.color.fold_wb(Rank::Eighth, Rank::First);
        match (piece.role, promotion) {
            (Role::Pawn, None) if is_last_rank => {
                f.write_str("a pawn is promoted there, and what it becomes is not written")
            }
            (Role::Pawn, Some(_)) if !is_last_rank => {
                f.write_str("a pawn is promoted on its last rank only")
            }
            (Role::Knight | Role::Bishop | Role::Rook | Role::Queen | Role::King, Some(_)) => {
                f.write_str("only a pawn is promoted")
            }
            (Role::Pawn, _) if self.reaches.any() => {
                f.write_str("it reaches ")?;
                for (n, square) in self.reaches.into_iter().enumerate() {
                    write!(f, "{}{square}", if n == 0 { "" } else { " or " })?;
                }
                Ok(())
            }
            (role, _) => write!(f, "a {} does not move like that", name(role)),
        }
    }
}

/// The piece to blame, with its square.
struct Culprit(Option<Piece>, Option<Square>);

impl fmt::Display for Culprit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.0, self.1) {
            (Some(piece), Some(square)) => write!(f, "the {} on {square}", name(piece.role)),
            (None, Some(square)) => write!(f, "the piece on {square}"),
            (_, None) => f.write_str("a piece"),
        }
    }
}
