//! The color of a square.

use std::ops::Not;

use serde::{Deserialize, Serialize};
use shakmaty::Square;

/// The color of a square; a side's color is [`shakmaty::Color`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum SquareColor {
    /// As h1, at White's near right (FIDE 2.1).
    Light,
    /// As a1.
    Dark,
}

impl SquareColor {
    /// Looks up the color of `square`.
    #[must_use]
    pub const fn of(square: Square) -> SquareColor {
        Parity::of(square).color()
    }
}

impl Not for SquareColor {
    type Output = SquareColor;

    fn not(self) -> SquareColor {
        match self {
            SquareColor::Light => SquareColor::Dark,
            SquareColor::Dark => SquareColor::Light,
        }
    }
}

/// The sum that tells a square's color without looking: the file (a is 1, h is 8) and the rank. The
/// square is dark when it is even, light when it is odd.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Parity {
    /// The number of the file, 1 to 8.
    pub file: u32,
    /// The number of the rank, 1 to 8.
    pub rank: u32,
}

impl Parity {
    /// Numbers the file and the rank of `square`.
    #[must_use]
    pub const fn of(square: Square) -> Parity {
        Parity {
            file: square.file().to_u32() + 1,
            rank: square.rank().to_u32() + 1,
        }
    }

    /// Returns file plus rank, 2 to 16.
    #[must_use]
    pub const fn sum(self) -> u32 {
        self.file + self.rank
    }

    /// Returns the color that the sum tells.
    #[must_use]
    pub const fn color(self) -> SquareColor {
        if self.sum().is_multiple_of(2) {
            SquareColor::Dark
        } else {
            SquareColor::Light
        }
    }
}
