//! What is told of games and text files in words alone, where the eye gets columns and marked lines.

use std::borrow::Cow;

use crate::game::Place;
use crate::pgn::{Fault, Field, Heading};

use super::clean::clean_name;
use super::commands::WRITTEN_HERE;
use super::listed::{ended, first_moves, named_in, reason};
use super::naming::move_of;
use super::time::date;

/// Names a game in a list in words: its number, the players, how it ended, the date, the event.
pub(crate) fn listed(number: usize, heading: &Heading<'_>) -> String {
    let tag = |field| named_in(heading, field);
    let players = match (tag(Field::White), tag(Field::Black)) {
        (Some(white), Some(black)) => format!("{white} against {black}"),
        (Some(white), None) => format!("{white} had White"),
        (None, Some(black)) => format!("{black} had Black"),
        (None, None) => match first_moves(heading) {
            Some(moves) => format!("Nobody is named; it begins {moves}"),
            None => "Nobody is named".to_owned(),
        },
    };
    let end = match ended(heading).as_deref() {
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
pub(crate) fn fault(file: &str, fault: &Fault) -> String {
    let mut said = match file {
        // It has lines and columns for nobody.
        WRITTEN_HERE => file.to_owned(),
        _ => format!("{}, game {}", place_in(file, fault.place), fault.game),
    };
    said.extend(fault.number.map(|number| format!(", {}", move_of(number))));
    said.extend((!fault.token.is_empty()).then(|| quoted(&fault.token)));
    format!("{said}: {}", reason(fault))
}

/// Says in words what is wrong at a place of a text file. A token that the reason names is not named
/// twice.
pub(crate) fn at_place(file: &str, place: Place, token: &str, reason: &str) -> String {
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
pub(crate) fn at_line(file: &str, line: usize, said: &str) -> String {
    format!("Line {line} of {file}: {said}")
}

fn place_in(file: &str, place: Place) -> String {
    let Place { line, column } = place;
    format!("Line {line}, column {column} of {file}")
}

fn quoted(token: &str) -> String {
    format!(", \"{token}\"")
}
