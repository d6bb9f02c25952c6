//! The bare board, before any game is played on it. How each side sees a square
//! ([`Seen`]), its color by parity ([`Parity`]), the line of two squares ([`Pair`]), what a lone piece
//! attacks ([`Span`]) and how it travels ([`Travel`]).

mod pair;
mod piece_at;
mod square;
mod travel;

pub use pair::{Alignment, Pair};
pub use piece_at::{Edge, ParsePieceAtError, PieceAt, Span};
pub use square::{Parity, Seen, SquareColor};
pub use travel::{Misstep, Travel, TravelError, Unreachable};
