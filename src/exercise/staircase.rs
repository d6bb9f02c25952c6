//! How far ahead to ask next: the level, which moves with every answer.

use serde::de::Error;
use serde::{Deserialize, Deserializer, Serialize};

/// The levels that there are, in plies.
const LEVELS: std::ops::RangeInclusive<f64> = 1.0..=1_000.0;

/// The level before the first answer, in plies.
///
/// With the first step it makes the first three answers stand on three levels for almost everybody,
/// which the fit of a reach needs.
pub const START: f64 = 3.0;

/// How much further a hit says anything about, in plies.
const HIT_SPEAKS_FOR: f64 = 2.0;
/// How much less far a miss says anything about, in plies.
const MISS_SPEAKS_FOR: f64 = 4.0;

/// The level at which to ask next, in plies: real-valued, never under 1.
///
/// A weighted up-down staircase (Kaernbach 1991, Percept. Psychophys. 49:227-229): every hit takes the
/// level up by a step S, every miss down by 3 S. It stands still on the average where hits and
/// misses balance, p S = (1 - p) 3 S, so at p = 3/4: three right in four, lucky ones included. (The
/// older rules of Levitt 1971, J. Acoust. Soc. Am. 49:467-477, go down after one miss and up after two
/// or three hits in a row; they aim at .707 or .794, not at 3/4.)
///
/// S is 1 ply until the first miss, 1/2 until the fourth, then 1/4 for good: large while the level is
/// a guess, small once it is near, and never nothing, since learners get better.
///
/// An answer moves the level only as far as it speaks for. Where questions stand at the level this changes
/// nothing; where they do not (the line was short, the learner chose the plies) a hit takes the level no
/// higher than 2 plies beyond the question, and a miss no lower than 4 plies below it.
///
/// In JSON it holds all that another process needs to go on; every level is a whole number of quarters,
/// and so comes back as it was.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Staircase {
    #[serde(deserialize_with = "level")]
    level: f64,
    misses: usize,
}

impl Default for Staircase {
    fn default() -> Staircase {
        Staircase {
            level: START,
            misses: 0,
        }
    }
}

impl Staircase {
    /// Begins at so many plies.
    pub(super) fn at(plies: u32) -> Staircase {
        Staircase {
            level: f64::from(plies),
            misses: 0,
        }
    }

    /// Returns the same, at no more than so many plies.
    pub(super) fn at_most(self, plies: u32) -> Staircase {
        Staircase {
            level: self.level.min(f64::from(plies)),
            ..self
        }
    }

    /// Moves the level after an answer at so many plies, which was wholly right or not.
    pub fn hear(&mut self, plies: u32, right: bool) {
        let plies = f64::from(plies);
        let step = self.step();
        if right {
            let up = (self.level + step)
                .min(plies + HIT_SPEAKS_FOR)
                .min(*LEVELS.end());
            self.level = self.level.max(up);
        } else {
            let down = (self.level - 3.0 * step).max(plies - MISS_SPEAKS_FOR);
            self.level = self.level.min(down).max(1.0);
            self.misses = self.misses.saturating_add(1);
        }
    }

    /// Returns the whole plies of the next question: the level rounded, at least 1.
    pub fn presented(self) -> u32 {
        presented(self.level)
    }

    /// The step S, in plies.
    const fn step(self) -> f64 {
        match self.misses {
            0 => 1.0,
            1..4 => 0.5,
            4.. => 0.25,
        }
    }
}

/// Reads a level within its bounds.
fn level<'de, D: Deserializer<'de>>(from: D) -> Result<f64, D::Error> {
    let level = f64::deserialize(from)?;
    let fits = LEVELS.contains(&level).then_some(level);
    fits.ok_or_else(|| D::Error::custom(format!("{level} is no level of the staircase")))
}

/// Rounds a level to the whole plies of the next question: at least 1.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
pub fn presented(level: f64) -> u32 {
    // The cast keeps to the range of the type, and nothing at all becomes 1.
    (level.round() as u32).max(1)
}
