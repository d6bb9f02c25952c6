//! What is left of one item in the learner's mind: the formulas of FSRS-6.
//!
//! FSRS is the Free Spaced Repetition Scheduler. Formulas and weights are those of version 6, as the
//! Rust crate `fsrs` 6.6.2 and the Python package `fsrs` 6.3.2 have them; the tests hold this file to
//! what that crate computes.

use crate::question::{Kind, Verdict};

/// The usual learner's weights, `w0` to `w20`.
const W: [f64; 21] = [
    0.212, 1.2931, 2.3065, 8.2956, 6.4133, 0.8334, 3.0194, 0.001, 1.8722, 0.1666, 0.796, 1.4835,
    0.0614, 0.2629, 1.6483, 0.6014, 1.8729, 0.5425, 0.0912, 0.0658, 0.1542,
];

/// How well an answer went, in the four grades of the scheduler.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// Not wholly right, or given up.
    Missed,
    /// Right, and late, slow or of unknown time: not within half the kind's usual think time, which is
    /// the pace that passes a step.
    Slow,
    /// Right, and in time.
    Known,
    /// Right, and quick: within a quarter of the kind's usual think time.
    Quick,
}

impl Grade {
    /// Grades an answer over the bare board by its verdict, whether it came after the think time of its
    /// exercise, and its milliseconds, where they are known. The two times are our own choice (no source).
    pub fn of(kind: Kind, verdict: Verdict, late: bool, millis: Option<u64>) -> Grade {
        let think = kind.think_millis();
        match verdict {
            Verdict::Part | Verdict::Wrong | Verdict::Pass => Grade::Missed,
            Verdict::Right => match millis {
                Some(millis) if !late && millis <= think / 4 => Grade::Quick,
                Some(millis) if !late && millis <= think / 2 => Grade::Known,
                Some(_) | None => Grade::Slow,
            },
        }
    }

    /// Returns the number of the grade in the scheduler's formulas, 1 to 4.
    const fn number(self) -> f64 {
        self as u8 as f64 + 1.0
    }
}

/// The trace that the answers so far have left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trace {
    /// After so many days the item is recalled nine times in ten.
    pub stability: f64,
    /// How hard the item is for this learner, 1 to 10.
    pub difficulty: f64,
}

impl Trace {
    /// The trace that the first answer leaves.
    pub fn first(grade: Grade) -> Trace {
        Trace {
            stability: W[grade as usize],
            difficulty: first_difficulty(grade).clamp(1.0, 10.0),
        }
    }

    /// The trace that another answer leaves, so many whole days after the last one.
    pub fn next(self, grade: Grade, days: u32) -> Trace {
        let Trace {
            stability: s,
            difficulty: d,
        } = self;
        let forgotten = 1.0 - self.recall(f64::from(days));
        let is_missed = grade == Grade::Missed;
        let stability = if days == 0 {
            let growth = (W[17] * (grade.number() - 3.0 + W[18])).exp() * s.powf(-W[19]);
            s * if is_missed { growth } else { growth.max(1.0) }
        } else if is_missed {
            let left =
                W[11] * d.powf(-W[12]) * ((s + 1.0).powf(W[13]) - 1.0) * (W[14] * forgotten).exp();
            left.min(s / (W[17] * W[18]).exp())
        } else {
            let factor = match grade {
                Grade::Slow => W[15],
                Grade::Quick => W[16],
                Grade::Missed | Grade::Known => 1.0,
            };
            let growth =
                W[8].exp() * (11.0 - d) * s.powf(-W[9]) * ((W[10] * forgotten).exp() - 1.0);
            s * (1.0 + growth * factor)
        };
        let damped = d - W[6] * (grade.number() - 3.0) * (10.0 - d) / 9.0;
        let reverted = damped + W[7] * (first_difficulty(Grade::Quick) - damped);
        Trace {
            stability: stability.clamp(0.001, 36_500.0),
            difficulty: reverted.clamp(1.0, 10.0),
        }
    }

    /// The chance that the item is recalled so many days after the last answer, 0 to 1.
    pub fn recall(self, days: f64) -> f64 {
        let decay = -W[20];
        let factor = 0.9_f64.powf(1.0 / decay) - 1.0;
        (1.0 + factor * days.max(0.0) / self.stability).powf(decay)
    }
}

fn first_difficulty(grade: Grade) -> f64 {
    W[4] - (W[5] * (grade.number() - 1.0)).exp() + 1.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn is(value: f64, expected: f64) {
        // The crate reckons in 32 bits.
        let off = (value - expected).abs() / expected.abs();
        assert!(off < 2e-5, "{value}, not {expected}");
    }

    /// The example in the documentation of `FSRS::next_states`, crate `fsrs` 6.6.2.
    #[test]
    fn the_first_answer_leaves_the_published_trace() {
        let published = [
            (Grade::Missed, 0.212, 6.4133),
            (Grade::Slow, 1.2931, 5.112_170_7),
            (Grade::Known, 2.3065, 2.118_104),
            (Grade::Quick, 8.2956, 1.0),
        ];
        for (grade, stability, difficulty) in published {
            let trace = Trace::first(grade);
            is(trace.stability, stability);
            is(trace.difficulty, difficulty);
        }
    }

    /// The forgetting curve of FSRS-6 at its default decay: R(S) is .9 by definition; the others were
    /// computed from the published formula outside this project.
    #[test]
    fn recall_falls_along_the_published_curve() {
        for stability in [0.5, 7.0, 300.0] {
            let recall = |times: f64| {
                let trace = Trace {
                    stability,
                    difficulty: 5.0,
                };
                trace.recall(times * stability)
            };
            is(recall(0.0), 1.0);
            is(recall(1.0), 0.9);
            is(recall(2.0), 0.845_885);
            is(recall(3.315_960), 0.8);
            is(recall(5.0), 0.760_528);
            is(recall(10.0), 0.692_827);
            is(recall(-3.0), 1.0);
        }
    }

    /// Histories drawn at random and run through `FSRS::next_states` of the crate `fsrs` 6.6.2 with its
    /// default parameters: days since the answer before, and the grade's first letter.
    #[test]
    fn whole_histories_leave_the_trace_that_the_published_scheduler_computes() {
        let computed = [
            ("0a 1g 1a 0e 13g 1e", 8.406_273, 7.816_683_3),
            ("0h 40a 1a 5e 0h 2a", 0.534_958_9, 9.817_705),
            ("0e 1g 5h 2h 1a 5h", 4.362_863_5, 9.104_621),
            ("0a 0e 13e 13g 40e 0a", 53.180_27, 7.161_944),
            ("0h 2a 5h 13g 0a 13e", 9.719_146, 9.481_04),
            ("0e 2a 2a 40e 40h 13g", 24.402_275, 9.082_984),
            ("0a 5a 0h 13a 0e 1h", 0.507_096_1, 9.727_35),
            ("0a 13a 2a 5e 2g 1a", 0.534_424_07, 9.797_163),
            ("0a 0g 13h 0h 13a 13e", 5.827_143_7, 9.259_432),
            ("0h 13e 0a 2h 2a 0g", 1.202_637_7, 9.494_105),
            ("0g 0e 2e 2g 0h 1g", 34.682_59, 4.001_826_3),
            ("0e 2h 1g 13a 5g 2a", 0.994_694_65, 9.328_133),
        ];
        for (history, stability, difficulty) in computed {
            let mut trace = None;
            for answer in history.split(' ') {
                let (days, grade) = answer.split_at(answer.len() - 1);
                let grade = match grade {
                    "a" => Grade::Missed,
                    "h" => Grade::Slow,
                    "g" => Grade::Known,
                    _ => Grade::Quick,
                };
                let days = days.parse().unwrap();
                trace =
                    Some(trace.map_or(Trace::first(grade), |trace: Trace| trace.next(grade, days)));
            }
            let trace = trace.unwrap();
            is(trace.stability, stability);
            is(trace.difficulty, difficulty);
        }
    }
}
