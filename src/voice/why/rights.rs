//! When the rights to castle were lost, in words.

use shakmaty::{CastlingSide, Color};

use crate::question::{RightsWhy, Since};
use crate::voice::naming::{move_of, side, wing};

use super::blame::loss;

pub(super) fn rights(why: &RightsWhy) -> Vec<String> {
    why.wings
        .iter()
        .map(|(wing, since)| told(why.color, *wing, since))
        .collect()
}

fn told(color: Color, on: CastlingSide, since: &Since) -> String {
    let right = format!("{}'s right to castle {}", side(color), wing(on));
    match since {
        Since::RightLost(ply) => format!(
            "{right} was lost with {}, when {}.",
            move_of(ply.number),
            loss(color, ply)
        ),
        Since::NeverHadRight => format!("{right} was not there at the start of the line."),
        Since::NoMatter | Since::DoubleStep(_) => {
            format!("{right} is still there: neither the king nor that rook has moved.")
        }
    }
}
