//! What stands on a square, in words.

use crate::exercise::Stand;
use crate::question::{Found, Occupant, Truth};
use crate::voice::naming::{capital, piece_named};
use crate::voice::words::LineWords;

use super::journey::found;

impl LineWords for Occupant {
    fn ask(self, _: &Stand) -> String {
        format!("What stands on {}?", self.square)
    }

    fn tell(self, truth: &Truth) -> String {
        match truth {
            Truth::Piece(Some(piece)) => {
                format!(
                    "{} stands on {}.",
                    capital(&piece_named(*piece)),
                    self.square
                )
            }
            _ => format!("No piece stands on {}.", self.square),
        }
    }

    fn explain(why: &Found) -> Vec<String> {
        found(why)
    }
}
