//! What answers come to.

use super::answered::Answered;
use crate::question::{Kind, Verdict};

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
        let well = |answered: &Answered| answered.is_right() && answered.looks == 0;
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
    pub fn all<'a>(answers: impl Iterator<Item = &'a Answered> + Clone) -> Vec<KindCount> {
        let of_kind = |kind| {
            let answers = answers.clone();
            answers.filter(move |answered| answered.question.kind() == kind)
        };
        Kind::ALL
            .into_iter()
            .filter(|kind| of_kind(*kind).next().is_some())
            .map(|kind| {
                let count = |verdict| {
                    let of_it = |answered: &&Answered| answered.mark.verdict == verdict;
                    of_kind(kind).filter(of_it).count()
                };
                KindCount {
                    kind,
                    right: count(Verdict::Right),
                    part: count(Verdict::Part),
                    wrong: count(Verdict::Wrong),
                    passed: count(Verdict::Pass),
                    median_millis: median_right(of_kind(kind)),
                }
            })
            .collect()
    }
}

/// Returns the median time of the right replies, in milliseconds.
pub(super) fn median_right<'a>(answers: impl Iterator<Item = &'a Answered>) -> Option<u64> {
    let right = answers.filter(|answered| answered.is_right());
    median(right.filter_map(|answered| answered.millis).collect())
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
