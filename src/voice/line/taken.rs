//! Which pieces have left the board, in words.

use crate::exercise::Stand;
use crate::question::{CapturedPieces, Journey, Taken, Truth};
use crate::voice::naming::{pieces_counted, side};
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
        let pieces = pieces_counted(CapturedPieces::ORDER.map(|role| (role, pieces.of(role))));
        format!("{} has lost {pieces}.", side(self.color))
    }

    fn explain(pieces: &Vec<Journey>) -> Vec<String> {
        pieces.iter().flat_map(way).collect()
    }
}
