//! What is wrong with a placement, in words.

use shakmaty::Color;

use crate::exercise::Stand;
use crate::question::{Rebuild, RebuildWhy, Truth};
use crate::voice::naming::{count, list, piece_named, piece_on};
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
        let [white, black] = [Color::White, Color::Black].map(|color| {
            let pieces = match truth {
                Truth::Placement(placement) => placement.by_color(color).count(),
                _ => 0,
            };
            count(pieces, "piece", "pieces")
        });
        format!("White has {white}, Black has {black}.")
    }

    /// Lists the pieces that are missing, too many or wrong, and tells the ways of a few.
    fn explain(why: &RebuildWhy) -> Vec<String> {
        // Nothing was placed at all: the board that is shown says everything.
        if why.right == 0 && why.extra.is_empty() && why.wrong_piece.is_empty() {
            return Vec::new();
        }
        let right = count(why.right, "piece is", "pieces are");
        let mut said = vec![format!("{right} placed right.")];
        said.extend(missing(why));
        said.extend(extra(why));
        said.extend(wrong_piece(why));
        said
    }
}

fn missing(why: &RebuildWhy) -> Vec<String> {
    let names = why.missing.iter();
    let names = names.map(|journey| piece_on(journey.piece_now(), journey.last_square()));
    let mut said = Vec::from_iter(listed("Missing", names));
    // A piece that never moved has no way to tell.
    let moved = why
        .missing
        .iter()
        .filter(|journey| !journey.legs.is_empty());
    said.extend(moved.take(EXPLAINED).map(steps));
    said
}

fn extra(why: &RebuildWhy) -> Vec<String> {
    let names = why.extra.iter().map(|(at, piece, _)| piece_on(*piece, *at));
    let mut said = Vec::from_iter(listed("Too many", names));
    let told = why.extra.iter().take(EXPLAINED);
    said.extend(told.map(|(at, _, found)| there_is(*at, found)));
    said
}

fn wrong_piece(why: &RebuildWhy) -> Vec<String> {
    let names = why.wrong_piece.iter();
    let names = names.map(|(at, piece, _)| piece_on(*piece, *at));
    let mut said = Vec::from_iter(listed("The wrong piece", names));
    for (at, _, journey) in why.wrong_piece.iter().take(EXPLAINED) {
        let piece = piece_named(journey.piece_now());
        said.push(format!("On {at} stands {piece}."));
        said.extend((!journey.legs.is_empty()).then(|| steps(journey)));
    }
    said
}

/// Lists some of the names under a heading, and counts the rest.
fn listed(heading: &str, names: impl ExactSizeIterator<Item = String>) -> Option<String> {
    let rest = names.len().saturating_sub(LISTED);
    let more = (rest > 0).then(|| format!("{rest} more"));
    let names = list(names.take(LISTED).chain(more));
    (!names.is_empty()).then(|| format!("{heading}: {names}."))
}
