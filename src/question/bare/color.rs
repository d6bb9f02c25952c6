//! Whether a square is light or dark.

use serde::{Deserialize, Serialize};
use shakmaty::Square;

use super::super::json::text;
use super::Truth;
use crate::board::{Parity, SquareColor};

/// Asks for the color of a square.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Color {
    /// The square.
    #[serde(with = "text")]
    pub square: Square,
}

/// The sum that tells the color.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ColorWhy {
    /// The square.
    pub square: Square,
    /// Its file and rank as numbers.
    pub parity: Parity,
    /// Its color: dark when the sum is even.
    pub color: SquareColor,
}

impl Color {
    pub(super) const fn truth(self) -> Truth {
        Truth::Color {
            color: SquareColor::of(self.square),
        }
    }

    pub(super) const fn why(self) -> ColorWhy {
        let parity = Parity::of(self.square);
        ColorWhy {
            square: self.square,
            parity,
            color: parity.color(),
        }
    }
}
