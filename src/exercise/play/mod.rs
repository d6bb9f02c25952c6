//! A whole game without a board, against an opponent.

mod few;

pub use few::few;
