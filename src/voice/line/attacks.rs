//! How far a piece sees, in words.

use shakmaty::{Color, Piece, Role, Square, attacks};

use crate::board::Pair;
use crate::exercise::Stand;
use crate::question::{Attacks, AttacksWhy, Ray, Sight, Truth};
use crate::voice::movement::{manner, not_attacked};
use crate::voice::naming::{capital, list, piece_named, role, squares, stands_on};
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
            format!("The piece on {from} attacks {}.", squares(set))
        };
        let pieces = match optional.count() {
            0 => return attacked,
            1 => "piece",
            _ => "pieces",
        };
        let guarded = squares(optional);
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
pub(super) fn in_the_way(by: Piece, on: Square, of: Piece) -> String {
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
