//! Where the lines of two men cross.

use serde::{Deserialize, Serialize};
use shakmaty::{Bitboard, Board, Square};

use super::super::{BareChoice, BareKind, Form, Reply, Sight, Tally, Truth};
use super::json::men;
use crate::board::BareMan;

/// How often a draw is tried again when the lines do not cross.
const TRIES: usize = 64;

/// Asks for the squares that both of two men attack, only those two on the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(try_from = "Subject")]
pub struct Crossing {
    #[serde(with = "men")]
    men: [BareMan; 2],
}

#[derive(Deserialize)]
struct Subject {
    #[serde(with = "men")]
    men: [BareMan; 2],
}

/// Two men on one square.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("both pieces stand on {0}: put one of them on another square")]
pub struct NoCrossing(Square);

/// What each of the two men sees of the squares that were forgotten or named without need.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CrossingWhy {
    /// The two men.
    pub men: [BareMan; 2],
    /// The squares that were not named, and how each man sees them.
    pub missed: Vec<(Square, [Sight; 2])>,
    /// The squares that should not have been named, and what keeps the men from them.
    pub extra: Vec<(Square, [Sight; 2])>,
}

impl Crossing {
    /// Asks where the lines of two men cross.
    ///
    /// # Errors
    ///
    /// [`NoCrossing`] when they stand on one square.
    pub fn new(men: [BareMan; 2]) -> Result<Crossing, NoCrossing> {
        if men[0].square() == men[1].square() {
            Err(NoCrossing(men[0].square()))
        } else {
            Ok(Crossing { men })
        }
    }

    fn crossed(self) -> Bitboard {
        let occupied: Bitboard = self.men.map(BareMan::square).into_iter().collect();
        let [one, other] = self.men.map(|man| man.attacks(occupied));
        one & other
    }

    /// Returns the two men.
    #[must_use]
    pub const fn men(self) -> [BareMan; 2] {
        self.men
    }
}

impl BareKind for Crossing {
    const FORM: Form = Form::Squares;

    const THINK_MILLIS: u64 = 30_000;

    type Why = CrossingWhy;

    fn truth(self) -> Truth {
        Truth::squares(self.crossed())
    }

    fn why(self, tally: &Tally, _: Option<&Reply>) -> CrossingWhy {
        let mut board = Board::empty();
        for man in self.men {
            board.set_piece_at(man.square(), man.piece());
        }
        let look = |at| (at, self.men.map(|man| Sight::new(&board, man.square(), at)));
        CrossingWhy {
            men: self.men,
            missed: tally.missed.into_iter().map(look).collect(),
            extra: tally.extra.into_iter().map(look).collect(),
        }
    }

    fn subject_squares(self) -> Vec<Square> {
        self.men.map(BareMan::square).to_vec()
    }

    /// Two men whose lines cross, five times in six.
    fn draw(choice: &mut BareChoice<'_>) -> Crossing {
        let want_some = choice.dice.chance(5, 6);
        let mut tries = 0;
        loop {
            tries += 1;
            let men = [choice.man(|_| true), choice.man(|_| true)];
            let Ok(question) = Crossing::new(men) else {
                continue;
            };
            if question.crossed().any() || !want_some || tries > TRIES {
                return question;
            }
        }
    }
}

impl TryFrom<Subject> for Crossing {
    type Error = NoCrossing;

    fn try_from(subject: Subject) -> Result<Crossing, NoCrossing> {
        Crossing::new(subject.men)
    }
}
