//! Where a replay stops to ask, and how the plies that were heard map onto the passages.

use std::collections::HashMap;

use super::script::{Passage, Script};
use super::settings::{Checkpoints, Stop};

/// A place in a script: so many plies of the line that one passage reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Spot {
    pub(super) passage: usize,
    pub(super) plies: usize,
}

/// The passages of a script with its checkpoints, in the order of reading.
#[derive(Clone, Debug)]
pub(super) struct Itinerary {
    passages: Vec<Passage>,
    checkpoints: Vec<Spot>,
}

impl Itinerary {
    pub(super) fn new(script: &Script, checkpoints: &Checkpoints) -> Itinerary {
        let passages = script.passages().to_vec();
        let stops = main_stops(script.main_moves().len(), checkpoints);
        let last_of_line: HashMap<usize, usize> = passages
            .iter()
            .enumerate()
            .map(|(number, passage)| (passage.line, number))
            .collect();
        let mut spots = Vec::new();
        for (number, passage) in passages.iter().enumerate() {
            let here = |plies| Spot {
                passage: number,
                plies,
            };
            if passage.line == 0 {
                // A passage that reads nothing is the start alone, and is asked about there.
                let first = (passage.from + 1).min(passage.to);
                let inside = |plies: &&usize| (first..=passage.to).contains(*plies);
                spots.extend(stops.iter().filter(inside).map(|plies| here(*plies)));
            } else if matches!(checkpoints, Checkpoints::Every(_)) {
                let is_last = last_of_line.get(&passage.line) == Some(&number);
                spots.extend(is_last.then(|| here(passage.to)));
            }
        }
        Itinerary {
            passages,
            checkpoints: spots,
        }
    }

    pub(super) fn passage(&self, number: usize) -> Option<&Passage> {
        self.passages.get(number)
    }

    pub(super) fn checkpoints(&self) -> &[Spot] {
        &self.checkpoints
    }

    /// Returns the number of plies in all.
    pub(super) fn plies(&self) -> usize {
        self.passages
            .iter()
            .map(|passage| passage.to - passage.from)
            .sum()
    }
}

/// The plies of the main line after which checkpoints are made, in order. A checkpoint that would
/// come less than half a stretch before the end moves to the end.
fn main_stops(plies: usize, checkpoints: &Checkpoints) -> Vec<usize> {
    let mut stops: Vec<usize> = match checkpoints {
        Checkpoints::Every(every) => {
            let every = (*every).max(1);
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

    #[test]
    fn checkpoints_come_every_so_many_plies_and_at_the_end() {
        assert_eq!(main_stops(32, &Checkpoints::Every(8)), [8, 16, 24, 32]);
        assert_eq!(main_stops(30, &Checkpoints::Every(8)), [8, 16, 24, 30]);
        assert_eq!(main_stops(5, &Checkpoints::Every(8)), [5]);
        assert_eq!(main_stops(3, &Checkpoints::Every(1)), [1, 2, 3]);
    }

    #[test]
    fn a_checkpoint_near_the_end_moves_to_the_end() {
        assert_eq!(main_stops(33, &Checkpoints::Every(8)), [8, 16, 24, 33]);
        assert_eq!(main_stops(36, &Checkpoints::Every(8)), [8, 16, 24, 32, 36]);
    }

    #[test]
    fn named_checkpoints_come_in_the_order_of_the_game() {
        let stops = vec![Stop::End, Stop::Plies(4), Stop::Plies(2), Stop::Plies(4)];
        assert_eq!(main_stops(9, &Checkpoints::At(stops)), [2, 4, 9]);
    }
}
