//! The bare board in words: questions, truths and whys.
//!
//! A square's name keeps its small letter at the head of a sentence ("g6 is light."), as the FIDE
//! Laws' appendix writes it.

mod between;
mod crossing;
mod lines;
mod marked;
mod ordinal;
mod question;
mod span;
mod travel;
mod truth;
mod view;

use shakmaty::Role;

use crate::board::BareMan;
use crate::question::BareWhy;

use super::naming::{role, side};

pub use marked::marked_board;
pub(super) use question::question;
pub(super) use truth::truth;

/// Explains the right answer as a coach would, one fact a line, what matters most first.
pub(super) fn why(why: &BareWhy) -> Vec<String> {
    match why {
        BareWhy::Name(why) => view::name(*why),
        BareWhy::Place(why) => view::place(*why),
        BareWhy::Color(why) => lines::color(why),
        BareWhy::Aligned(why) => lines::aligned(why),
        BareWhy::Between(why) => between::between(why),
        BareWhy::Crossing(why) => crossing::crossing(why),
        BareWhy::Span(why) => span::span(why),
        BareWhy::Distance(why) => travel::distance(why),
        BareWhy::Route(why) => travel::route(why),
    }
}

/// Names a man that stands alone: "knight"; a pawn with its side, for only a pawn has a direction.
fn kind(man: BareMan) -> String {
    let piece = man.piece();
    match piece.role {
        Role::Pawn => format!("{} pawn", side(piece.color).to_lowercase()),
        Role::Knight | Role::Bishop | Role::Rook | Role::Queen | Role::King => {
            role(piece.role).to_owned()
        }
    }
}

/// Names it with its square: "knight on b3".
fn placed(man: BareMan) -> String {
    format!("{} on {}", kind(man), man.square())
}

#[cfg(test)]
mod tests;
