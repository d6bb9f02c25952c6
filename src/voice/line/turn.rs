//! A move of one's own, in words.

use crate::exercise::Stand;
use crate::question::{InMind, Truth, Turn, TurnWhy};
use crate::voice::naming::{move_of, role, side};
use crate::voice::words::LineWords;

use super::illegal::refused;

impl LineWords for Turn {
    fn ask(self, stand: &Stand) -> String {
        format!("{} to move: which move?", side(stand.turn))
    }

    fn tell(self, _: &Truth) -> String {
        "Any legal move is right.".to_owned()
    }

    fn explain(why: &TurnWhy) -> Vec<String> {
        let refused = refused(why.refused.as_slice());
        refused.chain(why.in_mind.as_ref().map(in_mind)).collect()
    }
}

/// Names what the learner seems to have in mind.
fn in_mind(in_mind: &InMind) -> String {
    match in_mind {
        InMind::Stood {
            piece,
            square,
            until,
        } => {
            let (role, number) = (role(piece.role), move_of(until.number));
            let left = if until.side() == piece.color {
                "where it stood until"
            } else {
                "where it was taken with"
            };
            format!("You may have your {role} on {square}, {left} {number}.")
        }
        InMind::WasLegal(ply) => {
            let number = move_of(ply.number);
            format!("It was last possible at {number}.")
        }
    }
}
