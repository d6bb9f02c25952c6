//! How the share of right answers falls as the plies grow, and how likely a curve makes given answers.

use std::collections::BTreeMap;

use super::Answer;

/// The share of answers that are left to luck at any depth: a slip of the finger, a thought elsewhere.
///
/// Fixed, inside the usual .01 to .05: sixty answers cannot tell it from a gentle slope, and a
/// lapse rate of nothing lets one slip move the whole curve (Prins 2012, J. Vision 12(6):25).
const LAPSE: f64 = 0.02;

/// A learner's curve: how surely one sees so many plies ahead.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Curve {
    /// The plies at which three in four are known.
    pub(super) reach: f64,
    /// How slowly the curve falls, in plies: about 2.4 widths lie between three in four and one in
    /// four. More than 0.
    pub(super) width: f64,
}

impl Curve {
    /// The share of questions known at so many plies, luck left out.
    fn known(&self, plies: f64) -> f64 {
        (1.0 - LAPSE) / (1.0 + self.odds_against(plies))
    }

    /// One part that is not known, lapses left out, to so many that are.
    fn odds_against(&self, plies: f64) -> f64 {
        // The odds at the reach itself, where (1 - LAPSE) / (1 + odds) is 3/4.
        let at_reach = (1.0 - LAPSE) / 0.75 - 1.0;
        // Beyond 30 there is no difference left, and nothing may overflow.
        at_reach * ((plies - self.reach) / self.width).clamp(-30.0, 30.0).exp()
    }
}

/// No line of calculation is longer, in plies; answers from further on count as from here.
const LONGEST: u32 = 200;

/// Answers at the same plies with the same chance of a lucky guess.
#[derive(Clone, Copy, Debug)]
struct Cell {
    plies: f64,
    guess: f64,
    right: f64,
    wrong: f64,
}

/// All answers, counted.
#[derive(Clone, Debug)]
pub(super) struct Tally {
    answers: usize,
    cells: Vec<Cell>,
}

impl Tally {
    /// Counts the answers. An answer whose guess rate is no chance, or a certainty, is left out: it tells
    /// nothing of the learner.
    pub(super) fn new(answers: &[Answer]) -> Tally {
        let mut count = 0;
        let mut cells: BTreeMap<(u32, u64), Cell> = BTreeMap::new();
        for answer in answers {
            if !(0.0..1.0).contains(&answer.guess) {
                continue;
            }
            count += 1;
            let plies = answer.plies.clamp(1, LONGEST);
            let cell = cells
                .entry((plies, answer.guess.to_bits()))
                .or_insert(Cell {
                    plies: f64::from(plies),
                    guess: answer.guess,
                    right: 0.0,
                    wrong: 0.0,
                });
            if answer.right {
                cell.right += 1.0;
            } else {
                cell.wrong += 1.0;
            }
        }
        Tally {
            answers: count,
            cells: cells.into_values().collect(),
        }
    }

    /// How many answers were counted.
    pub(super) fn answers(&self) -> usize {
        self.answers
    }

    /// At how many different plies they stood.
    pub(super) fn levels(&self) -> usize {
        // The cells stand in the order of their plies.
        self.cells
            .chunk_by(|a, b| a.plies.total_cmp(&b.plies).is_eq())
            .count()
    }

    /// The greatest number of plies asked, in plies.
    pub(super) fn deepest(&self) -> f64 {
        self.cells.iter().map(|cell| cell.plies).fold(0.0, f64::max)
    }

    /// The logarithm of the chance of just these answers under a curve.
    pub(super) fn log_likelihood(&self, curve: Curve) -> f64 {
        self.cells
            .iter()
            .map(|cell| {
                let known = curve.known(cell.plies);
                let right = cell.guess + (1.0 - cell.guess) * known;
                let wrong = (1.0 - cell.guess) * (1.0 - known);
                cell.right * right.ln() + cell.wrong * wrong.ln()
            })
            .sum()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The chance of one right answer at so many plies.
    fn right(curve: Curve, plies: u32, guess: f64) -> f64 {
        let answer = Answer {
            plies,
            right: true,
            guess,
        };
        Tally::new(&[answer]).log_likelihood(curve).exp()
    }

    fn assert_near(value: f64, expected: f64) {
        assert!((value - expected).abs() < 1e-9, "{value}, not {expected}");
    }

    #[test]
    fn three_in_four_are_known_at_the_reach_and_seven_in_eight_are_right_at_a_yes_or_no() {
        let learner = Curve {
            reach: 6.0,
            width: 1.3,
        };
        assert_near(learner.known(6.0), 0.75);
        assert_near(right(learner, 6, 0.0), 0.75);
        assert_near(right(learner, 6, 0.5), 0.875);
        assert_near(right(learner, u32::MAX, 0.5), 0.5);
        assert!(learner.known(0.0) > 0.97);
    }
}
