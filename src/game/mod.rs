//! The game itself. A [`Game`] is what a PGN file holds; a [`Line`] is one way through it,
//! with every position on the way; a [`Roster`] knows which piece is which all along a line.

mod array;
mod game_end;
mod line;
mod ply;
mod roster;
mod start;
mod tree;

pub use array::{ARRAYS, array};
pub use game_end::GameEnd;
pub use line::Line;
pub use ply::{MoveNumber, Ply};
pub use roster::{Roster, TrackedPiece};
pub use start::{Start, StartError, after_null, fen_of};
pub use tree::{Game, GameResult, MoveOrNull, Node, NodeId, Place, Tags};
