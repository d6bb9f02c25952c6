//! Why a piece on the empty board attacks just these squares.

use shakmaty::{Bitboard, Color, Role, Square};

use crate::board::{Alignment, Edge, Pair};
use crate::question::Ray;
use crate::question::bare::{Span, SpanWhy};

use super::super::line::way::{manner, not_attacked};
use super::super::naming::{capital, count, either, list, role};
use super::super::words::BareWords;
use super::placed;

/// More squares than these are counted, not named again.
const NAMED: usize = 8;

impl BareWords for Span {
    fn ask(self) -> String {
        format!(
            "Which squares does a {} attack on the empty board?",
            placed(self.piece)
        )
    }

    fn tell(self) -> String {
        let squares = self.piece.attacks(Bitboard::EMPTY);
        format!("A {} attacks {}.", placed(self.piece), list(squares))
    }

    fn explain(why: &SpanWhy) -> Vec<String> {
        let mut said = Vec::new();
        if why.missed.any() || why.extra.is_empty() {
            said.push(reach(why));
        }
        said.extend(lines(why));
        said.extend(extra(why));
        said
    }
}

/// Tells how many squares it attacks, and what the edge takes from it.
fn reach(why: &SpanWhy) -> String {
    let piece = why.piece.piece();
    let name = role(piece.role);
    let (ring, here) = (why.span.ring, why.span.squares.count());
    match piece.role {
        Role::Rook => format!("A rook attacks {here} squares from anywhere on the empty board."),
        Role::Bishop | Role::Queen if ring == 0 => {
            format!("On the edge a {name} attacks {here} squares, fewer than anywhere else.")
        }
        Role::Bishop | Role::Queen => format!(
            "On the edge a {name} attacks {} squares, and 2 more for each step away from it: {} from \
             the edge, {here} squares.",
            here - 2 * ring as usize,
            count(ring as usize, "step", "steps")
        ),
        Role::Pawn | Role::Knight | Role::King if why.span.cut_by.is_empty() => {
            format!("{}: {here} squares, none cut off by the edge.", how(why))
        }
        Role::Pawn | Role::Knight | Role::King => format!(
            "{}: the edge at {} leaves {here} of {}.",
            how(why),
            list(why.span.cut_by.iter().copied().map(edge)),
            here + why.span.lost
        ),
    }
}

/// Tells how a piece without lines attacks.
fn how(why: &SpanWhy) -> String {
    let piece = why.piece.piece();
    match (piece.role, piece.color) {
        (Role::Pawn, Color::White) => {
            "A white pawn attacks one step diagonally toward the eighth rank".to_owned()
        }
        (Role::Pawn, Color::Black) => {
            "A black pawn attacks one step diagonally toward the first rank".to_owned()
        }
        (Role::Knight | Role::Bishop | Role::Rook | Role::Queen | Role::King, _) => {
            capital(manner(piece.role))
        }
    }
}

const fn edge(edge: Edge) -> &'static str {
    match edge {
        Edge::AFile => "the a-file",
        Edge::HFile => "the h-file",
        Edge::FirstRank => "the first rank",
        Edge::EighthRank => "the eighth rank",
    }
}

/// Follows every line on which a square was missed, from edge to edge: two rays at once.
fn lines(why: &SpanWhy) -> Vec<String> {
    let from = why.piece.square();
    let mut told = Bitboard::EMPTY;
    let mut said = Vec::new();
    for first in why.rays.iter().filter_map(nearest) {
        let Some(pair) = Pair::new(from, first) else {
            continue;
        };
        let line = pair.line().without(from);
        if told.contains(first) || (line & why.missed).is_empty() {
            continue;
        }
        told |= line;
        said.push(format!("Along {} it attacks {}.", named(pair), list(line)));
    }
    said
}

fn nearest(ray: &Ray) -> Option<Square> {
    ray.free.first().copied()
}

fn named(pair: Pair) -> String {
    let at = pair.from();
    match (pair.alignment(), pair.line_ends()) {
        (Alignment::File, _) => format!("the {}-file", at.file().char()),
        (Alignment::Rank, _) => format!("rank {}", at.rank().char()),
        (Alignment::Diagonal, Some(ends)) => {
            let [one, other] = if ends[0] < ends[1] {
                ends
            } else {
                [ends[1], ends[0]]
            };
            format!("the diagonal from {one} to {other}")
        }
        (Alignment::Diagonal | Alignment::None, _) => "its line".to_owned(),
    }
}

fn extra(why: &SpanWhy) -> Vec<String> {
    let (piece, from) = (why.piece.piece(), why.piece.square());
    let mut said = Vec::new();
    if why.extra.contains(from) {
        said.push(format!(
            "Not {from}: a piece does not attack the square on which it stands."
        ));
    }
    let others = why.extra.without(from);
    said.extend(match (others.single_square(), others.count()) {
        (Some(square), _) => Some(format!(
            "Not {square}: {}.",
            not_attacked(piece, from, square)
        )),
        (None, 0) => None,
        (None, ..=NAMED) => Some(format!("Not {}: {}.", either(others), general(piece.role))),
        (None, count) => Some(format!(
            "Not {count} of those named: {}.",
            general(piece.role)
        )),
    });
    said
}

/// Says in one clause for several squares that the piece does not go there.
const fn general(role: Role) -> &'static str {
    match role {
        Role::Pawn => "no pawn's attack leads there",
        Role::Knight => "no knight's jump leads there",
        Role::Bishop => "none of its diagonals leads there",
        Role::Rook => "neither its file nor its rank leads there",
        Role::Queen => "none of its lines leads there",
        Role::King => "one step does not lead there",
    }
}
