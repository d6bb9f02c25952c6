//! What all pages have in common: they need nothing else, no script, no font, no other file, and say so.

use maud::{DOCTYPE, Markup, PreEscaped, html};
use shakmaty::Color;

use crate::board::Seen;
use crate::voice::page::MADE_BY;

/// Writes a page with a style sheet, by whose SHA-256 in base 64 a browser knows it. The page's policy (W3C, Content Security Policy Level 3) lets it use its own style and nothing
/// else, so that no text of a file could do anything even if it were taken for more than text. A page that can be made anew at
/// any time may take the place of one that the program wrote before.
pub(super) fn page(title: &str, (style, hash): (&str, &str), again: bool, main: &Markup) -> String {
    let policy = format!(
        "default-src 'none'; style-src 'sha256-{hash}'; base-uri 'none'; form-action 'none'"
    );
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content=(policy);
                @if again { meta name="generator" content=(MADE_BY); }
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (title) }
                style { (PreEscaped(style)) }
            }
            body { main { (main) } }
        }
    };
    page.into_string() + "\n"
}

/// A drawing of this width and height, with a title and a description for those who do not see it; `id` is
/// its own on the page.
pub(super) fn drawing(
    id: &str,
    (title, description): (&str, &str),
    (width, height): (u32, u32),
    body: &Markup,
) -> Markup {
    let (title_id, told_id) = (format!("{id}-title"), format!("{id}-told"));
    html! {
        svg viewBox=(format!("0 0 {width} {height}")) role="img"
            aria-labelledby=(title_id) aria-describedby=(told_id) {
            title id=(title_id) { (title) }
            desc id=(told_id) { (description) }
            (body)
        }
    }
}

/// The names at the edge of a board seen from a side: the file so far from the left, and the rank so far
/// from below, counted from 1.
pub(super) fn edge_names(view: Color) -> impl Iterator<Item = (u32, char, char)> {
    (1..=8).filter_map(move |n| {
        let square = Seen::at(n, n)?.square(view);
        Some((n, square.file().char(), square.rank().char()))
    })
}
