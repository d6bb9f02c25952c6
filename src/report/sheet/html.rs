//! A sheet as a page of HTML that needs nothing else: no script, no font, no other file.

use maud::{DOCTYPE, Markup, PreEscaped, html};

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

const STYLE: &str = include_str!("style.css");

/// Writes a sheet as HTML.
#[must_use]
pub fn html(sheet: &Sheet, side: Side) -> String {
    let title = if side == Side::Key {
        format!("{}: {}", paper::KEY, sheet.title)
    } else {
        sheet.title.clone()
    };
    html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                main {
                    @if side.asks() { (questions(sheet)) }
                    @if side.answers() { (key(sheet, side)) }
                }
            }
        }
    }
    .into_string()
        + "\n"
}

fn questions(sheet: &Sheet) -> Markup {
    html! {
        section class="page" {
            h1 { (sheet.title) }
            div class="fill" {
                p class="fill-name" { (paper::NAME) ": " span class="line" {} }
                p class="fill-date" { (paper::DATE) ": " span class="line" {} }
            }
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
            @if sheet.draws_men() { p class="soft" { (paper::MEN) } }
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

fn blocks(blocks: &[Block], name: &str) -> Markup {
    html! {
        @for (n, block) in blocks.iter().enumerate() { (block_of(block, &format!("{name}-{n}"))) }
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
