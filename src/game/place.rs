//! Where something stands in the file that it was read from.

use std::fmt;

/// A place in a text file, as an editor shows it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// The line, counted from 1.
    pub line: usize,
    /// The column, counted from 1 in characters.
    pub column: usize,
}

impl Place {
    /// Names the place at `line` and `column`, both counted from 1.
    #[must_use]
    pub const fn new(line: usize, column: usize) -> Place {
        Place { line, column }
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}", self.line, self.column)
    }
}
