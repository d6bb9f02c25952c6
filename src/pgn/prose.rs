//! What people write between and beside the moves: prose, and moves in descriptive notation.

use memchr::memchr2;
use shakmaty::Color;

use super::text::decoded;
use crate::rules::{LetterSet, wording};

/// The longest line that can be told for prose, in bytes.
const LONGEST: usize = 4096;

/// Returns the length of the line at the head of `text` where it is prose, else 0, or `None` where more text is needed
/// to tell. Prose begins with letters alone, and has more words of a language than moves.
pub(super) fn line(text: &[u8], complete: bool) -> Option<usize> {
    let ends = |byte: &u8| byte.is_ascii_digit() || byte.is_ascii_whitespace();
    let is_move = text
        .iter()
        .find(|byte| ends(byte))
        .is_some_and(u8::is_ascii_digit);
    if is_move || !(text[0].is_ascii_alphabetic() || text[0] >= 0x80) {
        return Some(0);
    }
    let near = &text[..text.len().min(LONGEST)];
    let end = match memchr2(b'\n', b'\r', near) {
        None if near.len() == LONGEST => return Some(0),
        None if !complete => return None,
        end => end.unwrap_or(near.len()),
    };
    let line = decoded(&near[..end]);
    let first = line.split_whitespace().next().unwrap_or_default();
    let mut letters = first
        .trim_matches(|c: char| c.is_ascii_punctuation())
        .chars();
    let is_move = |word: &&str| {
        word.bytes().any(|b| b.is_ascii_digit()) && wording(word, LetterSet::ENGLISH).is_some()
    };
    let words = line.split_whitespace().filter(|word| is_word(word));
    let is_prose = letters.all(char::is_alphabetic)
        && words.count() > line.split_whitespace().filter(is_move).count();
    Some(if is_prose { end } else { 0 })
}

/// Tells whether a word is one of a language, and cannot be a move of which a part is missing.
pub(super) fn is_word(text: &str) -> bool {
    let bare = text.trim_matches(|c: char| c.is_ascii_punctuation());
    let mut letters = bare.chars().filter(|c| !matches!(c, '\'' | '-'));
    let no_move = bare
        .chars()
        .filter(|c| c.is_lowercase() && !matches!(c, 'a'..='h' | 'o' | 'x'));
    let needed = if bare.chars().count() > 2 { 1 } else { 2 };
    letters.all(char::is_alphabetic) && no_move.count() >= needed
}

/// Tells whether a short word is one of the prose that a game ends with, as in `White won on time`: words follow, and a
/// result at most, so that no move is passed over.
pub(super) fn ends(word: &str, ahead: &[u8]) -> bool {
    if !word.chars().all(char::is_lowercase)
        || ahead.trim_ascii().is_empty()
        || ahead.len() > LONGEST
    {
        return false;
    }
    let is_result = |word: &str| matches!(word, "1-0" | "0-1" | "1/2-1/2" | "*");
    let ahead = decoded(ahead);
    let mut words = ahead.split_whitespace();
    words.all(|word| is_word(word) || is_result(word))
}

/// No tag of HTML is longer, in bytes.
pub(super) const LONGEST_MARKUP: usize = 256;

/// Returns the length of the tag or the sign of HTML at the head of a text, as in `<br>` and `&nbsp;`.
pub(super) fn markup_len(text: &[u8]) -> Option<usize> {
    let end = match text[0] {
        b'<' => b'>',
        b'&' => b';',
        _ => return None,
    };
    let near = &text[1..text.len().min(LONGEST_MARKUP)];
    let inside = &near[..memchr2(end, b'[', near).filter(|at| near[*at] == end)?];
    let begins = matches!(inside.first(), Some(first) if first.is_ascii_alphabetic() || b"/!#".contains(first));
    let is_sign = |byte: &u8| byte.is_ascii_alphanumeric() || *byte == b'#';
    (begins && (end == b'>' || inside.iter().all(is_sign))).then_some(inside.len() + 2)
}

/// Tells whether a word is a move in descriptive notation, as in `P-K4`, `Kt-KB3` or `QxB`.
pub(super) fn is_descriptive(text: &str) -> bool {
    let Some((from, to)) = text.split_once(['-', 'x', '×']) else {
        return false;
    };
    let is_named = |part: &str| {
        part.starts_with(['P', 'N', 'B', 'R', 'Q', 'K'])
            && part
                .chars()
                .all(|c| matches!(c, 'P' | 'N' | 'B' | 'R' | 'Q' | 'K' | 't' | '1'..='8'))
    };
    is_named(from) && is_named(to.trim_end_matches(['c', 'h', '+', '#', '!', '?', '.', ',']))
}

/// Returns the side that gives up where a word says so, as in `White resigns`, after the text `before`: it is the
/// side to move where none is named.
pub(super) fn gives_up(before: &[u8], word: &str, turn: Color) -> Option<Color> {
    let said = word.trim_end_matches(['.', ',', '!']);
    let before = before.trim_ascii_end();
    matches!(said, "resigns" | "resigned").then_some(match () {
        () if before.ends_with(b"White") => Color::White,
        () if before.ends_with(b"Black") => Color::Black,
        () => turn,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn prose_is_told_from_moves_and_from_what_is_left_of_them() {
        for text in [
            "Round two",
            "The match was long, and Nf3 was its first move",
            "Лучшие партии",
            "Notes by Orrin Vale\n1. e4",
        ] {
            assert_ne!(line(text.as_bytes(), true), Some(0), "{text}");
        }
        for text in [
            "e4 e5",
            "Nf3 wins",
            "exd",
            "Nbd",
            "Sbd",
            "O-O",
            "P-K4 P-K4",
            "1. e4",
            "[Event",
        ] {
            assert_eq!(line(text.as_bytes(), true), Some(0), "{text}");
        }
    }

    #[test]
    fn descriptive_notation_is_known() {
        for text in ["P-K4", "Kt-KB3", "QxB", "B-N5ch", "R1-K1", "PxP"] {
            assert!(is_descriptive(text), "{text}");
        }
        for text in ["e4-e5", "Nxe4", "O-O", "K", "Bxc3"] {
            assert!(!is_descriptive(text), "{text}");
        }
    }
}
