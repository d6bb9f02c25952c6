//! Which line two squares share.

use serde::{Deserialize, Serialize};
use shakmaty::Square;

use super::super::json::pair;
use super::super::{BareChoice, BareKind, Form, Reply, Tally, Truth};
use crate::board::{Alignment, Pair};

/// Asks whether two squares share a file, a rank or a diagonal, and which.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Aligned {
    /// The two squares.
    #[serde(with = "pair")]
    pub squares: Pair,
}

impl BareKind for Aligned {
    const FORM: Form = Form::Line;

    const THINK_MILLIS: u64 = 8_000;

    /// The squares themselves: how far they lie apart tells the line.
    type Why = Pair;

    fn truth(self) -> Truth {
        Truth::Line {
            line: self.squares.alignment(),
        }
    }

    fn why(self, _: &Tally, _: Option<&Reply>) -> Pair {
        self.squares
    }

    fn subject_squares(self) -> Vec<Square> {
        self.squares.squares().to_vec()
    }

    /// Each kind of line, and none, about as often as the other.
    fn draw(choice: &mut BareChoice<'_>) -> Aligned {
        let wanted = [
            Alignment::File,
            Alignment::Rank,
            Alignment::Diagonal,
            Alignment::None,
        ][choice.dice.below(4)];
        loop {
            let squares = choice.pair();
            if squares.alignment() == wanted {
                return Aligned { squares };
            }
        }
    }
}
