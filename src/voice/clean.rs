//! Cleaning text that came from a file or a keyboard, on its way out to a terminal, a page or a voice.

use std::borrow::Cow;

/// Drops the characters that could steer a terminal, turn the direction of a line or hide in it:
/// control characters save tab and newline, directional marks, characters without width, tags.
///
/// ```
/// assert_eq!(sansvoir::voice::clean("Rook\u{1b}[31m ending"), "Rook[31m ending");
/// ```
#[must_use]
pub fn clean(text: &str) -> String {
    text.chars().filter(|c| !is_unclean(*c)).collect()
}

/// Cleans text and brings it onto one line with single spaces, fit to stand inside a sentence.
#[must_use]
pub fn clean_line(text: &str) -> String {
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
#[must_use]
pub fn clean_name(text: &str) -> String {
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
    let is_clean = |char: char| char == ' ' || !char.is_whitespace() && !is_unclean(char);
    spaces_are_single
        && (!after_space || text.is_empty())
        && (text.bytes().all(|byte| matches!(byte, b' '..=b'~')) || text.chars().all(is_clean))
}

const fn is_unclean(c: char) -> bool {
    matches!(c,
        '\u{0}'..='\u{8}'
        | '\u{b}'..='\u{1f}'
        | '\u{7f}'..='\u{9f}'
        | '\u{61c}'
        | '\u{200b}'..='\u{200f}'
        | '\u{202a}'..='\u{202e}'
        | '\u{2028}'..='\u{2029}'
        | '\u{2066}'..='\u{2069}'
        | '\u{feff}'
        | '\u{fff9}'..='\u{fffb}'
        | '\u{e0000}'..='\u{e007f}')
}

#[cfg(test)]
mod tests {
    use super::*;

    /// First and last character of every range that must not pass.
    const UNCLEAN: [(u32, u32); 11] = [
        (0x00, 0x08),
        (0x0b, 0x1f),
        (0x7f, 0x9f),
        (0x61c, 0x61c),
        (0x200b, 0x200f),
        (0x202a, 0x202e),
        (0x2028, 0x2029),
        (0x2066, 0x2069),
        (0xfeff, 0xfeff),
        (0xfff9, 0xfffb),
        (0xe0000, 0xe007f),
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
        #[test]
        fn a_line_that_is_left_as_it_is_is_clean(pieces in proptest::collection::vec(
            proptest::sample::select(vec![" ", "  ", "\t", "a", "É", "\u{a0}", "\u{200b}", "\u{1b}", "-", "\n"]),
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
