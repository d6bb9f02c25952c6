//! Illegal moves in a reply, each with its one reason.

use shakmaty::{CastlingSide, Role};

use crate::question::{LegalityWhy, Refused};
use crate::voice::naming::{piece_named, squares_of, wing};
use crate::voice::no_move::no_move;
use crate::voice::reply_help::echo;

use super::blame::{Tried, clause};

pub(super) fn refused(refused: &Refused) -> String {
    match refused {
        Refused::Impossible(said) => no_move(&echo(&said.word), &said.fault),
        Refused::Illegal(why) => match &why.blame {
            Some(blame) => {
                let reason = clause(&Tried {
                    attempt: why.attempt,
                    piece: why.piece,
                    target: why.target,
                    blame,
                });
                format!("{} is not legal, because {reason}.", named(why))
            }
            None => format!("{} is legal.", named(why)),
        },
    }
}

/// Names the move with its piece: "White's knight from f3 to d2".
fn named(why: &LegalityWhy) -> String {
    let squares = squares_of(why.attempt);
    let Some(piece) = why.piece else {
        return format!("The move from {squares}");
    };
    let files = why.attempt.from.file().distance(why.attempt.to.file());
    if piece.role == Role::King && files == 2 {
        let side = CastlingSide::from_king_side(why.attempt.to > why.attempt.from);
        return format!(
            "Castling {} with {} from {squares}",
            wing(side),
            piece_named(piece)
        );
    }
    format!("{} from {squares}", piece_named(piece))
}
