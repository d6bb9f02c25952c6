//! Who looks at a square, in words.

use shakmaty::{Piece, Square};

use crate::question::{AttackersWhy, Looker, Sight};
use crate::voice::naming::{list, man};

use super::journey::of;
use super::way::not_attacked;

/// What is looked at.
#[derive(Clone, Copy)]
pub(super) enum Target {
    /// Any square.
    Square,
    /// The king of the side to move.
    King,
}

impl Target {
    fn name(self, square: Square) -> String {
        match self {
            Target::Square => square.to_string(),
            Target::King => format!("the king on {square}"),
        }
    }
}

pub(super) fn attackers(why: &AttackersWhy, target: Target) -> Vec<String> {
    why.missed
        .iter()
        .chain(&why.extra)
        .map(|(from, looker)| look(*from, looker, why.square, target))
        .collect()
}

fn look(from: Square, looker: &Looker, square: Square, target: Target) -> String {
    match looker {
        Looker::Nobody => format!("No man stands on {from}."),
        Looker::OtherSide(piece) => match target {
            Target::Square => {
                format!("{} stands on {from}, a man of the other side.", man(*piece))
            }
            Target::King => {
                format!("{} stands on {from}, on the king's own side.", man(*piece))
            }
        },
        Looker::Man(piece, sight) => sees(*piece, from, sight, square, target),
    }
}

fn sees(piece: Piece, from: Square, sight: &Sight, square: Square, target: Target) -> String {
    let name = format!("{} on {from}", man(piece));
    let aim = target.name(square);
    match sight {
        Sight::Open { over } if over.is_empty() => match target {
            Target::Square => format!("{name} reaches {aim}."),
            Target::King => format!("{name} attacks {aim}."),
        },
        Sight::Open { over } => format!("{name} looks through {} at {aim}.", list(over)),
        Sight::Blocked { by, on } => format!(
            "{name} does not reach {aim}: {} on {on} stands in the way.",
            of(by.color, piece.color, by.role)
        ),
        Sight::NotItsWay => {
            let reason = not_attacked(piece, from, square);
            format!("{name} does not reach {aim}: {reason}.")
        }
    }
}
