//! Squares: the name of a marked one and where a named one lies, seen from a side, and light or dark.

use serde::{Deserialize, Serialize};
use shakmaty::{Color as Side, Square};

use super::super::json::text;
use super::super::{BareChoice, BareKind, Reply, Truth};
use crate::board::{Seen, SquareColor};

/// Asks about a square as a side sees it: for the name of a marked one, or where a named one lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct InView<const MARKED: bool> {
    /// The square.
    #[serde(with = "text")]
    pub square: Square,
    /// The side from which the board is seen.
    #[serde(with = "text")]
    pub view: Side,
}

/// Asks for the name of a marked square, seen from a side, on a board without coordinates.
pub type Name = InView<true>;

/// Asks how many files from the left and rows from the bottom a square lies, seen from a side.
pub type Place = InView<false>;

/// A square that was named, or to which was counted, in the place of another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Instead {
    /// The square.
    pub square: Square,
    /// Where it lies in the same view.
    pub counted: Seen,
    /// Whether it would be right seen from the other side.
    pub right_from_other_side: bool,
    /// Whether it would be right with files and rows exchanged.
    pub exchanged: bool,
}

impl<const MARKED: bool> InView<MARKED> {
    /// Finds what a reply names or counts instead; `None` where it is right or there is none.
    pub fn instead(self, reply: Option<&Reply>) -> Option<Instead> {
        let InView { square, view } = self;
        let said = reply?.square(view).filter(|said| *said != square)?;
        let [right, counted] = [square, said].map(|square| Seen::of(square, view));
        Some(Instead {
            square: said,
            counted,
            right_from_other_side: right.square(!view) == said,
            exchanged: (counted.from_left(), counted.from_bottom())
                == (right.from_bottom(), right.from_left()),
        })
    }
}

impl<const MARKED: bool> BareKind for InView<MARKED> {
    fn truth(self) -> Truth {
        if MARKED {
            Truth::Square(self.square)
        } else {
            Truth::Place(Seen::of(self.square, self.view))
        }
    }

    fn subject_squares(self) -> Vec<Square> {
        vec![self.square]
    }

    fn view(self) -> Option<Side> {
        Some(self.view)
    }

    fn draw(choice: &mut BareChoice<'_>) -> InView<MARKED> {
        let (square, view) = (choice.square(), choice.side());
        InView { square, view }
    }
}

/// Asks for the color of a square.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Color {
    /// The square.
    #[serde(with = "text")]
    pub square: Square,
}

impl BareKind for Color {
    fn truth(self) -> Truth {
        Truth::Color(SquareColor::of(self.square))
    }

    fn subject_squares(self) -> Vec<Square> {
        vec![self.square]
    }

    fn draw(choice: &mut BareChoice<'_>) -> Color {
        let square = choice.square();
        Color { square }
    }
}
