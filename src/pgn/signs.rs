//! Results, move numbers, and the signs that annotators write.

use crate::game::GameResult;

/// Signs and their glyphs. The suffixes are the PGN standard's (8.2.3.8), the numbers of the
/// evaluations its table's (10); that these signs carry them is common practice, no source, as are
/// the glyphs 146 and 220, which the table leaves open.
const SIGNS: [(u8, &[&str]); 15] = [
    (3, &["!!", "‼"]),
    (4, &["??", "⁇"]),
    (5, &["!?", "⁉"]),
    (6, &["?!", "⁈"]),
    (1, &["!"]),
    (2, &["?"]),
    (16, &["+/-", "±"]),
    (17, &["-/+", "∓"]),
    (14, &["+/=", "+=", "⩲"]),
    (15, &["=/+", "=+", "⩱"]),
    (18, &["+-"]),
    (19, &["-+"]),
    (10, &["="]),
    (13, &["∞"]),
    (7, &["□"]),
];

/// Reads a termination marker in the standard's spelling or one close to it.
#[inline]
pub(super) fn outcome(word: &[u8]) -> Option<GameResult> {
    // Nearly every word is a move or a number.
    if !matches!(word.first(), Some(b'*' | b'0' | b'1' | 0x80..)) {
        return None;
    }
    match word {
        b"*" => Some(GameResult::Unknown),
        b"1-0" | b"1:0" | b"1 - 0" => Some(GameResult::WhiteWins),
        b"0-1" | b"0:1" | b"0 - 1" => Some(GameResult::BlackWins),
        b"1/2-1/2" | b"1/2" | b"1/2:1/2" | b"1/2 - 1/2" | b"0.5-0.5" => Some(GameResult::Draw),
        _ if word.is_ascii() => None,
        _ => match std::str::from_utf8(word).ok()? {
            "1–0" | "1−0" => Some(GameResult::WhiteWins),
            "0–1" | "0−1" => Some(GameResult::BlackWins),
            "½-½" | "½–½" | "½" | "½:½" | "1/2–1/2" => Some(GameResult::Draw),
            _ => None,
        },
    }
}

/// Castling and results whose parts stand apart.
const PARTED: [&str; 9] = [
    "O - O - O",
    "0 - 0 - 0",
    "o - o - o",
    "O - O",
    "0 - 0",
    "o - o",
    "1 - 0",
    "0 - 1",
    "1/2 - 1/2",
];

/// Returns the length of castling or a result at the head of a text, where its parts stand apart.
#[cold]
pub(super) fn parted(text: &[u8]) -> Option<usize> {
    let ends = |len| {
        text.get(len)
            .is_none_or(|next: &u8| !next.is_ascii_alphanumeric())
    };
    let is_it = |form: &&str| text.starts_with(form.as_bytes()) && ends(form.len());
    PARTED.into_iter().find(is_it).map(str::len)
}

/// Splits a move number off the head of a word: digits and periods in any number, or a number and
/// a move without a period between. Returns the number, where there is one, and what is left.
#[inline]
pub(super) fn split_number(word: &str) -> (Option<u32>, &str) {
    let count = word.bytes().take_while(u8::is_ascii_digit).count();
    let (digits, rest) = word.split_at(count);
    let unnumbered = rest.trim_start_matches(['.', '…']);
    let castles = matches!(digits, "0" | "00" | "000") && unnumbered.len() == rest.len();
    let is_number = unnumbered.len() < rest.len()
        || rest.is_empty()
        || rest.starts_with(|c: char| c.is_alphabetic() || ('\u{2654}'..='\u{265f}').contains(&c));
    if is_number && !castles {
        (digits.parse().ok(), unnumbered)
    } else {
        (None, word)
    }
}

/// Returns the glyph of a sign that stands alone.
#[inline]
pub(super) fn glyph(sign: &str) -> Option<u8> {
    // Most words are moves.
    if sign.starts_with(|c: char| c.is_ascii_alphanumeric()) {
        return None;
    }
    let row = SIGNS.iter().find(|(_, signs)| signs.contains(&sign));
    row.map(|(glyph, _)| *glyph)
}

/// Takes the signs off the end of a word, the last one first.
#[inline]
pub(super) fn strip(word: &str) -> (&str, Vec<u8>) {
    let mut word = word;
    let mut glyphs = Vec::new();
    // Most moves carry none, but many a check.
    while let [.., before, last] = *word.as_bytes()
        && !last.is_ascii_alphanumeric()
        && (last != b'+' || !before.is_ascii_alphanumeric())
    {
        let mut signs = SIGNS
            .iter()
            .flat_map(|(glyph, signs)| signs.iter().map(move |sign| (sign, *glyph)))
            .filter(|(sign, _)| sign.bytes().last() == Some(last));
        match signs.find_map(|(sign, glyph)| Some((word.strip_suffix(sign)?, glyph))) {
            Some((rest, glyph)) if !rest.is_empty() => {
                word = rest;
                glyphs.insert(0, glyph);
            }
            _ => break,
        }
    }
    (word, glyphs)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn results_are_read_in_every_spelling() {
        for (text, result) in [
            ("1-0", GameResult::WhiteWins),
            ("1–0", GameResult::WhiteWins),
            ("0-1", GameResult::BlackWins),
            ("1/2-1/2", GameResult::Draw),
            ("1/2", GameResult::Draw),
            ("½-½", GameResult::Draw),
            ("1:0", GameResult::WhiteWins),
            ("½:½", GameResult::Draw),
            ("1/2 - 1/2", GameResult::Draw),
            ("0.5-0.5", GameResult::Draw),
            ("*", GameResult::Unknown),
        ] {
            assert_eq!(outcome(text.as_bytes()), Some(result), "{text}");
        }
        for text in ["0-0", "1", "1-1", "", "½e4"] {
            assert_eq!(outcome(text.as_bytes()), None, "{text}");
        }
    }

    #[test]
    fn numbers_come_off_in_any_form() {
        for (word, split) in [
            ("1.", (Some(1), "")),
            ("1", (Some(1), "")),
            ("1...", (Some(1), "")),
            ("12.Nf3", (Some(12), "Nf3")),
            ("12...Nf6", (Some(12), "Nf6")),
            ("12…Nf6", (Some(12), "Nf6")),
            ("9Nbd2", (Some(9), "Nbd2")),
            ("4♘f3", (Some(4), "♘f3")),
            ("...", (None, "")),
            ("..e5", (None, "e5")),
            ("1.0-0", (Some(1), "0-0")),
            ("0-0", (None, "0-0")),
            ("00", (None, "00")),
            ("000", (None, "000")),
            ("4.00", (Some(4), "00")),
            ("00.", (Some(0), "")),
            ("e4", (None, "e4")),
            ("99999999999.", (None, "")),
        ] {
            assert_eq!(split_number(word), split, "{word}");
        }
    }

    #[test]
    fn every_sign_is_known_alone_and_glued_to_a_move() {
        let rows = SIGNS
            .iter()
            .flat_map(|(number, signs)| signs.iter().map(move |sign| (sign, *number)));
        for (sign, number) in rows {
            assert_eq!(glyph(sign), Some(number), "{sign}");
            assert_eq!(
                strip(&format!("Nf3{sign}")),
                ("Nf3", vec![number]),
                "{sign}"
            );
        }
    }

    #[test]
    fn signs_pile_up() {
        assert_eq!(strip("Qh5+!?±"), ("Qh5+", vec![5, 16]));
        assert_eq!(strip("e8=Q="), ("e8=Q", vec![10]));
        assert_eq!(strip("Nf3+"), ("Nf3+", vec![]));
        assert_eq!(strip("!"), ("!", vec![]));
        assert_eq!(strip(""), ("", vec![]));
    }
}
