//! Who attacks a square, who gives check and who guards, in words.

use shakmaty::{Piece, Role};

use crate::exercise::Stand;
use crate::question::{
    Attacker, Attackers, AttackersWhy, Check, Hanging, HangingWhy, Sight, Truth, Watched,
};
use crate::voice::movement::not_attacked;
use crate::voice::naming::{list, piece_named, piece_on, pieces_on, side, squares};
use crate::voice::words::LineWords;

use super::attacks::in_the_way;

impl LineWords for Attackers {
    fn ask(self, _: &Stand) -> String {
        let (side, square) = (side(self.color), self.square);
        format!("Which of {side}'s pieces attack or guard {square}? Name their squares.")
    }

    fn tell(self, truth: &Truth) -> String {
        let (side, square, set) = (side(self.color), self.square, truth.set());
        if set.is_empty() {
            return format!("None of {side}'s pieces attacks or guards {square}.");
        }
        let from = squares(set);
        format!("{side}'s pieces that attack or guard {square} stand on {from}.")
    }

    fn explain(why: &AttackersWhy) -> Vec<String> {
        let aim = why.square.to_string();
        told(why, &aim, "reaches", "a piece of the other side")
    }
}

impl LineWords for Check {
    fn ask(self, stand: &Stand) -> String {
        let turn = side(stand.turn);
        format!(
            "{turn} to move: is {turn} in check? Name the square of every piece that gives check, or none."
        )
    }

    fn tell(self, truth: &Truth) -> String {
        let set = truth.set();
        if set.is_empty() {
            return "There is no check.".to_owned();
        }
        format!("Check comes from {}.", squares(set))
    }

    fn explain(why: &AttackersWhy) -> Vec<String> {
        let aim = format!("the king on {}", why.square);
        told(why, &aim, "attacks", "on the king's own side")
    }
}

/// Tells which pieces have something to do with what is aimed at: what those do that see it, and where
/// those belong that are of the wrong side.
fn told(why: &AttackersWhy, aim: &str, sees: &str, wrong_side: &str) -> Vec<String> {
    let lookers = why.missed.iter().chain(&why.extra);
    let told = lookers.map(|(from, looker)| match looker {
        Attacker::Nobody => format!("No piece stands on {from}."),
        Attacker::OtherSide(piece) => {
            let name = piece_named(*piece);
            format!("{name} stands on {from}, {wrong_side}.")
        }
        Attacker::Piece(piece, sight) => {
            let name = piece_on(*piece, *from);
            match sight {
                Sight::Open { over } if over.is_empty() => format!("{name} {sees} {aim}."),
                Sight::Open { over } => format!("{name} looks through {} at {aim}.", list(over)),
                Sight::Blocked { by, on } => {
                    let reason = in_the_way(*by, *on, *piece);
                    format!("{name} does not reach {aim}: {reason}.")
                }
                Sight::NotItsWay => {
                    let reason = not_attacked(*piece, *from, why.square);
                    format!("{name} does not reach {aim}: {reason}.")
                }
            }
        }
    });
    told.collect()
}

impl LineWords for Hanging {
    fn ask(self, _: &Stand) -> String {
        let side = side(self.color);
        format!(
            "Which of {side}'s pieces are attacked and not guarded, the king left out? Name their \
             squares, or none."
        )
    }

    fn tell(self, truth: &Truth) -> String {
        let (side, set) = (side(self.color), truth.set());
        match set.count() {
            0 => format!("No piece of {side} is hanging."),
            1 => format!("{side} has a hanging piece on {}.", squares(set)),
            _ => format!("{side} has hanging pieces on {}.", squares(set)),
        }
    }

    fn explain(why: &HangingWhy) -> Vec<String> {
        let told = |watched: &Watched| match watched.piece {
            Some(piece) => watch(why, watched, piece),
            None => format!("No piece stands on {}.", watched.square),
        };
        why.watched.iter().map(told).collect()
    }
}

fn watch(why: &HangingWhy, watched: &Watched, piece: Piece) -> String {
    let name = piece_on(piece, watched.square);
    if piece.color != why.color {
        return format!("{name} is not one of {}'s pieces.", side(why.color));
    }
    if piece.role == Role::King {
        return format!("{name} is left out, as every king is.");
    }
    match (watched.attackers.as_slice(), watched.guards.as_slice()) {
        ([], _) => format!("{name} is not attacked by {}.", side(!why.color)),
        (attackers, []) => {
            let attackers = pieces_on(attackers);
            format!("{name} is attacked by {attackers}, and no piece guards it.")
        }
        (_, guards) => format!("{name} is guarded by {}.", pieces_on(guards)),
    }
}
