//! The fast way through many games: tags and length, without playing a move.

use std::io;
use std::ops::ControlFlow;

use pgn_reader::{RawTag, Reader, SanPlus, Skip, Visitor};

use super::Passage;
use super::passage::decode;
use super::reading::tags;
use crate::game::Tags;

/// Reads the tags of a game and nothing behind them.
///
/// They are those of [`read`](super::read), save where a tag pair is not well formed: then its
/// value may be cut short here.
#[must_use]
pub fn headline(passage: &Passage) -> Tags {
    let begins_with_tags = passage.text.first() == Some(&b'[');
    begins_with_tags
        .then(|| Reader::new(passage.text.as_slice()).read_game(&mut Headline))
        .and_then(|read: io::Result<_>| read.ok().flatten())
        // Comments before the tags, and very long tags: the strict reader knows them.
        .unwrap_or_else(|| tags(passage))
}

/// Counts the moves of the main line that are standard notation, without playing them.
///
/// For a game that [`read`](super::read) finds clean this is the length of its main line. What is not
/// standard notation is passed over in silence.
///
/// # Errors
///
/// What the PGN library says of a tag that is too long for it.
pub fn count_plies(passage: &Passage) -> io::Result<usize> {
    let plies = Reader::new(passage.text.as_slice()).read_game(&mut Plies)?;
    Ok(plies.unwrap_or_default())
}

struct Headline;

impl Visitor for Headline {
    type Tags = Tags;
    type Movetext = ();
    type Output = Tags;

    fn begin_tags(&mut self) -> ControlFlow<Tags, Tags> {
        ControlFlow::Continue(Tags::default())
    }

    fn tag(&mut self, tags: &mut Tags, name: &[u8], value: RawTag<'_>) -> ControlFlow<Tags> {
        tags.push(decode(name), decode(&value.decode()));
        ControlFlow::Continue(())
    }

    fn begin_movetext(&mut self, tags: Tags) -> ControlFlow<Tags, ()> {
        ControlFlow::Break(tags)
    }

    fn end_game(&mut self, (): ()) -> Tags {
        Tags::default()
    }
}

struct Plies;

impl Visitor for Plies {
    type Tags = ();
    type Movetext = usize;
    type Output = usize;

    fn begin_tags(&mut self) -> ControlFlow<usize, ()> {
        ControlFlow::Continue(())
    }

    fn begin_movetext(&mut self, (): ()) -> ControlFlow<usize, usize> {
        ControlFlow::Continue(0)
    }

    fn san(&mut self, plies: &mut usize, _: SanPlus) -> ControlFlow<usize> {
        *plies += 1;
        ControlFlow::Continue(())
    }

    fn begin_variation(&mut self, _: &mut usize) -> ControlFlow<usize, Skip> {
        ControlFlow::Continue(Skip(true))
    }

    fn end_game(&mut self, plies: usize) -> usize {
        plies
    }
}
