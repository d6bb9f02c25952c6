//! PGN files to games and back. Nothing here knows of exercises.
//!
//! A [`Collection`] splits a file into [`Passage`]s, one a game; [`read`] makes a [`Reading`] of
//! one: the game, every [`Fault`] with its place, and the piece letters it was written with.
//! [`read_twice`] lets another reader confirm it, as is done before a game is trained or exported.
//! [`Heading`] is the fast way to the tags by which games are listed and found.
//!
//! Large collections: [`unpacked`] reads packed files, [`each_block`] works on many games at once, and
//! [`Finder`] finds some of them.
//!
//! What is understood beyond the PGN standard: move numbers in any form or none, castling with zeros
//! or small letters, promotions without `=`, long algebraic moves, captures with a colon or without
//! a mark, check marks that are missing or needless, needless squares, figurines, signs of
//! evaluation, piece letters of sixteen more languages. A small `b` is the file; only where no
//! pawn's move is legal and a bishop's is, it is the bishop, and a remark says so.

mod archive;
mod block;
mod collection;
mod comment;
mod day;
mod encoding;
mod epd;
mod export;
mod fault;
mod faults;
mod find;
mod heading;
mod illegal_move;
mod lost;
mod movetext;
mod name;
mod open_line;
mod opening;
mod packing;
mod passage;
mod prose;
mod reading;
mod repair;
mod setup;
mod signs;
mod skim;
mod source;
mod split;
mod tag_pair;
mod text;
mod token;
mod tokens;
mod used_letters;
mod witness;
mod word;
mod workers;

pub use archive::Archive;
pub use block::{Block, Span};
pub use collection::Collection;
pub use day::Day;
pub use encoding_rs::Encoding;
pub use epd::positions_as_games;
pub use export::export;
pub use fault::{Fault, Reason};
pub use find::{Ended, Finder, Opening, Search};
pub use heading::{Field, Heading};
pub use lost::{Cost, Lost};
pub use name::Nearness;
pub use packing::{Packing, TooPacked, unpacked};
pub use passage::Passage;
pub use reading::{Reading, Trust, check, read};
pub use repair::Repair;
pub use text::{Marks, is_unseen};
pub use witness::read_twice;
pub use workers::each_block;
