//! Questions over the bare board, each a whole sentence that gives nothing away.

use shakmaty::Role;

use crate::board::Travel;
use crate::question::BareQuestion;
use crate::question::bare::{Aligned, Color, Name, Place};

use super::super::naming::{list, side};
use super::placed;

/// Says a question over the bare board.
pub(in super::super) fn question(question: &BareQuestion) -> String {
    match question {
        BareQuestion::Name(Name { view, .. }) => format!(
            "The board is seen from {}'s side: what is the marked square called?",
            side(*view)
        ),
        BareQuestion::Place(Place { square, view }) => format!(
            "{square}, seen from {}'s side: how many files from the left, and how many rows from the \
             bottom?",
            side(*view)
        ),
        BareQuestion::Color(Color { square }) => format!("Is {square} light or dark?"),
        BareQuestion::Aligned(Aligned { squares }) => {
            let [one, other] = squares.squares();
            format!("Which line do {one} and {other} share: file, rank, diagonal or none?")
        }
        BareQuestion::Between(question) => {
            let [one, other] = question.squares().squares();
            format!("Which squares lie between {one} and {other}?")
        }
        BareQuestion::Crossing(question) => {
            let [one, other] = question.men().map(placed);
            format!("A {one} and a {other} stand alone on the board: which squares do both attack?")
        }
        BareQuestion::Span(question) => format!(
            "Which squares does a {} attack on the empty board?",
            placed(question.man)
        ),
        BareQuestion::Distance(question) => format!(
            "{}: in how few moves does it reach {}, if ever?",
            traveler(question.travel),
            question.travel.to()
        ),
        BareQuestion::Route(question) => format!(
            "{}: name the squares of one shortest route to {}, or say never.",
            traveler(question.travel),
            question.travel.to()
        ),
    }
}

/// Names the man and what is in its way.
fn traveler(travel: Travel) -> String {
    let man = placed(travel.man());
    let blockers = travel.blockers();
    // A knight jumps over men, so only their squares are closed to it.
    let closed = if travel.man().piece().role == Role::Knight {
        "may not take"
    } else {
        "may neither take nor pass"
    };
    match blockers.count() {
        0 => format!("A {man}, the board empty"),
        1 => format!("A {man}, with a man on {} that it {closed}", list(blockers)),
        _ => format!("A {man}, with men on {} that it {closed}", list(blockers)),
    }
}
