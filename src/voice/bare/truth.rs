//! Right answers over the bare board, each a sentence that names its subject.

use shakmaty::Bitboard;

use crate::board::{Alignment, Pair, SquareColor, Travel};
use crate::question::bare::{Aligned, Color, Place};
use crate::question::{BareQuestion, Truth};

use super::super::naming::{count, list, side};
use super::{kind, placed, travel};

/// Says the right answer.
pub(in super::super) fn truth(question: &BareQuestion, truth: &Truth) -> String {
    told(question, truth).unwrap_or_else(|| unreachable!("{truth:?} does not answer {question:?}"))
}

/// `None` where the truth is of another form than the question's.
fn told(question: &BareQuestion, truth: &Truth) -> Option<String> {
    match question {
        BareQuestion::Name(_) => {
            let Truth::Square { square } = truth else {
                return None;
            };
            Some(format!("The marked square is {square}."))
        }
        BareQuestion::Place(Place { square, view }) => {
            let Truth::Place(seen) = truth else {
                return None;
            };
            Some(format!(
                "From {}'s side {square} lies on file {} from the left and row {} from the bottom.",
                side(*view),
                seen.from_left(),
                seen.from_bottom()
            ))
        }
        BareQuestion::Color(Color { square }) => {
            let Truth::Color { color } = truth else {
                return None;
            };
            Some(format!("{square} is {}.", shade(*color)))
        }
        BareQuestion::Aligned(Aligned { squares }) => {
            let Truth::Line { line } = truth else {
                return None;
            };
            Some(aligned(*squares, *line))
        }
        BareQuestion::Between(question) => Some(between(question.squares(), set(truth)?)),
        BareQuestion::Crossing(question) => {
            let [one, other] = question.men().map(placed);
            let set = set(truth)?;
            Some(if set.is_empty() {
                format!("A {one} and a {other} attack no square together.")
            } else {
                format!("A {one} and a {other} both attack {}.", list(set))
            })
        }
        BareQuestion::Span(question) => Some(format!(
            "A {} attacks {}.",
            placed(question.man),
            list(set(truth)?)
        )),
        BareQuestion::Distance(question) => {
            let Truth::Distance { moves } = truth else {
                return None;
            };
            Some(distance(question.travel, *moves))
        }
        BareQuestion::Route(question) => {
            let Truth::Distance { moves } = truth else {
                return None;
            };
            let shortest = travel::shortest(question.travel);
            Some(
                std::iter::once(distance(question.travel, *moves))
                    .chain(shortest)
                    .collect::<Vec<_>>()
                    .join(" "),
            )
        }
    }
}

const fn set(truth: &Truth) -> Option<Bitboard> {
    let Truth::Squares { squares, .. } = truth else {
        return None;
    };
    Some(*squares)
}

/// Names the color of a square.
pub(super) const fn shade(color: SquareColor) -> &'static str {
    match color {
        SquareColor::Light => "light",
        SquareColor::Dark => "dark",
    }
}

fn aligned(squares: Pair, line: Alignment) -> String {
    let [one, other] = squares.squares();
    match line {
        Alignment::File | Alignment::Rank | Alignment::Diagonal => {
            format!("{one} and {other} share a {}.", line.name())
        }
        Alignment::None => format!("{one} and {other} share no file, rank or diagonal."),
    }
}

/// Names the squares in order from the first of the two.
fn between(squares: Pair, set: Bitboard) -> String {
    let [one, other] = squares.squares();
    let named = list(squares.between().filter(|square| set.contains(*square)));
    match set.count() {
        0 => format!("No square lies between {one} and {other}."),
        1 => format!("{named} lies between {one} and {other}."),
        _ => format!("{named} lie between {one} and {other}."),
    }
}

fn distance(travel: Travel, moves: Option<u32>) -> String {
    let man = kind(travel.man());
    let (from, to) = (travel.man().square(), travel.to());
    let blockers = travel.blockers();
    let subject = match blockers.count() {
        0 => format!("A {man}"),
        1 => format!("With a man on {}, a {man}", list(blockers)),
        _ => format!("With men on {}, a {man}", list(blockers)),
    };
    match moves {
        Some(moves) => format!(
            "{subject} takes {} from {from} to {to}.",
            count(moves as usize, "move", "moves")
        ),
        None => format!("{subject} never gets from {from} to {to}."),
    }
}
