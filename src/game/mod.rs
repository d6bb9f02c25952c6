//! Floor 0: the game itself. A [`Game`] is what a PGN file holds; a [`Line`] is one way through it,
//! with every position on the way; a [`Roster`] knows which piece is which all along a line.

mod line;
mod number;
mod place;
mod roster;
mod start;
mod tags;
mod tree;

pub use line::{Line, Ply};
pub use number::{MoveNumber, ParseMoveNumberError};
pub use place::Place;
pub use roster::{Roster, Step as PieceStep, TrackedPiece};
pub use start::{Start, StartError, after_null, fen_of};
pub use tags::Tags;
pub use tree::{Game, GameResult, Node, NodeId, Step};
