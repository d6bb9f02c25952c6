//! How a number of answers went: altogether, lately and before, or for each square.

use std::collections::BTreeMap;

use shakmaty::{Color, Square};

use crate::exercise::median;
use crate::learner::AnswerRecord;
use crate::question::{Kind, Verdict};

/// How a number of answers went, and how long the right ones took.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Score {
    /// Right replies.
    pub right: u32,
    /// Replies that were right in part.
    pub part: u32,
    /// Wrong replies.
    pub wrong: u32,
    /// Questions given up.
    pub passed: u32,
    /// Replies of any kind that came after the think time.
    pub late: u32,
    /// The milliseconds of the right replies, as far as they are known; what took more than 49 days counts
    /// as that.
    millis: Vec<u32>,
}

impl Score {
    pub(super) fn take(&mut self, answer: &AnswerRecord) {
        let count = match answer.verdict {
            Verdict::Right => &mut self.right,
            Verdict::Part => &mut self.part,
            Verdict::Wrong => &mut self.wrong,
            Verdict::Pass => &mut self.passed,
        };
        *count += 1;
        self.late += u32::from(answer.late);
        if answer.verdict == Verdict::Right
            && let Some(millis) = answer.millis
        {
            self.millis.push(millis.try_into().unwrap_or(u32::MAX));
        }
    }

    pub(super) fn join(&mut self, others: &Score) {
        self.right += others.right;
        self.part += others.part;
        self.wrong += others.wrong;
        self.passed += others.passed;
        self.late += others.late;
        self.millis.extend_from_slice(&others.millis);
    }

    /// Returns how many answers there are.
    pub fn answers(&self) -> u32 {
        self.right + self.part + self.wrong + self.passed
    }

    /// Returns the share that was wholly right, 0 to 1; `None` without answers.
    pub fn share(&self) -> Option<f64> {
        let answers = self.answers();
        (answers > 0).then(|| f64::from(self.right) / f64::from(answers))
    }

    /// Returns how long the right replies took, in milliseconds: the median, exactly; for an even number of
    /// them the mean of the two middle ones, rounded down, and `None` where no time is known.
    pub fn median(&self) -> Option<u64> {
        median(self.millis.iter().copied().map(u64::from).collect())
    }
}

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

#[cfg(test)]
mod tests {
    use super::*;

    fn score(millis: &[u32]) -> Score {
        Score {
            millis: millis.to_vec(),
            ..Score::default()
        }
    }

    #[test]
    fn the_median_is_the_very_time_that_was_taken() {
        assert_eq!(score(&[]).median(), None);
        assert_eq!(score(&[u32::MAX, 3_000, 0]).median(), Some(3_000));
    }

    #[test]
    fn joined_times_are_those_of_all_answers() {
        let mut one = score(&[1_000]);
        one.join(&score(&[2_000, 3_000]));
        assert_eq!(one.median(), Some(2_000));
    }
}
