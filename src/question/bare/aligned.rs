//! Which line two squares share.

use serde::{Deserialize, Serialize};
use shakmaty::Square;

use super::super::{BareChoice, BareKind, Form, Reply, Tally, Truth};
use super::json::pair;
use crate::board::{Alignment, Pair, SquareColor};

/// Asks whether two squares share a file, a rank or a diagonal, and which.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Aligned {
    /// The two squares.
    #[serde(with = "pair")]
    pub squares: Pair,
}

/// How far two squares lie apart.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AlignedWhy {
    /// The two squares.
    pub squares: Pair,
    /// The line that they share.
    pub line: Alignment,
    /// The files from one to the other.
    pub files_apart: u32,
    /// The ranks from one to the other; on a diagonal, as many as files.
    pub ranks_apart: u32,
    /// The color of each; squares of two colors share no diagonal.
    pub colors: [SquareColor; 2],
    /// The squares between, in order.
    pub between: Vec<Square>,
    /// The squares at which the line ends; `None` when there is no line.
    pub ends: Option<[Square; 2]>,
}

impl BareKind for Aligned {
    const FORM: Form = Form::Line;

    const THINK_MILLIS: u64 = 8_000;

    type Why = AlignedWhy;

    fn truth(self) -> Truth {
        Truth::Line {
            line: self.squares.alignment(),
        }
    }

    fn why(self, _: &Tally, _: Option<&Reply>) -> AlignedWhy {
        AlignedWhy {
            squares: self.squares,
            line: self.squares.alignment(),
            files_apart: self.squares.files_apart(),
            ranks_apart: self.squares.ranks_apart(),
            colors: self.squares.squares().map(SquareColor::of),
            between: self.squares.between().collect(),
            ends: self.squares.line_ends(),
        }
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
