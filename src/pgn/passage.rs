//! One game's own bytes, and the places in them.

use std::ops::Range;

use memchr::{memchr, memchr_iter, memmem, memrchr2};

use super::text::decoded;
use crate::game::Place;

const BYTE_ORDER_MARK: &[u8] = b"\xef\xbb\xbf";

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
    /// Whether the game is longer than 16 MiB, so that only its beginning is here.
    pub too_long: bool,
    /// The letters for knight, bishop, rook, queen and king that other games of the file speak for; asked where
    /// several languages fit.
    pub letters: Option<&'static str>,
}

impl Passage {
    /// Takes a text that is one game and the whole of its file.
    pub fn alone(text: impl Into<Vec<u8>>) -> Passage {
        Passage {
            number: 1,
            line: 1,
            column: 1,
            text: text.into(),
            too_long: false,
            letters: None,
        }
    }

    /// Decodes a part of the text.
    ///
    /// # Panics
    ///
    /// When `span` does not lie in the text.
    pub fn decoded(&self, span: Range<usize>) -> String {
        decoded(&self.text[span]).into_owned()
    }
}

/// A place that moves forward over bytes. LF, CR LF and a lone CR each end a line.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cursor {
    pub(super) place: Place,
    after_cr: bool,
}

impl Cursor {
    pub(super) const fn new(place: Place) -> Cursor {
        Cursor {
            place,
            after_cr: false,
        }
    }

    /// Moves over `bytes`, which end between two characters.
    pub(super) fn advance(&mut self, bytes: &[u8]) {
        // From one token to the next it is mostly a few letters.
        let is_plain = |byte: &u8| matches!(byte, b' '..=b'~');
        if bytes.len() <= 32 && !bytes.is_empty() && bytes.iter().all(is_plain) {
            self.place.column += bytes.len();
            self.after_cr = false;
            return;
        }
        let line_feeds = memchr_iter(b'\n', bytes).count();
        // Most files have none, which is found sooner than they are counted.
        let (returns, both) = match memchr(b'\r', bytes) {
            None => (0, 0),
            Some(first) => (
                memchr_iter(b'\r', &bytes[first..]).count(),
                memmem::find_iter(&bytes[first..], b"\r\n").count(),
            ),
        };
        let is_second = self.after_cr && bytes.first() == Some(&b'\n');
        self.place.line += line_feeds + returns - both - usize::from(is_second);
        let line_start = memrchr2(b'\n', b'\r', bytes).map_or(0, |end| end + 1);
        if line_start > 0 {
            self.place.column = 1;
        }
        if let Some(last) = bytes.last() {
            self.after_cr = *last == b'\r';
        }
        let mut rest = &bytes[line_start..];
        // Editors do not show the mark at the head of a file.
        if self.place == Place::new(1, 1) {
            rest = rest.strip_prefix(BYTE_ORDER_MARK).unwrap_or(rest);
        }
        self.place.column += characters(rest);
    }
}

/// Counts characters as an editor shows them: a byte that is not UTF-8 is a character of its own.
fn characters(bytes: &[u8]) -> usize {
    if bytes.is_ascii() {
        return bytes.len();
    }
    bytes
        .utf8_chunks()
        .map(|chunk| chunk.valid().chars().count() + chunk.invalid().len())
        .sum()
}

/// The places of a passage's bytes in the file, counted from one to the next that is asked for.
#[derive(Clone, Debug)]
pub(super) struct Places<'a> {
    passage: &'a Passage,
    counted: usize,
    cursor: Cursor,
}

impl<'a> Places<'a> {
    pub(super) const fn new(passage: &'a Passage) -> Places<'a> {
        Places {
            passage,
            counted: 0,
            cursor: Cursor::new(Place::new(passage.line, passage.column)),
        }
    }

    /// Returns the place of the byte at `at`, where a token begins or ends.
    pub(super) fn of(&mut self, at: usize) -> Place {
        if at < self.counted {
            *self = Places::new(self.passage);
        }
        self.cursor.advance(&self.passage.text[self.counted..at]);
        self.counted = at;
        self.cursor.place
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn place_after(pieces: &[&[u8]]) -> Place {
        let mut cursor = Cursor::new(Place::new(1, 1));
        for piece in pieces {
            cursor.advance(piece);
        }
        cursor.place
    }

    #[test]
    fn every_kind_of_line_end_counts_once() {
        for text in ["a\nb\nc", "a\r\nb\r\nc", "a\rb\rc"] {
            assert_eq!(
                place_after(&[text.as_bytes()]),
                Place::new(3, 2),
                "{text:?}"
            );
        }
        assert_eq!(place_after(&[b"a\r", b"\nb"]), Place::new(2, 2));
        assert_eq!(place_after(&[b"a\r\r\n\nb"]), Place::new(4, 2));
    }

    #[test]
    fn columns_count_characters_and_not_bytes() {
        assert_eq!(place_after(&["é♘x".as_bytes()]), Place::new(1, 4));
        assert_eq!(place_after(&[b"\xe9x"]), Place::new(1, 3));
    }

    #[test]
    fn the_mark_at_the_head_of_a_file_takes_no_column() {
        assert_eq!(place_after(&[b"\xef\xbb\xbf", b"x"]), Place::new(1, 2));
    }
}
