//! What is wrong with a placement, in words.

use shakmaty::{Piece, Square};

use crate::question::{Journey, RebuildWhy};
use crate::voice::naming::{count, list, man};

use super::journey::{steps, there_is};

/// How many men of each list are explained; the lists themselves are whole.
const EXPLAINED: usize = 3;

/// Lists the men that are missing, too many or wrong, and tells the ways of a few.
pub(super) fn rebuild(why: &RebuildWhy) -> Vec<String> {
    if gave_up(why) {
        return Vec::new();
    }
    let mut said = vec![format!(
        "{} placed right.",
        count(why.right, "man is", "men are")
    )];
    said.extend(missing(&why.missing));
    said.extend(extra(why));
    said.extend(wrong_man(why));
    said
}

/// Nothing was placed at all: the board that is shown says everything.
fn gave_up(why: &RebuildWhy) -> bool {
    why.right == 0 && why.extra.is_empty() && why.wrong_man.is_empty()
}

fn missing(men: &[Journey]) -> Vec<String> {
    if men.is_empty() {
        return Vec::new();
    }
    let names = men
        .iter()
        .map(|journey| named(journey.piece_now(), journey.last_square()));
    let mut said = vec![format!("Missing: {}.", list(names))];
    // A man that never moved has no way to tell.
    let moved = men.iter().filter(|journey| !journey.legs.is_empty());
    said.extend(moved.take(EXPLAINED).map(steps));
    said
}

fn extra(why: &RebuildWhy) -> Vec<String> {
    if why.extra.is_empty() {
        return Vec::new();
    }
    let names = why.extra.iter().map(|(at, piece, _)| named(*piece, *at));
    let mut said = vec![format!("Too many: {}.", list(names))];
    let told = why.extra.iter().take(EXPLAINED);
    said.extend(told.map(|(at, _, found)| there_is(*at, found)));
    said
}

fn wrong_man(why: &RebuildWhy) -> Vec<String> {
    let lines = why.wrong_man.iter().enumerate();
    lines
        .flat_map(|(index, (at, said, journey))| {
            let there = format!(
                "On {at} stands {}, not {}.",
                man(journey.piece_now()),
                man(*said)
            );
            let moved = index < EXPLAINED && !journey.legs.is_empty();
            std::iter::once(there).chain(moved.then(|| steps(journey)))
        })
        .collect()
}

fn named(piece: Piece, square: Square) -> String {
    format!("{} on {square}", man(piece))
}
