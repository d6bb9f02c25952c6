//! The bare board in words: questions, truths and whys.

mod marked;

use crate::board::{Alignment, SquareColor};
use crate::question::bare::{Aligned, Color, Name, Place};
use crate::question::{BareQuestion, BareWhy, Truth};

use super::naming::{count, role, side, squares};

pub(super) use marked::marked_board;

/// Says a question over the bare board.
pub(super) fn question(question: &BareQuestion) -> String {
    match question {
        BareQuestion::Name(Name { view, .. }) => {
            format!(
                "What is the marked square called? You sit on {}'s side.",
                side(*view)
            )
        }
        BareQuestion::Place(Place { square, view }) => format!(
            "Where does {square} lie for {}: which file from the left, which row from the bottom?",
            side(*view)
        ),
        BareQuestion::Color(Color { square }) => format!("Is {square} light or dark?"),
        BareQuestion::Aligned(Aligned { squares }) => {
            let [one, other] = squares.squares();
            format!("Do {one} and {other} share a file, a rank or a diagonal?")
        }
        BareQuestion::Between(question) => {
            let [one, other] = question.squares().squares();
            format!("Which squares lie between {one} and {other}?")
        }
        BareQuestion::Crossing(question) => {
            let [one, other] = question
                .men()
                .map(|man| format!("a {} on {}", role(man.piece().role), man.square()));
            format!("Which squares do {one} and {other} both attack?")
        }
        BareQuestion::Span(question) => format!(
            "Which squares does a {} on {} attack on the empty board?",
            role(question.man.piece().role),
            question.man.square()
        ),
        BareQuestion::Distance(question) => format!("In how few moves? {question:?}"),
        BareQuestion::Route(question) => format!("By which way? {question:?}"),
    }
}

/// Says the right answer.
pub(super) fn truth(question: &BareQuestion, truth: &Truth) -> String {
    let _ = question;
    match truth {
        Truth::Square { square } => format!("The square is {square}."),
        Truth::Place(seen) => format!(
            "The square lies on file {} from the left and row {} from the bottom.",
            seen.from_left(),
            seen.from_bottom()
        ),
        Truth::Color { color } => match color {
            SquareColor::Light => "The square is light.".to_owned(),
            SquareColor::Dark => "The square is dark.".to_owned(),
        },
        Truth::Line { line } => match line {
            Alignment::File | Alignment::Rank | Alignment::Diagonal => {
                format!("The squares share a {}.", line.name())
            }
            Alignment::None => "The squares share no file, rank or diagonal.".to_owned(),
        },
        Truth::Distance { moves: Some(moves) } => {
            format!("It takes {}.", count(*moves as usize, "move", "moves"))
        }
        Truth::Distance { moves: None } => "The man never gets there.".to_owned(),
        Truth::Squares { squares: set, .. } => format!("{}.", squares(*set)),
        Truth::Gone { .. }
        | Truth::Piece { .. }
        | Truth::Legal { .. }
        | Truth::Illegal { .. }
        | Truth::Placement { .. } => {
            unreachable!("the truths over a line answer no question over the bare board")
        }
    }
}

/// Explains.
pub(super) fn why(_: &BareWhy) -> Vec<String> {
    Vec::new()
}
