//! A board drawn as SVG, in black on white and by shapes alone, so that any printer and any eye can
//! tell it: dark squares are hatched, White's pieces stand in a ring and Black's on a disk.

use std::fmt::Write;

use maud::{Markup, html};
use shakmaty::{Board, Color, Piece, Square};

use super::{Picture, Scene};
use crate::board::Seen;

/// The length of a square's side, in units of the drawing.
const SIDE: u32 = 10;
/// The margin that holds the names of files and ranks, and the move of the edge.
const MARGIN: u32 = 7;
const EDGE: u32 = 1;

/// Draws a board; `id` is its own on the page.
pub(super) fn svg(picture: &Picture, id: &str) -> Markup {
    let (title, told) = (format!("{id}-title"), format!("{id}-told"));
    let margin = match picture.scene {
        Scene::Pieces(_) => MARGIN,
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
                    Scene::Pieces(board) => {
                        (names(picture.view))
                        @for (square, piece) in board_in_order(board) {
                            (drawn_piece(piece, Seen::of(square, picture.view)))
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

/// Five moves across each dark square, which end where the next square begins. A board turned round
/// has its dark squares in the same places.
fn hatching() -> String {
    let dark = Square::ALL.into_iter().filter(|square| square.is_dark());
    dark.fold(String::new(), |mut path, square| {
        let (x, y) = middle(Seen::of(square, Color::White));
        let (left, top) = (x - SIDE / 2, y - SIDE / 2);
        for legal_move in (1..SIDE).step_by(2) {
            let _ = write!(path, "M{left} {}h{SIDE}", top + legal_move);
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

fn drawn_piece(piece: Piece, seen: Seen) -> Markup {
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

#[cfg(test)]
mod tests {
    use super::*;

    fn drawn(scene: Scene, view: Color) -> String {
        let picture = Picture {
            scene,
            view,
            title: "A <board>".to_owned(),
            told: vec!["White: king e1.".to_owned(), "Black: king e8.".to_owned()],
            drawn: Vec::new(),
        };
        svg(&picture, "b").into_string()
    }

    #[test]
    fn every_piece_is_drawn_where_its_side_of_the_board_sees_it() {
        let kings = Board::from_ascii_board_fen(b"4k3/8/8/8/8/8/8/4K3").unwrap();
        let white = drawn(Scene::Pieces(kings.clone()), Color::White);
        assert!(
            white.contains(r#"<g class="white"><circle cx="45" cy="75""#),
            "{white}"
        );
        assert!(
            white.contains(r#"<g class="black"><circle cx="45" cy="5""#),
            "{white}"
        );
        let black = drawn(Scene::Pieces(kings), Color::Black);
        assert!(
            black.contains(r#"<g class="white"><circle cx="35" cy="5""#),
            "{black}"
        );
        let usual = drawn(Scene::Pieces(Board::new()), Color::White);
        assert_eq!(usual.matches("<circle").count(), 32);
        assert_eq!(usual.matches(r#"class="name""#).count(), 16);
    }

    /// FIDE 2.1: the near corner on each player's right is light, and so the one on the left dark.
    #[test]
    fn the_near_left_corner_is_hatched_and_the_near_right_one_is_not() {
        let path = hatching();
        assert_eq!(path.matches('M').count(), 32 * 5);
        assert!(path.contains("M0 71h10") && path.contains("M70 1h10"));
        assert!(!path.contains("M70 71h10") && !path.contains("M0 1h10"));
    }

    #[test]
    fn a_marked_square_has_no_names_around_it() {
        let board = drawn(Scene::Marked(Square::A1), Color::Black);
        assert!(
            board.contains(r#"<path class="mark" d="M75 1l4 4"#),
            "{board}"
        );
        assert!(!board.contains(r#"class="name""#));
    }

    #[test]
    fn a_drawing_is_told_in_words_too() {
        let board = drawn(Scene::Marked(Square::A1), Color::White);
        assert!(board.contains(r#"aria-labelledby="b-title" aria-describedby="b-told""#));
        assert!(
            board.contains(r#"<title id="b-title">A &lt;board&gt;.</title>"#),
            "{board}"
        );
        assert!(board.contains(r#"<desc id="b-told">White: king e1. Black: king e8.</desc>"#));
    }
}
