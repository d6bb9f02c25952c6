//! Two squares, the line that they share and what lies between them.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Square, attacks};
use strum::{Display, IntoStaticStr};

/// The straight line on which two squares lie (FIDE 2.4).
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, Display, IntoStaticStr,
)]
#[serde(rename_all = "lowercase")]
#[strum(serialize_all = "lowercase")]
pub enum Alignment {
    /// They share a file.
    File,
    /// They share a rank.
    Rank,
    /// They share a diagonal.
    Diagonal,
    /// They share no line.
    None,
}

/// Two different squares, in an order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Pair {
    from: Square,
    to: Square,
}

impl Pair {
    /// Pairs two squares; `None` when they are one.
    pub fn new(from: Square, to: Square) -> Option<Pair> {
        (from != to).then_some(Pair { from, to })
    }

    /// Returns the first square.
    pub const fn from(self) -> Square {
        self.from
    }

    /// Returns the second square.
    pub const fn to(self) -> Square {
        self.to
    }

    /// Returns both squares, in order.
    pub const fn squares(self) -> [Square; 2] {
        [self.from, self.to]
    }

    /// Counts the files from the one square to the other, 0 to 7.
    pub const fn files_apart(self) -> u32 {
        self.from.file().distance(self.to.file())
    }

    /// Counts the ranks from the one square to the other, 0 to 7.
    pub const fn ranks_apart(self) -> u32 {
        self.from.rank().distance(self.to.rank())
    }

    /// Tells which line the squares share.
    pub const fn alignment(self) -> Alignment {
        match (self.files_apart(), self.ranks_apart()) {
            (0, _) => Alignment::File,
            (_, 0) => Alignment::Rank,
            (files, ranks) if files == ranks => Alignment::Diagonal,
            _ => Alignment::None,
        }
    }

    /// Returns the squares strictly between the two, in order from the first; none when the squares
    /// share no line.
    pub fn between(self) -> impl Iterator<Item = Square> {
        let mut left = attacks::between(self.from, self.to);
        let up = self.from < self.to;
        std::iter::from_fn(move || {
            if up {
                left.pop_front()
            } else {
                left.pop_back()
            }
        })
    }

    /// Returns the whole line of the two squares, from edge to edge; empty when they share none.
    pub const fn line(self) -> Bitboard {
        attacks::ray(self.from, self.to)
    }

    /// Returns the two squares at the edges of the board that end the line, the end behind the first
    /// square first; `None` when the squares share no line.
    pub fn line_ends(self) -> Option<[Square; 2]> {
        let (low, high) = (self.line().first()?, self.line().last()?);
        Some(if self.from < self.to {
            [low, high]
        } else {
            [high, low]
        })
    }
}
