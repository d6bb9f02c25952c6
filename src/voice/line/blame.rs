//! Why a move is illegal, in words: a clause for each reason.

use shakmaty::{CastlingSide, Color, Piece, Role};

use crate::game::Ply;
use crate::question::{Attempt, Blame, Reason, Since};
use crate::voice::naming::{move_of, piece_named, role, side, wing};

use super::way::not_its_way;

/// A move that was tried and refused.
pub(super) struct Tried<'a> {
    /// The move.
    pub(super) attempt: Attempt,
    /// The piece on the from-square.
    pub(super) piece: Option<Piece>,
    /// The piece on the to-square, where it is known.
    pub(super) target: Option<Piece>,
    /// What forbids the move.
    pub(super) blame: &'a Blame,
}

/// Says what forbids the move, as a clause that begins small and ends without a stop.
pub(super) fn clause(tried: &Tried<'_>) -> String {
    let from = tried.attempt.from;
    let by = culprit(tried.blame);
    match tried.blame.illegal.reason {
        Reason::EmptySquare => format!("no piece stands on {from}"),
        Reason::WrongSide => wrong_side(tried.piece),
        Reason::CastlingRightLost => right_lost(tried),
        Reason::Blocked => blocked(tried, &by),
        Reason::CastlingInCheck => {
            format!("{by} gives check, and a king does not castle out of check")
        }
        Reason::CastlingThroughAttack => through(tried, &by),
        Reason::OwnPieceThere => own_piece(tried),
        Reason::EnPassantExpired => expired(tried.blame, &by),
        Reason::NotItsWay => off_its_way(tried),
        Reason::Pinned => format!("it shields its king from {by} and has to stay on that line"),
        Reason::UncoversCheck => {
            format!("taking en passant would clear two pieces off the line from {by} to the king")
        }
        Reason::StepsIntoCheck => format!("{by} would attack the king there"),
        Reason::StaysInCheck => format!("{by} gives check, and the move does not meet it"),
    }
}

/// Says which square of the king's way is attacked.
fn through(tried: &Tried<'_>, by: &str) -> String {
    let arrival = tried
        .piece
        .map(|king| side_of_castling(tried.attempt).king_to(king.color));
    match tried.blame.crossing {
        Some(square) if Some(square) == arrival => {
            format!("{by} would attack the king on {square}")
        }
        Some(square) => {
            format!("{by} attacks {square}, which the king would cross in castling")
        }
        None => format!("{by} attacks the king's way in castling"),
    }
}

/// Names the piece to blame with its square.
fn culprit(blame: &Blame) -> String {
    match (blame.by, blame.illegal.by) {
        (Some(piece), Some(square)) => format!("{} on {square}", piece_named(piece)),
        (None, Some(square)) => format!("the piece on {square}"),
        (_, None) => "a piece".to_owned(),
    }
}

fn wrong_side(piece: Option<Piece>) -> String {
    piece.map_or_else(
        || "it is the other side's turn".to_owned(),
        |piece| format!("it is {}'s turn", side(!piece.color)),
    )
}

fn side_of_castling(attempt: Attempt) -> CastlingSide {
    CastlingSide::from_king_side(attempt.to > attempt.from)
}

fn right_lost(tried: &Tried<'_>) -> String {
    let wing = wing(side_of_castling(tried.attempt));
    match &tried.blame.since {
        Since::RightLost(ply) => format!(
            "the right to castle {wing} was lost with {}, when {}",
            move_of(ply.number),
            loss(tried.piece.map_or(ply.side(), |king| king.color), ply)
        ),
        Since::NeverHadRight => {
            format!("there was no right to castle {wing} at the start of the line")
        }
        Since::NoMatter | Since::DoubleStep(_) => format!("the right to castle {wing} is gone"),
    }
}

/// Tells what happened on the ply that cost the right to castle.
pub(super) fn loss(owner: Color, ply: &Ply) -> String {
    let own = owner == ply.side();
    if ply.mv.is_castle() {
        return "the king castled".to_owned();
    }
    if !own {
        return format!(
            "{} took the rook on {}",
            piece_named(ply.mv.role().of(ply.side())),
            ply.to()
        );
    }
    format!("the {} left {}", role(ply.mv.role()), ply.from())
}

fn blocked(tried: &Tried<'_>, by: &str) -> String {
    let Attempt { from, to, .. } = tried.attempt;
    let kind = tried.piece.map(|piece| piece.role);
    if kind == Some(Role::King) {
        return format!("{by} stands in the way of castling");
    }
    if kind == Some(Role::Pawn) && from.file() == to.file() && tried.blame.illegal.by == Some(to) {
        return format!("{by} is in its way, and a pawn does not take straight ahead");
    }
    format!("{by} stands in the way")
}

fn own_piece(tried: &Tried<'_>) -> String {
    if tried.attempt.from == tried.attempt.to {
        return "a move has to lead to another square".to_owned();
    }
    tried.target.map_or_else(
        || "its own piece stands there".to_owned(),
        |target| format!("its own {} stands there", role(target.role)),
    )
}

fn expired(blame: &Blame, by: &str) -> String {
    match blame.since {
        Since::DoubleStep(number) => format!(
            "it is too late to take en passant: {by} made its double step with {}, and only the very \
             next ply could take it",
            move_of(number)
        ),
        Since::NoMatter | Since::RightLost(_) | Since::NeverHadRight => format!(
            "it is too late to take {by} en passant: only the ply after its double step could"
        ),
    }
}

fn off_its_way(tried: &Tried<'_>) -> String {
    let Attempt {
        from,
        to,
        promotion,
    } = tried.attempt;
    let Some(piece) = tried.piece else {
        return format!("no piece moves like that, from {from} to {to}");
    };
    let last_rank = piece
        .color
        .fold_wb(shakmaty::Rank::Eighth, shakmaty::Rank::First);
    match (piece.role, promotion) {
        (Role::Pawn, Some(Role::Pawn | Role::King)) => {
            "a pawn becomes a queen, rook, bishop or knight".to_owned()
        }
        (Role::Pawn, Some(_)) if to.rank() != last_rank => {
            format!("a pawn becomes another piece only on its last rank, not on {to}")
        }
        (Role::Pawn, None) if to.rank() == last_rank && from.rank().distance(to.rank()) == 1 => {
            format!("a pawn that goes to {to} has to become another piece")
        }
        (Role::Knight | Role::Bishop | Role::Rook | Role::Queen | Role::King, Some(_)) => {
            "only a pawn becomes another piece".to_owned()
        }
        (Role::Pawn | Role::Knight | Role::Bishop | Role::Rook | Role::Queen | Role::King, _) => {
            not_its_way(piece, from, to)
        }
    }
}
