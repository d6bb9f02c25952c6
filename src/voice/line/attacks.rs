//! How far a piece sees, who attacks a square, who gives check and who guards, in words.

use shakmaty::{Bitboard, Board, Color, Piece, Role, Square};

use crate::exercise::Stand;
use crate::question::{Attackers, Attacks, Check, Hanging, OnBoard, Ray, Sight, Truth, seen_by};
use crate::voice::movement::{leads_nowhere, not_attacked};
use crate::voice::naming::{
    groups, list, none_of, piece_named, piece_on, pieces_on, role, roles_on, side, squares,
    stands_on,
};
use crate::voice::words::LineWords;

/// So many pieces are told of, where none is what was asked for.
const TOLD: usize = 3;

impl LineWords for Attacks {
    fn ask(self, _: &Stand) -> String {
        format!("Which squares does the piece on {} attack?", self.square)
    }

    fn tell(self, truth: &Truth) -> String {
        let (from, attacked) = (self.square, squares(truth.set()));
        let guarded = match truth.optional() {
            Bitboard::EMPTY => String::new(),
            optional => format!(" It guards {}, which may be left out.", list(optional)),
        };
        format!("The piece on {from} attacks {attacked}.{guarded}")
    }

    fn explain(why: &OnBoard<Attacks>) -> Vec<String> {
        let OnBoard { board, tally, .. } = why;
        let from = why.asked.square;
        let Some(piece) = board.piece_at(from) else {
            return vec![format!("No piece stands on {from}.")];
        };
        let mut said = vec![stands_on(piece, from)];
        if piece.role == Role::Pawn && tally.missed.any() {
            said.push("A pawn attacks diagonally, whatever stands there.".to_owned());
        }
        said.extend(lines(board, from, tally.missed, "attacks"));
        let extra = tally.extra.into_iter();
        let extra: Vec<_> = extra.map(|at| (at, Sight::new(board, from, at))).collect();
        let extra = groups(&extra, |one, other| one.1 == other.1);
        said.extend(extra.iter().map(|group| extra_told(piece, from, group)));
        said
    }
}

/// Tells where the lines of a line piece end on which squares were missed, by what ends them.
pub(super) fn lines(board: &Board, from: Square, missed: Bitboard, takes: &str) -> Vec<String> {
    let is_missed = |ray: &Ray| {
        let mut seen = ray.free.iter().chain(ray.stop.as_ref().map(|(on, _)| on));
        seen.any(|square| missed.contains(*square))
    };
    let rays: Vec<Ray> = Ray::all(board, from)
        .into_iter()
        .filter(is_missed)
        .collect();
    let free = rays.iter().filter(|ray| ray.stop.is_none());
    let free = list(free.filter_map(|ray| ray.free.last()));
    let stops = rays.iter().filter_map(|ray| ray.stop);
    let (own, others): (Vec<_>, Vec<_>) =
        stops.partition(|(_, piece)| board.color_at(from) == Some(piece.color));
    let own =
        list({ own.iter() }.map(|(on, piece)| format!("its own {} on {on}", role(piece.role))));
    let line = match others.len() {
        1 => "line ends",
        _ => "lines end",
    };
    [
        (!free.is_empty()).then(|| format!("Its way is free to {free}.")),
        (!others.is_empty())
            .then(|| format!("It {takes} {}, where its {line}.", pieces_on(&others))),
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
        _ => leads_nowhere(piece.role, "there"),
    };
    format!("{squares}: {reason}.")
}

/// Says that no piece of the side that was asked for stands on a square that was named.
fn not_there(piece: Option<Piece>, square: Square) -> String {
    let stands = piece.map_or_else(|| "no piece".to_owned(), piece_named);
    format!("Not {square}: {stands} stands there.")
}

/// Says what stands in the way of a piece, in a clause.
pub(super) fn in_the_way(by: Piece, on: Square, of: Piece) -> String {
    let by = if by.color == of.color {
        format!("its own {}", role(by.role))
    } else {
        piece_named(by)
    };
    format!("{by} on {on} stands in the way")
}

/// Says that nothing stands on a piece's way, in a clause; `None` where there is no square on it.
pub(super) fn way_free(way: &[Square]) -> Option<String> {
    match way {
        [] => None,
        [only] => Some(format!("{only} is empty")),
        [one, other] => Some(format!("{one} and {other} are empty")),
        [first, .., last] => Some(format!("{first} to {last} are empty")),
    }
}

impl LineWords for Attackers {
    fn ask(self, _: &Stand) -> String {
        let (side, square) = (side(self.color), self.square);
        format!("Which of {side}'s pieces attack or guard {square}? Name their squares, or none.")
    }

    fn tell(self, truth: &Truth) -> String {
        let (side, square, from) = (side(self.color), self.square, squares(truth.set()));
        format!("{side} attacks or guards {square} from {from}.")
    }

    fn explain(why: &OnBoard<Attackers>) -> Vec<String> {
        let Attackers { color, square } = why.asked;
        let is_own = why.board.color_at(square) == Some(color);
        let sees = if is_own { "guards" } else { "attacks" };
        told(why, &square.to_string(), sees)
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
        match truth.set() {
            Bitboard::EMPTY => "There is no check.".to_owned(),
            set => format!("Check comes from {}.", list(set)),
        }
    }

    fn explain(why: &OnBoard<Attackers>) -> Vec<String> {
        told(why, &format!("the king on {}", why.asked.square), "attacks")
    }
}

/// Tells which pieces have something to do with what is aimed at: what those do that see it, and where
/// those belong that are of the wrong side.
fn told(why: &OnBoard<Attackers>, aim: &str, sees: &str) -> Vec<String> {
    let OnBoard { board, tally, .. } = why;
    let Attackers { color, square } = why.asked;
    let mut lookers = tally.missed | tally.extra;
    if (lookers | tally.hit).is_empty() {
        // Nothing sees it: those are told that something stands before.
        let is_blocked =
            |from: &Square| matches!(Sight::new(board, *from, square), Sight::Blocked { .. });
        lookers = { board.by_color(color).into_iter() }
            .filter(is_blocked)
            .take(TOLD)
            .collect();
    }
    let lookers = tally.missed.into_iter().chain(lookers & !tally.missed);
    let told = lookers.map(|from| {
        let piece = match board.piece_at(from) {
            Some(piece) if piece.color == color => piece,
            other => return not_there(other, from),
        };
        let name = piece_on(piece, from);
        let reason = match Sight::new(board, from, square) {
            Sight::Open { over } => {
                let way = way_free(&over).map_or_else(String::new, |free| format!(": {free}"));
                return format!("{name} {sees} {aim}{way}.");
            }
            Sight::Blocked { by, on } => in_the_way(by, on, piece),
            Sight::NotItsWay => not_attacked(piece, from, square),
        };
        format!("{name} does not reach {aim}: {reason}.")
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

    fn explain(why: &OnBoard<Hanging>) -> Vec<String> {
        let OnBoard { board, tally, .. } = why;
        let mut told = tally.missed | tally.extra;
        if (told | tally.hit).is_empty() {
            let color = why.asked.color;
            let pieces = (board.by_color(color) & !board.kings()).into_iter();
            let is_attacked = |at: &Square| seen_by(board, *at, !color).any();
            told = pieces.filter(is_attacked).take(TOLD).collect();
        }
        let squares = tally.missed.into_iter().chain(told & !tally.missed);
        squares
            .map(|at| watch(&why.board, why.asked.color, at))
            .collect()
    }
}

/// Tells who attacks a piece and who guards it.
fn watch(board: &Board, color: Color, square: Square) -> String {
    let piece = match board.piece_at(square) {
        Some(piece) if piece.color == color => piece,
        other => return not_there(other, square),
    };
    let name = piece_on(piece, square);
    if piece.role == Role::King {
        return format!("{name} is left out, as every king is.");
    }
    let [attackers, guards] =
        [!color, color].map(|side| roles_on(board, seen_by(board, square, side)));
    match (attackers.as_str(), guards.as_str()) {
        ("", _) => format!("{name} is not attacked."),
        (_, "") => format!("{name} is attacked by {attackers}, and no piece guards it."),
        _ => format!("{name} is guarded by {guards}."),
    }
}
