//! Who looks at a square, in words.

use shakmaty::{Piece, Square};

use crate::exercise::Stand;
use crate::question::{Attacker, Attackers, AttackersWhy, Check, Sight, Truth};
use crate::voice::naming::{list, piece_named, side, squares};
use crate::voice::words::LineWords;

use super::journey::of;
use super::way::not_attacked;

/// What is looked at.
#[derive(Clone, Copy)]
enum Target {
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

impl LineWords for Attackers {
    fn ask(self, _: &Stand) -> String {
        format!(
            "Which of {}'s pieces attack or guard {}? Name their squares.",
            side(self.color),
            self.square
        )
    }

    fn tell(self, truth: &Truth) -> String {
        let set = truth.set();
        if set.is_empty() {
            return format!(
                "None of {}'s pieces attacks or guards {}.",
                side(self.color),
                self.square
            );
        }
        format!(
            "{}'s pieces that attack or guard {} stand on {}.",
            side(self.color),
            self.square,
            squares(set)
        )
    }

    fn explain(why: &AttackersWhy) -> Vec<String> {
        told(why, Target::Square)
    }
}

impl LineWords for Check {
    fn ask(self, stand: &Stand) -> String {
        let turn = side(stand.turn);
        format!(
            "{turn} to move: is {turn} in check? Name the square of every piece that gives check, or none."
        )
    }

    fn tell(self, truth: &Truth) -> String {
        let set = truth.set();
        if set.is_empty() {
            return "There is no check.".to_owned();
        }
        format!("Check comes from {}.", squares(set))
    }

    fn explain(why: &AttackersWhy) -> Vec<String> {
        told(why, Target::King)
    }
}

fn told(why: &AttackersWhy, target: Target) -> Vec<String> {
    why.missed
        .iter()
        .chain(&why.extra)
        .map(|(from, looker)| look(*from, looker, why.square, target))
        .collect()
}

fn look(from: Square, looker: &Attacker, square: Square, target: Target) -> String {
    match looker {
        Attacker::Nobody => format!("No piece stands on {from}."),
        Attacker::OtherSide(piece) => match target {
            Target::Square => {
                format!(
                    "{} stands on {from}, a piece of the other side.",
                    piece_named(*piece)
                )
            }
            Target::King => {
                format!(
                    "{} stands on {from}, on the king's own side.",
                    piece_named(*piece)
                )
            }
        },
        Attacker::Piece(piece, sight) => sees(*piece, from, sight, square, target),
    }
}

fn sees(piece: Piece, from: Square, sight: &Sight, square: Square, target: Target) -> String {
    let name = format!("{} on {from}", piece_named(piece));
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
