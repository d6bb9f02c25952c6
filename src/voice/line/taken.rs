//! Which men have left the board, in words.

use crate::exercise::Stand;
use crate::question::{Haul, Taken, TakenWhy, Truth};
use crate::voice::naming::{men_counted, side};
use crate::voice::words::LineWords;

use super::journey::way;

impl LineWords for Taken {
    fn ask(self, _: &Stand) -> String {
        format!(
            "Which of {}'s pieces have been taken since the start? Name them without their squares, or none.",
            side(self.color)
        )
    }

    fn tell(self, truth: &Truth) -> String {
        let pieces = truth.taken();
        let men = men_counted(Haul::ORDER.map(|role| (role, pieces.of(role))));
        format!("{} has lost {men}.", side(self.color))
    }

    fn explain(why: &TakenWhy) -> Vec<String> {
        why.men.iter().flat_map(way).collect()
    }
}
