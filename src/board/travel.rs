//! How a lone piece travels: in how few moves, in how many ways.

use shakmaty::{Bitboard, Role, Square, attacks};

use super::pair::Pair;
use super::piece_at::PieceAt;
use super::square::SquareColor;

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

/// The first fault of a route that is not a legal shortest one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Misstep {
    /// The piece does not move so.
    NotItsWay {
        /// Where the step begins.
        from: Square,
        /// Where it should have led.
        to: Square,
    },
    /// A blocker holds the square.
    Held {
        /// Where the step begins.
        from: Square,
        /// The square of the blocker.
        to: Square,
    },
    /// A blocker stands in the way.
    Blocked {
        /// Where the step begins.
        from: Square,
        /// Where it should have led.
        to: Square,
        /// The nearest blocker.
        by: Square,
    },
    /// The route ends on another square.
    EndsElsewhere(Square),
    /// The route gets there, but not in the fewest moves.
    Detour {
        /// Its moves.
        moves: usize,
        /// The fewest.
        fewest: u32,
    },
}

/// How far a square is from the middle of the board, in half squares along both sides.
fn from_middle(square: Square) -> u32 {
    let half = |at: u32| (2 * at).abs_diff(7);
    half(square.file().into()) + half(square.rank().into())
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
    pub const fn piece(self) -> PieceAt {
        self.piece
    }

    /// Returns where it goes.
    pub const fn to(self) -> Square {
        self.to
    }

    /// Returns the squares that it may not enter.
    pub const fn blockers(self) -> Bitboard {
        self.blockers
    }

    /// Returns the squares to which the piece can go in one move from `from`.
    pub fn steps(self, from: Square) -> Bitboard {
        attacks::attacks(from, self.piece.piece(), self.blockers).without(self.blockers)
    }

    /// Returns the squares from which the way is no move long, one move, two and so on, up to those where the
    /// piece is one of them; `None` when it never gets there.
    fn layers(self) -> Option<Vec<Bitboard>> {
        let mut layer = Bitboard::from(self.to).without(self.blockers);
        let mut reached = layer;
        let mut layers = vec![layer];
        // The steps of these pieces lead back as they lead there.
        while !layer.contains(self.piece.square()) {
            if layer.is_empty() {
                return None;
            }
            let next = layer.into_iter().flat_map(|from| self.steps(from));
            layer = next.collect::<Bitboard>().without(reached);
            reached |= layer;
            layers.push(layer);
        }
        Some(layers)
    }

    /// Counts the fewest moves there; `None` when the piece never gets there.
    pub fn fewest(self) -> Option<u32> {
        let layers = self.layers()?.len();
        u32::try_from(layers - 1).ok()
    }

    /// Tells why the piece never gets there; `None` when it does.
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
    pub fn routes(self) -> u64 {
        let Some(layers) = self.layers() else {
            return 0;
        };
        let mut ways = [0; 64];
        ways[self.to.to_usize()] = 1;
        for pair in layers.windows(2) {
            for from in pair[0] {
                for to in self.steps(from) & pair[1] {
                    ways[to.to_usize()] += ways[from.to_usize()];
                }
            }
        }
        ways[self.piece.square().to_usize()]
    }

    /// Returns one route that takes the fewest moves, the piece's own square first; empty when there is
    /// none. Of several squares to go on with, it takes the one nearest to the middle of the board.
    pub fn route(self) -> Vec<Square> {
        let layers = self.layers().unwrap_or_default();
        let mut route = Vec::with_capacity(layers.len());
        let mut here = Bitboard::from(self.piece.square());
        for layer in layers.iter().rev() {
            let nearest = { here & *layer }
                .into_iter()
                .min_by_key(|at| from_middle(*at));
            let Some(square) = nearest else { break };
            route.push(square);
            here = self.steps(square);
        }
        route
    }

    /// Checks a route, said with or without the piece's own square at its head; `None` when it is a
    /// legal one that takes the fewest moves.
    pub fn misstep(self, route: &[Square]) -> Option<Misstep> {
        let start = self.piece.square();
        let route = match route {
            [first, rest @ ..] if *first == start => rest,
            _ => route,
        };
        let mut at = start;
        for to in route {
            if let Some(fault) = self.false_step(at, *to) {
                return Some(fault);
            }
            at = *to;
        }
        if at != self.to {
            return Some(Misstep::EndsElsewhere(at));
        }
        let fewest = self.fewest()?;
        let moves = route.len();
        (moves != fewest as usize).then_some(Misstep::Detour { moves, fewest })
    }

    /// Tells what is wrong with one step of a route.
    fn false_step(self, from: Square, to: Square) -> Option<Misstep> {
        if self.steps(from).contains(to) {
            return None;
        }
        let free = attacks::attacks(from, self.piece.piece(), Bitboard::EMPTY);
        if !free.contains(to) {
            return Some(Misstep::NotItsWay { from, to });
        }
        let nearest = Pair::new(from, to)
            .and_then(|pair| pair.between().find(|at| self.blockers.contains(*at)));
        Some(match nearest {
            Some(by) => Misstep::Blocked { from, to, by },
            None => Misstep::Held { from, to },
        })
    }
}
