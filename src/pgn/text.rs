//! Texts of a file: decoded to be kept, cleaned to be shown.

use std::borrow::Cow;

use encoding_rs::WINDOWS_1252;
use unicode_normalization::char::is_combining_mark;

/// The longest piece of text that a fault shows, in characters.
const SHOWN: usize = 40;

/// Decodes one field, a tag value or a comment: UTF-8, which is not copied, else Windows-1252, which holds
/// ISO 8859-1, the character set of the PGN standard (4.1).
#[inline]
pub(super) fn decoded(field: &[u8]) -> Cow<'_, str> {
    match std::str::from_utf8(field) {
        Ok(text) => text.into(),
        Err(_) => WINDOWS_1252.decode_without_bom_handling(field).0,
    }
}

/// Tells whether Unicode calls a character ignorable by default: joiners, directional marks, selectors,
/// fillers, tags. The ranges are those of `Default_Ignorable_Code_Point` in the Unicode Character Database.
const fn is_ignorable(c: char) -> bool {
    matches!(
        c,
        '\u{ad}'
            | '\u{34f}'
            | '\u{61c}'
            | '\u{115f}'..='\u{1160}'
            | '\u{17b4}'..='\u{17b5}'
            | '\u{180b}'..='\u{180f}'
            | '\u{200b}'..='\u{200f}'
            | '\u{202a}'..='\u{202e}'
            | '\u{2060}'..='\u{206f}'
            | '\u{3164}'
            | '\u{fe00}'..='\u{fe0f}'
            | '\u{feff}'
            | '\u{ffa0}'
            | '\u{fff0}'..='\u{fff8}'
            | '\u{1bca0}'..='\u{1bca3}'
            | '\u{1d173}'..='\u{1d17a}'
            | '\u{e0000}'..='\u{e0fff}'
    )
}

/// Tells whether a character shows nothing of its own or could steer a terminal: control characters,
/// ends of lines, marks between lines, what is ignorable by default, and the blank of braille.
pub fn is_unseen(c: char) -> bool {
    !matches!(c, ' '..='~')
        && (c.is_control()
            || matches!(
                c,
                '\u{2028}' | '\u{2029}' | '\u{2800}' | '\u{fff9}'..='\u{fffb}'
            )
            || is_ignorable(c))
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

    /// As many as `icu_properties` 2.4 had, range by range, when this list took its place.
    #[test]
    fn all_that_is_ignorable_by_default_is_unseen() {
        let ignorable = ('\0'..=char::MAX).filter(|c| is_ignorable(*c));
        assert_eq!(ignorable.filter(|c| is_unseen(*c)).count(), 4_174);
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
