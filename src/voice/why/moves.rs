//! Where a man can go and where not, in words.

use shakmaty::{Color, Piece, Rank, Role, Square};

use crate::question::{Attempt, Blame, MovesWhy, Reason};
use crate::voice::naming::{either, list, man, side};

use super::blame::{Tried, clause};
use super::way::manner;

pub(super) fn moves(why: &MovesWhy) -> Vec<String> {
    let Some(piece) = why.piece else {
        return vec![format!("No man stands on {}.", why.from)];
    };
    let mut said = vec![format!("{} stands on {}.", man(piece), why.from)];
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
            man(pinner)
        ));
    }
    if why.checkers.any() {
        let from = list(why.checkers);
        said.push(format!(
            "Its king is in check from {from}, and every move has to meet that."
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
    for (squares, reason) in grouped(&why.extra) {
        said.push(refused(why, piece, &squares, reason));
    }
    said
}

/// A double step is forgotten easily.
fn double_steps(why: &MovesWhy, color: Color) -> Vec<String> {
    let double = |to: &Square| why.from.rank().distance(to.rank()) == 2;
    let first = color.fold_wb(Rank::Second, Rank::Seventh);
    why.missed
        .into_iter()
        .filter(|to| double(to) && why.from.rank() == first)
        .map(|to| format!("From its first rank a pawn may go two steps, to {to}."))
        .collect()
}

/// Brings together the squares that are closed for the same reason.
fn grouped(extra: &[(Square, Blame)]) -> Vec<(Vec<Square>, &Blame)> {
    let mut groups: Vec<(Vec<Square>, &Blame)> = Vec::new();
    for (square, blame) in extra {
        match groups.iter_mut().find(|(_, known)| *known == blame) {
            Some((squares, _)) => squares.push(*square),
            None => groups.push((vec![*square], blame)),
        }
    }
    groups
}

fn refused(why: &MovesWhy, piece: Piece, squares: &[Square], reason: &Blame) -> String {
    let closed = either(squares);
    match (reason.illegal.reason, squares) {
        (Reason::Pinned, _) => format!("Not {closed}: that leaves the line of the pin."),
        (Reason::NotItsWay, [_, _, ..]) => {
            format!("Not {closed}: {}.", manner(piece.role))
        }
        (_, [to, ..]) => {
            let attempt = Attempt {
                from: why.from,
                to: *to,
                promotion: None,
            };
            let clause = clause(&Tried {
                attempt,
                piece: Some(piece),
                target: None,
                blame: reason,
            });
            format!("Not {closed}: {clause}.")
        }
        (_, []) => String::new(),
    }
}
