//! Games that were read together, so that they can be worked on together.

use std::ops::Range;

use shakmaty::Role;

use super::heading::{Heading, Values};
use super::passage::Passage;
use super::reading::read;
use crate::rules::LetterSet;

/// Whole games as they follow each other in a file.
#[derive(Clone, Debug, Default)]
pub struct Block {
    pub(super) text: Vec<u8>,
    pub(super) games: Vec<Span>,
}

/// Where one game stands in its file.
#[derive(Clone, Debug)]
pub struct Span {
    /// Which game of the file it is, counted from 1.
    pub number: usize,
    /// The line where it begins, counted from 1.
    pub line: usize,
    /// The column where it begins, counted from 1 in characters.
    pub column: usize,
    /// Whether the game is too long and only its beginning is kept.
    pub too_long: bool,
    pub(super) bytes: Range<usize>,
    pub(super) values: Values,
}

impl Block {
    /// Returns where the games stand, in the order of the file.
    pub fn games(&self) -> &[Span] {
        &self.games
    }

    /// Returns the bytes of a game of this block.
    ///
    /// # Panics
    ///
    /// When `span` is none of this block's.
    pub fn text(&self, span: &Span) -> &[u8] {
        &self.text[span.bytes.clone()]
    }

    /// Returns the fields of a game of this block by which it is listed and found.
    ///
    /// # Panics
    ///
    /// When `span` is none of this block's.
    pub fn heading<'a>(&'a self, span: &'a Span) -> Heading<'a> {
        Heading::new(self.text(span), &span.values)
    }

    /// Returns a game of this block as a text of its own.
    ///
    /// # Panics
    ///
    /// When `span` is none of this block's.
    pub fn passage(&self, span: &Span) -> Passage {
        Passage {
            number: span.number,
            line: span.line,
            column: span.column,
            text: self.text(span).to_vec(),
            too_long: span.too_long,
            letters: None,
        }
    }

    /// Finds the piece letters that the games beside one speak for: those of the nearest one of which several
    /// moves leave no doubt.
    ///
    /// # Panics
    ///
    /// When `span` is none of this block's.
    pub fn letters_beside(&self, span: &Span) -> Option<&'static str> {
        const NEAR: usize = 32;
        const PLIES: usize = 8;
        let mut near: Vec<&Span> = self
            .games
            .iter()
            .filter(|other| other.number != span.number)
            .collect();
        near.sort_by_key(|other| other.number.abs_diff(span.number));
        near.into_iter().take(NEAR).find_map(|other| {
            let reading = read(&self.passage(other));
            let line = reading.game.main_line();
            let mut roles = line.plies().iter().map(|ply| ply.mv.role());
            // Pawns have no letter, and the king has the same in many languages.
            let has_pieces = roles.any(|role| !matches!(role, Role::Pawn | Role::King));
            let is_sure = reading.is_whole() && !reading.doubtful && line.len() >= PLIES;
            let english = LetterSet::ENGLISH.text();
            (is_sure && has_pieces)
                .then(|| reading.letters.map_or(english, |letters| letters.letters))
        })
    }

    /// Returns a block of one game of this block alone, which keeps its number.
    ///
    /// # Panics
    ///
    /// When `span` is none of this block's.
    pub fn only(&self, span: &Span) -> Block {
        let text = self.text(span).to_vec();
        let mut span = span.clone();
        span.bytes = 0..text.len();
        Block {
            text,
            games: vec![span],
        }
    }

    /// Gives the memory back for [`Collection::block`](super::Collection::block).
    pub fn into_spare(self) -> Vec<u8> {
        self.text
    }
}
