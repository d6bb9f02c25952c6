//! A board drawn as SVG, in black on white and by shapes alone, so that any printer and any eye can
//! tell it: dark squares are hatched, White's men stand in a ring and Black's on a disk.

use std::fmt::Write;

use maud::{Markup, html};
use shakmaty::{Board, Color, Piece, Square};

use super::{Picture, Scene};
use crate::board::Seen;

/// The length of a square's side, in units of the drawing.
const SIDE: u32 = 10;
/// The margin that holds the names of files and ranks, and the stroke of the edge.
const MARGIN: u32 = 7;
const EDGE: u32 = 1;

/// Draws a board; `id` is its own on the page.
pub(super) fn svg(picture: &Picture, id: &str) -> Markup {
    let (title, told) = (format!("{id}-title"), format!("{id}-told"));
    let margin = match picture.scene {
        Scene::Men(_) => MARGIN,
        Scene::Marked(_) => EDGE,
    };
    let (width, height) = (margin + 8 * SIDE + EDGE, 8 * SIDE + margin + EDGE);
    let board = html! {
        path class="hatch" d=(hatching()) {}
        rect class="edge" width=(8 * SIDE) height=(8 * SIDE) {}
    };
    html! {
        svg class="board" viewBox=(format!("0 0 {width} {height}")) role="img"
            aria-labelledby=(title) aria-describedby=(told) {
            title id=(title) { (picture.title) "." }
            desc id=(told) { (picture.told.join(" ")) }
            g transform=(format!("translate({margin} {EDGE})")) {
                (board)
                @match &picture.scene {
                    Scene::Men(board) => {
                        (names(picture.view))
                        @for (square, piece) in board_in_order(board) {
                            (man(piece, Seen::of(square, picture.view)))
                        }
                    }
                    Scene::Marked(square) => (mark(Seen::of(*square, picture.view))),
                }
            }
        }
    }
}

fn board_in_order(board: &Board) -> impl Iterator<Item = (Square, Piece)> + '_ {
    Square::ALL
        .into_iter()
        .filter_map(|square| Some((square, board.piece_at(square)?)))
}

/// The middle of a square in the drawing.
fn middle(seen: Seen) -> (u32, u32) {
    let x = (seen.from_left() - 1) * SIDE + SIDE / 2;
    let y = (8 - seen.from_bottom()) * SIDE + SIDE / 2;
    (x, y)
}

/// Five strokes across each dark square, which end where the next square begins. A board turned round
/// has its dark squares in the same places.
fn hatching() -> String {
    let dark = Square::ALL.into_iter().filter(|square| square.is_dark());
    dark.fold(String::new(), |mut path, square| {
        let (x, y) = middle(Seen::of(square, Color::White));
        let (left, top) = (x - SIDE / 2, y - SIDE / 2);
        for stroke in (1..SIDE).step_by(2) {
            let _ = write!(path, "M{left} {}h{SIDE}", top + stroke);
        }
        path
    })
}

/// The names of files below the board and of ranks left of it.
fn names(view: Color) -> Markup {
    html! {
        @for n in 1..=8 {
            @if let Some(square) = Seen::at(n, n).map(|seen| seen.square(view)) {
                text class="name" x=((n - 1) * SIDE + SIDE / 2) y=(8 * SIDE + 6) { (square.file().char()) }
                text class="name" x="-4" y=((8 - n) * SIDE + SIDE / 2 + 2) { (square.rank().char()) }
            }
        }
    }
}

fn man(piece: Piece, seen: Seen) -> Markup {
    let (x, y) = middle(seen);
    let class = match piece.color {
        Color::White => "white",
        Color::Black => "black",
    };
    html! {
        g class=(class) {
            circle cx=(x) cy=(y) r="4.2" {}
            text x=(x) y=(format!("{}.1", y + 2)) { (piece.role.upper_char()) }
        }
    }
}

fn mark(seen: Seen) -> Markup {
    let (x, y) = middle(seen);
    html! {
        path class="mark" d=(format!("M{x} {}l4 4l-4 4l-4-4z", y - 4)) {}
    }
}
