//! Why a piece on the empty board attacks just these squares, and why two pieces both attack one.

use shakmaty::{Bitboard, Role, Square};

use crate::board::{Alignment, Edge, Pair, PieceAt};
use crate::question::bare::{Crossing, CrossingWhy, Span, SpanWhy};
use crate::question::{BareKind, Sight};
use crate::voice::movement::{manner, not_attacked};
use crate::voice::naming::{capital, either, list, role, side};
use crate::voice::words::BareWords;

/// More squares than these are counted, not named again.
const NAMED: usize = 8;
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
        let worth_telling = why.missed.any() || why.extra.is_empty();
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
    let general = general(piece.role);
    let others = match (others.single_square(), others.count()) {
        (Some(square), _) => {
            let reason = not_attacked(piece, from, square);
            Some(format!("Not {square}: {reason}."))
        }
        (None, 0) => None,
        (None, ..=NAMED) => Some(format!("Not {}: {general}.", either(others))),
        (None, count) => Some(format!("Not {count} of those named: {general}.")),
    };
    own.into_iter().chain(others).collect()
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
        let missed = missed.map(|(square, sights)| both(why.pieces, *square, sights));
        let more_missed = match why.missed.len().saturating_sub(EXPLAINED) {
            0 => None,
            1 => Some("The other one is found in the same way.".to_owned()),
            more => Some(format!("The other {more} are found in the same way.")),
        };
        let extra = why.extra.iter().take(EXPLAINED);
        let extra = extra.map(|(square, sights)| not_both(why.pieces, *square, sights));
        let more_extra = match why.extra.len().saturating_sub(EXPLAINED) {
            0 => None,
            1 => Some("The other one that you named is not attacked by both either.".to_owned()),
            more => Some(format!(
                "The other {more} that you named are not attacked by both either."
            )),
        };
        let all_right = why.missed.is_empty() && why.extra.is_empty();
        let none = all_right.then(|| "Their lines and jumps do not meet.".to_owned());
        let missed = missed.chain(more_missed);
        missed.chain(extra).chain(more_extra).chain(none).collect()
    }
}

/// Tells how each of the two attacks a square.
fn both(pieces: [PieceAt; 2], square: Square, sights: &[Sight; 2]) -> String {
    let [one, other] = pieces.map(placed);
    let [first, second] = [&sights[0], &sights[1]].map(|sight| match sight {
        Sight::Open { over } if !over.is_empty() => format!(" over {}", list(over)),
        Sight::Open { .. } | Sight::Blocked { .. } | Sight::NotItsWay => String::new(),
    });
    format!("The {one} attacks {square}{first}, and the {other} attacks it{second}.")
}

/// Tells what keeps the first piece that does not attack a square from it.
fn not_both(pieces: [PieceAt; 2], square: Square, sights: &[Sight; 2]) -> String {
    if let Some(piece) = pieces.into_iter().find(|piece| piece.square() == square) {
        let name = role(piece.piece().role);
        return format!(
            "Not {square}: the {name} stands there and does not attack its own square."
        );
    }
    let mut reasons = pieces.into_iter().zip(sights);
    let reason = reasons.find_map(|(piece, sight)| match sight {
        Sight::Open { .. } => None,
        Sight::Blocked { by, on } => {
            let (by, piece) = (role(by.role), placed(piece));
            Some(format!("the {by} on {on} stands in the way of the {piece}"))
        }
        Sight::NotItsWay => Some(not_attacked(piece.piece(), piece.square(), square)),
    });
    match reason {
        Some(reason) => format!("Not {square}: {reason}."),
        None => format!("Both attack {square}."),
    }
}
