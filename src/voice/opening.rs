//! What is said before a game is read.

use shakmaty::Position;

use crate::exercise::{DrillOpening, GameOpening};
use crate::game::Tags;

use super::clean::clean_name;
use super::date::date;
use super::naming::{count, move_of, side};
use super::pieces::{List, pieces_listed};

/// Says who plays, where the reading starts, how long it is and what Enter does.
pub(super) fn opening(list: List, opening: &GameOpening) -> Vec<String> {
    let mut said = Vec::new();
    if opening.resumed {
        said.push("The session goes on where it stopped.".to_owned());
    }
    said.extend(facts(list, opening));
    said.push(
        "The board stays hidden. Enter reads on; help says what else can be said.".to_owned(),
    );
    said
}

/// Says who plays, where the reading starts and how long it is.
pub(super) fn facts(list: List, opening: &GameOpening) -> Vec<String> {
    let mut said = game(list, opening);
    said.push(format!(
        "{} will be read, with {}.",
        count(opening.plies, "ply", "plies"),
        count(opening.checkpoints, "checkpoint", "checkpoints")
    ));
    said
}

/// Says who plays and where the line starts.
pub(super) fn game(list: List, opening: &GameOpening) -> Vec<String> {
    let mut said = tags(&opening.tags);
    if opening.start.mode().is_chess960() {
        said.push("The rules are those of Chess960.".to_owned());
    }
    said.extend(start(list, opening));
    said
}

/// Says which kinds of question a drill puts, and how many.
pub(super) fn drill(drill: &DrillOpening) -> Vec<String> {
    let mut said = Vec::new();
    if drill.resumed {
        said.push("The drill goes on where it stopped.".to_owned());
    }
    said.push(questions(drill));
    said.push("What is missed or slow comes again; help says what else can be said.".to_owned());
    said
}

/// Says how many questions of which kinds a drill puts.
pub(super) fn questions(drill: &DrillOpening) -> String {
    let names: Vec<&str> = drill.kinds.iter().map(|kind| kind.name()).collect();
    format!(
        "{} on the empty board: {}.",
        count(drill.count, "question", "questions"),
        names.join(", ")
    )
}

fn tags(tags: &Tags) -> Vec<String> {
    let known = |name: &str| {
        tags.known(name)
            .map(clean_name)
            .filter(|value| !value.is_empty())
    };
    let when = known("Date").and_then(|text| date(&text));
    [
        ("White", known("White")),
        ("Black", known("Black")),
        ("Event", known("Event")),
        ("Date", when),
    ]
    .into_iter()
    .filter_map(|(name, value)| Some(line(name, &value?)))
    .collect()
}

/// A name that ends with a full stop needs no second one.
fn line(name: &str, value: &str) -> String {
    let stop = if value.ends_with('.') { "" } else { "." };
    format!("{name}: {value}{stop}")
}

fn start(list: List, opening: &GameOpening) -> Vec<String> {
    let mut said = Vec::new();
    if !opening.start.is_usual() {
        said.push("The pieces stand like this at the start.".to_owned());
        said.extend(pieces_listed(opening.start.position().board(), list));
        let turn = opening.start.position().turn();
        said.push(format!("{} to move.", side(turn)));
    }
    if let Some(first) = opening.first.filter(|first| first.half_moves() != 2) {
        said.push(format!("The reading begins with {}.", move_of(first)));
    }
    said
}

#[cfg(test)]
mod tests {
    use shakmaty::CastlingMode;

    use super::*;
    use crate::game::Start;

    fn usual(tags: Tags) -> GameOpening {
        GameOpening {
            tags,
            start: Start::standard(),
            first: Some("1.".parse().unwrap()),
            plies: 33,
            checkpoints: 1,
            resumed: false,
        }
    }

    #[test]
    fn who_plays_where_and_when_is_said_as_far_as_it_is_known() {
        let tags = [
            ("Event", "Harbor club\u{1b}[2J evening"),
            ("Site", "?"),
            ("Date", "2024.03.??"),
            ("White", "Berg, Anna"),
            ("Black", "Dahl, J."),
        ];
        assert_eq!(
            opening(List::Piece, &usual(tags.into_iter().collect())),
            [
                "White: Berg, Anna.",
                "Black: Dahl, J.",
                "Event: Harbor club[2J evening.",
                "Date: March 2024.",
                "33 plies will be read, with 1 checkpoint.",
                "The board stays hidden. Enter reads on; help says what else can be said.",
            ]
        );
    }

    #[test]
    fn what_is_unknown_is_left_unsaid() {
        let tags = [
            ("White", "?"),
            ("Black", "\u{200b}"),
            ("Date", "????.??.??"),
        ];
        assert_eq!(
            opening(List::Piece, &usual(tags.into_iter().collect())).len(),
            2
        );
    }

    #[test]
    fn another_start_is_told_piece_by_piece() {
        let start = Start::from_fen("8/8/1KP5/3r4/8/8/8/k7 w - - 0 12", CastlingMode::Standard);
        let told = opening(
            List::Piece,
            &GameOpening {
                start: start.unwrap(),
                first: Some("12.".parse().unwrap()),
                resumed: true,
                ..usual(Tags::default())
            },
        );
        assert_eq!(
            told[..6],
            [
                "The session goes on where it stopped.",
                "The pieces stand like this at the start.",
                "White: king b6, pawn c6.",
                "Black: king a1, rook d5.",
                "White to move.",
                "The reading begins with White's move 12.",
            ]
        );
    }
}
