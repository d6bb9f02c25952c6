//! How well each square is known.

use serde::Deserialize;
use shakmaty::{Color, Square};

use super::Score;
use crate::learner::Glance;
use crate::question::{Kind, Question};

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

/// The subject of a question about a single square, as it stands in the journal.
#[derive(Deserialize)]
struct Subject<'a> {
    square: &'a str,
    view: Option<&'a str>,
}

/// Returns the square that an answer is about, and the map it belongs on; `None` for other kinds.
pub(super) fn square(answer: &Glance<'_>) -> Option<(Chart, Square)> {
    if !matches!(answer.kind, Kind::Name | Kind::Place | Kind::Color) {
        return None;
    }
    let subject: Subject<'_> = serde_json::from_str(answer.subject).ok()?;
    let chart = match (answer.kind, subject.view) {
        (Kind::Color, _) => Chart::Color,
        (_, Some("white")) => Chart::FromWhite,
        (_, Some("black")) => Chart::FromBlack,
        _ => return None,
    };
    Some((chart, subject.square.parse().ok()?))
}

/// Returns which square was taken for another in a reply that was not right.
pub(super) fn mistaken(answer: &Glance<'_>) -> Option<Mistaken> {
    let Question::Bare(question) = question(answer)? else {
        return None;
    };
    let reply = question.form().read(answer.reply).ok()?;
    let view = question.view()?;
    let named = reply.square(view)?;
    let asked = *question.subject_squares().first()?;
    Some(Mistaken { view, asked, named })
}

/// Reads the question of an answer.
fn question(answer: &Glance<'_>) -> Option<Question> {
    let text = format!(
        r#"{{"kind":"{}","subject":{}}}"#,
        answer.kind, answer.subject
    );
    serde_json::from_str(&text).ok()
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
    pub(super) fn take(&mut self, square: Square, answer: &Glance<'_>) {
        self.0[square.to_usize()].take(answer);
    }

    pub(super) fn join(&mut self, others: &SquareMap) {
        for (score, more) in self.0.iter_mut().zip(others.0.iter()) {
            score.join(more);
        }
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
