//! What people write between and beside the moves: prose, and moves in descriptive notation.

use memchr::memchr2;
use shakmaty::Color;

use super::text::decoded;
use crate::game::GameResult;
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

/// Tells whether a word is one of a language, and cannot be a move of which a part is missing: only castling has an o,
/// and no other move four letters of files.
pub(super) fn is_word(text: &str) -> bool {
    let bare = text.trim_matches(|c: char| c.is_ascii_punctuation());
    let mut letters = bare.chars().filter(|c| !matches!(c, '\'' | '-'));
    let small = || bare.chars().filter(|c| c.is_lowercase());
    let no_move = small().filter(|c| !matches!(c, 'a'..='h' | 'o' | 'x'));
    let needed = if bare.chars().count() > 2 { 1 } else { 2 };
    let files = small().filter(|c| matches!(c, 'a'..='h')).count();
    let is_long = files > 3 && !bare.contains('x');
    let is_word = no_move.count() >= needed || (files > 0 && bare.contains('o')) || is_long;
    letters.all(char::is_alphabetic) && is_word
}

/// Tells whether a short word in small letters stands in prose and may be no capture, so that no move is passed over:
/// between two words, or in the prose that a game ends with, as in `White won on time`, where words follow, and then a
/// result at most.
pub(super) fn is_in_prose(before: &[u8], word: &str, ahead: &[u8]) -> bool {
    let bare = word.trim_end_matches(|c: char| c.is_ascii_punctuation());
    let is_beside = |ends: &[u8]| matches!(ends, [from @ b'a'..=b'h', to @ b'a'..=b'h'] if from.abs_diff(*to) == 1);
    let is_capture = bare.contains('x') || is_beside(bare.as_bytes());
    let is_said = |word: &str| is_word(word) || word == "a";
    let is_result = |word: &str| matches!(word, "1-0" | "0-1" | "1/2-1/2" | "*");
    let near = decoded(&ahead[..ahead.len().min(LONGEST)]);
    let mut words = near.split_whitespace();
    let mut before = before.trim_ascii_end().rsplit(u8::is_ascii_whitespace);
    bare.chars().all(char::is_lowercase)
        && !is_capture
        && words.next().is_some_and(is_said)
        && (before.next().is_some_and(|word| is_said(&decoded(word)))
            || (ahead.len() < LONGEST && words.all(|word| is_word(word) || is_result(word))))
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

/// Returns the result that a word says, as in `White resigns`, after the text `before`: it is the side to move that gives
/// up where none is named. A draw is said behind a move, and nothing but `agreed` follows.
pub(super) fn said_result(
    before: &[u8],
    word: &str,
    ahead: &[u8],
    turn: Color,
) -> Option<GameResult> {
    let before = before.trim_ascii_end();
    match &*word.trim_end_matches(['.', ',', '!']).to_lowercase() {
        "resigns" | "resigned" if before.ends_with(b"White") => Some(GameResult::BlackWins),
        "resigns" | "resigned" if before.ends_with(b"Black") => Some(GameResult::WhiteWins),
        "resigns" | "resigned" => Some(turn.fold_wb(GameResult::BlackWins, GameResult::WhiteWins)),
        "draw" | "drawn" if matches!(ahead.trim_ascii(), b"" | b"agreed" | b"agreed.") => {
            let last = before.rsplit(u8::is_ascii_whitespace).next();
            (!is_word(&decoded(last.unwrap_or_default()))).then_some(GameResult::Draw)
        }
        _ => None,
    }
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
            "good",
            "dead of face",
        ] {
            assert_ne!(line(text.as_bytes(), true), Some(0), "{text}");
        }
        for text in [
            "e4 e5",
            "Nf3 wins",
            "exd",
            "Nbd",
            "Sbd",
            "gx bed be oo Do",
            "O-O",
            "P-K4 P-K4",
            "1. e4",
            "[Event",
        ] {
            assert_eq!(line(text.as_bytes(), true), Some(0), "{text}");
        }
    }

    #[test]
    fn a_short_word_between_two_others_is_prose_and_a_capture_cut_off_is_none() {
        let is_prose = |before: &str, word: &str, ahead: &str| {
            is_in_prose(before.as_bytes(), word, ahead.as_bytes())
        };
        assert!(is_prose("2. Nf3 this would", "be", " best. 3. Bb5"));
        assert!(is_prose("not a", "bad,", " move 3. Bb5"));
        for word in ["ed", "exd", "gx", "Nbd", "B"] {
            assert!(!is_prose("this would", word, " win 3. Bb5"), "{word}");
            assert!(!is_prose("2. Nf3", word, " wins *"), "{word}");
        }
        assert!(is_prose("Bc5 Black lost", "on", " time 1-0") && !is_prose("2. Nf3", "be", " *"));
        assert!(!is_prose("2. Nf3", "be", " best 3. Bb5"));
        assert!(!is_prose("would", "be", " 3. Bb5"));
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
