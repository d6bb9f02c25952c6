//! How one piece attacks a square, or what keeps it from doing so.

use shakmaty::{Bitboard, Board, Piece, Role, Square, attacks};

use crate::board::Pair;

/// What a piece's attack on a square looks like.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sight {
    /// It attacks the square.
    Open {
        /// The empty squares between, from the piece on.
        over: Vec<Square>,
    },
    /// Its line leads there, but a piece stands in the way.
    Blocked {
        /// The nearest piece in the way.
        by: Piece,
        /// Where it stands.
        on: Square,
    },
    /// It does not go that way.
    NotItsWay,
}

impl Sight {
    /// Looks from the piece on `from` to `to`; an empty `from` sees nothing.
    pub fn new(board: &Board, from: Square, to: Square) -> Sight {
        let goes = |piece| attacks::attacks(from, piece, Bitboard::EMPTY).contains(to);
        if !board.piece_at(from).is_some_and(goes) {
            return Sight::NotItsWay;
        }
        let over: Vec<Square> = { Pair::new(from, to).into_iter() }
            .flat_map(Pair::between)
            .collect();
        let blocker = over
            .iter()
            .find_map(|square| board.piece_at(*square).map(|piece| (*square, piece)));
        match blocker {
            Some((on, by)) => Sight::Blocked { by, on },
            None => Sight::Open { over },
        }
    }
}

/// One straight line of squares that a line piece sees, up to the piece or the edge that ends it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ray {
    /// The empty squares, from the line piece on.
    pub free: Vec<Square>,
    /// The piece that ends the line; `None` at the edge of the board.
    pub stop: Option<(Square, Piece)>,
}

impl Ray {
    /// Follows the lines of the line piece on `from`, in the order up, up-right, right and so round;
    /// lines without a square are left out. Other pieces have no lines.
    pub fn all(board: &Board, from: Square) -> Vec<Ray> {
        let straight = [(0, 1), (1, 0), (0, -1), (-1, 0)];
        let diagonal = [(1, 1), (1, -1), (-1, -1), (-1, 1)];
        let directions = match board.role_at(from) {
            Some(Role::Rook) => &[straight][..],
            Some(Role::Bishop) => &[diagonal],
            Some(Role::Queen) => &[straight, diagonal],
            Some(Role::Pawn | Role::Knight | Role::King) | None => &[],
        };
        let directions = directions.iter().flatten();
        directions
            .map(|direction| Ray::new(board, from, *direction))
            .filter(|ray| ray.seen() > 0)
            .collect()
    }

    /// Counts its squares, that of the piece at its end included.
    pub(crate) fn seen(&self) -> usize {
        self.free.len() + usize::from(self.stop.is_some())
    }

    fn new(board: &Board, from: Square, (files, ranks): (i32, i32)) -> Ray {
        let mut ray = Ray {
            free: Vec::new(),
            stop: None,
        };
        let mut at = from;
        while let (Some(file), Some(rank)) = (at.file().offset(files), at.rank().offset(ranks)) {
            at = Square::from_coords(file, rank);
            if let Some(piece) = board.piece_at(at) {
                ray.stop = Some((at, piece));
                break;
            }
            ray.free.push(at);
        }
        ray
    }
}
