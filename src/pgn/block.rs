//! Games that were read together, so that they can be worked on together.

use super::heading::{Heading, Values};
use super::passage::{Passage, Span};

/// Whole games as they follow each other in a file.
#[derive(Clone, Debug, Default)]
pub struct Block {
    pub(super) text: Vec<u8>,
    pub(super) games: Vec<Span>,
    /// For each game.
    pub(super) values: Vec<Values>,
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

    /// Returns the fields of a game of this block by which it is listed and found.
    ///
    /// # Panics
    ///
    /// When `span` is none of this block's.
    #[must_use]
    pub fn heading(&self, span: &Span) -> Heading<'_> {
        Heading::from_values(self.text(span), self.values(span))
    }

    fn values(&self, span: &Span) -> &Values {
        &self.values[span.number - self.games[0].number]
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

    /// Returns a block of one game of this block alone, which keeps its number.
    ///
    /// # Panics
    ///
    /// When `span` is none of this block's.
    #[must_use]
    pub fn only(&self, span: &Span) -> Block {
        let text = self.text(span).to_vec();
        let bytes = 0..text.len();
        Block {
            text,
            games: vec![Span {
                bytes,
                ..span.clone()
            }],
            values: vec![self.values(span).clone()],
        }
    }

    /// Gives the memory back for [`Collection::block`](super::Collection::block).
    #[must_use]
    pub fn into_spare(self) -> Vec<u8> {
        self.text
    }
}
