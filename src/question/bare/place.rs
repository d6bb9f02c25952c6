//! Where a square lies on the board, counted from a side.

use serde::{Deserialize, Serialize};
use shakmaty::{Color, Square};

use super::super::json::{side, text};
use super::super::{BareChoice, BareKind, Form, Reply, Tally, Truth};
use crate::board::Seen;

/// Asks how many files from the left and rows from the bottom a square lies, seen from a side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Place {
    /// The square.
    #[serde(with = "text")]
    pub square: Square,
    /// The side from which the board is seen.
    #[serde(with = "side")]
    pub view: Color,
}

/// How the place of a square is counted off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PlaceWhy {
    /// The square.
    pub square: Square,
    /// The side from which the board is seen.
    pub view: Color,
    /// Where it lies in that view.
    pub counted: Seen,
    /// What was counted instead; `None` after a right reply or none.
    pub instead: Option<CountedInstead>,
}

/// A place that was counted for that of another square.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CountedInstead {
    /// The place.
    pub counted: Seen,
    /// The square that lies there in the same view.
    pub square: Square,
    /// Whether the place would be right seen from the other side.
    pub right_from_other_side: bool,
    /// Whether it would be right with files and rows exchanged.
    pub exchanged: bool,
}

impl BareKind for Place {
    const FORM: Form = Form::Place;

    const THINK_MILLIS: u64 = 5_000;

    type Why = PlaceWhy;

    fn truth(self) -> Truth {
        Truth::Place(Seen::of(self.square, self.view))
    }

    fn why(self, _: &Tally, reply: Option<&Reply>) -> PlaceWhy {
        let counted = Seen::of(self.square, self.view);
        let instead = match reply {
            Some(Reply::Place(said)) if *said != counted => Some(*said),
            _ => None,
        };
        PlaceWhy {
            square: self.square,
            view: self.view,
            counted,
            instead: instead.map(|said| CountedInstead {
                counted: said,
                square: said.square(self.view),
                right_from_other_side: said.square(!self.view) == self.square,
                exchanged: (said.from_left(), said.from_bottom())
                    == (counted.from_bottom(), counted.from_left()),
            }),
        }
    }

    fn subject_squares(self) -> Vec<Square> {
        vec![self.square]
    }

    fn view(self) -> Option<Color> {
        Some(self.view)
    }

    fn draw(choice: &mut BareChoice<'_>) -> Place {
        Place {
            square: choice.square(),
            view: choice.side(),
        }
    }
}
