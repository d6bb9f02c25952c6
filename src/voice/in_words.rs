//! What is told of games and text files in words alone, where the eye gets columns and marked lines.

use std::borrow::Cow;

use crate::game::Place;
use crate::pgn::{Fault, Field, Heading};

use super::asides::{named_in, reason};
use super::clean::clean_name;
use super::naming::move_of;
use super::time::date;

/// Names a game in a list in words: its number, the players, how it ended, the date, the event.
#[must_use]
pub fn listed(number: usize, heading: &Heading<'_>) -> String {
    let tag = |field| named_in(heading, field);
    let players = match (tag(Field::White), tag(Field::Black)) {
        (Some(white), Some(black)) => format!("{white} against {black}"),
        (Some(white), None) => format!("{white} had White"),
        (None, Some(black)) => format!("{black} had Black"),
        (None, None) => "Nobody is named".to_owned(),
    };
    let end = match tag(Field::Result).as_deref() {
        Some("1-0") => Some("White won".to_owned()),
        Some("0-1") => Some("Black won".to_owned()),
        Some("1/2-1/2") => Some("Drawn".to_owned()),
        Some("*") | None => None,
        Some(other) => Some(other.to_owned()),
    };
    let when = tag(Field::Date).and_then(|text| date(&text));
    let event = tag(Field::Event).map(Cow::into_owned);
    let facts = [Some(players), end, when, event];
    let facts = facts.into_iter().flatten();
    let said = facts.map(|fact| format!("{}.", fact.trim_end_matches('.')));
    let said: Vec<String> = std::iter::once(format!("{number}.")).chain(said).collect();
    said.join(" ")
}

/// Says in words what is wrong with a game, its place first.
#[must_use]
pub fn fault(file: &str, fault: &Fault) -> String {
    let mut said = format!("{}, game {}", place_in(file, fault.place), fault.game);
    if let Some(number) = fault.number {
        said.push_str(", ");
        said.push_str(&move_of(number));
    }
    if !fault.token.is_empty() {
        said.push_str(&quoted(&fault.token));
    }
    format!("{said}: {}", reason(fault))
}

/// Says in words what is wrong at a place of a text file. A token that the reason names is not named
/// twice.
#[must_use]
pub fn at_place(file: &str, place: Place, token: &str, reason: &str) -> String {
    let token = clean_name(token.trim_matches('"'));
    let named = if token.is_empty() || reason.contains(&token) {
        String::new()
    } else {
        quoted(&token)
    };
    let reason = reason.trim_end_matches('.');
    format!("{}{named}: {reason}.", place_in(file, place))
}

/// Says in words what there is to say of a line of a file.
#[must_use]
pub fn at_line(file: &str, line: usize, said: &str) -> String {
    format!("Line {line} of {file}: {said}")
}

fn place_in(file: &str, place: Place) -> String {
    let Place { line, column } = place;
    format!("Line {line}, column {column} of {file}")
}

fn quoted(token: &str) -> String {
    format!(", \"{token}\"")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pgn::{Collection, check};

    #[test]
    fn a_listed_game_is_told_in_words_as_far_as_it_is_known() {
        let table = [
            (
                "[White \"Berg, A.\"]\n[Black \"Stein\"]\n[Result \"1/2-1/2\"]\n[Date \"2025.03.??\"]\n\
                 [Event \"Club #3\"]\n",
                "7. Berg, A. against Stein. Drawn. March 2025. Club #3.",
            ),
            (
                "[White \"Berg\"]\n[Result \"1-0\"]\n",
                "7. Berg had White. White won.",
            ),
            ("[Black \"Stein\"]\n[Result \"*\"]\n", "7. Stein had Black."),
            ("[White \"?\"]\n", "7. Nobody is named."),
        ];
        for (tags, said) in table {
            assert_eq!(listed(7, &Heading::of(tags.as_bytes())), said);
        }
    }

    #[test]
    fn a_fault_is_told_in_words_with_its_line_column_and_token() {
        let text = "[White \"A\"]\n\n1. e4 e5 2. Qx9 Nc6 *\n";
        let passage = Collection::new(text.as_bytes()).next().unwrap().unwrap();
        assert_eq!(
            fault("a.pgn", &check(&passage).faults[0]),
            "Line 3, column 13 of a.pgn, game 1, White's move 2, \"Qx9\": this is no move: write it as in \
             Nf3, exd5, O-O or e8=Q."
        );
        let place = Place::new(2, 9);
        assert_eq!(
            at_place("l.toml", place, "\"dril\"", "\"dril\" is no exercise"),
            "Line 2, column 9 of l.toml: \"dril\" is no exercise."
        );
        assert_eq!(
            at_place("l.toml", place, "0", "write a whole number from 1 on"),
            "Line 2, column 9 of l.toml, \"0\": write a whole number from 1 on."
        );
    }
}
