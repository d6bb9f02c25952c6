//! How long answers took.

use crate::exercise::median;

/// How long answers took, four bytes each.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Times(Vec<u32>);

impl Times {
    /// Adds one answer, in milliseconds; what took more than 49 days counts as that.
    pub fn add(&mut self, millis: u64) {
        self.0.push(u32::try_from(millis).unwrap_or(u32::MAX));
    }

    /// Adds the times of others.
    pub fn join(&mut self, others: &Times) {
        self.0.extend_from_slice(&others.0);
    }

    /// Returns the median in milliseconds, exactly; for an even number of answers the mean of the two
    /// middle ones, rounded down, and `None` without answers.
    #[must_use]
    pub fn median(&self) -> Option<u64> {
        median(self.0.iter().copied().map(u64::from).collect())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_is_the_very_time_that_was_taken() {
        let mut times = Times::default();
        assert_eq!(times.median(), None);
        for millis in [u64::MAX, 3_000, 0] {
            times.add(millis);
        }
        assert_eq!(times.median(), Some(3_000));
    }

    #[test]
    fn joined_times_are_those_of_all_answers() {
        let (mut one, mut other) = (Times::default(), Times::default());
        one.add(1_000);
        for millis in [2_000, 3_000] {
            other.add(millis);
        }
        one.join(&other);
        assert_eq!(one.median(), Some(2_000));
    }
}
