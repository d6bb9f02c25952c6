//! A fault as its owner sees it: our sentence, then the line of the file with the token marked.

use std::path::Path;

use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};

use super::failure::shown;
use crate::pgn::{Fault, Marks, Passage, is_unseen};
use crate::voice::commands::WRITTEN_HERE;
use crate::voice::in_words;

/// How many characters of the line are shown before and after the token.
const AROUND: usize = 60;
/// How many bytes hold more characters than that.
const WINDOW: usize = 8 * AROUND;
/// A character that stands for one that must not reach a terminal.
const UNSEEN: char = '\u{fffd}';

/// Writes `file:line:column: reason`; where all is plain, the same in words.
pub(super) fn sentence(file: &Path, fault: &Fault, plain: bool) -> String {
    if plain || file == Path::new(WRITTEN_HERE) {
        in_words::fault(&shown(file), fault)
    } else {
        format!("{}:{fault}", shown(file))
    }
}

/// Draws the line of the file with the token marked.
pub(super) fn excerpt(passage: &Passage, fault: &Fault) -> String {
    let [before, token, after] = parts(passage, fault);
    drawn(fault.place.line, &before, &token, &after)
}

/// The last characters before the token on its line, its first characters, and the first ones after it.
fn parts(passage: &Passage, fault: &Fault) -> [String; 3] {
    let text = &passage.text;
    let is_break = |byte: &u8| matches!(byte, b'\n' | b'\r');
    // What is missing at the end of a game is shown behind its last line that is not blank.
    let written = text.trim_ascii_end().len();
    let start = fault.span.start.min(written);
    let begin = text[..start].iter().rposition(is_break);
    let begin = begin.map_or(0, |at| at + 1);
    let line_end = text[start..].iter().position(is_break);
    let line_end = line_end.map_or(text.len(), |at| start + at);
    let token_end = fault.span.end.min(line_end).max(start);
    // Far more than is shown need not be decoded.
    let near = if start - begin > WINDOW {
        next_character(text, start - WINDOW)
    } else {
        begin
    };
    [
        tail(&shown_text(&passage.decoded(near..start))),
        beginning(passage, start, token_end),
        beginning(passage, token_end, line_end),
    ]
}

/// Draws one line of a text with a part of it marked; the mark ends with the line.
pub(super) fn marked(line: usize, before: &str, token: &str, after: &str) -> String {
    drawn(
        line,
        &tail(&shown_text(before)),
        &head(&shown_text(token)),
        &head(&shown_text(after)),
    )
}

fn drawn(number: usize, before: &str, token: &str, after: &str) -> String {
    let line = format!("{before}{token}{after}");
    let snippet = Snippet::source(line.as_str())
        .line_start(number)
        .fold(false)
        .annotation(AnnotationKind::Primary.span(before.len()..before.len() + token.len()));
    let report = [Group::with_level(Level::ERROR).element(snippet)];
    Renderer::plain().render(&report).trim_end().to_owned()
}

/// The beginning of a part of the text.
fn beginning(passage: &Passage, from: usize, to: usize) -> String {
    let end = to.min(next_character(&passage.text, from + WINDOW));
    head(&shown_text(&passage.decoded(from..end)))
}

/// Finds where a character of UTF-8 begins; at most three bytes of another one stand before it.
fn next_character(text: &[u8], at: usize) -> usize {
    let begins = |at: &usize| !matches!(text.get(*at), Some(0x80..=0xbf));
    (at..at + 4).find(begins).unwrap_or(at)
}

/// A text without anything that could steer a terminal or cover other lines.
fn shown_text(text: &str) -> String {
    let mut marks = Marks::default();
    let shown = |c| match c {
        '\t' => ' ',
        c if is_unseen(c) => UNSEEN,
        c => c,
    };
    text.chars().filter(|c| marks.fit(*c)).map(shown).collect()
}

fn head(text: &str) -> String {
    if text.chars().count() <= AROUND {
        return text.to_owned();
    }
    text.chars().take(AROUND).chain(['…']).collect()
}

fn tail(text: &str) -> String {
    match text.char_indices().nth_back(AROUND - 1) {
        Some((begin, _)) if begin > 0 => format!("…{}", &text[begin..]),
        _ => text.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::game::Place;
    use crate::pgn::{Cost, Reason};

    /// A text in which every place can be told from those near it, of characters of so many bytes.
    fn some(bytes: usize, count: usize) -> String {
        let first = ['a', 'ā', 'ก', '\u{10000}'][bytes - 1];
        let char = |n| char::from_u32(u32::from(first) + n % 25).unwrap();
        let count = u32::try_from(count).unwrap();
        (0..count).map(|n| char(n * n % 23)).collect()
    }

    fn parts_of(before: &[u8], token: &[u8], after: &[u8]) -> [String; 3] {
        let text = [b"[A \"b\"]\n", before, token, after, b"\nmore"].concat();
        let start = 8 + before.len();
        let fault = Fault {
            game: 1,
            place: Place::new(2, 1),
            span: start..start + token.len(),
            ply: 0,
            number: None,
            token: String::new(),
            reason: Reason::Sign,
            cost: Cost::Nothing,
        };
        let passage = Passage::alone(text);
        let parts = parts(&passage, &fault);
        assert!(excerpt(&passage, &fault).contains('^'));
        parts
    }

    fn first(text: &str) -> String {
        let more = if text.chars().count() > AROUND {
            "…"
        } else {
            ""
        };
        text.chars().take(AROUND).collect::<String>() + more
    }

    fn last(text: &str) -> String {
        let turned = |text: &str| text.chars().rev().collect::<String>();
        turned(&first(&turned(text)))
    }

    #[test]
    fn the_last_characters_before_a_token_and_the_first_after_it_are_shown_at_any_length() {
        let lengths = [
            0, 1, 2, 59, 60, 61, 119, 120, 121, 159, 160, 161, 239, 240, 241, 479, 480, 481, 482,
            483, 700, 959, 960, 961, 2_000,
        ];
        for bytes in 1..=4 {
            for before in lengths {
                for (token, after) in lengths.into_iter().flat_map(|n| [(4, n), (n, 7), (n, n)]) {
                    let before = some(bytes, before);
                    // A token that begins otherwise, and a text behind it that ends otherwise.
                    let token = format!("Q{}", some(5 - bytes, token));
                    let after = format!(" {}", some(bytes, after));
                    let parts = parts_of(before.as_bytes(), token.as_bytes(), after.as_bytes());
                    assert_eq!(parts, [last(&before), first(&token), first(&after)]);
                }
            }
        }
    }

    /// In Windows-1252, the character set of older files, these bytes are characters of their own.
    #[test]
    fn bytes_that_are_no_utf_8_are_shown_as_characters_of_their_own() {
        for count in [1, 59, 60, 61, 480, 481, 482, 960, 1_000] {
            let bytes = vec![0x96; count];
            let shown = "–".repeat(count);
            let parts = parts_of(&bytes, &bytes, &bytes);
            assert_eq!(parts, [last(&shown), first(&shown), first(&shown)]);
        }
    }

    #[test]
    fn what_steers_or_piles_up_is_not_shown() {
        let tower = format!("e{}", "\u{301}".repeat(60));
        let [before, token, after] = parts_of(
            tower.as_bytes(),
            "\u{1b}[2J".as_bytes(),
            "\t\u{3164}".as_bytes(),
        );
        assert_eq!(before.chars().count(), 5);
        assert_eq!(
            (token.as_str(), after.as_str()),
            ("\u{fffd}[2J", " \u{fffd}")
        );
    }
}
