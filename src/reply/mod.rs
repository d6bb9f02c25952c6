//! Floor 1: the chess text of a learner's reply: squares, pieces, moves, points, yes and no, whole
//! placements. A [`Form`] says what is awaited; reading gives a [`Reply`], or says what is [`Unread`].
//!
//! Everything is read without regard to upper and lower case where chess leaves that open; `N` and
//! `n` alone are White's and Black's knight, as in FEN.

mod captured;
mod choices;
mod form;
mod meaning;
mod moves;
mod numbers;
mod pieces;
mod placement;
mod spoken;
mod squares;
mod unread;
mod wings;
mod words;

pub use captured::CapturedPieces;
pub use form::Form;
pub use meaning::{MoveSaid, Reply};
pub use moves::{arrival, one_move};
pub use unread::Unread;
pub use wings::Wings;
pub use words::{still_there, wish};
