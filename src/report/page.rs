//! What all pages have in common: they need nothing else, no script, no font, no other file, and say so.

use maud::{DOCTYPE, Markup, PreEscaped, html};

/// A style sheet, and what a browser knows it by.
#[derive(Clone, Copy)]
pub(super) struct Style {
    /// The style sheet, as it stands on the page.
    pub(super) text: &'static str,
    /// Its SHA-256 in base 64.
    pub(super) hash: &'static str,
}

/// Writes a page. Its policy (W3C, Content Security Policy Level 3) lets it use its own style and nothing
/// else, so that no text of a file could do anything even if it were taken for more than text.
pub(super) fn page(title: &str, style: Style, main: &Markup) -> String {
    let policy = format!(
        "default-src 'none'; style-src 'sha256-{}'; base-uri 'none'; form-action 'none'",
        style.hash
    );
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta http-equiv="Content-Security-Policy" content=(policy);
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (title) }
                style { (PreEscaped(style.text)) }
            }
            body { main { (main) } }
        }
    };
    page.into_string() + "\n"
}
