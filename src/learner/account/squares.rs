//! How well each square is known.

use shakmaty::{Color, Square};

use super::Score;
use crate::learner::AnswerRecord;
use crate::question::{Kind, Question, Verdict};

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

/// One square taken for another.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Mistaken {
    /// The side from which the board was seen.
    pub view: Color,
    /// The square that was asked for.
    pub asked: Square,
    /// The square that the reply stands for.
    pub named: Square,
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

/// Returns which square was taken for another in a reply that was not right.
pub(super) fn mistaken(answer: &AnswerRecord) -> Option<Mistaken> {
    if !matches!(answer.verdict, Verdict::Part | Verdict::Wrong) {
        return None;
    }
    let Question::Bare(question) = answer.question()? else {
        return None;
    };
    let reply = question.form().read(&answer.reply).ok()?;
    let view = question.view()?;
    let named = reply.square(view)?;
    let asked = *question.subject_squares().first()?;
    Some(Mistaken { view, asked, named })
}

/// A map: the score of each square, a1 first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SquareMap(Box<[Score; 64]>);

impl Default for SquareMap {
    fn default() -> SquareMap {
        SquareMap(Box::new(std::array::from_fn(|_| Score::default())))
    }
}

impl SquareMap {
    pub(super) fn take(&mut self, square: Square, answer: &AnswerRecord) {
        self.0[square.to_usize()].take(answer);
    }

    /// Returns the score of a square.
    #[must_use]
    pub fn of(&self, square: Square) -> &Score {
        &self.0[square.to_usize()]
    }

    /// Tells whether any square was asked for.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.iter().all(|score| score.answers() == 0)
    }
}
