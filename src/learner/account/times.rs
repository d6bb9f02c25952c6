//! Times of answers, counted in steps, so that any number of them takes the same small memory.

/// Steps to a doubling.
const FINENESS: f64 = 8.0;
/// How many steps there are: from a twentieth of a second to an hour.
const STEPS: usize = 130;
/// The lowest step ends here, in milliseconds.
const LOWEST: f64 = 50.0;

/// How often answers took how long.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Times {
    counts: [u32; STEPS],
}

impl Default for Times {
    fn default() -> Times {
        Times { counts: [0; STEPS] }
    }
}

impl Times {
    /// Counts one answer.
    pub fn add(&mut self, millis: u64) {
        let count = &mut self.counts[step(millis)];
        *count = count.saturating_add(1);
    }

    /// Adds the counts of others.
    pub fn join(&mut self, others: &Times) {
        for (count, more) in self.counts.iter_mut().zip(&others.counts) {
            *count = count.saturating_add(*more);
        }
    }

    /// Returns the median in milliseconds, right to 5 %; `None` without answers. Times beyond a
    /// twentieth of a second and an hour count as those.
    #[must_use]
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    pub fn median(&self) -> Option<u64> {
        let all: u64 = self.counts.iter().map(|count| u64::from(*count)).sum();
        let mut below = 0;
        let middle = self.counts.iter().position(|count| {
            below += u64::from(*count);
            below * 2 >= all && all > 0
        })?;
        // The middle of the step, on the scale of ratios. At most an hour, so the cast loses nothing.
        let steps = u32::try_from(middle).map_or(0.0, f64::from) - 0.5;
        Some((LOWEST * (steps / FINENESS).exp2()).round() as u64)
    }
}

/// The step that a time falls into.
#[expect(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss
)]
fn step(millis: u64) -> usize {
    // Beyond what a float tells apart everything is in the last step.
    let doublings = (millis.max(1) as f64 / LOWEST).log2();
    ((doublings * FINENESS).ceil().max(0.0) as usize).min(STEPS - 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_is_right_to_five_in_a_hundred() {
        for exact in [60, 199, 1_000, 2_718, 5_000, 61_000, 3_000_000] {
            let mut times = Times::default();
            for millis in [exact / 2, exact / 2, exact, exact * 2, exact * 2] {
                times.add(millis);
            }
            let median = times.median().unwrap();
            assert!(
                median.abs_diff(exact) * 20 <= exact,
                "{median} stands for {exact}"
            );
        }
    }

    #[test]
    fn without_answers_there_is_no_median_and_no_time_is_too_long_or_short() {
        assert_eq!(Times::default().median(), None);
        for millis in [0, u64::MAX] {
            let mut times = Times::default();
            times.add(millis);
            assert!(times.median().is_some());
        }
    }

    #[test]
    fn joined_counts_are_those_of_all_answers() {
        let (mut one, mut other, mut all) = (Times::default(), Times::default(), Times::default());
        for millis in (0..1_000).map(|n| n * 37 % 9_000) {
            if millis % 3 == 0 {
                one.add(millis);
            } else {
                other.add(millis);
            }
            all.add(millis);
        }
        one.join(&other);
        assert_eq!(one, all);
    }
}
