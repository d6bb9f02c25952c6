//! Who attacks and who guards, in words.

use shakmaty::{Piece, Role, Square};

use crate::exercise::Stand;
use crate::question::{Hanging, HangingWhy, Truth, Watched};
use crate::voice::naming::{list, piece_named, side, squares};
use crate::voice::words::LineWords;

impl LineWords for Hanging {
    fn ask(self, _: &Stand) -> String {
        format!(
            "Which of {}'s pieces are attacked and not guarded, the king left out? Name their squares, or \
             none.",
            side(self.color)
        )
    }

    fn tell(self, truth: &Truth) -> String {
        let (side, set) = (side(self.color), truth.set());
        match set.count() {
            0 => format!("No piece of {side} is hanging."),
            1 => format!("{side} has a hanging piece on {}.", squares(set)),
            _ => format!("{side} has hanging pieces on {}.", squares(set)),
        }
    }

    fn explain(why: &HangingWhy) -> Vec<String> {
        why.watched
            .iter()
            .map(|watched| told(why, watched))
            .collect()
    }
}

fn told(why: &HangingWhy, watched: &Watched) -> String {
    let square = watched.square;
    let Some(piece) = watched.piece else {
        return format!("No piece stands on {square}.");
    };
    let name = format!("{} on {square}", piece_named(piece));
    if piece.color != why.color {
        return format!("{name} is not one of {}'s pieces.", side(why.color));
    }
    if piece.role == Role::King {
        return format!("{name} is left out, as every king is.");
    }
    match (watched.attackers.as_slice(), watched.guards.as_slice()) {
        ([], _) => format!("{name} is not attacked by {}.", side(!why.color)),
        (attackers, []) => format!(
            "{name} is attacked by {}, and no piece guards it.",
            named(attackers)
        ),
        (_, guards) => format!("{name} is guarded by {}.", named(guards)),
    }
}

fn named(pieces: &[(Square, Piece)]) -> String {
    list(
        pieces
            .iter()
            .map(|(square, piece)| format!("{} on {square}", piece_named(*piece))),
    )
}
