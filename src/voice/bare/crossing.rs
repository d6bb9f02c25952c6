//! Why two pieces both attack a square, and why they do not.

use shakmaty::Square;

use crate::board::PieceAt;
use crate::question::bare::{Crossing, CrossingWhy};
use crate::question::{BareKind, Sight};

use super::super::line::way::not_attacked;
use super::super::naming::{list, role};
use super::super::words::BareWords;
use super::placed;

/// How many squares of a sort are explained one by one; more would be a wall of text.
const EXPLAINED: usize = 3;

impl BareWords for Crossing {
    fn ask(self) -> String {
        let [one, other] = self.pieces().map(placed);
        format!("A {one} and a {other} stand alone on the board: which squares do both attack?")
    }

    fn tell(self) -> String {
        let [one, other] = self.pieces().map(placed);
        let set = self.truth().set();
        if set.is_empty() {
            return format!("A {one} and a {other} attack no square together.");
        }
        format!("A {one} and a {other} both attack {}.", list(set))
    }

    fn explain(why: &CrossingWhy) -> Vec<String> {
        let mut said: Vec<String> = why
            .missed
            .iter()
            .take(EXPLAINED)
            .map(|(square, sights)| both(why.pieces, *square, sights))
            .collect();
        match why.missed.len().saturating_sub(EXPLAINED) {
            0 => {}
            1 => said.push("The other one is found in the same way.".to_owned()),
            more => said.push(format!("The other {more} are found in the same way.")),
        }
        let extra = why.extra.iter().take(EXPLAINED);
        said.extend(extra.map(|(square, sights)| refused(why.pieces, *square, sights)));
        said.extend(match why.extra.len().saturating_sub(EXPLAINED) {
            0 => None,
            1 => Some("The other one that you named is not attacked by both either.".to_owned()),
            more => Some(format!(
                "The other {more} that you named are not attacked by both either."
            )),
        });
        if why.missed.is_empty() && why.extra.is_empty() {
            said.push("Their lines and jumps do not meet.".to_owned());
        }
        said
    }
}

/// Tells how each of the two attacks a square.
fn both(pieces: [PieceAt; 2], square: Square, sights: &[Sight; 2]) -> String {
    let [one, other] = pieces.map(placed);
    let [first, second] = [&sights[0], &sights[1]].map(over);
    format!("The {one} attacks {square}{first}, and the {other} attacks it{second}.")
}

fn over(sight: &Sight) -> String {
    match sight {
        Sight::Open { over } if !over.is_empty() => format!(" over {}", list(over)),
        Sight::Open { .. } | Sight::Blocked { .. } | Sight::NotItsWay => String::new(),
    }
}

/// Tells what keeps the first piece that does not attack a square from it.
fn refused(pieces: [PieceAt; 2], square: Square, sights: &[Sight; 2]) -> String {
    if let Some(piece) = pieces.into_iter().find(|piece| piece.square() == square) {
        let name = role(piece.piece().role);
        return format!(
            "Not {square}: the {name} stands there and does not attack its own square."
        );
    }
    let reason = pieces
        .into_iter()
        .zip(sights)
        .find_map(|(piece, sight)| reason(piece, square, sight));
    reason.map_or_else(
        || format!("Both attack {square}."),
        |reason| format!("Not {square}: {reason}."),
    )
}

/// `None` where the piece attacks the square.
fn reason(piece: PieceAt, square: Square, sight: &Sight) -> Option<String> {
    match sight {
        Sight::Open { .. } => None,
        Sight::Blocked { by, on } => Some(format!(
            "the {} on {on} stands in the way of the {}",
            role(by.role),
            placed(piece)
        )),
        Sight::NotItsWay => Some(not_attacked(piece.piece(), piece.square(), square)),
    }
}
