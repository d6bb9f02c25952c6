//! The bare board in words: questions, truths and whys.
//!
//! A square's name keeps its small letter at the head of a sentence ("g6 is light."), as the FIDE
//! Laws' appendix writes it.

mod between;
mod crossing;
mod lines;
mod marked;
mod ordinal;
mod span;
mod travel;
mod view;

use shakmaty::Role;

use crate::board::PieceAt;
use crate::question::{BareQuestion, BareWhy, each_bare};

use super::naming::{role, side};
use super::words::BareWords;

pub use marked::marked_board;

/// Asks a question.
pub(super) fn question(question: &BareQuestion) -> String {
    each_bare!(BareQuestion, question, asked => asked.ask())
}

/// Says the right answer.
pub(super) fn truth(question: &BareQuestion) -> String {
    each_bare!(BareQuestion, question, asked => asked.tell())
}

/// Explains the right answer.
pub(super) fn why(why: &BareWhy) -> Vec<String> {
    each_bare!(BareWhy, why, <K> why => K::explain(why))
}

/// Names a question in a list.
#[must_use]
pub fn item(question: &BareQuestion) -> String {
    each_bare!(BareQuestion, question, asked => asked.item())
}

/// Names a piece that stands alone: "knight"; a pawn with its side, for only a pawn has a direction.
fn kind(piece: PieceAt) -> String {
    let piece = piece.piece();
    match piece.role {
        Role::Pawn => format!("{} pawn", side(piece.color).to_lowercase()),
        Role::Knight | Role::Bishop | Role::Rook | Role::Queen | Role::King => {
            role(piece.role).to_owned()
        }
    }
}

/// Names it with its square: "knight on b3".
fn placed(piece: PieceAt) -> String {
    format!("{} on {}", kind(piece), piece.square())
}

#[cfg(test)]
mod tests;
