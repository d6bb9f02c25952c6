//! Why a piece on the empty board attacks just these squares, and why two pieces both attack one.

use shakmaty::{Bitboard, Role, Square};

use crate::board::{self, Alignment, Edge, Pair, PieceAt};
use crate::question::bare::{Crossing, Span};
use crate::question::{BareKind, BareWhy, Sight, Tally};
use crate::voice::movement::{leads_nowhere, not_attacked};
use crate::voice::naming::{groups, list, none_of, role, side};
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

    fn explain(self, why: &BareWhy) -> Vec<String> {
        let Tally { missed, extra, .. } = why.tally;
        // How many squares a line piece attacks explains nothing to who named so many.
        let by_number = !self.rays().is_empty() && missed.count() == extra.count();
        let worth_telling = extra.is_empty() || (missed.any() && !by_number);
        let mut said = Vec::from_iter(worth_telling.then(|| reach(self.piece)));
        said.extend(lines(self, missed));
        said.extend(not_attacked_by(self.piece, extra));
        said
    }
}

/// Tells how many squares it attacks, and what the edge takes from it.
fn reach(placed: PieceAt) -> String {
    let (kind, span) = (placed.piece().role, board::Span::of(placed));
    let (name, how) = (role(kind), how(placed));
    let (ring, here) = (span.ring as usize, span.squares.count());
    match kind {
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
        _ if span.cut_by.is_empty() => {
            format!("{how}: {here} squares, none cut off by the edge.")
        }
        _ => {
            let edges = list(span.cut_by.iter().copied().map(edge));
            let all = here + span.lost;
            format!("{how}: the edge at {edges} leaves {here} of {all}.")
        }
    }
}

/// Tells how a piece without lines attacks.
fn how(placed: PieceAt) -> String {
    match placed.piece().role {
        Role::Knight => {
            "A knight jumps two squares along a file or rank and one to the side".to_owned()
        }
        Role::King => "A king goes one step".to_owned(),
        _ => {
            let rank = placed.piece().color.fold_wb("eighth", "first");
            let name = kind(placed);
            format!("A {name} attacks one step diagonally toward the {rank} rank")
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
fn lines(span: Span, missed: Bitboard) -> Vec<String> {
    let from = span.piece.square();
    let mut told = Bitboard::EMPTY;
    let rays = span.rays().into_iter();
    let pairs = rays.filter_map(|ray| Pair::new(from, *ray.free.first()?));
    let said = pairs.filter_map(|pair| {
        let line = pair.line().without(from);
        let is_new = !told.contains(pair.to()) && (line & missed).any();
        told |= line;
        let (name, squares) = (line_name(pair), list(line));
        is_new.then(|| format!("Along {name} it attacks {squares}."))
    });
    said.collect()
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

/// Says why squares that were named are not attacked; its own square for a reason of its own.
fn not_attacked_by(by: PieceAt, extra: Bitboard) -> Vec<String> {
    let (piece, from) = (by.piece(), by.square());
    let own = extra & Bitboard::from(from);
    let sets = [own, extra & !own].into_iter().filter(|set| set.any());
    let told = sets.map(|set| {
        let reason = match set.single_square() {
            Some(square) => not_attacked(piece, from, square),
            None => leads_nowhere(piece.role, "there"),
        };
        format!("{}: {reason}.", none_of(set.into_iter()))
    });
    told.collect()
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
        match self.truth().set() {
            Bitboard::EMPTY => format!("A {one} and a {other} attack no square together."),
            set => format!("A {one} and a {other} both attack {}.", list(set)),
        }
    }

    fn explain(self, why: &BareWhy) -> Vec<String> {
        let Tally { missed, extra, .. } = why.tally;
        let all_right = missed.is_empty() && extra.is_empty();
        let more = match missed.count().saturating_sub(EXPLAINED) {
            0 => None,
            1 => Some("The other one is found in the same way.".to_owned()),
            more => Some(format!("The other {more} are found in the same way.")),
        };
        let missed = missed.into_iter().take(EXPLAINED);
        let missed = missed.map(|square| both(self.pieces(), square));
        let extra: Vec<Kept> = extra.into_iter().map(|at| (at, keeps(self, at))).collect();
        let extra = groups(&extra, |one, other| one.1 == other.1);
        let extra = extra.iter().map(|group| not_both(group));
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

/// A square, and the first of the two pieces that does not attack it with what keeps it from there.
type Kept = (Square, Option<(PieceAt, Sight)>);

fn keeps(asked: Crossing, square: Square) -> Option<(PieceAt, Sight)> {
    let mut sights = asked.pieces().into_iter().zip(asked.sights(square));
    sights.find(|(_, sight)| !matches!(sight, Sight::Open { .. }))
}

/// Tells what keeps the first piece that does not attack some squares from all of them.
fn not_both(group: &[&Kept]) -> String {
    let squares = none_of(group.iter().map(|(square, _)| *square));
    let (square, kept) = group[0];
    let reason = match kept {
        None => "both attack it".to_owned(),
        Some((piece, Sight::Blocked { by, on })) => {
            let (by, piece) = (role(by.role), placed(*piece));
            format!("the {by} on {on} stands in the way of the {piece}")
        }
        Some((piece, _)) if group.len() == 1 && piece.square() == *square => {
            let name = role(piece.piece().role);
            format!("the {name} stands there and does not attack its own square")
        }
        Some((piece, _)) => {
            let them = if group.len() == 1 { "it" } else { "them" };
            format!("the {} does not attack {them}", placed(*piece))
        }
    };
    format!("{squares}: {reason}.")
}
