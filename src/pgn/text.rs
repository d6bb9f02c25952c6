//! Texts of a file: decoded to be kept, cleaned to be shown.

use std::borrow::Cow;

use encoding_rs::WINDOWS_1252;
use icu_properties::props::DefaultIgnorableCodePoint;
use icu_properties::{CodePointSetData, CodePointSetDataBorrowed};
use unicode_normalization::char::is_combining_mark;

/// The longest piece of text that a fault shows, in characters.
const SHOWN: usize = 40;

/// Decodes one field, a tag value or a comment: UTF-8, which is not copied, else Windows-1252, which holds
/// ISO 8859-1, the character set of the PGN standard (4.1).
pub(super) fn decoded(field: &[u8]) -> Cow<'_, str> {
    match std::str::from_utf8(field) {
        Ok(text) => text.into(),
        Err(_) => WINDOWS_1252.decode_without_bom_handling(field).0,
    }
}

/// What Unicode calls ignorable by default: joiners, directional marks, selectors, fillers, tags.
const IGNORABLE: CodePointSetDataBorrowed<'static> =
    CodePointSetData::new::<DefaultIgnorableCodePoint>();

/// Tells whether a character shows nothing of its own or could steer a terminal: control characters,
/// ends of lines, marks between lines, what is ignorable by default, and the blank of braille.
pub fn is_unseen(c: char) -> bool {
    !matches!(c, ' '..='~')
        && (c.is_control()
            || matches!(
                c,
                '\u{2028}' | '\u{2029}' | '\u{2800}' | '\u{fff9}'..='\u{fffb}'
            )
            || IGNORABLE.contains(c))
}

/// Counts the marks that are put over, under or behind a letter, so that no tower of them stands in the
/// lines above and below.
#[derive(Clone, Copy, Debug, Default)]
pub struct Marks(usize);

impl Marks {
    /// A Hebrew letter of a verse can have four; names have two or three.
    const MOST: usize = 4;

    /// Takes the next character of a text, and tells whether it may stand there.
    pub fn fit(&mut self, c: char) -> bool {
        if c.is_ascii() || !is_combining_mark(c) {
            self.0 = 0;
            return true;
        }
        self.0 += 1;
        self.0 <= Marks::MOST
    }
}

/// Shortens a text and takes out what could move a cursor or turn the reading direction.
pub(super) fn shown(text: &str) -> String {
    cleaned(text, SHOWN)
}

/// Does the same and leaves `most` characters.
pub(super) fn cleaned(text: &str, most: usize) -> String {
    let mut marks = Marks::default();
    let mut chars = text.chars().filter(|char| marks.fit(*char));
    let mut cleaned: String = (chars.by_ref().take(most))
        .map(|char| if is_unseen(char) { '\u{fffd}' } else { char })
        .collect();
    if chars.next().is_some() {
        cleaned.push('…');
    }
    cleaned
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_field_is_utf8_and_else_windows_1252() {
        assert_eq!(decoded("Žofie Novák".as_bytes()), "Žofie Novák");
        assert_eq!(decoded(b"Ren\xe9e M\xfcller \x96 1"), "Renée Müller – 1");
        assert_eq!(decoded(b""), "");
    }

    #[test]
    fn a_shown_token_is_short_and_harmless() {
        assert_eq!(shown("\u{1b}[2J\u{202e}x"), "\u{fffd}[2J\u{fffd}x");
        assert_eq!(shown("e\u{ad}4\u{3164}"), "e\u{fffd}4\u{fffd}");
        assert_eq!(shown(&"é".repeat(100)), format!("{}…", "é".repeat(SHOWN)));
        assert_eq!(
            shown(&format!("e{}", "\u{301}".repeat(60))).chars().count(),
            5
        );
        assert_eq!(shown(""), "");
    }
}
