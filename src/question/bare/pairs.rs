//! Two squares: the line that they share, and the squares between them.

use serde::{Deserialize, Deserializer, Serialize, de};
use shakmaty::Square;

use super::super::json::pair;
use super::super::{BareChoice, BareKind, Truth};
use crate::board::{Alignment, Pair};

/// Asks for the squares strictly between two squares that share a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Between {
    #[serde(serialize_with = "pair::serialize", deserialize_with = "aligned")]
    squares: Pair,
}

fn aligned<'de, D: Deserializer<'de>>(from: D) -> Result<Pair, D::Error> {
    let squares = pair::deserialize(from)?;
    let [one, other] = squares.squares();
    let fault =
        format!("{one} and {other} share no file, rank or diagonal: nothing lies between them");
    let asked = Between::new(squares).ok_or_else(|| de::Error::custom(fault))?;
    Ok(asked.squares)
}

/// Where a square lies that is not between two others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outside {
    /// It is one of the two.
    End,
    /// It is on their line, but beyond one of them.
    Beyond,
    /// It is not on their line.
    OffLine,
}

impl Between {
    /// Asks what lies between two squares; `None` when they share no line.
    pub fn new(squares: Pair) -> Option<Between> {
        (squares.alignment() != Alignment::None).then_some(Between { squares })
    }

    /// Returns the two squares.
    pub const fn squares(self) -> Pair {
        self.squares
    }

    /// Tells where a square lies that is not between the two.
    pub fn outside(self, square: Square) -> Outside {
        if self.squares.squares().contains(&square) {
            Outside::End
        } else if self.squares.line().contains(square) {
            Outside::Beyond
        } else {
            Outside::OffLine
        }
    }
}

impl BareKind for Between {
    fn truth(self) -> Truth {
        Truth::squares(self.squares.between().collect())
    }

    fn subject_squares(self) -> Vec<Square> {
        self.squares.squares().to_vec()
    }

    /// Two squares with some square between them, mostly.
    fn draw(choice: &mut BareChoice<'_>) -> Between {
        let want_some = choice.dice.chance(9, 10);
        loop {
            let pair = choice.pair();
            if let Some(question) = Between::new(pair)
                && (!want_some || pair.between().next().is_some())
            {
                return question;
            }
        }
    }
}

/// Asks whether two squares share a file, a rank or a diagonal, and which.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Aligned {
    /// The two squares.
    #[serde(with = "pair")]
    pub squares: Pair,
}

impl BareKind for Aligned {
    fn truth(self) -> Truth {
        Truth::Line(self.squares.alignment())
    }

    fn subject_squares(self) -> Vec<Square> {
        self.squares.squares().to_vec()
    }

    /// Diagonals and squares that nearly share a line come before plain files and ranks.
    fn draw(choice: &mut BareChoice<'_>) -> Aligned {
        let wanted = match choice.dice.below(20) {
            0..7 => Alignment::Diagonal,
            7..13 => Alignment::None,
            13..16 => Alignment::File,
            _ => Alignment::Rank,
        };
        loop {
            let squares = choice.pair();
            if squares.alignment() == wanted && (wanted != Alignment::None || is_near_miss(squares))
            {
                return Aligned { squares };
            }
        }
    }
}

/// Tells whether one step of the second square to a side would make two squares share a line.
fn is_near_miss(squares: Pair) -> bool {
    let (files, ranks) = (squares.files_apart(), squares.ranks_apart());
    files.abs_diff(ranks) == 1 || files.min(ranks) == 1
}
