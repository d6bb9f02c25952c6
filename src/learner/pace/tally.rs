//! Answers counted by what a curve can tell apart, and how likely a curve makes them.

use std::collections::BTreeMap;

use super::{Answer, Curve};

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
