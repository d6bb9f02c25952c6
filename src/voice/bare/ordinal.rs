//! Counted places in words.

use crate::board::Seen;

/// Names the n-th of the eight files or rows.
///
/// # Panics
///
/// Beyond the board.
pub(super) const fn ordinal(n: u32) -> &'static str {
    match n {
        1 => "first",
        2 => "second",
        3 => "third",
        4 => "fourth",
        5 => "fifth",
        6 => "sixth",
        7 => "seventh",
        8 => "eighth",
        _ => panic!("a board has eight files and eight rows"),
    }
}

/// Names a file by its count: "the third file from the left".
pub(super) fn file(seen: Seen) -> String {
    format!("the {} file from the left", ordinal(seen.from_left()))
}

/// Names a row by its count: "the fifth row from the bottom".
pub(super) fn row(seen: Seen) -> String {
    format!("the {} row from the bottom", ordinal(seen.from_bottom()))
}
