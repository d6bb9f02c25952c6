//! Where a piece stands now, in words.

use crate::exercise::Stand;
use crate::question::{Journey, Truth, Whereabouts};
use crate::voice::naming::piece_named;
use crate::voice::words::LineWords;

use super::journey::way;

impl LineWords for Whereabouts {
    fn ask(self, stand: &Stand) -> String {
        let home = self.piece;
        match stand.piece {
            Some(piece) => format!(
                "{} from {home}: where does it stand now?",
                piece_named(piece)
            ),
            None => {
                format!("The piece that stood on {home} at the start: where does it stand now?")
            }
        }
    }

    fn tell(self, truth: &Truth) -> String {
        match truth {
            Truth::Square(square) => format!("The piece stands on {square}."),
            _ => "The piece is gone: it was taken.".to_owned(),
        }
    }

    fn explain(why: &Option<Journey>) -> Vec<String> {
        why.as_ref().map_or_else(
            || vec!["No piece stood there at the start.".to_owned()],
            way,
        )
    }
}
