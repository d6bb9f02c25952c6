//! The squares between two aligned squares.

use serde::{Deserialize, Serialize};
use shakmaty::Square;

use super::super::{BareChoice, BareKind, Form, Reply, Tally, Truth};
use super::json::pair;
use crate::board::{Alignment, Pair};

/// Asks for the squares strictly between two squares that share a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Subject")]
pub struct Between {
    #[serde(with = "pair")]
    squares: Pair,
}

#[derive(Deserialize)]
struct Subject {
    #[serde(with = "pair")]
    squares: Pair,
}

/// Two squares that share no line.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{0} and {1} share no file, rank or diagonal: nothing lies between them")]
pub struct BetweenError(Square, Square);

/// The line, and where squares that were named without need lie.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BetweenWhy {
    /// The two squares.
    pub squares: Pair,
    /// The line that they share.
    pub line: Alignment,
    /// All squares between, in order.
    pub between: Vec<Square>,
    /// Those of them that were not named, in order.
    pub missed: Vec<Square>,
    /// Where each square that should not have been named lies.
    pub extra: Vec<(Square, Aside)>,
}

/// Where a square lies that is not between two others.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aside {
    /// It is one of the two.
    End,
    /// It is on their line, but beyond one of them.
    Beyond,
    /// It is not on their line.
    OffLine,
}

impl Between {
    /// Asks what lies between two squares.
    ///
    /// # Errors
    ///
    /// [`BetweenError`] when they share no line.
    pub const fn new(squares: Pair) -> Result<Between, BetweenError> {
        match squares.alignment() {
            Alignment::None => Err(BetweenError(squares.from(), squares.to())),
            Alignment::File | Alignment::Rank | Alignment::Diagonal => Ok(Between { squares }),
        }
    }

    /// Returns the two squares.
    #[must_use]
    pub const fn squares(self) -> Pair {
        self.squares
    }

    fn aside(self, square: Square) -> Aside {
        if self.squares.squares().contains(&square) {
            Aside::End
        } else if self.squares.line().contains(square) {
            Aside::Beyond
        } else {
            Aside::OffLine
        }
    }
}

impl BareKind for Between {
    const FORM: Form = Form::Squares;

    const THINK_MILLIS: u64 = 15_000;

    type Why = BetweenWhy;

    fn truth(self) -> Truth {
        Truth::squares(self.squares.between().collect())
    }

    fn why(self, tally: &Tally, _: Option<&Reply>) -> BetweenWhy {
        let extra = tally.extra.into_iter();
        let missed = self.squares.between();
        BetweenWhy {
            squares: self.squares,
            line: self.squares.alignment(),
            between: self.squares.between().collect(),
            missed: missed.filter(|at| tally.missed.contains(*at)).collect(),
            extra: extra.map(|at| (at, self.aside(at))).collect(),
        }
    }

    fn subject_squares(self) -> Vec<Square> {
        self.squares.squares().to_vec()
    }

    /// Two squares with some square between them, mostly.
    fn draw(choice: &mut BareChoice<'_>) -> Between {
        let want_some = choice.dice.chance(9, 10);
        loop {
            let pair = choice.pair();
            if let Ok(question) = Between::new(pair)
                && (!want_some || pair.between().next().is_some())
            {
                return question;
            }
        }
    }
}

impl TryFrom<Subject> for Between {
    type Error = BetweenError;

    fn try_from(subject: Subject) -> Result<Between, BetweenError> {
        Between::new(subject.squares)
    }
}
