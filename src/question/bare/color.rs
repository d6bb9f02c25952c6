//! Whether a square is light or dark.

use serde::{Deserialize, Serialize};
use shakmaty::Square;

use super::super::json::text;
use super::super::{BareChoice, BareKind, Form, Reply, Tally, Truth};
use crate::board::SquareColor;

/// Asks for the color of a square.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Color {
    /// The square.
    #[serde(with = "text")]
    pub square: Square,
}

impl BareKind for Color {
    const FORM: Form = Form::Color;

    const THINK_MILLIS: u64 = 5_000;

    /// The square itself: the sum of its file and rank tells its color.
    type Why = Square;

    fn truth(self) -> Truth {
        Truth::Color {
            color: SquareColor::of(self.square),
        }
    }

    fn why(self, _: &Tally, _: Option<&Reply>) -> Square {
        self.square
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
