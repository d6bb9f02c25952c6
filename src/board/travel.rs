//! How a lone piece travels: in how few moves, in how many ways.

use shakmaty::{Bitboard, Role, Square, attacks};

use super::{Misstep, PieceAt, SquareColor};

/// More layers than any shortest route has: each square is reached once.
const MOST_LAYERS: usize = 64;

/// A piece on its way to a square, among blockers that it may neither enter nor, save the knight, pass.
///
/// ```
/// use sansvoir::board::Travel;
/// use shakmaty::{Bitboard, Square};
///
/// let travel = Travel::new("Na1".parse()?, Square::H8, Bitboard::EMPTY)?;
/// assert_eq!(travel.fewest(), Some(6));
/// assert_eq!(travel.routes(), 108);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Travel {
    piece: PieceAt,
    to: Square,
    blockers: Bitboard,
}

/// A piece, a square and blockers that make no journey.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TravelError {
    /// A pawn has no way back.
    #[error("the pawn on {0} does not travel: name a king, queen, rook, bishop or knight")]
    Pawn(Square),
    /// The piece is there already.
    #[error("the piece stands on {0} already: name another square to go to")]
    There(Square),
    /// A blocker stands on the square of the piece.
    #[error("a blocker stands on the piece's own square {0}: leave it out")]
    Blocker(Square),
}

/// Why a piece never reaches a square.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Unreachable {
    /// A blocker holds the square.
    Held,
    /// A bishop stands on the other color.
    OtherColor,
    /// The blockers, with the edge, shut the piece off.
    ShutOff,
}

impl Travel {
    /// Sets a piece on its way.
    ///
    /// # Errors
    ///
    /// [`TravelError`] for a pawn, a piece that is there already, or a blocker on the piece's own square.
    pub const fn new(
        piece: PieceAt,
        to: Square,
        blockers: Bitboard,
    ) -> Result<Travel, TravelError> {
        if matches!(piece.piece().role, Role::Pawn) {
            Err(TravelError::Pawn(piece.square()))
        } else if piece.square().to_u32() == to.to_u32() {
            Err(TravelError::There(to))
        } else if blockers.contains(piece.square()) {
            Err(TravelError::Blocker(piece.square()))
        } else {
            Ok(Travel {
                piece,
                to,
                blockers,
            })
        }
    }

    /// Returns the piece at the start of its way.
    #[must_use]
    pub const fn piece(self) -> PieceAt {
        self.piece
    }

    /// Returns where it goes.
    #[must_use]
    pub const fn to(self) -> Square {
        self.to
    }

    /// Returns the squares that it may not enter.
    #[must_use]
    pub const fn blockers(self) -> Bitboard {
        self.blockers
    }

    /// Returns the squares to which the piece can go in one move from `from`.
    #[must_use]
    pub fn steps(self, from: Square) -> Bitboard {
        attacks::attacks(from, self.piece.piece(), self.blockers).without(self.blockers)
    }

    /// Counts the fewest moves there; `None` when the piece never gets there.
    #[must_use]
    pub fn fewest(self) -> Option<u32> {
        let mut reached = Bitboard::from(self.piece.square());
        let mut layer = reached;
        let mut moves = 0;
        while !layer.contains(self.to) {
            layer = self.next_layer(layer).without(reached);
            if layer.is_empty() {
                return None;
            }
            reached |= layer;
            moves += 1;
        }
        Some(moves)
    }

    /// Tells why the piece never gets there; `None` when it does.
    #[must_use]
    pub fn unreachable(self) -> Option<Unreachable> {
        let bishop = self.piece.piece().role == Role::Bishop;
        if self.fewest().is_some() {
            None
        } else if self.blockers.contains(self.to) {
            Some(Unreachable::Held)
        } else if bishop && SquareColor::of(self.piece.square()) != SquareColor::of(self.to) {
            Some(Unreachable::OtherColor)
        } else {
            Some(Unreachable::ShutOff)
        }
    }

    /// Counts the routes that take the fewest moves; 0 when there is none.
    ///
    /// Layers of squares that differ hold 64 squares together, so the count stays below 3 to the 22nd.
    #[must_use]
    pub fn routes(self) -> u64 {
        let Some(moves) = self.fewest() else { return 0 };
        let mut reached = Bitboard::from(self.piece.square());
        let mut layer = reached;
        let mut ways = [0; 64];
        ways[self.piece.square().to_usize()] = 1;
        for _ in 0..moves {
            let next = self.next_layer(layer).without(reached);
            for from in layer {
                for to in self.steps(from) & next {
                    ways[to.to_usize()] += ways[from.to_usize()];
                }
            }
            reached |= next;
            layer = next;
        }
        ways[self.to.to_usize()]
    }

    /// Returns one route that takes the fewest moves, the piece's own square first; empty when there is
    /// none. Of several squares to go on with, it takes the first in the order a1, b1, … h8.
    #[must_use]
    pub fn route(self) -> Vec<Square> {
        let Some(moves) = self.fewest() else {
            return Vec::new();
        };
        let moves = moves as usize;
        let mut layers = [Bitboard::EMPTY; MOST_LAYERS];
        layers[0] = Bitboard::from(self.to);
        // The steps of these pieces lead back as they lead there, so the layers are laid from the end.
        for n in 1..=moves {
            layers[n] = self.next_layer(layers[n - 1]);
        }
        let mut route = Vec::with_capacity(moves + 1);
        route.push(self.piece.square());
        for layer in layers[..moves].iter().rev() {
            let next = route.last().map(|at| self.steps(*at) & *layer);
            route.extend(next.and_then(Bitboard::first));
        }
        route
    }

    /// Checks a route, said with or without the piece's own square at its head; `None` when it is a
    /// legal one that takes the fewest moves.
    #[must_use]
    pub fn misstep(self, route: &[Square]) -> Option<Misstep> {
        Misstep::first(self, route)
    }

    fn next_layer(self, layer: Bitboard) -> Bitboard {
        layer
            .into_iter()
            .fold(Bitboard::EMPTY, |next, from| next | self.steps(from))
    }
}
