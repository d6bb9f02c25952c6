//! Where a side's pieces of one role stand, in words.

use crate::exercise::Stand;
use crate::question::{Standing, StandingWhy, Truth};
use crate::voice::naming::{role, roles, side, squares};
use crate::voice::words::LineWords;

use super::journey::{steps, there_is};

impl LineWords for Standing {
    fn ask(self, _: &Stand) -> String {
        format!(
            "On which squares does {} have a {}? Name every one.",
            side(self.color),
            role(self.role)
        )
    }

    fn tell(self, truth: &Truth) -> String {
        let (side, set) = (side(self.color), truth.set());
        match set.count() {
            0 => format!("{side} has no {}.", roles(self.role)),
            1 => format!("{side} has a {} on {}.", role(self.role), squares(set)),
            _ => format!("{side} has {} on {}.", roles(self.role), squares(set)),
        }
    }

    fn explain(why: &StandingWhy) -> Vec<String> {
        let missed = why.missed.iter().map(steps);
        let extra = why
            .extra
            .iter()
            .map(|(square, found)| there_is(*square, found));
        missed.chain(extra).collect()
    }
}
