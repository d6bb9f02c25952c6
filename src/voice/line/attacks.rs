//! How far a piece sees, who attacks a square, who gives check and who guards, in words.

use shakmaty::{Bitboard, Color, Piece, Role, Square};

use crate::exercise::Stand;
use crate::question::{
    Attacker, Attackers, AttackersWhy, Attacks, AttacksWhy, Check, Hanging, HangingWhy, Ray, Sight,
    Truth, Watched,
};
use crate::voice::movement::{leads_nowhere, not_attacked};
use crate::voice::naming::{
    groups, list, none_of, piece_named, piece_on, role, roles_on, side, stands_on,
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
        if optional.is_empty() {
            return attacked;
        }
        let guarded = list(optional);
        format!("{attacked} It guards {guarded}, which may be left out.")
    }

    fn explain(why: &AttacksWhy) -> Vec<String> {
        let Some(piece) = why.piece else {
            return vec![format!("No piece stands on {}.", why.from)];
        };
        let mut said = vec![stands_on(piece, why.from)];
        if piece.role == Role::Pawn && why.missed.any() {
            said.push("A pawn attacks diagonally, whatever stands there.".to_owned());
        }
        said.extend(lines(&why.rays, why.missed, piece.color, "attacks"));
        let alike = |one: &(Square, Sight), other: &(Square, Sight)| one.1 == other.1;
        let extra = groups(&why.extra, alike);
        said.extend(extra.iter().map(|group| extra_told(piece, why.from, group)));
        said
    }
}

/// Tells where the lines end on which squares were missed, by what ends them.
pub(super) fn lines(rays: &[Ray], missed: Bitboard, color: Color, takes: &str) -> Vec<String> {
    let squares = |ray: &&Ray| {
        let stop = ray.stop.map(|(square, _)| square);
        ray.free
            .iter()
            .copied()
            .chain(stop)
            .any(|square| missed.contains(square))
    };
    let rays: Vec<&Ray> = rays.iter().filter(squares).collect();
    let free = rays.iter().filter(|ray| ray.stop.is_none());
    let free = list(free.filter_map(|ray| ray.free.last()));
    let ends = |own: bool| {
        let stops = rays.iter().filter_map(|ray| ray.stop);
        stops.filter(move |(_, piece)| (piece.color == color) == own)
    };
    let (others, own) = (ends(false).count(), ends(true));
    let other = list(ends(false).map(|(on, piece)| piece_on(piece, on)));
    let own = list(own.map(|(on, piece)| format!("its own {} on {on}", role(piece.role))));
    let line = if others == 1 {
        "line ends"
    } else {
        "lines end"
    };
    [
        (!free.is_empty()).then(|| format!("Its way is free to {free}.")),
        (others > 0).then(|| format!("It {takes} {other}, where its {line}.")),
        (!own.is_empty()).then(|| format!("It is stopped by {own}.")),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Says why squares that were named are not attacked, all for one reason.
fn extra_told(piece: Piece, from: Square, group: &[&(Square, Sight)]) -> String {
    let squares = none_of(group.iter().map(|(square, _)| *square));
    let reason = match group {
        [(_, Sight::Blocked { by, on }), ..] => in_the_way(*by, *on, piece),
        [(square, _)] => not_attacked(piece, from, *square),
        _ => leads_nowhere(piece.role).to_owned(),
    };
    format!("{squares}: {reason}.")
}

/// Says that no piece stands on a square that was named.
fn nobody(square: Square) -> String {
    format!("Not {square}: no piece stands there.")
}

/// Says that a piece of the wrong side stands on a square that was named.
fn not_there(piece: Piece, square: Square) -> String {
    format!("Not {square}: {} stands there.", piece_named(piece))
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
        let sees = if why.guarded { "guards" } else { "attacks" };
        told(why, &why.square.to_string(), sees)
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
        told(why, &aim, "attacks")
    }
}

/// Tells which pieces have something to do with what is aimed at: what those do that see it, and where
/// those belong that are of the wrong side.
fn told(why: &AttackersWhy, aim: &str, sees: &str) -> Vec<String> {
    let lookers = why.missed.iter().chain(&why.extra);
    let told = lookers.map(|(from, looker)| match looker {
        Attacker::Nobody => nobody(*from),
        Attacker::OtherSide(piece) => not_there(*piece, *from),
        Attacker::Piece(piece, sight) => {
            let name = piece_on(*piece, *from);
            match sight {
                Sight::Open { over } if over.is_empty() => format!("{name} {sees} {aim}."),
                Sight::Open { over } => {
                    let over = match over.as_slice() {
                        [first, _, .., last] => format!("{first} to {last}"),
                        over => list(over),
                    };
                    format!("{name} looks through {over} at {aim}.")
                }
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
            None => nobody(watched.square),
        };
        why.watched.iter().map(told).collect()
    }
}

fn watch(why: &HangingWhy, watched: &Watched, piece: Piece) -> String {
    let name = piece_on(piece, watched.square);
    if piece.color != why.color {
        return not_there(piece, watched.square);
    }
    if piece.role == Role::King {
        return format!("{name} is left out, as every king is.");
    }
    match (watched.attackers.as_slice(), watched.guards.as_slice()) {
        ([], _) => format!("{name} is not attacked."),
        (attackers, []) => {
            let attackers = roles_on(attackers);
            format!("{name} is attacked by {attackers}, and no piece guards it.")
        }
        (_, guards) => format!("{name} is guarded by {}.", roles_on(guards)),
    }
}
