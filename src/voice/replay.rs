//! What is said around a game that is read: who plays, where it starts, how it went.

use shakmaty::Position;

use crate::exercise::{GameOpening, Replay, ReplaySummary, Summary, Turn};
use crate::game::Tags;

use super::boards::{List, beside_the_pieces, pieces_listed};
use super::clean::{clean_line, clean_name};
use super::ending;
use super::exercise::{ExerciseWords, goes_on};
use super::naming::{count, move_of, plies, side, with_end_mark};
use super::style::Voice;
use super::time::date;

impl ExerciseWords for Replay {
    fn title(opening: &GameOpening) -> String {
        titled("Replay", &opening.tags)
    }

    fn say_opening(voice: Voice, opening: &GameOpening) -> Vec<String> {
        let mut said = Vec::from_iter(goes_on("The session", opening.resumed));
        said.extend(facts(voice.list, opening));
        said.push(
            "The board stays hidden. Enter reads on; help says what else can be said.".to_owned(),
        );
        said
    }

    fn say_on_paper(voice: Voice, opening: &GameOpening) -> Vec<String> {
        let how = "Listen to each stretch of moves; then answer from memory, without a board.";
        let mut said = facts(voice.list, opening);
        said.push(how.to_owned());
        said
    }

    fn say_told(voice: Voice, told: &Turn) -> Vec<String> {
        vec![match told {
            Turn::SidelineBegins {
                instead_of,
                plies: number,
            } => {
                let (plies, instead_of) = (plies(*number), voice.announce.named(instead_of));
                format!("A sideline of {plies} instead of {instead_of}:")
            }
            Turn::SidelineEnds(back_after) => {
                let last = voice.announce.named(back_after);
                format!("The sideline ends. The game goes on after {last}.")
            }
            Turn::Comment(comment) => format!("Comment: {}", with_end_mark(clean_line(comment))),
        }]
    }

    fn say_summary(voice: Voice, own: &ReplaySummary, all: &Summary) -> Vec<String> {
        let picture = (!all.kinds.is_empty()).then(|| picture(own, all.heard));
        let mut said = ending::counts(voice, all, picture.into_iter().flatten());
        said.extend(ending::board(voice, "The board at the end", all));
        said
    }
}

/// Heads what is done with a game.
pub(super) fn titled(what: &str, tags: &Tags) -> String {
    match (known(tags, "White"), known(tags, "Black")) {
        (Some(white), Some(black)) => format!("{what}: {white} against {black}"),
        (Some(one), None) | (None, Some(one)) => format!("{what}: a game of {one}"),
        (None, None) => what.to_owned(),
    }
}

/// Says how long the picture held in a game of which so many plies were heard.
fn picture(own: &ReplaySummary, heard: usize) -> impl Iterator<Item = String> {
    let first = own.first_miss.map_or_else(
        || "The picture held at every checkpoint.".to_owned(),
        |miss| {
            let after = move_of(miss);
            format!(
                "The first miss or look came at the checkpoint after {after} or on the way there."
            )
        },
    );
    let (longest, heard) = (own.longest_run, plies(heard));
    let run = format!("Longest run that right answers show: {longest} of {heard} heard.");
    [first].into_iter().chain((longest > 0).then_some(run))
}

/// Says who plays, where the reading starts and how long it is.
fn facts(list: List, opening: &GameOpening) -> Vec<String> {
    let checkpoints = match opening.checkpoints {
        None => "with checkpoints that come closer where something is missed".to_owned(),
        Some(0) => "without a checkpoint".to_owned(),
        Some(some) => format!("with {}", count(some, "checkpoint", "checkpoints")),
    };
    let mut said = game(list, opening);
    let read = format!("{} will be read, {checkpoints}.", plies(opening.plies));
    said.extend((opening.plies > 0).then_some(read));
    said
}

/// Says who plays and where the line starts.
pub(super) fn game(list: List, opening: &GameOpening) -> Vec<String> {
    let mut said = tags(&opening.tags);
    let position = opening.start.position();
    if !opening.start.is_usual() {
        said.push("The pieces stand like this at the start.".to_owned());
        said.extend(pieces_listed(position.board(), list));
        said.extend(beside_the_pieces(&opening.start));
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
fn known(tags: &Tags, name: &str) -> Option<String> {
    let value = tags.known(name).map(clean_name);
    value.filter(|value| !value.is_empty())
}
