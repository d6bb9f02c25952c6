//! The chess text of a learner's reply: squares, pieces, moves, points, yes and no, whole
//! placements. A [`Form`] says what is awaited; reading gives a [`Reply`], or says what is [`Unread`].
//!
//! Everything is read without regard to upper and lower case where chess leaves that open; `N` and
//! `n` alone are White's and Black's knight, as in FEN.

mod form;
mod grammar;
mod meaning;
mod moves;
mod pieces;
mod short;
mod spoken;
mod squares;
mod words;

pub use form::Form;
pub(crate) use grammar::{DICTIONARY, FileNames, Grammar, NOISE_WORDS};
pub use meaning::{CapturedPieces, ImpossibleMove, MoveSaid, Reply, Unread, Wings};
pub use moves::{arrival, one_move};
pub(crate) use spoken::numbers as in_digits;
pub use words::{still_there, wish};
