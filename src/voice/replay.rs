//! What is said around a game that is read: who plays, where it starts, how it went.

use shakmaty::Position;

use crate::exercise::{GameOpening, Summary};
use crate::game::{MoveNumber, Tags};

use super::boards::{List, pieces_listed};
use super::clean::clean_name;
use super::naming::{count, move_of, plies, side};
use super::time::date;

/// Says who plays, where the reading starts, how long it is and what Enter does.
pub(super) fn opening(list: List, opening: &GameOpening) -> Vec<String> {
    let resumed = opening
        .resumed
        .then(|| "The session goes on where it stopped.".to_owned());
    let mut said = Vec::from_iter(resumed);
    said.extend(facts(list, opening));
    said.push(
        "The board stays hidden. Enter reads on; help says what else can be said.".to_owned(),
    );
    said
}

/// Says who plays, where the reading starts and how long it is.
pub(super) fn facts(list: List, opening: &GameOpening) -> Vec<String> {
    let checkpoints = match opening.checkpoints {
        0 => "without a checkpoint".to_owned(),
        some => format!("with {}", count(some, "checkpoint", "checkpoints")),
    };
    let mut said = game(list, opening);
    said.push(format!(
        "{} will be read, {checkpoints}.",
        plies(opening.plies)
    ));
    said
}

/// Says who plays and where the line starts.
pub(super) fn game(list: List, opening: &GameOpening) -> Vec<String> {
    let mut said = tags(&opening.tags);
    let position = opening.start.position();
    if opening.start.mode().is_chess960() {
        said.push("The rules are those of Chess960.".to_owned());
    }
    if !opening.start.is_usual() {
        said.push("The pieces stand like this at the start.".to_owned());
        said.extend(pieces_listed(position.board(), list));
        said.push(format!("{} to move.", side(position.turn())));
    }
    let first = opening.first.filter(|first| first.half_moves() != 2);
    said.extend(first.map(|first| format!("The reading begins with {}.", move_of(first))));
    said
}

fn tags(tags: &Tags) -> Vec<String> {
    let when = known(tags, "Date").and_then(|text| date(&text));
    let told = [
        ("White", known(tags, "White")),
        ("Black", known(tags, "Black")),
        ("Event", known(tags, "Event")),
        ("Date", when),
    ];
    let told = told.into_iter().filter_map(|(name, value)| {
        let value = value?;
        // A name that ends with a full stop needs no second one.
        let stop = if value.ends_with('.') { "" } else { "." };
        Some(format!("{name}: {value}{stop}"))
    });
    told.collect()
}

/// Returns a tag, cleaned, where it says something.
pub(super) fn known(tags: &Tags, name: &str) -> Option<String> {
    let value = tags.known(name).map(clean_name);
    value.filter(|value| !value.is_empty())
}

/// Says how long the picture held in a game.
pub(super) fn picture(summary: &Summary, miss: Option<MoveNumber>, longest: usize) -> Vec<String> {
    if summary.kinds.is_empty() {
        return Vec::new();
    }
    let first = miss.map_or_else(
        || "The picture held at every checkpoint.".to_owned(),
        |miss| {
            let after = move_of(miss);
            format!("The picture first failed at the checkpoint after {after}.")
        },
    );
    let heard = plies(summary.heard);
    let run = format!("Longest run without a miss or a look: {longest} of {heard} heard.");
    vec![first, run]
}
