//! Whether a square is light or dark.

use serde::{Deserialize, Serialize};
use shakmaty::Square;

use super::super::json::text;
use super::super::{BareChoice, BareKind, Form, Reply, Tally, Truth};
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

impl BareKind for Color {
    const FORM: Form = Form::Color;

    const THINK_MILLIS: u64 = 5_000;

    type Why = ColorWhy;

    fn truth(self) -> Truth {
        Truth::Color {
            color: SquareColor::of(self.square),
        }
    }

    fn why(self, _: &Tally, _: Option<&Reply>) -> ColorWhy {
        let parity = Parity::of(self.square);
        ColorWhy {
            square: self.square,
            parity,
            color: parity.color(),
        }
    }

    fn subject_squares(self) -> Vec<Square> {
        vec![self.square]
    }

    fn draw(choice: &mut BareChoice<'_>) -> Color {
        Color {
            square: choice.square(),
        }
    }
}
