//! Where a replay makes checkpoints.

use serde::{Deserialize, Serialize};

use super::bound::Every;

/// Where checkpoints are made.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Checkpoints {
    /// After every so many plies, and at the end.
    Every(Every),
    /// After these moves of the main line.
    At(Vec<Stop>),
}

/// A place for a checkpoint.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Stop {
    /// After so many plies of the main line.
    Plies(usize),
    /// At the end of the main line.
    End,
}

/// The plies of the main line after which checkpoints are made, in order. A checkpoint that would
/// come less than half a stretch before the end moves to the end.
pub(super) fn main_stops(plies: usize, checkpoints: &Checkpoints) -> Vec<usize> {
    let mut stops: Vec<usize> = match checkpoints {
        Checkpoints::Every(every) => {
            let every = every.size();
            (every..=plies)
                .step_by(every)
                .take_while(|stop| stop + every.div_ceil(2) <= plies)
                .chain([plies])
                .collect()
        }
        Checkpoints::At(stops) => stops
            .iter()
            .map(|stop| match stop {
                Stop::Plies(plies) => *plies,
                Stop::End => plies,
            })
            .collect(),
    };
    stops.sort_unstable();
    stops.dedup();
    stops
}

#[cfg(test)]
mod tests {
    use super::*;

    fn every(plies: usize) -> Checkpoints {
        Checkpoints::Every(Every::nearest(plies))
    }

    #[test]
    fn checkpoints_come_every_so_many_plies_and_at_the_end() {
        assert_eq!(main_stops(32, &every(8)), [8, 16, 24, 32]);
        assert_eq!(main_stops(30, &every(8)), [8, 16, 24, 30]);
        assert_eq!(main_stops(5, &every(8)), [5]);
        assert_eq!(main_stops(3, &every(1)), [1, 2, 3]);
    }

    #[test]
    fn a_checkpoint_near_the_end_moves_to_the_end() {
        assert_eq!(main_stops(33, &every(8)), [8, 16, 24, 33]);
        assert_eq!(main_stops(36, &every(8)), [8, 16, 24, 32, 36]);
    }

    #[test]
    fn named_checkpoints_come_in_the_order_of_the_game() {
        let stops = vec![Stop::End, Stop::Plies(4), Stop::Plies(2), Stop::Plies(4)];
        assert_eq!(main_stops(9, &Checkpoints::At(stops)), [2, 4, 9]);
    }
}
