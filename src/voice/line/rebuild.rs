//! What is wrong with a placement, in words.

use shakmaty::{Color, Piece, Square};

use crate::exercise::Stand;
use crate::question::{Journey, Rebuild, RebuildWhy, Truth};
use crate::voice::naming::{count, list, piece_named};
use crate::voice::words::LineWords;

use super::journey::{steps, there_is};

/// How many pieces of each list are named; the board itself is shown beside.
const LISTED: usize = 8;
/// How many pieces of each list are explained.
const EXPLAINED: usize = 3;

impl LineWords for Rebuild {
    fn ask(self, _: &Stand) -> String {
        "Where does every piece stand? Name White's pieces, then Black's.".to_owned()
    }

    fn tell(self, truth: &Truth) -> String {
        let pieces = |color| match truth {
            Truth::Placement(placement) => placement.by_color(color).count(),
            _ => 0,
        };
        let pieces = |color| count(pieces(color), "piece", "pieces");
        format!(
            "White has {}, Black has {}.",
            pieces(Color::White),
            pieces(Color::Black)
        )
    }

    /// Lists the pieces that are missing, too many or wrong, and tells the ways of a few.
    fn explain(why: &RebuildWhy) -> Vec<String> {
        if gave_up(why) {
            return Vec::new();
        }
        let mut said = vec![format!(
            "{} placed right.",
            count(why.right, "piece is", "pieces are")
        )];
        said.extend(missing(&why.missing));
        said.extend(extra(why));
        said.extend(wrong_piece(why));
        said
    }
}

/// Nothing was placed at all: the board that is shown says everything.
fn gave_up(why: &RebuildWhy) -> bool {
    why.right == 0 && why.extra.is_empty() && why.wrong_piece.is_empty()
}

fn missing(pieces: &[Journey]) -> Vec<String> {
    let names = pieces
        .iter()
        .map(|journey| named(journey.piece_now(), journey.last_square()));
    let mut said = listed("Missing", names);
    // A piece that never moved has no way to tell.
    let moved = pieces.iter().filter(|journey| !journey.legs.is_empty());
    said.extend(moved.take(EXPLAINED).map(steps));
    said
}

fn extra(why: &RebuildWhy) -> Vec<String> {
    let names = why.extra.iter().map(|(at, piece, _)| named(*piece, *at));
    let mut said = listed("Too many", names);
    let told = why.extra.iter().take(EXPLAINED);
    said.extend(told.map(|(at, _, found)| there_is(*at, found)));
    said
}

fn wrong_piece(why: &RebuildWhy) -> Vec<String> {
    let mut said = listed(
        "The wrong piece",
        why.wrong_piece
            .iter()
            .map(|(at, piece, _)| named(*piece, *at)),
    );
    for (at, _, journey) in why.wrong_piece.iter().take(EXPLAINED) {
        said.push(format!(
            "On {at} stands {}.",
            piece_named(journey.piece_now())
        ));
        said.extend((!journey.legs.is_empty()).then(|| steps(journey)));
    }
    said
}

/// Lists some of the names under a heading, and counts the rest.
fn listed(heading: &str, names: impl ExactSizeIterator<Item = String>) -> Vec<String> {
    let rest = names.len().saturating_sub(LISTED);
    let mut names: Vec<String> = names.take(LISTED).collect();
    if names.is_empty() {
        return Vec::new();
    }
    if rest > 0 {
        names.push(format!("{rest} more"));
    }
    vec![format!("{heading}: {}.", list(names))]
}

fn named(piece: Piece, square: Square) -> String {
    format!("{} on {square}", piece_named(piece))
}
