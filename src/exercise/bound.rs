//! The numbers that settings can have, whatever door a plan comes in by: the options of a command line,
//! a lesson file, the config file or a journal.

use std::fmt;
use std::str::FromStr;

use serde::de::{Error, Visitor};
use serde::{Deserialize, Deserializer, Serialize};

/// A whole number from `LEAST` to `MOST`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct Within<const LEAST: u32, const MOST: u32>(u32);

/// A number that a setting cannot have.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{number} is no whole number from {least} to {most}")]
pub struct OutOfBounds {
    number: String,
    least: u32,
    most: u32,
}

/// The questions of a drill.
pub type Count = Within<1, 1_000>;
/// The blockers in the way of a piece that travels.
pub type Blockers = Within<0, 16>;
/// The pieces of `few`, the kings among them.
pub type FewPieces = Within<3, 32>;
/// The plies that `few` plays on.
pub type FewPlies = Within<0, 60>;
/// The questions at a checkpoint of a replay, or over a position of `few`.
pub type Questions = Within<1, 20>;
/// The plies from one checkpoint to the next.
pub type Every = Within<1, 1_000>;
/// The plies that stay readable.
pub type Trail = Within<0, 65_535>;
/// The plies that `ahead` reads from a position.
pub type Plies = Within<1, 200>;
/// The rounds of `ahead`.
pub type Rounds = Within<1, 200>;
/// The questions over a position of `ahead`.
pub type PerRound = Within<1, 3>;
/// The moves that a mate takes.
pub type MateMoves = Within<1, 4>;
/// The looks at the board that are allowed.
pub type Looks = Within<0, 1_000>;
/// The rating of an opponent, who need not play at each of them.
pub type Rating = Within<1, 3_500>;
/// The pieces a side of a game that begins with few, the king counted.
pub type SidePieces = Within<2, 11>;
/// The games that are played at once.
pub type Boards = Within<1, 6>;
/// The minutes of a lesson that is chosen.
pub type Minutes = Within<1, 180>;
/// A think time in milliseconds: a day at most.
pub type Millis = Within<0, 86_400_000>;

impl<const LEAST: u32, const MOST: u32> Within<LEAST, MOST> {
    /// The smallest number.
    pub const LEAST: usize = LEAST as usize;
    /// The largest number.
    pub const MOST: usize = MOST as usize;

    /// Takes the nearest number that is one of these.
    pub fn nearest(number: usize) -> Self {
        let number = u32::try_from(number).unwrap_or(MOST);
        Within(number.clamp(LEAST, MOST))
    }

    /// Returns the number.
    pub const fn get(self) -> u32 {
        self.0
    }

    /// Returns the number as a count of things.
    pub const fn size(self) -> usize {
        self.0 as usize
    }

    fn new(number: impl TryInto<u32> + fmt::Display + Copy) -> Result<Self, OutOfBounds> {
        let fits = number.try_into().ok();
        let fits = fits.filter(|number| (LEAST..=MOST).contains(number));
        fits.map(Within).ok_or_else(|| Self::refused(number))
    }

    fn refused(number: impl fmt::Display) -> OutOfBounds {
        OutOfBounds {
            number: number.to_string(),
            least: LEAST,
            most: MOST,
        }
    }
}

impl<const LEAST: u32, const MOST: u32> FromStr for Within<LEAST, MOST> {
    type Err = OutOfBounds;

    fn from_str(text: &str) -> Result<Self, OutOfBounds> {
        let number: u32 = text.parse().map_err(|_| Self::refused(text))?;
        Self::new(number)
    }
}

impl<'de, const LEAST: u32, const MOST: u32> Deserialize<'de> for Within<LEAST, MOST> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(AnyNumber)
    }
}

/// Reads a number, or one that is written as a text.
struct AnyNumber<const LEAST: u32, const MOST: u32>;

impl<const LEAST: u32, const MOST: u32> Visitor<'_> for AnyNumber<LEAST, MOST> {
    type Value = Within<LEAST, MOST>;

    fn expecting(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(to, "a whole number from {LEAST} to {MOST}")
    }

    fn visit_i64<E: Error>(self, number: i64) -> Result<Self::Value, E> {
        Within::new(number).map_err(E::custom)
    }

    fn visit_u64<E: Error>(self, number: u64) -> Result<Self::Value, E> {
        Within::new(number).map_err(E::custom)
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Self::Value, E> {
        text.parse().map_err(E::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bound_takes_its_own_ends_and_nothing_beyond() {
        let read = |json: &str| serde_json::from_str::<Blockers>(json);
        for number in [0, 16] {
            assert_eq!(read(&number.to_string()).unwrap().get(), number);
            assert_eq!(
                number.to_string().parse::<Blockers>().unwrap().get(),
                number
            );
        }
        for number in ["-1", "17", "1.5", "18446744073709551615"] {
            let said = number.parse::<Blockers>().unwrap_err().to_string();
            let expected = format!("{number} is no whole number from 0 to 16");
            assert_eq!(said, expected);
            assert!(read(number).is_err(), "{number}");
        }
        assert_eq!(Blockers::nearest(99), Blockers::nearest(16));
    }
}
