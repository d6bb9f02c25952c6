//! What a piece attacks on the empty board, and how the edge cuts it short.

use shakmaty::{Bitboard, Role, Square};

use super::PieceAt;

/// An edge of the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Edge {
    /// The a-file.
    AFile,
    /// The h-file.
    HFile,
    /// The first rank.
    FirstRank,
    /// The eighth rank.
    EighthRank,
}

impl Edge {
    /// Every edge.
    pub const ALL: [Edge; 4] = [Edge::AFile, Edge::HFile, Edge::FirstRank, Edge::EighthRank];

    /// Counts the steps from `square` to the edge, 0 on the edge itself, at most 7.
    #[must_use]
    pub const fn steps_from(self, square: Square) -> u32 {
        let (file, rank) = (square.file().to_u32(), square.rank().to_u32());
        match self {
            Edge::AFile => file,
            Edge::HFile => 7 - file,
            Edge::FirstRank => rank,
            Edge::EighthRank => 7 - rank,
        }
    }
}

/// Counts the steps from `square` to the nearest edge: 0 on the edge to 3 in the center (d4, e4, d5,
/// e5). A bishop attacks 7 squares and 2 more for each ring, a queen 21 and 2 more for each.
#[must_use]
pub fn ring(square: Square) -> u32 {
    Edge::ALL
        .into_iter()
        .fold(3, |ring, edge| ring.min(edge.steps_from(square)))
}

/// The squares that a piece attacks on the empty board, and what the edge takes from it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Span {
    /// The squares that it attacks.
    pub squares: Bitboard,
    /// The steps from the piece to the nearest edge, 0 to 3.
    pub ring: u32,
    /// How many squares fewer these are than such a piece attacks from the best of squares.
    pub lost: usize,
    /// The edges that cut it: those over which a step of a pawn, knight or king would lead, the
    /// nearest ones for a bishop or queen that loses squares. A rook loses none anywhere.
    pub cut_by: Vec<Edge>,
}

impl Span {
    /// Measures the span of `piece`.
    #[must_use]
    pub fn of(piece: PieceAt) -> Span {
        let role = piece.piece().role;
        let squares = piece.attacks(Bitboard::EMPTY);
        let ring = ring(piece.square());
        let lost = most(role) - squares.count();
        let cuts = |edge: &Edge| {
            let steps = edge.steps_from(piece.square());
            match role {
                Role::Pawn => steps == 0 && matches!(edge, Edge::AFile | Edge::HFile),
                Role::Knight => steps < 2,
                Role::King => steps == 0,
                Role::Bishop | Role::Queen => lost > 0 && steps == ring,
                Role::Rook => false,
            }
        };
        Span {
            squares,
            ring,
            lost,
            cut_by: Edge::ALL.into_iter().filter(cuts).collect(),
        }
    }
}

/// The most squares that a piece of this role attacks from anywhere.
const fn most(role: Role) -> usize {
    match role {
        Role::Pawn => 2,
        Role::Knight | Role::King => 8,
        Role::Bishop => 13,
        Role::Rook => 14,
        Role::Queen => 27,
    }
}
