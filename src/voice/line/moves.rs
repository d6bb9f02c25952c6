//! Where a piece can go and where not, in words.

use shakmaty::{Color, Piece, Rank, Role, Square};

use crate::exercise::Stand;
use crate::question::{Attempt, Closed, Moves, MovesWhy, Reason, Truth};
use crate::voice::naming::{either, list, piece_named, role, side, squares};
use crate::voice::words::LineWords;

use super::blame::{Tried, clause};
use super::way::manner;

impl LineWords for Moves {
    fn ask(self, stand: &Stand) -> String {
        format!(
            "{} to move: to which squares can the piece on {} legally go?",
            side(stand.turn),
            self.square
        )
    }

    fn tell(self, truth: &Truth) -> String {
        let set = truth.set();
        if set.is_empty() {
            return format!("The piece on {} has no legal move.", self.square);
        }
        format!("The piece on {} can go to {}.", self.square, squares(set))
    }

    fn explain(why: &MovesWhy) -> Vec<String> {
        let Some(piece) = why.piece else {
            return vec![format!("No piece stands on {}.", why.from)];
        };
        let mut said = vec![format!("{} stands on {}.", piece_named(piece), why.from)];
        if piece.color != why.turn {
            said.push(format!(
                "It is {}'s turn, so it cannot move.",
                side(why.turn)
            ));
            return said;
        }
        if let Some((square, pinner)) = why.pinned_by {
            said.push(format!(
                "It is pinned to its king by {} on {square}.",
                piece_named(pinner)
            ));
        }
        if why.checkers.any() {
            let from = list(why.checkers);
            let who = if piece.role == Role::King {
                "It"
            } else {
                "Its king"
            };
            said.push(format!(
                "{who} is in check from {from}, and every move has to meet that."
            ));
        }
        if piece.role == Role::King {
            let castled = why
                .missed
                .into_iter()
                .filter(|to| why.from.distance(*to) > 1);
            said.extend(castled.map(|to| format!("Castling counts as the king's way to {to}.")));
        }
        if piece.role == Role::Pawn {
            said.extend(double_steps(why, piece.color));
        }
        let groups = grouped(why, piece);
        said.extend(groups.iter().map(|group| refused(why, piece, group)));
        said
    }
}

/// A double step is forgotten easily.
fn double_steps(why: &MovesWhy, color: Color) -> Vec<String> {
    let double = |to: &Square| why.from.rank().distance(to.rank()) == 2;
    let first = color.fold_wb(Rank::Second, Rank::Seventh);
    why.missed
        .into_iter()
        .filter(|to| double(to) && why.from.rank() == first)
        .map(|to| format!("A pawn that has not moved may go two steps, to {to}."))
        .collect()
}

/// Brings together the squares that are closed for the same reason. Why a pawn does not go somewhere
/// differs from square to square.
fn grouped(why: &MovesWhy, piece: Piece) -> Vec<Vec<&Closed>> {
    let mut groups: Vec<Vec<&Closed>> = Vec::new();
    for closed in &why.extra {
        let alone = closed.to == why.from
            || (piece.role == Role::Pawn && closed.blame.illegal.reason == Reason::NotItsWay);
        let same = |group: &&mut Vec<&Closed>| {
            group
                .iter()
                .all(|known| known.blame == closed.blame && known.to != why.from)
        };
        match groups.iter_mut().find(same) {
            Some(group) if !alone => group.push(closed),
            _ => groups.push(vec![closed]),
        }
    }
    groups
}

fn refused(why: &MovesWhy, piece: Piece, group: &[&Closed]) -> String {
    let named = either(group.iter().map(|closed| closed.to));
    let reason = match group {
        [one] => one_refused(why, piece, one),
        several => several_refused(why, piece, several),
    };
    format!("Not {named}: {reason}.")
}

fn several_refused(why: &MovesWhy, piece: Piece, group: &[&Closed]) -> String {
    let first = group[0];
    match first.blame.illegal.reason {
        Reason::NotItsWay => manner(piece.role).to_owned(),
        Reason::OwnPieceThere => {
            let pieces = group.iter().filter_map(|closed| {
                Some(format!("{} on {}", role(closed.target?.role), closed.to))
            });
            format!("its own {} stand there", list(pieces))
        }
        Reason::EmptySquare
        | Reason::WrongSide
        | Reason::CastlingRightLost
        | Reason::Blocked
        | Reason::CastlingInCheck
        | Reason::CastlingThroughAttack
        | Reason::EnPassantExpired
        | Reason::Pinned
        | Reason::UncoversCheck
        | Reason::StepsIntoCheck
        | Reason::StaysInCheck => one_refused(why, piece, first),
    }
}

fn one_refused(why: &MovesWhy, piece: Piece, closed: &Closed) -> String {
    if closed.blame.illegal.reason == Reason::Pinned {
        return "that leaves the line of the pin".to_owned();
    }
    clause(&Tried {
        attempt: Attempt {
            from: why.from,
            to: closed.to,
            promotion: None,
        },
        piece: Some(piece),
        target: closed.target,
        blame: &closed.blame,
    })
}
