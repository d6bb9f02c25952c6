//! A move in a game's text that is understood and illegal, with the one reason why.

use shakmaty::san::San;
use shakmaty::{Bitboard, CastlingSide, Chess, Move, Piece, Position, Rank, Role, Square};

use super::open_line::OpenLine;
use crate::rules::{
    Attempt, Illegal, Judge, MoveFault, Reason, Wording, meant, role_name, side_name, wing_name,
};

/// A move whose squares are known, and why it is illegal.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{sentence}")]
pub struct IllegalMove {
    /// The move.
    pub attempt: Attempt,
    /// The one reason and the square to blame.
    pub illegal: Illegal,
    sentence: String,
}

impl IllegalMove {
    /// Finds out what a text that gives no legal move means at the end of a line. `None` where it is not
    /// understood, where several pieces could be meant, or none.
    pub(super) fn find(said: Wording, fault: &MoveFault, line: &OpenLine) -> Option<IllegalMove> {
        if !fault.is_illegal() {
            return None;
        }
        let position = line.position();
        let attempt = meant(said, position)?;
        let illegal = Judge::new(position, line.past()).illegal(attempt)?;
        Some(IllegalMove {
            attempt,
            illegal,
            sentence: refused(position, attempt, illegal) + "; " + &remedy(position, attempt),
        })
    }
}

/// Says what the piece cannot do, and why.
fn refused(position: &Chess, attempt: Attempt, illegal: Illegal) -> String {
    let Attempt { from, to, .. } = attempt;
    let Some(piece) = position.board().piece_at(from) else {
        return format!("no piece stands on {from}");
    };
    let turn = side_name(position.turn());
    let named = |square: Square| position.board().role_at(square).map_or("piece", role_name);
    let by = illegal.by.map_or_else(
        || "a piece".to_owned(),
        |square| format!("the {} on {square}", named(square)),
    );
    let wing = wing_name(CastlingSide::from_king_side(to > from));
    let why = match illegal.reason {
        Reason::EmptySquare | Reason::WrongSide => {
            let (role, owner) = (role_name(piece.role), side_name(piece.color));
            return format!("it is {turn}'s turn, and the {role} on {from} is {owner}'s");
        }
        Reason::CastlingRightLost => format!("the right to castle {wing} is gone"),
        Reason::Blocked => format!("{by} stands in the way"),
        Reason::CastlingInCheck => format!("{by} gives check"),
        Reason::CastlingThroughAttack => {
            format!("{by} attacks a square that the king crosses or reaches")
        }
        Reason::OwnPieceThere if from == to => "it stands there already".to_owned(),
        Reason::OwnPieceThere => format!("a {} of {turn} stands there", named(to)),
        Reason::EnPassantExpired => {
            format!("{by} could be taken en passant by the very next move only")
        }
        Reason::NotItsWay => off_its_way(position, piece, attempt),
        Reason::Pinned => format!("{by} pins it to its king"),
        Reason::UncoversCheck => {
            format!("taking en passant would open the line from {by} to the king")
        }
        Reason::StepsIntoCheck => format!("{by} would attack it there"),
        Reason::StaysInCheck => {
            format!("{turn} is in check from {by}, and this move does not stop that")
        }
    };
    // Nothing blocks any other move of a king.
    let castles = piece.role == Role::King
        && matches!(
            illegal.reason,
            Reason::CastlingRightLost
                | Reason::CastlingInCheck
                | Reason::CastlingThroughAttack
                | Reason::Blocked
        );
    if castles {
        format!("{turn} cannot castle {wing}: {why}")
    } else {
        let role = role_name(piece.role);
        format!("the {role} on {from} cannot go to {to}: {why}")
    }
}

fn off_its_way(position: &Chess, piece: Piece, attempt: Attempt) -> String {
    let Attempt { from, to, .. } = attempt;
    let is_last_rank = to.rank() == piece.color.fold_wb(Rank::Eighth, Rank::First);
    let legal = position.legal_moves();
    let own = legal.iter().filter(|mv| mv.from() == Some(from));
    let reaches: Bitboard = own.map(|mv| mv.to()).collect();
    match (piece.role, attempt.promotion) {
        (Role::Pawn, None) if is_last_rank => {
            "a pawn is promoted there, and what it becomes is not written".to_owned()
        }
        (Role::Pawn, Some(_)) if !is_last_rank => {
            "a pawn is promoted on its last rank only".to_owned()
        }
        (Role::Pawn, _) if reaches.any() => {
            let squares: Vec<String> = reaches.into_iter().map(|to| to.to_string()).collect();
            format!("it reaches {}", squares.join(" or "))
        }
        (Role::Knight | Role::Bishop | Role::Rook | Role::Queen | Role::King, Some(_)) => {
            "only a pawn is promoted".to_owned()
        }
        (role, _) => format!("a {} does not move like that", role_name(role)),
    }
}

/// Says what to do: where a pawn's step was written, a pawn's capture on that square may be meant.
fn remedy(position: &Chess, attempt: Attempt) -> String {
    let Attempt {
        from,
        to,
        promotion,
    } = attempt;
    let is_step = position.board().role_at(from) == Some(Role::Pawn) && from.file() == to.file();
    let is_capture = |mv: &&Move| {
        mv.role() == Role::Pawn && mv.is_capture() && (mv.to(), mv.promotion()) == (to, promotion)
    };
    let legal = position.legal_moves();
    let captures: Vec<String> = (legal.iter().filter(is_capture))
        .filter(|_| is_step)
        .map(|mv| San::from_move(position, *mv).to_string())
        .collect();
    if captures.is_empty() {
        "look at the moves before".to_owned()
    } else {
        format!("was {} meant?", captures.join(" or "))
    }
}
