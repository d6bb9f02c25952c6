//! How far ahead a learner sees, with an interval.

use super::Answer;
use super::curve::{Curve, Tally};

/// So many answers make a reach; fewer make none.
const ENOUGH_ANSWERS: usize = 30;
/// Answers at so many different plies make a reach; fewer make none.
const ENOUGH_LEVELS: usize = 3;

/// The width of a learner's [`Curve`] that is held most likely before any answer, in plies.
///
/// With this and [`WIDTH_SPREAD`], two thirds of all learners are held to have a width from 0.6 to 2.4
/// plies. No source tells it: it is an assumption, to be looked at again when there are many journals.
const USUAL_WIDTH: f64 = 1.2;
/// How far widths lie apart: the standard deviation of the width's natural logarithm.
const WIDTH_SPREAD: f64 = 0.7;

/// Half of 2.7055, the 90 % point of chi-square with one degree of freedom: the logarithm of the
/// likelihood may fall by so much within a 90 % interval.
const FALL: f64 = 1.352_77;
/// How far above the deepest question the fit looks, in plies.
const BEYOND: f64 = 10.0;

/// How far ahead a learner sees, by a curve that falls as the plies grow.
///
/// The share of questions at `n` plies that the learner *knows* is
///
/// ```text
/// K(n) = .98 / (1 + exp((n - reach) / width - c)),   c so that K(reach) = 3/4
/// ```
///
/// a logistic curve that falls with `n`. What is not known is guessed, and `g` of the guesses are lucky:
///
/// ```text
/// P(n) = g + (1 - g) K(n)
/// ```
///
/// (the form of Watson and Pelli 1983, Percept. Psychophys. 33:113-120, with the logistic in the
/// place of their Weibull). So `reach` means the same for every kind of question: it is the depth
/// at which three in four are right where luck has no part. At a yes or no, seven in eight are right
/// there, for half of the last quarter is luck.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reach {
    /// There are too few answers, or they stand at too few levels.
    NotMeasured {
        /// The answers so far.
        answers: usize,
        /// The answers that are needed.
        of: usize,
        /// At how many different plies they stood; 3 are needed.
        levels: usize,
    },
    /// The answers tell.
    Measured {
        /// The most likely reach, in plies; from 0 to the deepest question asked, never beyond.
        plies: f64,
        /// The lower end of the 90 % interval, in plies; 0 where nothing speaks against it.
        low: f64,
        /// The upper end of the 90 % interval, in plies; `None` where nothing sets one, as when
        /// every answer was right.
        high: Option<f64>,
    },
}

impl Reach {
    /// Measures the reach by all these answers, in any order.
    ///
    /// The likeliest curve is sought: the one whose reach and width give these answers the greatest
    /// chance, the width weighed by a lognormal prior around 1.2 plies, since
    /// answers near one level say little of it. The guess rate is each answer's own, the lapse rate is fixed
    /// at .02.
    ///
    /// The interval is that of the profile likelihood: every reach that, with the width that suits
    /// it best, is less than 1.353 (half the 90 % point of chi-square, one degree of freedom) less
    /// likely on the logarithmic scale than the best. The method is standard statistics (no source
    /// consulted); how often the interval holds the truth is simulated in `tests/exercises/pace.rs`.
    ///
    /// After 60 answers at the staircase's levels the median error is at most half a ply, and the interval
    /// holds the truth in 85 to 95 %, for simulated learners with widths up to 1.1. With gentler curves
    /// it is worse: from a width of 1.3 on the error passes half a ply at a yes or no, and at 2.4, which
    /// the prior still allows for, the interval holds the truth in only 69 to 83 %. Do not promise half
    /// a ply without that condition.
    ///
    /// The learner is taken to be the same throughout: of a learner who is getting better, hand over the
    /// answers of late. An answer whose guess rate is not from 0 up to (not including) 1 is left out.
    #[must_use]
    pub fn of(answers: &[Answer]) -> Reach {
        let tally = Tally::new(answers);
        if tally.answers() < ENOUGH_ANSWERS || tally.levels() < ENOUGH_LEVELS {
            return Reach::NotMeasured {
                answers: tally.answers(),
                of: ENOUGH_ANSWERS,
                levels: tally.levels(),
            };
        }
        measure(&tally)
    }
}

fn measure(tally: &Tally) -> Reach {
    let ceiling = tally.deepest() + BEYOND;
    let profile = |reach| profile(tally, reach);
    let near = climb(rough(tally, ceiling), ceiling, profile);
    let (from, to) = ((near - 1.0).max(0.0), (near + 1.0).min(ceiling));
    let (best, height) = summit(from, to, 12, profile);
    let inside = |reach| profile(reach) - (height - FALL);
    let low = if inside(0.0) < 0.0 {
        crossing(0.0, best, inside)
    } else {
        0.0
    };
    let high = (inside(ceiling) < 0.0).then(|| crossing(ceiling, best, inside));
    let plies = best.min(tally.deepest());
    Reach::Measured {
        plies,
        low: low.min(plies),
        high,
    }
}

/// The logarithm of the likelihood of a reach, with the width that suits it best.
fn profile(tally: &Tally, reach: f64) -> f64 {
    let (_, height) = summit(-2.5, 2.5, 11, |spreads| {
        let width = USUAL_WIDTH * (spreads * WIDTH_SPREAD).exp();
        tally.log_likelihood(Curve { reach, width }) - spreads * spreads / 2.0
    });
    height
}

/// The best reach in whole plies for a curve of the usual width: far from it the hill is flat, and no
/// climber would find the way.
fn rough(tally: &Tally, ceiling: f64) -> f64 {
    let width = USUAL_WIDTH;
    let mut best = (f64::NEG_INFINITY, 0.0);
    let mut reach = 0.0;
    while reach <= ceiling {
        let height = tally.log_likelihood(Curve { reach, width });
        if height > best.0 {
            best = (height, reach);
        }
        reach += 1.0;
    }
    best.1
}

/// Climbs in steps of 1 from a point to a top between 0 and a ceiling.
fn climb(from: f64, ceiling: f64, height: impl Fn(f64) -> f64) -> f64 {
    let (mut top, mut top_height) = (from, height(from));
    for direction in [1.0, -1.0] {
        loop {
            let next = top + direction;
            if !(0.0..=ceiling).contains(&next) {
                break;
            }
            let next_height = height(next);
            if next_height <= top_height {
                break;
            }
            (top, top_height) = (next, next_height);
        }
    }
    top
}

/// Finds the highest point of a hill between two ends by golden section: where it is and how high.
fn summit(from: f64, to: f64, rounds: u32, height: impl Fn(f64) -> f64) -> (f64, f64) {
    const GOLDEN: f64 = 0.618_033_988_749_894_9;
    let (mut from, mut to) = (from, to);
    let (mut left, mut right) = (to - GOLDEN * (to - from), from + GOLDEN * (to - from));
    let (mut left_height, mut right_height) = (height(left), height(right));
    for _ in 0..rounds {
        if left_height >= right_height {
            to = right;
            (right, right_height) = (left, left_height);
            left = to - GOLDEN * (to - from);
            left_height = height(left);
        } else {
            from = left;
            (left, left_height) = (right, right_height);
            right = from + GOLDEN * (to - from);
            right_height = height(right);
        }
    }
    if left_height >= right_height {
        (left, left_height)
    } else {
        (right, right_height)
    }
}

/// Finds where a function goes through 0 between an end where it is under 0 and one where it is not.
fn crossing(below: f64, above: f64, value: impl Fn(f64) -> f64) -> f64 {
    let (mut below, mut above) = (below, above);
    for _ in 0..14 {
        let middle = f64::midpoint(below, above);
        if value(middle) < 0.0 {
            below = middle;
        } else {
            above = middle;
        }
    }
    f64::midpoint(below, above)
}
