//! A sheet as a page of HTML. Its boards are drawn in black on white and by shapes alone, so that any printer
//! and any eye can tell them: dark squares are hatched, White's pieces stand in a ring and Black's on a
//! disk.

use std::fmt::Write;

use maud::{Markup, html};
use shakmaty::{Color, Piece, Square};

use super::super::page::{drawing, edge_names, page};
use super::layout::{Block, BoardContent, Picture, Sheet, Side};
use crate::board::Seen;
use crate::voice::paper;

/// The style sheet and its SHA-256.
const STYLE: (&str, &str) = (
    include_str!("style.css"),
    "cX75YyXhrpNpCofxL/t2Ikj7+1d4qWL/Fu6SdIYsNqI=",
);

/// Writes a sheet as HTML, in large print where that is wished for.
pub(crate) fn html(sheet: &Sheet, side: Side, large: bool) -> String {
    let title = match side {
        Side::Key => sheet.key_title(),
        Side::Questions | Side::Both => sheet.title.clone(),
    };
    let main = html! {
        div class=[large.then_some("large")] {
            @if side != Side::Key { (questions(sheet)) }
            @if side != Side::Questions { (reading(sheet)) (key(sheet, side)) }
        }
    };
    page(&title, STYLE, false, &main)
}

fn questions(sheet: &Sheet) -> Markup {
    html! {
        section class="page" {
            h1 { (sheet.title) }
            div class="fill" {
                p class="fill-name" { (paper::NAME) ": " span class="line" {} }
                p class="fill-date" { (paper::DATE) ": " span class="line" {} }
            }
            (pieces(&sheet.questions))
            (blocks(&sheet.questions, "board"))
            aside {
                h2 { (paper::FORMS) }
                @for form in &sheet.forms { p { (form) } }
                @if sheet.marks_squares() { p { (paper::MARK) } }
            }
            (again(sheet))
        }
    }
}

/// What whoever reads aloud has before the eyes.
fn reading(sheet: &Sheet) -> Markup {
    html! {
        @if !sheet.reading.is_empty() {
            section class="page" {
                h1 { (sheet.reading_title()) }
                p class="soft" { (paper::HOW_TO_READ) }
                (pieces(&sheet.reading))
                (blocks(&sheet.reading, "reading-board"))
            }
        }
    }
}

fn key(sheet: &Sheet, side: Side) -> Markup {
    html! {
        section class="page" {
            h1 { @if side == Side::Key { (sheet.key_title()) } @else { (paper::KEY) } }
            (pieces(&sheet.key))
            (blocks(&sheet.key, "key-board"))
            @if side == Side::Key { (again(sheet)) }
            aside {
                h2 { (paper::ENTER) }
                @for line in paper::how_to_enter() { p { (line) } }
            }
        }
    }
}

fn again(sheet: &Sheet) -> Markup {
    html! {
        aside {
            h2 { (paper::AGAIN) }
            p { (sheet.known_as) }
            p { code { (sheet.again) } }
        }
    }
}

/// Says how pieces are drawn, above a page that draws some.
fn pieces(blocks: &[Block]) -> Markup {
    let draws = |block: &Block| matches!(block, Block::Picture(_));
    html! {
        @if blocks.iter().any(draws) { p class="soft" { (paper::PIECES) } }
    }
}

/// Writes blocks, each with what follows up to the next heading as one section: a board stays with its
/// questions where a page ends.
fn blocks(blocks: &[Block], name: &str) -> Markup {
    let mut numbered = blocks.iter().enumerate().peekable();
    html! {
        @while let Some((n, first)) = numbered.next() {
            section {
                (block_of(first, &format!("{name}-{n}")))
                @while let Some((n, block)) = numbered.next_if(|(_, block)| !matches!(block, Block::Heading(_))) {
                    (block_of(block, &format!("{name}-{n}")))
                }
            }
        }
    }
}

fn block_of(block: &Block, id: &str) -> Markup {
    match block {
        Block::Heading(heading) => html! { h2 { (heading) } },
        Block::Told(lines) => html! {
            div class="told" { @for line in lines { p { (line) } } }
        },
        Block::Picture(picture) => html! {
            figure { (self::board(picture, id)) figcaption { (picture.title) } }
        },
        Block::Question {
            label,
            text,
            board,
            lines,
        } => html! {
            div class="question" {
                p { b { (label) } " " (text) }
                @if let Some(board) = board { (self::board(board, id)) }
                @for _ in 0..*lines { div class="line" {} }
            }
        },
        Block::Answer { label, truth, why } => html! {
            div class="answer" {
                p { b { (label) } " " (truth) }
                @for reason in why { p class="why" { (reason) } }
            }
        },
    }
}

/// The length of a square's side, in units of the drawing.
const SIDE: u32 = 10;
/// The margin that holds the names of files and ranks, and the width of the edge.
const MARGIN: u32 = 7;
const EDGE: u32 = 1;

/// Draws a board; `id` is its own on the page.
fn board(picture: &Picture, id: &str) -> Markup {
    let margin = match picture.content {
        BoardContent::Pieces(_) => MARGIN,
        BoardContent::Marked(_) => EDGE,
    };
    let size = (margin + 8 * SIDE + EDGE, 8 * SIDE + margin + EDGE);
    let body = html! {
        g transform=(format!("translate({margin} {EDGE})")) {
            path class="hatch" d=(hatching()) {}
            rect class="edge" width=(8 * SIDE) height=(8 * SIDE) {}
            @match &picture.content {
                BoardContent::Pieces(board) => {
                    @for (n, file, rank) in edge_names(picture.view) {
                        text class="name" x=((n - 1) * SIDE + SIDE / 2) y=(8 * SIDE + 6) { (file) }
                        text class="name" x="-4" y=((8 - n) * SIDE + SIDE / 2 + 2) { (rank) }
                    }
                    @for (square, piece) in board {
                        (drawn_piece(piece, Seen::of(square, picture.view)))
                    }
                }
                BoardContent::Marked(square) => {
                    @let (x, y) = middle(Seen::of(*square, picture.view));
                    path class="mark" d=(format!("M{x} {}l4 4l-4 4l-4-4z", y - 4)) {}
                }
            }
        }
    };
    drawing(id, (&picture.title, &picture.told.join(" ")), size, &body)
}

/// The middle of a square in the drawing.
fn middle(seen: Seen) -> (u32, u32) {
    let x = (seen.from_left() - 1) * SIDE + SIDE / 2;
    let y = (8 - seen.from_bottom()) * SIDE + SIDE / 2;
    (x, y)
}

/// Five lines across each dark square, which end where the next square begins. A board turned round
/// has its dark squares in the same places.
fn hatching() -> String {
    let dark = Square::ALL.into_iter().filter(|square| square.is_dark());
    dark.fold(String::new(), |mut path, square| {
        let (x, y) = middle(Seen::of(square, Color::White));
        let (left, top) = (x - SIDE / 2, y - SIDE / 2);
        for line in (1..SIDE).step_by(2) {
            let _ = write!(path, "M{left} {}h{SIDE}", top + line);
        }
        path
    })
}

fn drawn_piece(piece: Piece, seen: Seen) -> Markup {
    let (x, y) = middle(seen);
    html! {
        g class=(piece.color.fold_wb("white", "black")) {
            circle cx=(x) cy=(y) r="4.2" {}
            text x=(x) y=(format!("{}.1", y + 2)) { (piece.role.upper_char()) }
        }
    }
}

#[cfg(test)]
mod tests {
    use shakmaty::Board;

    use super::*;

    fn drawn(content: BoardContent, view: Color) -> String {
        let picture = Picture {
            content,
            view,
            title: "A <board>.".to_owned(),
            told: vec!["White: king e1.".to_owned(), "Black: king e8.".to_owned()],
            drawn: Vec::new(),
        };
        board(&picture, "b").into_string()
    }

    #[test]
    fn every_piece_is_drawn_where_its_side_of_the_board_sees_it() {
        let kings = Board::from_ascii_board_fen(b"4k3/8/8/8/8/8/8/4K3").unwrap();
        let white = drawn(BoardContent::Pieces(kings.clone()), Color::White);
        assert!(
            white.contains(r#"<g class="white"><circle cx="45" cy="75""#),
            "{white}"
        );
        assert!(
            white.contains(r#"<g class="black"><circle cx="45" cy="5""#),
            "{white}"
        );
        let black = drawn(BoardContent::Pieces(kings), Color::Black);
        assert!(
            black.contains(r#"<g class="white"><circle cx="35" cy="5""#),
            "{black}"
        );
        let usual = drawn(BoardContent::Pieces(Board::new()), Color::White);
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
        let board = drawn(BoardContent::Marked(Square::A1), Color::Black);
        assert!(
            board.contains(r#"<path class="mark" d="M75 1l4 4"#),
            "{board}"
        );
        assert!(!board.contains(r#"class="name""#));
    }

    #[test]
    fn a_drawing_is_told_in_words_too() {
        let board = drawn(BoardContent::Marked(Square::A1), Color::White);
        assert!(board.contains(r#"aria-labelledby="b-title" aria-describedby="b-told""#));
        assert!(
            board.contains(r#"<title id="b-title">A &lt;board&gt;.</title>"#),
            "{board}"
        );
        assert!(board.contains(r#"<desc id="b-told">White: king e1. Black: king e8.</desc>"#));
    }
}
