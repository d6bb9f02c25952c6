//! The numbers that settings can have, whatever door a plan comes in by: the options of a command line,
//! a lesson file, the config file or a journal.

use std::fmt::Display;
use std::ops::RangeInclusive;

/// The numbers that a setting can have.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bound {
    setting: &'static str,
    least: u32,
    most: u32,
}

/// A setting has a number that it cannot have.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{setting} is {number}, but goes from {least} to {most}")]
pub struct OutOfBounds {
    setting: &'static str,
    number: String,
    least: u32,
    most: u32,
}

/// The questions of a drill.
pub const COUNT: Bound = Bound::new("the count of questions", 1, 1_000);
/// The blockers in the way of a piece that travels.
pub const BLOCKERS: Bound = Bound::new("the number of blockers", 0, 16);
/// The pieces of `few`, the kings among them.
pub const FEW_MEN: Bound = Bound::new("the number of pieces", 3, 10);
/// The plies that `few` plays on.
pub const FEW_PLIES: Bound = Bound::new("the number of plies", 0, 60);
/// The questions at a checkpoint of a replay, or over a position of `few`.
pub const QUESTIONS: Bound = Bound::new("the number of questions at once", 1, 20);
/// The plies from one checkpoint to the next.
pub const EVERY: Bound = Bound::new("the number of plies between checkpoints", 1, 1_000);
/// The plies that stay readable.
pub const TRAIL: Bound = Bound::new("the trail", 0, u16::MAX as u32);
/// The plies that `ahead` reads from a position.
pub const PLIES: Bound = Bound::new("the number of plies", 1, 200);
/// The rounds of `ahead`.
pub const ROUNDS: Bound = Bound::new("the number of rounds", 1, 200);
/// The questions over a position of `ahead`.
pub const PER_ROUND: Bound = Bound::new("the number of questions at once", 1, 3);
/// The moves that a mate takes.
pub const WITHIN: Bound = Bound::new("the number of moves to the mate", 1, 4);
/// The looks at the board that are allowed.
pub const LOOKS: Bound = Bound::new("the number of looks", 0, 1_000);
/// A time in milliseconds: a day at most.
pub const MILLIS: Bound = Bound::new("a time in milliseconds", 0, 86_400_000);
/// The level of the staircase, in plies.
pub(super) const LEVEL: Bound = Bound::new("the level in plies", 1, 1_000);

impl Bound {
    const fn new(setting: &'static str, least: u32, most: u32) -> Bound {
        Bound {
            setting,
            least,
            most,
        }
    }

    /// Returns the smallest number.
    #[must_use]
    pub const fn least(self) -> u32 {
        self.least
    }

    /// Returns the largest number.
    #[must_use]
    pub const fn most(self) -> u32 {
        self.most
    }

    /// Returns the numbers as the reader of a command line takes them.
    #[must_use]
    pub const fn range(self) -> RangeInclusive<i64> {
        self.least as i64..=self.most as i64
    }

    /// Sees to it that the setting can have this number.
    ///
    /// # Errors
    ///
    /// [`OutOfBounds`]
    pub fn check(self, number: impl TryInto<u32> + Copy + Display) -> Result<(), OutOfBounds> {
        if self.holds(number) {
            Ok(())
        } else {
            Err(self.broken_by(number))
        }
    }

    /// Sees to it that the setting can have this number, where it has one.
    ///
    /// # Errors
    ///
    /// [`OutOfBounds`]
    pub fn check_given(
        self,
        number: Option<impl TryInto<u32> + Copy + Display>,
    ) -> Result<(), OutOfBounds> {
        number.map_or(Ok(()), |number| self.check(number))
    }

    fn holds(self, number: impl TryInto<u32>) -> bool {
        let range = self.least..=self.most;
        number
            .try_into()
            .is_ok_and(|number| range.contains(&number))
    }

    pub(super) fn broken_by(self, number: impl Display) -> OutOfBounds {
        OutOfBounds {
            setting: self.setting,
            number: number.to_string(),
            least: self.least,
            most: self.most,
        }
    }
}

/// Has settings written as their fields are, and read only where they pass their own `check`. The type
/// derives `Serialize` and `Deserialize` with `#[serde(remote = "Self")]`.
macro_rules! read_with_check {
    ($settings:ty) => {
        impl serde::Serialize for $settings {
            fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                <$settings>::serialize(self, to)
            }
        }

        impl<'de> serde::Deserialize<'de> for $settings {
            fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<$settings, D::Error> {
                let settings = <$settings>::deserialize(from)?;
                settings.check().map_err(serde::de::Error::custom)?;
                Ok(settings)
            }
        }
    };
}
pub(crate) use read_with_check;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bound_takes_its_own_ends_and_nothing_beyond() {
        for number in [0, 16] {
            assert_eq!(BLOCKERS.check(number), Ok(()));
        }
        for number in [-1, 17] {
            let said = BLOCKERS.check(number).unwrap_err().to_string();
            let expected = format!("the number of blockers is {number}, but goes from 0 to 16");
            assert_eq!(said, expected);
        }
        assert_eq!(COUNT.check_given(None::<usize>), Ok(()));
        assert!(COUNT.check(u64::MAX).is_err());
    }
}
