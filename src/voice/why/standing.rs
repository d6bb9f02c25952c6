//! Where a side's men of one role stand, in words.

use crate::question::StandingWhy;

use super::journey::{steps, there_is};

pub(super) fn standing(why: &StandingWhy) -> Vec<String> {
    let missed = why.missed.iter().map(steps);
    let extra = why
        .extra
        .iter()
        .map(|(square, found)| there_is(*square, found));
    missed.chain(extra).collect()
}
