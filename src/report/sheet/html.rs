//! A sheet as a page of HTML.

use maud::{Markup, html};

use super::super::page::{Style, page};
use super::drawing::svg;
use super::{Block, Sheet};
use crate::voice::paper;

/// Which side of a sheet is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The questions alone.
    Questions,
    /// The key alone.
    Key,
    /// The questions, and the key on a new page.
    Both,
}

impl Side {
    pub(super) const fn asks(self) -> bool {
        matches!(self, Side::Questions | Side::Both)
    }

    pub(super) const fn answers(self) -> bool {
        matches!(self, Side::Key | Side::Both)
    }
}

const STYLE: Style = Style {
    text: include_str!("style.css"),
    hash: "N0J7LLaGRMsNB+ZV7TVhRx7vk8UPbYtb+6RH3yiPeUs=",
};

/// Writes a sheet as HTML.
#[must_use]
pub fn html(sheet: &Sheet, side: Side) -> String {
    let title = if side == Side::Key {
        format!("{}: {}", paper::KEY, sheet.title)
    } else {
        sheet.title.clone()
    };
    let main = html! {
        @if side.asks() { (questions(sheet)) }
        @if side.answers() { (key(sheet, side)) }
    };
    page(&title, STYLE, &main)
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

fn key(sheet: &Sheet, side: Side) -> Markup {
    html! {
        section class="page" {
            @if side == Side::Key {
                h1 { (paper::KEY) ": " (sheet.title) }
            } @else {
                h1 { (paper::KEY) }
            }
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
            figure { (svg(picture, id)) figcaption { (picture.title) "." } }
        },
        Block::Question {
            number,
            text,
            board,
            lines,
        } => html! {
            div class="question" {
                p { b { (number) "." } " " (text) }
                @if let Some(board) = board { (svg(board, id)) }
                @for _ in 0..*lines { div class="line" {} }
            }
        },
        Block::Answer { number, truth, why } => html! {
            div class="answer" {
                p { b { (number) "." } " " (truth) }
                @for reason in why { p class="why" { (reason) } }
            }
        },
    }
}
