//! How a session went.

use shakmaty::{Board, Color};

use super::output::Answered;
use super::{DrillSummary, ReciteSummary};
use crate::game::MoveNumber;
use crate::question::{Kind, Verdict};

/// How a session went.
#[derive(Clone, Debug, PartialEq)]
pub struct Summary {
    /// The first tries, for each kind that was asked, in the order of the climb.
    pub kinds: Vec<KindCount>,
    /// How many plies were heard.
    pub heard: usize,
    /// How many looks at the board were taken.
    pub looks: u32,
    /// How many replies came after the think time.
    pub late: usize,
    /// The board at the end, and the side to move there; `None` over the bare board, and where the session
    /// was left before: it can go on, and the board was not seen.
    pub board: Option<(Board, Color)>,
    /// What only this exercise counts.
    pub own: Own,
}

/// What only one exercise counts.
#[derive(Clone, Debug, PartialEq)]
pub enum Own {
    /// A replay.
    Replay {
        /// The last move before the first checkpoint at which a reply was not right.
        first_miss: Option<MoveNumber>,
        /// The most plies heard in a row, up to a checkpoint, without a miss or a look.
        longest_run: usize,
    },
    /// A drill over the bare board.
    Drill(Box<DrillSummary>),
    /// A drill of few pieces: in how many rounds the picture held.
    Few(RoundsSummary),
    /// Calculation.
    Ahead {
        /// In how many rounds the picture held.
        rounds: RoundsSummary,
        /// How many plies the next round would have, where that follows the learner.
        next: Option<usize>,
    },
    /// Mates.
    Mates {
        /// How many positions had an answer.
        tried: usize,
        /// How many of them were led to the mate.
        mated: usize,
    },
    /// A recital.
    Recite(Box<ReciteSummary>),
}

/// Rounds that had an answer, and those in which all went well.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct RoundsSummary {
    /// How many rounds had an answer.
    pub asked: usize,
    /// In how many of them every answer was right and no look was taken.
    pub held: usize,
}

impl RoundsSummary {
    /// Counts the rounds, given for each one begun how many answers came before it.
    pub(super) fn new(past: &[Answered], begun: &[usize]) -> RoundsSummary {
        let ends = begun.iter().skip(1).copied().chain([past.len()]);
        let rounds: Vec<&[Answered]> = (begun.iter().zip(ends))
            .map(|(from, to)| &past[*from..to])
            .filter(|round| !round.is_empty())
            .collect();
        let well = |past: &Answered| past.mark.verdict == Verdict::Right && past.looks == 0;
        let held = |round: &&&[Answered]| round.iter().all(well);
        RoundsSummary {
            asked: rounds.len(),
            held: rounds.iter().filter(held).count(),
        }
    }
}

/// How the questions of one kind went.
#[derive(Clone, Debug, PartialEq)]
pub struct KindCount {
    /// The kind.
    pub kind: Kind,
    /// Replies that were right.
    pub right: usize,
    /// Replies that were right in part.
    pub part: usize,
    /// Replies that were wrong.
    pub wrong: usize,
    /// Questions given up.
    pub passed: usize,
    /// The median time of the right replies, in milliseconds.
    pub median_millis: Option<u64>,
}

impl KindCount {
    /// Counts the answers of every kind that was asked.
    #[must_use]
    pub fn all<'a>(past: &(impl Iterator<Item = &'a Answered> + Clone)) -> Vec<KindCount> {
        Kind::ALL
            .into_iter()
            .filter(|kind| past.clone().any(|answer| answer.question.kind() == *kind))
            .map(|kind| KindCount::new(kind, past))
            .collect()
    }

    fn new<'a>(kind: Kind, past: &(impl Iterator<Item = &'a Answered> + Clone)) -> KindCount {
        let of_kind = || past.clone().filter(|answer| answer.question.kind() == kind);
        let count = |verdict| {
            of_kind()
                .filter(|answer| answer.mark.verdict == verdict)
                .count()
        };
        let right = of_kind().filter(|answer| answer.mark.verdict == Verdict::Right);
        KindCount {
            kind,
            right: count(Verdict::Right),
            part: count(Verdict::Part),
            wrong: count(Verdict::Wrong),
            passed: count(Verdict::Pass),
            median_millis: median(right.filter_map(|answer| answer.millis).collect()),
        }
    }
}

/// Returns the middle value; for an even number of them the mean of the two middle ones, rounded down.
/// Every median that the program tells is this one.
pub(crate) fn median(mut values: Vec<u64>) -> Option<u64> {
    let is_even = values.len().is_multiple_of(2);
    let middle = values.len() / 2;
    if values.is_empty() {
        return None;
    }
    let (below, upper, _) = values.select_nth_unstable(middle);
    let lower = below.iter().max().filter(|_| is_even);
    Some(lower.unwrap_or(upper).midpoint(*upper))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_is_the_middle_value_or_the_mean_of_two() {
        assert_eq!(median(Vec::new()), None);
        assert_eq!(median(vec![3_000]), Some(3_000));
        assert_eq!(median(vec![9, 1, 5]), Some(5));
        assert_eq!(median(vec![9, 1, 6, 3]), Some(4));
        assert_eq!(median(vec![u64::MAX, u64::MAX]), Some(u64::MAX));
    }
}
