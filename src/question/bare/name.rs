//! What a marked square on a board without coordinates is called.

use serde::{Deserialize, Serialize};
use shakmaty::{Color, Square};

use super::super::json::{side, text};
use super::super::{BareChoice, BareKind, Form, Reply, Tally, Truth};
use crate::board::Seen;

/// Asks for the name of a marked square, seen from a side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Name {
    /// The marked square.
    #[serde(with = "text")]
    pub square: Square,
    /// The side from which the board is seen.
    #[serde(with = "side")]
    pub view: Color,
}

/// How a square's name is counted off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NameWhy {
    /// The marked square.
    pub square: Square,
    /// The side from which the board is seen.
    pub view: Color,
    /// Where it lies in that view.
    pub counted: Seen,
    /// What was named instead; `None` after a right reply or none.
    pub instead: Option<NamedInstead>,
}

/// A square that was named in the place of another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NamedInstead {
    /// The square.
    pub square: Square,
    /// Where it lies in the same view.
    pub counted: Seen,
    /// Whether it would be right seen from the other side.
    pub right_from_other_side: bool,
}

impl BareKind for Name {
    const FORM: Form = Form::Square;

    const THINK_MILLIS: u64 = 5_000;

    type Why = NameWhy;

    fn truth(self) -> Truth {
        Truth::Square {
            square: self.square,
        }
    }

    fn why(self, _: &Tally, reply: Option<&Reply>) -> NameWhy {
        let instead = match reply {
            Some(Reply::Square(said)) if *said != self.square => Some(*said),
            _ => None,
        };
        let counted = Seen::of(self.square, self.view);
        NameWhy {
            square: self.square,
            view: self.view,
            counted,
            instead: instead.map(|square| NamedInstead {
                square,
                counted: Seen::of(square, self.view),
                right_from_other_side: counted.square(!self.view) == square,
            }),
        }
    }

    fn subject_squares(self) -> Vec<Square> {
        vec![self.square]
    }

    fn view(self) -> Option<Color> {
        Some(self.view)
    }

    fn draw(choice: &mut BareChoice<'_>) -> Name {
        Name {
            square: choice.square(),
            view: choice.side(),
        }
    }
}
