//! How far a piece sees, who attacks a square, who gives check and who guards, in words.

use shakmaty::{Color, Piece, Role, Square, attacks};

use crate::board::Pair;
use crate::exercise::Stand;
use crate::question::{
    Attacker, Attackers, AttackersWhy, Attacks, AttacksWhy, Check, Hanging, HangingWhy, Ray, Sight,
    Truth, Watched,
};
use crate::voice::movement::{manner, not_attacked};
use crate::voice::naming::{
    capital, list, piece_named, piece_on, pieces_on, role, side, stands_on,
};
use crate::voice::words::LineWords;

impl LineWords for Attacks {
    fn ask(self, _: &Stand) -> String {
        format!("Which squares does the piece on {} attack?", self.square)
    }

    fn tell(self, truth: &Truth) -> String {
        let (from, set, optional) = (self.square, truth.set(), truth.optional());
        let attacked = if set.is_empty() {
            format!("The piece on {from} attacks no square.")
        } else {
            format!("The piece on {from} attacks {}.", list(set))
        };
        let pieces = match optional.count() {
            0 => return attacked,
            1 => "piece",
            _ => "pieces",
        };
        let guarded = list(optional);
        format!(
            "{attacked} It guards its own side's {pieces} on {guarded}, which may be named or left out."
        )
    }

    fn explain(why: &AttacksWhy) -> Vec<String> {
        let Some(piece) = why.piece else {
            return vec![format!("No piece stands on {}.", why.from)];
        };
        let mut said = vec![stands_on(piece, why.from)];
        said.extend(without_lines(piece, why.from));
        let rays = why.rays.iter().filter(|ray| matters(ray, why));
        said.extend(rays.map(|ray| ray_line(ray, why.from, piece.color)));
        let extra = |(square, sight): &_| extra(piece, why.from, *square, sight);
        said.extend(why.extra.iter().map(extra));
        said
    }
}

/// Says how a piece without lines attacks.
fn without_lines(piece: Piece, from: Square) -> Option<String> {
    match piece.role {
        Role::Pawn => {
            let ahead = list(attacks::pawn_attacks(piece.color, from));
            Some(format!(
                "A pawn attacks diagonally, one step ahead, whatever stands there: {ahead}."
            ))
        }
        Role::Knight | Role::King => Some(format!("{}.", capital(manner(piece.role)))),
        Role::Bishop | Role::Rook | Role::Queen => None,
    }
}

/// A line is worth telling where the learner missed squares of it or saw too far along it.
fn matters(ray: &Ray, why: &AttacksWhy) -> bool {
    let stop = ray.stop.map(|(square, _)| square);
    let missed = |square: &Square| why.missed.contains(*square);
    ray.free.iter().chain(&stop).any(missed)
        || why.extra.iter().any(|(_, sight)| match sight {
            Sight::Blocked { on, .. } => stop == Some(*on),
            Sight::Open { .. } | Sight::NotItsWay => false,
        })
}

fn ray_line(ray: &Ray, from: Square, color: Color) -> String {
    let stop = ray.stop.as_ref().map(|(square, _)| square);
    let next = ray.free.first().or(stop);
    let ends = next.and_then(|next| Pair::new(from, *next)?.line_ends());
    let toward = ends.map_or_else(String::new, |[_, end]| format!("Toward {end} "));
    let free = list(&ray.free);
    let Some((square, piece)) = ray.stop else {
        return format!("{toward}it attacks {free}, up to the edge of the board.");
    };
    let end = format!("{} on {square}", own_or_other(piece, color));
    let seen = match (ray.free.is_empty(), piece.color == color) {
        (true, true) => format!("guards {end}"),
        (true, false) => format!("attacks {end}"),
        (false, true) => format!("attacks {free}, guards {end}"),
        (false, false) => format!("attacks {free}, then {end},"),
    };
    format!("{toward}it {seen} and sees no further.")
}

fn extra(piece: Piece, from: Square, square: Square, sight: &Sight) -> String {
    match sight {
        Sight::Blocked { by, on } => format!("Not {square}: {}.", in_the_way(*by, *on, piece)),
        Sight::NotItsWay => format!("Not {square}: {}.", not_attacked(piece, from, square)),
        Sight::Open { .. } => format!("The {} sees {square}.", role(piece.role)),
    }
}

/// Says what stands in the way of a piece, in a clause.
fn in_the_way(by: Piece, on: Square, of: Piece) -> String {
    format!("{} on {on} stands in the way", own_or_other(by, of.color))
}

/// Names a piece as "its own knight" where it is of the side of the piece that the sentence is about.
fn own_or_other(piece: Piece, color: Color) -> String {
    if piece.color == color {
        format!("its own {}", role(piece.role))
    } else {
        piece_named(piece)
    }
}

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
        let from = list(set);
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
        format!("Check comes from {}.", list(set))
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
            1 => format!("{side} has a hanging piece on {}.", list(set)),
            _ => format!("{side} has hanging pieces on {}.", list(set)),
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
