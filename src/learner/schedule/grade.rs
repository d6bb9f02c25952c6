//! How well an answer went, as the scheduler counts it.

use crate::question::{Kind, Verdict};

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
    #[must_use]
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
    pub(super) const fn number(self) -> f64 {
        match self {
            Grade::Missed => 1.0,
            Grade::Slow => 2.0,
            Grade::Known => 3.0,
            Grade::Quick => 4.0,
        }
    }
}
