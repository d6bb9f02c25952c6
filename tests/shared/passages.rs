//! Passages of one game each, and what the PGN library counts in them.

#![allow(dead_code, reason = "each test program uses its own part of this")]

use std::io;
use std::ops::ControlFlow;

use pgn_reader::{Reader, SanPlus, Skip, Visitor};
use sansvoir::game::Tags;
use sansvoir::pgn::{Collection, Field, Heading, Passage};

/// Wraps a text that is one game and the whole of its file.
pub(crate) fn only(text: impl Into<Vec<u8>>) -> Passage {
    Passage::alone(text)
}

/// Sees to it that the splitter comes by the same tags as the strict pass.
pub(crate) fn heading_agrees(heading: &Heading<'_>, tags: &Tags) {
    for (tag, field) in [
        ("White", Field::White),
        ("Black", Field::Black),
        ("Date", Field::Date),
        ("Result", Field::Result),
        ("Event", Field::Event),
        ("Site", Field::Site),
        ("ECO", Field::Eco),
        ("Opening", Field::Opening),
        ("Variation", Field::Variation),
    ] {
        assert_eq!(heading.get(field).as_deref(), tags.get(tag), "{tag}");
    }
}

/// Reads a text, and hands each game of it on as it is listed and as a passage.
pub(crate) fn each_game(
    text: &[u8],
    mut take: impl FnMut(&Heading<'_>, Passage),
) -> io::Result<()> {
    let mut games = Collection::new(text);
    while let Some(block) = games.block(Vec::new()).transpose()? {
        for span in block.games() {
            take(&block.heading(span), block.passage(span));
        }
    }
    Ok(())
}

/// Counts the moves of the main line that are standard notation, without playing them; what is not is
/// passed over in silence.
pub(crate) fn count_plies(passage: &Passage) -> io::Result<usize> {
    let plies = Reader::new(passage.text.as_slice()).read_game(&mut Plies)?;
    Ok(plies.unwrap_or_default())
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
