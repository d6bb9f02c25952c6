//! How far ahead a learner sees now, with an interval.

use super::Answer;

/// So many answers make a reach; fewer make none.
const ENOUGH_ANSWERS: usize = 30;
/// Answers at so many different plies make a reach; fewer make none.
const ENOUGH_LEVELS: usize = 3;
/// The latest answers that are looked at: of what was before, the drift leaves next to nothing.
const LATELY: usize = 400;

/// The reaches that are weighed stand so many plies apart.
const STEP: f64 = 0.25;
/// They go so many plies beyond the deepest question.
const BEYOND: usize = 10;
/// Where the interval ends more than so many plies beyond the deepest question, nothing but the end of the
/// grid sets it.
const UNSET: f64 = 6.0;

/// What learners may be like, with the weight of each before any answer: how gently the curve falls, in plies; the share
/// of slips at any depth; and how far the reach drifts from one answer to the next, in plies. No source tells how
/// people are: the weights are our own, and were chosen by simulated learners of other seeds than those reported.
const WIDTHS: [(f64, f64); 5] = [(0.4, 0.7), (0.8, 1.0), (1.5, 1.4), (2.5, 1.6), (4.0, 1.2)];
const LAPSES: [(f64, f64); 4] = [(0.005, 1.0), (0.03, 1.0), (0.07, 0.8), (0.12, 0.6)];
const DRIFTS: [(f64, f64); 3] = [(0.03, 0.5), (0.1, 1.0), (0.22, 1.2)];

/// How far ahead a learner sees: the plies at which three in four of the questions asked are known, now.
///
/// The share of questions at `n` plies that the learner *knows* is
///
/// ```text
/// K(n) = (1 - lapse) / (1 + exp((n - reach) / width + c)),   c so that K(reach) = 3/4
/// ```
///
/// a logistic curve that falls with `n`, slips included. What is not known is guessed, and `g` of the guesses are
/// lucky:
///
/// ```text
/// P(n) = g + (1 - g) K(n)
/// ```
///
/// (the form of Watson and Pelli 1983, Percept. Psychophys. 33:113-120, with the logistic in the place of their
/// Weibull). So `reach` means the same for every kind of question: it is the depth at which three in four are right
/// where luck has no part.
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
        /// The middle of what the answers allow for, in plies; from 0 to the deepest question asked, never beyond.
        plies: f64,
        /// The lower end of the 90 % interval, in plies.
        low: f64,
        /// The upper end of the 90 % interval, in plies; `None` where nothing sets one, as when every answer
        /// was right.
        high: Option<f64>,
    },
}

impl Reach {
    /// Measures the reach at the last of these answers, oldest first.
    ///
    /// Every reach on a grid is weighed by every answer, for learners of each make: what speaks against one takes
    /// weight from it, and between two answers the weights spread by the drift (a grid filter with a random walk,
    /// standard statistics, no source consulted). So what was long ago counts less, and a learner who gains is
    /// followed. How often the interval holds the truth is simulated in `tests/exercises/pace.rs`.
    ///
    /// An answer whose guess rate is not from 0 up to (not including) 1 is left out.
    pub fn of<'a>(answers: impl IntoIterator<Item = &'a Answer>) -> Reach {
        let telling = answers.into_iter().copied();
        let telling = telling.filter(|answer| (0.0..1.0).contains(&answer.guess));
        let telling: Vec<Answer> = telling.collect();
        let lately = &telling[telling.len().saturating_sub(LATELY)..];
        let mut levels: Vec<u32> = lately.iter().map(|answer| answer.plies).collect();
        levels.sort_unstable();
        levels.dedup();
        match levels.last() {
            Some(deepest) if lately.len() >= ENOUGH_ANSWERS && levels.len() >= ENOUGH_LEVELS => {
                measure(lately, *deepest)
            }
            _ => Reach::NotMeasured {
                answers: lately.len(),
                of: ENOUGH_ANSWERS,
                levels: levels.len(),
            },
        }
    }
}

fn measure(answers: &[Answer], deepest: u32) -> Reach {
    let deepest = deepest.min(200);
    let cells = (deepest as usize + BEYOND) * 4;
    let mut makes = Vec::new();
    for (width, weight_of_width) in WIDTHS {
        for (lapse, weight_of_lapse) in LAPSES {
            let known = known_by_plies(deepest, cells, width, lapse);
            for (drift, weight_of_drift) in DRIFTS {
                let (likelihood, weights) = filter(answers, &known, cells, drift);
                let before = weight_of_width * weight_of_lapse * weight_of_drift;
                makes.push((likelihood + f64::ln(before), weights));
            }
        }
    }
    let most = makes
        .iter()
        .map(|(log, _)| *log)
        .fold(f64::NEG_INFINITY, f64::max);
    let mut all = vec![0.0; cells];
    for (log, weights) in makes {
        let weight = (log - most).exp();
        for (sum, own) in all.iter_mut().zip(weights) {
            *sum += weight * own;
        }
    }
    let deepest = f64::from(deepest);
    let high = quantile(&all, 0.95);
    Reach::Measured {
        plies: quantile(&all, 0.5).min(deepest),
        low: quantile(&all, 0.05).min(deepest),
        high: (high < deepest + UNSET).then_some(high),
    }
}

/// The reach of a cell of the grid.
fn reach_of(cell: usize) -> f64 {
    STEP * f64::from(u32::try_from(cell).unwrap_or(u32::MAX))
}

/// What is known at each number of plies, for each reach.
fn known_by_plies(deepest: u32, cells: usize, width: f64, lapse: f64) -> Vec<Vec<f64>> {
    let odds_at_reach = (1.0 - lapse) / 0.75 - 1.0;
    let known = |plies: u32, cell| {
        let beyond = ((f64::from(plies) - reach_of(cell)) / width).clamp(-30.0, 30.0);
        (1.0 - lapse) / (1.0 + odds_at_reach * beyond.exp())
    };
    (0..=deepest)
        .map(|plies| (0..cells).map(|cell| known(plies, cell)).collect())
        .collect()
}

/// Weighs every reach by the answers, one after the other; returns the logarithm of the chance of just these answers, and
/// the weights, which sum to 1.
fn filter(answers: &[Answer], known: &[Vec<f64>], cells: usize, drift: f64) -> (f64, Vec<f64>) {
    // Near reaches are likelier than far ones before any answer, and gently so.
    let prior = |cell| (1.0 + reach_of(cell) / 8.0).powi(-2);
    let mut weights: Vec<f64> = (0..cells).map(prior).collect();
    normalize(&mut weights);
    // So much goes over to each neighbor: the variance of a step is the square of the drift.
    let moves = drift * drift / (2.0 * STEP * STEP);
    let mut likelihood = 0.0;
    for answer in answers {
        let mut below = weights[0];
        for cell in 0..cells {
            let own = weights[cell];
            let above = weights.get(cell + 1).copied().unwrap_or(own);
            weights[cell] = own + moves * (above + below - 2.0 * own);
            below = own;
        }
        let known = &known[(answer.plies as usize).min(known.len() - 1)];
        for (weight, known) in weights.iter_mut().zip(known) {
            let right = answer.guess + (1.0 - answer.guess) * known;
            *weight *= if answer.right { right } else { 1.0 - right };
        }
        likelihood += normalize(&mut weights).ln();
    }
    (likelihood, weights)
}

/// Makes weights sum to 1, and returns what they summed to.
fn normalize(weights: &mut [f64]) -> f64 {
    let sum: f64 = weights.iter().sum();
    for weight in weights {
        *weight /= sum;
    }
    sum
}

/// The reach below which so much of the weight lies.
fn quantile(weights: &[f64], share: f64) -> f64 {
    let mut left = share * weights.iter().sum::<f64>();
    for (cell, weight) in weights.iter().enumerate() {
        if left <= *weight {
            // A cell reaches half a step to either side.
            return (reach_of(cell) + STEP * (left / weight - 0.5)).max(0.0);
        }
        left -= weight;
    }
    reach_of(weights.len())
}
