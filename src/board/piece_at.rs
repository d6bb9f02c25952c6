//! A piece on an otherwise bare board, what it attacks and how the edge cuts that short.

use std::fmt;
use std::str::FromStr;

use shakmaty::{Bitboard, Piece, Rank, Role, Square, attacks};

/// A piece and its square, written as its FEN letter and the square: `Nb3` is a white knight, `pe4` a
/// black pawn. No pawn stands on the first or eighth rank.
///
/// ```
/// use sansvoir::board::PieceAt;
///
/// let piece: PieceAt = "pe4".parse()?;
/// assert_eq!(piece.attacks(shakmaty::Bitboard::EMPTY).count(), 2);
/// assert_eq!(piece.to_string(), "pe4");
/// # Ok::<(), sansvoir::board::ParsePieceAtError>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct PieceAt {
    piece: Piece,
    square: Square,
}

impl PieceAt {
    /// Puts a piece on a square; `None` for a pawn on the first or eighth rank, where none can stand.
    pub const fn new(piece: Piece, square: Square) -> Option<PieceAt> {
        let end = matches!(square.rank(), Rank::First | Rank::Eighth);
        if end && matches!(piece.role, Role::Pawn) {
            None
        } else {
            Some(PieceAt { piece, square })
        }
    }

    /// Returns the piece.
    pub const fn piece(self) -> Piece {
        self.piece
    }

    /// Returns where it stands.
    pub const fn square(self) -> Square {
        self.square
    }

    /// Returns the squares that it attacks when pieces stand on `occupied`, the nearest of them on each
    /// line included (FIDE 3.1.2).
    pub const fn attacks(self, occupied: Bitboard) -> Bitboard {
        attacks::attacks(self.square, self.piece, occupied)
    }
}

impl fmt::Display for PieceAt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}{}", self.piece.char(), self.square)
    }
}

/// A text that names no piece with its square.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "\"{0}\" names no piece with its square: write the FEN letter and the square, as in Nb3 or pe4"
)]
pub struct ParsePieceAtError(String);

impl FromStr for PieceAt {
    type Err = ParsePieceAtError;

    fn from_str(text: &str) -> Result<PieceAt, ParsePieceAtError> {
        let mut letters = text.chars();
        let piece = letters.next().and_then(Piece::from_char);
        let square = letters.as_str().parse().ok();
        piece
            .zip(square)
            .and_then(|(piece, square)| PieceAt::new(piece, square))
            .ok_or_else(|| ParsePieceAtError(text.to_owned()))
    }
}

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

/// The squares that a piece attacks on the empty board, and what the edge takes from it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Span {
    /// The squares that it attacks.
    pub squares: Bitboard,
    /// The steps from the piece to the nearest edge, 0 to 3 in the center (d4, e4, d5, e5). A bishop
    /// attacks 7 squares and 2 more for each, a queen 21 and 2 more for each.
    pub ring: u32,
    /// How many squares fewer these are than such a piece attacks from the best of squares.
    pub lost: usize,
    /// The edges that cut it: those over which a step of a pawn, knight or king would lead, the
    /// nearest ones for a bishop or queen that loses squares. A rook loses none anywhere.
    pub cut_by: Vec<Edge>,
}

impl Span {
    /// Measures the span of `piece`.
    pub fn of(piece: PieceAt) -> Span {
        let role = piece.piece().role;
        let squares = piece.attacks(Bitboard::EMPTY);
        let steps = Edge::ALL.map(|edge| edge.steps_from(piece.square()));
        let ring = steps.into_iter().fold(3, u32::min);
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
