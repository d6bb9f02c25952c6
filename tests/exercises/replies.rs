//! Replies over the bare board, in the words of a learner.

use sansvoir::question::{BareQuestion, Truth};
use shakmaty::Square;

/// A reply that is right, in the words of a learner.
pub(crate) fn right(question: &BareQuestion) -> String {
    match (question, question.truth()) {
        (BareQuestion::Route(question), _) => {
            let route = question.travel.route();
            let words: Vec<String> = route.iter().map(Square::to_string).collect();
            if words.is_empty() {
                "never".into()
            } else {
                words.join(" ")
            }
        }
        (_, Truth::Square(square)) => square.to_string(),
        (_, Truth::Place(seen)) => format!("{} {}", seen.from_left(), seen.from_bottom()),
        (_, Truth::Color(color)) => serde_json::to_value(color)
            .unwrap()
            .as_str()
            .unwrap()
            .to_owned(),
        (_, Truth::Line(line)) => line.to_string(),
        (_, Truth::Distance { moves }) => {
            moves.map_or("never".to_owned(), |moves| moves.to_string())
        }
        (_, Truth::Squares { squares, .. }) => {
            let words: Vec<String> = squares
                .into_iter()
                .map(|square| square.to_string())
                .collect();
            if words.is_empty() {
                "none".into()
            } else {
                words.join(",")
            }
        }
        (question, truth) => panic!("{question:?} {truth:?}"),
    }
}
