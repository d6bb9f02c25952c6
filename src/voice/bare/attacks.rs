//! Why a piece on the empty board attacks just these squares, and why two pieces both attack one.

use shakmaty::{Bitboard, Role, Square};

use crate::board::{Alignment, Edge, Pair, PieceAt};
use crate::question::bare::{Crossing, CrossingWhy, Span, SpanWhy};
use crate::question::{BareKind, Sight};
use crate::voice::movement::{leads_nowhere, manner, not_attacked};
use crate::voice::naming::{capital, groups, list, none_of, role, side};
use crate::voice::words::BareWords;

/// How many squares of a sort are explained one by one; more would be a wall of text.
const EXPLAINED: usize = 3;

/// Names a piece that stands alone: "knight"; a pawn with its side, for only a pawn has a direction.
pub(super) fn kind(piece: PieceAt) -> String {
    let piece = piece.piece();
    match piece.role {
        Role::Pawn => format!("{} pawn", side(piece.color).to_lowercase()),
        kind => role(kind).to_owned(),
    }
}

/// Names it with its square: "knight on b3".
pub(super) fn placed(piece: PieceAt) -> String {
    format!("{} on {}", kind(piece), piece.square())
}

impl BareWords for Span {
    const RULE: &'static str = "A piece attacks along its lines up to the edge of the board: a rook along its file and \
        rank, a bishop along its diagonals, a queen along both. A knight goes two squares \
        straight and one aside, a king one square, and a pawn attacks the two squares diagonally \
        before it.";

    fn ask(self) -> String {
        let piece = placed(self.piece);
        format!("Which squares does a {piece} attack on the empty board?")
    }

    fn tell(self) -> String {
        let squares = self.piece.attacks(Bitboard::EMPTY);
        format!("A {} attacks {}.", placed(self.piece), list(squares))
    }

    fn explain(why: &SpanWhy) -> Vec<String> {
        // How many squares a line piece attacks explains nothing to who named so many.
        let by_number = !why.rays.is_empty() && why.missed.count() == why.extra.count();
        let worth_telling = why.extra.is_empty() || (why.missed.any() && !by_number);
        let mut said = Vec::from_iter(worth_telling.then(|| reach(why)));
        said.extend(lines(why));
        said.extend(extra(why));
        said
    }
}

/// Tells how many squares it attacks, and what the edge takes from it.
fn reach(why: &SpanWhy) -> String {
    let piece = why.piece.piece();
    let (name, how) = (role(piece.role), how(why));
    let (ring, here) = (why.span.ring as usize, why.span.squares.count());
    match piece.role {
        Role::Rook => format!("A rook attacks {here} squares from anywhere on the empty board."),
        Role::Bishop | Role::Queen if ring == 0 => {
            format!("A {name} attacks {here} squares from the edge, fewer than from elsewhere.")
        }
        Role::Bishop | Role::Queen => {
            let on_edge = here - 2 * ring;
            format!(
                "A {name} attacks {on_edge} squares from the edge and 2 more for each step inwards: \
                 here {here}."
            )
        }
        _ if why.span.cut_by.is_empty() => {
            format!("{how}: {here} squares, none cut off by the edge.")
        }
        _ => {
            let edges = list(why.span.cut_by.iter().copied().map(edge));
            let all = here + why.span.lost;
            format!("{how}: the edge at {edges} leaves {here} of {all}.")
        }
    }
}

/// Tells how a piece without lines attacks.
fn how(why: &SpanWhy) -> String {
    let piece = why.piece.piece();
    if piece.role != Role::Pawn {
        return capital(manner(piece.role));
    }
    let (name, rank) = (kind(why.piece), piece.color.fold_wb("eighth", "first"));
    format!("A {name} attacks one step diagonally toward the {rank} rank")
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
    let nearest = why.rays.iter().filter_map(|ray| ray.free.first());
    for pair in nearest.filter_map(|first| Pair::new(from, *first)) {
        let line = pair.line().without(from);
        if told.contains(pair.to()) || (line & why.missed).is_empty() {
            continue;
        }
        told |= line;
        let (name, squares) = (line_name(pair), list(line));
        said.push(format!("Along {name} it attacks {squares}."));
    }
    said
}

fn line_name(pair: Pair) -> String {
    let at = pair.from();
    match (pair.alignment(), pair.line_ends()) {
        (Alignment::File, _) => format!("the {}-file", at.file().char()),
        (Alignment::Rank, _) => format!("rank {}", at.rank().char()),
        (Alignment::Diagonal, Some([one, other])) => {
            let (first, last) = (one.min(other), one.max(other));
            format!("the diagonal from {first} to {last}")
        }
        (Alignment::Diagonal | Alignment::None, _) => "its line".to_owned(),
    }
}

fn extra(why: &SpanWhy) -> Vec<String> {
    let (piece, from) = (why.piece.piece(), why.piece.square());
    let (own, others) = (why.extra.contains(from), why.extra.without(from));
    let own =
        own.then(|| format!("Not {from}: a piece does not attack the square on which it stands."));
    let general = leads_nowhere(piece.role);
    let others = match (others.single_square(), others.count()) {
        (Some(square), _) => {
            let reason = not_attacked(piece, from, square);
            Some(format!("Not {square}: {reason}."))
        }
        (None, 0) => None,
        (None, _) => Some(format!("{}: {general}.", none_of(others.into_iter()))),
    };
    own.into_iter().chain(others).collect()
}

impl BareWords for Crossing {
    const RULE: &'static str = "Say the squares that the first piece attacks, then those of the second; what comes twice \
        is the answer. A piece on a line ends it.";

    fn ask(self) -> String {
        let [one, other] = self.pieces().map(placed);
        format!("A {one} and a {other} stand alone on the board: which squares do both attack?")
    }

    fn tell(self) -> String {
        let [one, other] = self.pieces().map(placed);
        let set = self.truth().set();
        if set.is_empty() {
            return format!("A {one} and a {other} attack no square together.");
        }
        format!("A {one} and a {other} both attack {}.", list(set))
    }

    fn explain(why: &CrossingWhy) -> Vec<String> {
        let missed = why.missed.iter().take(EXPLAINED);
        let missed = missed.map(|(square, _)| both(why.pieces, *square));
        let more = match why.missed.len().saturating_sub(EXPLAINED) {
            0 => None,
            1 => Some("The other one is found in the same way.".to_owned()),
            more => Some(format!("The other {more} are found in the same way.")),
        };
        let alike = |one: &(Square, [Sight; 2]), other: &(Square, [Sight; 2])| {
            keeps(why.pieces, one) == keeps(why.pieces, other)
        };
        let extra = groups(&why.extra, alike);
        let extra = extra.iter().map(|group| not_both(why.pieces, group));
        let all_right = why.missed.is_empty() && why.extra.is_empty();
        let none = all_right.then(|| "Their lines and jumps do not meet.".to_owned());
        missed.chain(more).chain(extra).chain(none).collect()
    }
}

/// Tells how each of the two attacks a square.
fn both(pieces: [PieceAt; 2], square: Square) -> String {
    let ways = pieces.map(|by| {
        let from = by.square();
        match by.piece().role {
            Role::Pawn => format!("one step diagonally ahead of the pawn on {from}"),
            Role::Knight => format!("a knight's jump from {from}"),
            Role::King => format!("one step from the king on {from}"),
            Role::Bishop | Role::Rook | Role::Queen => {
                let line = Pair::new(from, square).map_or(Alignment::None, Pair::alignment);
                format!("on one {line} with the {}", placed(by))
            }
        }
    });
    format!("{square} is {}.", list(ways))
}

/// Finds the first of two pieces that does not attack a square, and what keeps it from there.
fn keeps(pieces: [PieceAt; 2], (_, sights): &(Square, [Sight; 2])) -> Option<(PieceAt, Sight)> {
    let mut sights = pieces.into_iter().zip(sights.clone());
    sights.find(|(_, sight)| !matches!(sight, Sight::Open { .. }))
}

/// Tells what keeps the first piece that does not attack some squares from all of them.
fn not_both(pieces: [PieceAt; 2], group: &[&(Square, [Sight; 2])]) -> String {
    let squares = none_of(group.iter().map(|(square, _)| *square));
    let reason = match (keeps(pieces, group[0]), group) {
        (None, _) => "both attack it".to_owned(),
        (Some((piece, Sight::Blocked { by, on })), _) => {
            let (by, piece) = (role(by.role), placed(piece));
            format!("the {by} on {on} stands in the way of the {piece}")
        }
        (Some((piece, _)), [(square, _)]) if piece.square() == *square => {
            let name = role(piece.piece().role);
            format!("the {name} stands there and does not attack its own square")
        }
        (Some((piece, _)), _) => {
            let them = if group.len() == 1 { "it" } else { "them" };
            format!("the {} does not attack {them}", placed(piece))
        }
    };
    format!("{squares}: {reason}.")
}
