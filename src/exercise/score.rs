//! How a number of answers went.

use crate::question::Verdict;

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
    /// Takes an answer: its verdict, whether it was late, and its milliseconds, where they are known.
    pub fn take(&mut self, (verdict, late, millis): (Verdict, bool, Option<u64>)) {
        let count = match verdict {
            Verdict::Right => &mut self.right,
            Verdict::Part => &mut self.part,
            Verdict::Wrong => &mut self.wrong,
            Verdict::Pass => &mut self.passed,
        };
        *count += 1;
        self.late += u32::from(late);
        if verdict == Verdict::Right
            && let Some(millis) = millis
        {
            self.millis.push(millis.try_into().unwrap_or(u32::MAX));
        }
    }

    pub(crate) fn join(&mut self, others: &Score) {
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

    fn score(millis: &[u32]) -> Score {
        Score {
            millis: millis.to_vec(),
            ..Score::default()
        }
    }

    #[test]
    fn the_median_is_the_middle_value_or_the_mean_of_two() {
        assert_eq!(median(Vec::new()), None);
        assert_eq!(median(vec![3_000]), Some(3_000));
        assert_eq!(median(vec![9, 1, 5]), Some(5));
        assert_eq!(median(vec![9, 1, 6, 3]), Some(4));
        assert_eq!(median(vec![u64::MAX, u64::MAX]), Some(u64::MAX));
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
