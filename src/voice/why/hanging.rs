//! Who attacks and who guards, in words.

use shakmaty::{Piece, Square};

use crate::question::{HangingWhy, Watched};
use crate::voice::naming::{list, man, side};

pub(super) fn hanging(why: &HangingWhy) -> Vec<String> {
    why.watched
        .iter()
        .map(|watched| told(why, watched))
        .collect()
}

fn told(why: &HangingWhy, watched: &Watched) -> String {
    let square = watched.square;
    let Some(piece) = watched.piece else {
        return format!("No man stands on {square}.");
    };
    let name = format!("{} on {square}", man(piece));
    if piece.color != why.color {
        return format!("{name} is not one of {}'s pieces.", side(why.color));
    }
    if watched.is_king() {
        return format!("{name} is left out, as every king is.");
    }
    match (watched.attackers.as_slice(), watched.guards.as_slice()) {
        ([], _) => format!("{name} is attacked by no man of {}.", side(!why.color)),
        (attackers, []) => format!(
            "{name} is attacked by {}, and no man guards it.",
            named(attackers)
        ),
        (_, guards) => format!("{name} is guarded by {}.", named(guards)),
    }
}

fn named(men: &[(Square, Piece)]) -> String {
    list(
        men.iter()
            .map(|(square, piece)| format!("{} on {square}", man(*piece))),
    )
}
