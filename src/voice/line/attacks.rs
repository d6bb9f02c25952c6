//! How far a piece sees, in words.

use shakmaty::{Color, Piece, Role, Square, attacks};

use crate::exercise::Stand;
use crate::question::{Attacks, AttacksWhy, Ray, Sight, Truth};
use crate::voice::naming::{capital, list, piece_named, role, squares};
use crate::voice::words::LineWords;

use super::journey::of;
use super::way::{manner, not_attacked};

impl LineWords for Attacks {
    fn ask(self, _: &Stand) -> String {
        format!("Which squares does the piece on {} attack?", self.square)
    }

    fn tell(self, truth: &Truth) -> String {
        let (from, set, optional) = (self.square, truth.set(), truth.optional());
        let attacked = if set.is_empty() {
            format!("The piece on {from} attacks no square")
        } else {
            format!("The piece on {from} attacks {}", squares(set))
        };
        if optional.is_empty() {
            return format!("{attacked}.");
        }
        format!(
            "{attacked}. It guards its own side's {} on {}, which may be named or left out.",
            if optional.count() == 1 {
                "piece"
            } else {
                "pieces"
            },
            squares(optional)
        )
    }

    fn explain(why: &AttacksWhy) -> Vec<String> {
        let Some(piece) = why.piece else {
            return vec![format!("No piece stands on {}.", why.from)];
        };
        let mut said = vec![format!("{} stands on {}.", piece_named(piece), why.from)];
        said.extend(without_lines(piece, why.from));
        said.extend(
            why.rays
                .iter()
                .filter(|ray| matters(ray, why))
                .map(|ray| ray_line(ray, why.from, piece.color)),
        );
        said.extend(
            why.extra
                .iter()
                .map(|(square, sight)| extra(piece, why.from, *square, sight)),
        );
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
    let missed = ray
        .free
        .iter()
        .copied()
        .chain(stop)
        .any(|square| why.missed.contains(square));
    let beyond = why.extra.iter().any(|(_, sight)| match sight {
        Sight::Blocked { on, .. } => stop == Some(*on),
        Sight::Open { .. } | Sight::NotItsWay => false,
    });
    missed || beyond
}

fn ray_line(ray: &Ray, from: Square, color: Color) -> String {
    let towards = ray
        .free
        .first()
        .copied()
        .or(ray.stop.map(|(square, _)| square));
    let line = towards.map_or("line", |square| line_name(from, square));
    let free = list(&ray.free);
    match ray.stop {
        None => format!("Along the {line} it attacks {free}, up to the edge of the board."),
        Some((square, piece)) => {
            let end = format!("{} on {square}", of(piece.color, color, piece.role));
            match (ray.free.is_empty(), piece.color == color) {
                (true, true) => {
                    format!("Along the {line} it guards {end} and sees no further.")
                }
                (true, false) => {
                    format!("Along the {line} it attacks {end} and sees no further.")
                }
                (false, true) => {
                    format!("Along the {line} it attacks {free}, guards {end} and sees no further.")
                }
                (false, false) => {
                    format!("Along the {line} it attacks {free}, then {end}, and sees no further.")
                }
            }
        }
    }
}

fn line_name(from: Square, to: Square) -> &'static str {
    if from.file() == to.file() {
        "file"
    } else if from.rank() == to.rank() {
        "rank"
    } else {
        "diagonal"
    }
}

fn extra(piece: Piece, from: Square, square: Square, sight: &Sight) -> String {
    match sight {
        Sight::Blocked { by, on } => format!(
            "Not {square}: {} on {on} stands in the way.",
            of(by.color, piece.color, by.role)
        ),
        Sight::NotItsWay => format!("Not {square}: {}.", not_attacked(piece, from, square)),
        Sight::Open { .. } => format!("The {} sees {square}.", role(piece.role)),
    }
}
