//! Floor 0: the bare board, before any game is played on it. How each side sees a square
//! ([`Seen`]), its color by parity ([`Parity`]), the line of two squares ([`Pair`]), what a lone piece
//! attacks ([`Span`]) and how it travels ([`Travel`]).

mod alignment;
mod color;
mod misstep;
mod pair;
mod piece_at;
mod seen;
mod span;
mod travel;

pub use alignment::Alignment;
pub use color::{Parity, SquareColor};
pub use misstep::Misstep;
pub use pair::Pair;
pub use piece_at::{ParsePieceAtError, PieceAt};
pub use seen::Seen;
pub use span::{Edge, Span, ring};
pub use travel::{Travel, TravelError, Unreachable};
