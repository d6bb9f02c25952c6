//! The level at which to ask next.

use super::Answer;

/// The level before the first answer, in plies.
///
/// With the first step it makes the first three answers stand on three levels for almost everybody,
/// which the fit of a reach needs.
pub const START: f64 = 3.0;

/// How much further a hit says anything about, in plies.
const HIT_SPEAKS_FOR: f64 = 2.0;
/// How much less far a miss says anything about, in plies.
const MISS_SPEAKS_FOR: f64 = 4.0;

/// Returns the level after these answers, oldest first, in plies: real-valued, never under 1.
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
#[must_use]
pub fn level(answers: &[Answer]) -> f64 {
    let mut level = START;
    let mut misses = 0;
    for answer in answers {
        let plies = f64::from(answer.plies);
        if answer.right {
            let up = (level + step(misses)).min(plies + HIT_SPEAKS_FOR);
            level = level.max(up);
        } else {
            let down = (level - 3.0 * step(misses)).max(plies - MISS_SPEAKS_FOR);
            level = level.min(down).max(1.0);
            misses += 1;
        }
    }
    level
}

/// The step S after so many misses, in plies.
fn step(misses: usize) -> f64 {
    match misses {
        0 => 1.0,
        1..4 => 0.5,
        4.. => 0.25,
    }
}

/// Rounds a level to the whole plies of the next question: at least 1.
#[must_use]
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
pub fn presented(level: f64) -> u32 {
    // The cast keeps to the range of the type, and nothing at all becomes 1.
    (level.round() as u32).max(1)
}
