//! How the answers went: lately and before, and for each square.

use std::collections::BTreeMap;

use shakmaty::{Color, Square};

use crate::exercise::Score;
use crate::learner::AnswerRecord;
use crate::question::Kind;

/// How the answers of a kind went.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Trend {
    /// All of them.
    pub all: Score,
    /// Those of the last four weeks.
    pub lately: Score,
    /// Those before.
    pub before: Score,
}

impl Trend {
    /// Returns by how much the share of right answers has changed, -1 to 1; `None` where there are
    /// fewer than `enough` answers lately or before, or where it may be no change at all: where an interval
    /// of 95 % for the difference holds zero (Agresti & Caffo 2000, The American Statistician 54:280-288:
    /// one right and one wrong answer are added on both sides).
    pub fn change(&self, enough: u32) -> Option<f64> {
        let told = |score: &Score| (score.answers() >= enough).then(|| score.share()).flatten();
        let change = told(&self.lately)? - told(&self.before)?;
        let adjusted = |score: &Score| {
            let answers = f64::from(score.answers() + 2);
            let share = f64::from(score.right + 1) / answers;
            (share, share * (1.0 - share) / answers)
        };
        let ((now, one), (then, other)) = (adjusted(&self.lately), adjusted(&self.before));
        ((now - then).abs() > 1.96 * (one + other).sqrt()).then_some(change)
    }
}

/// What a map of squares is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Chart {
    /// Names and places, seen from White's side.
    FromWhite,
    /// Names and places, seen from Black's side.
    FromBlack,
    /// Square colors.
    Color,
}

impl Chart {
    /// All maps, in the order of the climb.
    pub const ALL: [Chart; 3] = [Chart::FromWhite, Chart::FromBlack, Chart::Color];
}

/// Returns the square that an answer is about, and the map it belongs on; `None` for other kinds.
pub(super) fn square(answer: &AnswerRecord) -> Option<(Chart, Square)> {
    let (square, view) = answer.square()?;
    let chart = match (answer.kind, view) {
        (Kind::Color, _) => Chart::Color,
        (_, Some(Color::White)) => Chart::FromWhite,
        (_, Some(Color::Black)) => Chart::FromBlack,
        (_, None) => return None,
    };
    Some((chart, square))
}

/// A map: the score of each square that was asked for, a1 first.
pub type SquareMap = BTreeMap<Square, Score>;
