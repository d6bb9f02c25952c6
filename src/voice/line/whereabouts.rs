//! Where a man stands now, in words.

use crate::exercise::Stand;
use crate::question::{Journey, Truth, Whereabouts};
use crate::voice::naming::man;
use crate::voice::words::LineWords;

use super::journey::way;

impl LineWords for Whereabouts {
    fn ask(self, stand: &Stand) -> String {
        let home = self.man;
        match stand.man {
            Some(piece) => format!("{} from {home}: where does it stand now?", man(piece)),
            None => {
                format!("The piece that stood on {home} at the start: where does it stand now?")
            }
        }
    }

    fn tell(self, truth: &Truth) -> String {
        match truth {
            Truth::Square { square } => format!("The piece stands on {square}."),
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
