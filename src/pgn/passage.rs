//! One game's own bytes.

use std::borrow::Cow;
use std::ops::Range;

use encoding_rs::WINDOWS_1252;

/// The text of exactly one game, and where it begins in its file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Passage {
    /// Which game of the file it is, counted from 1.
    pub number: usize,
    /// The line of the file where the game begins, counted from 1.
    pub line: usize,
    /// The column where the game begins, counted from 1 in characters; 1 unless two games share a line.
    pub column: usize,
    /// The bytes of the game, as they stand in the file (UTF-16 is turned into UTF-8).
    pub text: Vec<u8>,
    /// Whether the game is longer than [`LONGEST_GAME`](super::LONGEST_GAME), so that only its beginning is here.
    pub too_long: bool,
}

impl Passage {
    /// Wraps a text that is one game and the whole of its file.
    #[must_use]
    pub fn only(text: impl Into<Vec<u8>>) -> Passage {
        Passage {
            number: 1,
            line: 1,
            column: 1,
            text: text.into(),
            too_long: false,
        }
    }

    /// Decodes a part of the text.
    ///
    /// # Panics
    ///
    /// When `span` does not lie in the text.
    #[must_use]
    pub fn decoded(&self, span: Range<usize>) -> String {
        decode(&self.text[span])
    }
}

/// Decodes one field, a tag value or a comment: UTF-8, else Windows-1252, which holds ISO 8859-1,
/// the character set of the PGN standard (4.1).
pub(super) fn decode(field: &[u8]) -> String {
    decoded(field).into_owned()
}

/// Does the same and copies nothing that is UTF-8.
pub(super) fn decoded(field: &[u8]) -> Cow<'_, str> {
    match std::str::from_utf8(field) {
        Ok(text) => text.into(),
        Err(_) => WINDOWS_1252.decode_without_bom_handling(field).0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_field_is_utf8_and_else_windows_1252() {
        assert_eq!(decode("Žofie Novák".as_bytes()), "Žofie Novák");
        assert_eq!(decode(b"Ren\xe9e M\xfcller \x96 1"), "Renée Müller – 1");
        assert_eq!(decode(b""), "");
    }
}
