//! Cleaning text that came from a file or a keyboard, on its way out to a terminal, a page or a voice.

use std::borrow::Cow;

use crate::pgn::{Marks, is_unseen};

/// Drops the characters that could steer a terminal, turn the direction of a line or hide in it: control
/// characters save tab and newline, what Unicode calls ignorable by default, blanks that are no spaces. Of
/// the marks that pile up on one letter the first few stay.
///
/// ```
/// assert_eq!(sansvoir::voice::clean("Rook\u{1b}[31m ending"), "Rook[31m ending");
/// ```
pub fn clean(text: &str) -> String {
    let mut marks = Marks::default();
    text.chars()
        .filter(|c| !is_unclean(*c) && marks.fit(*c))
        .collect()
}

/// Cleans text and brings it onto one line with single spaces, fit to stand inside a sentence.
pub(crate) fn clean_line(text: &str) -> String {
    cleaned_line(text).into_owned()
}

fn cleaned_line(text: &str) -> Cow<'_, str> {
    if is_one_clean_line(text) {
        return text.into();
    }
    text.split_whitespace()
        .map(clean)
        .filter(|word| !word.is_empty())
        .collect::<Vec<_>>()
        .join(" ")
        .into()
}

/// Cleans a name or another short text of a file, and cuts it where it is longer than any name is.
pub(crate) fn clean_name(text: &str) -> String {
    cleaned_name(text).into_owned()
}

/// Does the same and copies nothing that is clean and short.
pub(super) fn cleaned_name(text: &str) -> Cow<'_, str> {
    const LONGEST: usize = 200;
    if text.len() <= LONGEST {
        return cleaned_line(text);
    }
    // White space and what is dropped count too, so that a huge text is never cleaned whole.
    match text.char_indices().nth(LONGEST) {
        None => cleaned_line(text),
        Some((end, _)) => cleaned_line(&text[..end]) + "…",
    }
}

/// Tells whether cleaning would leave the text as it is, as it does with most.
fn is_one_clean_line(text: &str) -> bool {
    // A space is single, and stands between two words.
    let mut after_space = true;
    let spaces_are_single = text.bytes().all(|byte| {
        let is_space = byte == b' ';
        !std::mem::replace(&mut after_space, is_space) || !is_space
    });
    let mut marks = Marks::default();
    let is_clean =
        |char: char| char == ' ' || !char.is_whitespace() && !is_unclean(char) && marks.fit(char);
    spaces_are_single
        && (!after_space || text.is_empty())
        && (text.bytes().all(|byte| matches!(byte, b' '..=b'~')) || text.chars().all(is_clean))
}

fn is_unclean(c: char) -> bool {
    !matches!(c, '\t' | '\n') && is_unseen(c)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// First and last character of every range that must not pass: control characters, the separators of
    /// lines, the marks between lines, the blank of braille, and `Default_Ignorable_Code_Point` as Unicode
    /// 16.0 lists it in `DerivedCoreProperties.txt`.
    const UNCLEAN: [(u32, u32); 21] = [
        (0x00, 0x08),
        (0x0b, 0x1f),
        (0x7f, 0x9f),
        (0xad, 0xad),
        (0x34f, 0x34f),
        (0x61c, 0x61c),
        (0x115f, 0x1160),
        (0x17b4, 0x17b5),
        (0x180b, 0x180f),
        (0x200b, 0x200f),
        (0x2028, 0x202e),
        (0x2060, 0x206f),
        (0x2800, 0x2800),
        (0x3164, 0x3164),
        (0xfe00, 0xfe0f),
        (0xfeff, 0xfeff),
        (0xffa0, 0xffa0),
        (0xfff0, 0xfffb),
        (0x1bca0, 0x1bca3),
        (0x1d173, 0x1d17a),
        (0xe0000, 0xe0fff),
    ];

    #[test]
    fn of_all_characters_exactly_the_unclean_ones_are_dropped() {
        for c in '\0'..=char::MAX {
            let unclean = UNCLEAN
                .iter()
                .any(|(first, last)| (*first..=*last).contains(&u32::from(c)));
            let kept = clean(c.encode_utf8(&mut [0; 4]));
            assert_eq!(kept.is_empty(), unclean, "{}", c.escape_unicode());
        }
    }

    #[test]
    fn text_around_unclean_characters_stays_as_it_is() {
        assert_eq!(clean("a\u{1b}[2Jb\tc\nd"), "a[2Jb\tc\nd");
        assert_eq!(clean("Łódź – 東京 ♘"), "Łódź – 東京 ♘");
    }

    #[test]
    fn a_letter_keeps_the_marks_of_a_language_and_loses_a_tower_of_them() {
        for name in [
            "Nguye\u{302}\u{303}n Thi\u{323}",
            "\u{5e9}\u{5c1}\u{5bc}\u{5b8}\u{5dc}\u{5d5}\u{5b9}\u{5dd}",
            "\u{e19}\u{e49}\u{e33}",
            "\u{928}\u{93f}\u{902}",
        ] {
            assert_eq!(clean(name), name);
            assert_eq!(clean_line(name), name);
            assert_eq!(clean_name(name), name);
        }
        let tower = format!("Za{}l", "\u{301}".repeat(60));
        let kept = format!("Za{}l", "\u{301}".repeat(4));
        assert_eq!(clean(&tower), kept);
        assert_eq!(clean_line(&tower), kept);
        assert_eq!(clean_name(&tower), kept);
        // What is dropped does not make room for more.
        let parted = "\u{301}\u{301}\u{301}\u{200d}".repeat(20);
        assert_eq!(clean(&parted), "\u{301}".repeat(4));
    }

    #[test]
    fn a_name_that_is_no_name_any_more_is_cut_between_two_characters() {
        assert_eq!(clean_name(" Berg,\u{1b}\nAnna"), "Berg, Anna");
        assert_eq!(clean_name(&"é".repeat(200)), "é".repeat(200));
        assert_eq!(clean_name(&"é".repeat(201)), "é".repeat(200) + "…");
    }

    #[test]
    fn a_cleaned_line_has_single_spaces_and_no_end_of_line() {
        assert_eq!(
            clean_line("  Berg,\r\nAnna \u{200b} \t of\u{2028}the club "),
            "Berg, Anna of the club"
        );
        assert_eq!(clean_line("\u{202e}"), "");
    }

    proptest::proptest! {
        #![proptest_config(crate::random::kept())]

        #[test]
        fn a_line_that_is_left_as_it_is_is_clean(pieces in proptest::collection::vec(
            proptest::sample::select(vec![" ", "  ", "\t", "a", "É", "\u{a0}", "\u{200b}", "\u{1b}", "-", "\n", "\u{301}\u{301}\u{301}"]),
            0..6,
        )) {
            let text = pieces.concat();
            let words: Vec<String> = text
                .split_whitespace()
                .map(clean)
                .filter(|word| !word.is_empty())
                .collect();
            assert_eq!(clean_line(&text), words.join(" "));
        }
    }
}
