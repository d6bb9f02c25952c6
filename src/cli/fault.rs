//! A fault as its owner sees it: our sentence, then the line of the file with the token marked.

use std::path::Path;

use annotate_snippets::{AnnotationKind, Group, Level, Renderer, Snippet};

use super::failure::shown;
use crate::notation::{Fault, Passage};
use crate::voice::in_words;

/// How many characters of the line are shown before and after the token.
const AROUND: usize = 60;
/// How many bytes hold more characters than that.
const WINDOW: usize = 8 * AROUND;
/// A character that stands for one that must not reach a terminal.
const UNSEEN: char = '\u{fffd}';

/// Writes `file:line:column: reason`; where all is plain, the same in words.
pub(super) fn sentence(file: &Path, fault: &Fault, plain: bool) -> String {
    if plain {
        in_words::fault(&shown(file), fault)
    } else {
        format!("{}:{fault}", shown(file))
    }
}

/// Draws the line of the file with the token marked.
pub(super) fn excerpt(passage: &Passage, fault: &Fault) -> String {
    let text = &passage.text;
    let is_break = |byte: &u8| matches!(byte, b'\n' | b'\r');
    // What is missing at the end of a game is shown behind its last line that is not blank.
    let written = text.trim_ascii_end().len();
    let start = fault.span.start.min(written);
    let begin = text[..start]
        .iter()
        .rposition(is_break)
        .map_or(0, |at| at + 1);
    let rest = &text[start..];
    let line_end = rest
        .iter()
        .position(is_break)
        .map_or(text.len(), |at| start + at);
    let token_end = fault.span.end.min(line_end).max(start);
    // Far more than is shown need not be decoded.
    let first = begin.max(start.saturating_sub(WINDOW));
    let before = tail(&visible(passage, first, start));
    let token = head(&visible(passage, start, token_end));
    let after = head(&visible(passage, token_end, line_end));
    drawn(fault.place.line, &before, &token, &after)
}

/// Draws one line of a text with a part of it marked; the mark ends with the line.
pub(super) fn marked(line: usize, before: &str, token: &str, after: &str) -> String {
    let clean = |text: &str| text.chars().map(shown_char).collect::<String>();
    drawn(
        line,
        &tail(&clean(before)),
        &head(&clean(token)),
        &head(&clean(after)),
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

/// The beginning of a part of the text, or all of it, without anything that could steer a terminal.
fn visible(passage: &Passage, from: usize, to: usize) -> String {
    let begins_character = |at: &usize| !matches!(passage.text.get(*at), Some(0x80..=0xbf));
    // A character of UTF-8 has at most three bytes that continue it.
    let near = |at: usize| (at..at + 4).find(begins_character).unwrap_or(at);
    let end = to.min(near(from + WINDOW));
    let start = near(from).min(end);
    passage
        .decoded(start..end)
        .chars()
        .map(shown_char)
        .collect()
}

fn shown_char(c: char) -> char {
    match c {
        '\t' => ' ',
        c if crate::voice::clean(c.encode_utf8(&mut [0; 4])).is_empty() => UNSEEN,
        c => c,
    }
}

fn head(text: &str) -> String {
    if text.chars().count() <= AROUND {
        return text.to_owned();
    }
    text.chars().take(AROUND).chain(['…']).collect()
}

fn tail(text: &str) -> String {
    let count = text.chars().count();
    if count <= AROUND {
        return text.to_owned();
    }
    std::iter::once('…')
        .chain(text.chars().skip(count - AROUND))
        .collect()
}
