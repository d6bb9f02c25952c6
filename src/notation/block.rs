//! Games that were read together, so that they can be worked on together.

use std::ops::Range;

use super::heading::Values;
use super::{Field, Finder, Heading, Passage};

/// Whole games as they follow each other in a file.
#[derive(Clone, Debug, Default)]
pub struct Block {
    pub(super) text: Vec<u8>,
    pub(super) games: Vec<Span>,
    /// For each game.
    pub(super) values: Vec<Values>,
    pub(super) as_written: bool,
}

/// Where one game stands in its file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Span {
    /// Which game of the file it is, counted from 1.
    pub number: usize,
    /// The line where it begins, counted from 1.
    pub line: usize,
    /// The column where it begins, counted from 1 in characters.
    pub column: usize,
    /// How many bytes of text stand before it in its file (unpacked, and in UTF-8 where it was decoded).
    pub offset: u64,
    /// Whether the game is too long and only its beginning is kept.
    pub too_long: bool,
    pub(super) bytes: Range<usize>,
}

impl Span {
    /// Returns the length of the game in bytes of text.
    #[must_use]
    pub fn len(&self) -> usize {
        self.bytes.len()
    }

    /// Tells whether nothing of the game could be kept.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.bytes.is_empty()
    }

    /// Stands for a game of which only the number is known.
    pub(super) const fn numbered(number: usize) -> Span {
        Span {
            number,
            line: 1,
            column: 1,
            offset: 0,
            too_long: false,
            bytes: 0..0,
        }
    }

    /// Makes a passage of the game's `text`, which was read from its place.
    #[must_use]
    pub const fn passage(&self, text: Vec<u8>) -> Passage {
        Passage {
            number: self.number,
            line: self.line,
            column: self.column,
            text,
            too_long: self.too_long,
        }
    }
}

impl Block {
    /// Returns where the games stand, in the order of the file.
    #[must_use]
    pub fn games(&self) -> &[Span] {
        &self.games
    }

    /// Returns the bytes of a game of this block.
    ///
    /// # Panics
    ///
    /// When `span` is none of this block's.
    #[must_use]
    pub fn text(&self, span: &Span) -> &[u8] {
        &self.text[span.bytes.clone()]
    }

    /// Returns the fields of a game of this block by which it is listed; others may be left out.
    ///
    /// # Panics
    ///
    /// When `span` is none of this block's.
    #[must_use]
    pub fn heading(&self, span: &Span) -> Heading<'_> {
        let text = self.text(span);
        self.values(span).heading(text, &Field::LISTED)
    }

    /// Tells whether a game of this block is looked for.
    ///
    /// # Panics
    ///
    /// When `span` is none of this block's.
    #[must_use]
    pub fn is_found(&self, span: &Span, finder: &Finder) -> bool {
        self.values(span).are_found(self.text(span), finder)
    }

    /// Returns what gives the fields' values as they are written, where that is known without reading.
    pub(super) fn written_values<'a>(
        &'a self,
        span: &Span,
    ) -> Option<impl Fn(Field) -> Option<&'a [u8]>> {
        let (values, text) = (self.values(span), self.text(span));
        values
            .are_all
            .then_some(move |field| values.written(text, field))
    }

    fn values(&self, span: &Span) -> &Values {
        &self.values[span.number - self.games[0].number]
    }

    /// Tells whether the text is that of the file, byte by byte, so that [`Span::offset`] is a place in
    /// the file (unpacked).
    #[must_use]
    pub const fn is_as_written(&self) -> bool {
        self.as_written
    }

    /// Returns a game of this block as a text of its own.
    ///
    /// # Panics
    ///
    /// When `span` is none of this block's.
    #[must_use]
    pub fn passage(&self, span: &Span) -> Passage {
        span.passage(self.text(span).to_vec())
    }

    /// Gives the memory back for [`Collection::block`](super::Collection::block).
    #[must_use]
    pub fn into_spare(self) -> Vec<u8> {
        self.text
    }
}
