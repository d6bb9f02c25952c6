//! A board without coordinates, one square marked, seen from one side.

use shakmaty::{Color, Square};

use crate::board::{Seen, SquareColor};
use crate::exercise::{Ask, Asked};
use crate::question::BareQuestion;
use crate::question::bare::Name;

use super::super::naming::side;
use super::ordinal::{file, row};

/// Shows the board of a question that marks a square, drawn or, where all is `plain`, in words;
/// nothing for all others.
#[must_use]
pub fn marked_board(ask: &Ask, plain: bool) -> Vec<String> {
    let Asked::Bare(BareQuestion::Name(Name { square, view })) = ask.asked else {
        return Vec::new();
    };
    if plain {
        vec![told(square, view)]
    } else {
        drawn(square, view)
    }
}

fn told(square: Square, view: Color) -> String {
    let seen = Seen::of(square, view);
    format!(
        "The marked square lies on {} and {}, seen from {}'s side.",
        file(seen),
        row(seen),
        side(view)
    )
}

/// Draws the board: a dark square has colons around it, the marked one a star in brackets. The edge
/// is drawn too, as no coordinates tell where the board ends. Ten rows of 26 columns.
fn drawn(square: Square, view: Color) -> Vec<String> {
    let edge = format!("+{}+", "-".repeat(8 * 3));
    let mut rows = vec![edge.clone()];
    rows.extend((1..=8).rev().map(|from_bottom| {
        let cells: String = (1..=8)
            .filter_map(|from_left| Seen::at(from_left, from_bottom))
            .map(|seen| cell(seen.square(view), square))
            .collect();
        format!("|{cells}|")
    }));
    rows.push(edge);
    rows
}

fn cell(at: Square, marked: Square) -> &'static str {
    match SquareColor::of(at) {
        _ if at == marked => "[*]",
        SquareColor::Dark => ": :",
        SquareColor::Light => "   ",
    }
}
