//! The few tags by which games are listed and found, read without copying them.

use std::borrow::Cow;
use std::ops::Range;

use strum::VariantNames;

use super::signs::outcome;
use super::tag_pair::unescape;
use super::text::decoded;
use crate::game::GameResult;

/// A tag by which games are listed and found (PGN standard, 8.1 and 9).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, VariantNames)]
pub enum Field {
    /// `White`
    White,
    /// `Black`
    Black,
    /// `Date`
    Date,
    /// `Result`
    Result,
    /// `Event`
    Event,
    /// `Site`
    Site,
    /// `ECO`
    #[strum(serialize = "ECO")]
    Eco,
    /// `Opening`
    Opening,
    /// `Variation`
    Variation,
}

/// So many bytes of the moves tell one game without tags from another.
const FIRST_MOVES: usize = 40;

/// How many fields there are.
const FIELDS: usize = Field::VARIANTS.len();

/// Returns the number of the field that a tag gives.
fn field_of(tag: &[u8]) -> Option<usize> {
    let mut names = Field::VARIANTS.iter();
    names.position(|name| name.as_bytes().eq_ignore_ascii_case(tag))
}

/// Where the values of a game's fields stand in its text, as the splitter came by them.
#[derive(Clone, Debug)]
pub(super) struct Values {
    /// For each field a span, empty at 0 for none: no value stands there.
    spans: [Range<usize>; FIELDS],
    /// Whether what follows is no tag of the game any more.
    pub(super) ended: bool,
}

impl Values {
    pub(super) const fn new() -> Values {
        Values {
            spans: [const { 0..0 }; FIELDS],
            ended: false,
        }
    }

    /// Takes the first value given for a field.
    #[inline]
    pub(super) fn take(&mut self, name: &[u8], value: Range<usize>) {
        let slot = field_of(name).map(|field| &mut self.spans[field]);
        if let Some(slot) = slot.filter(|slot| slot.start == 0 && !self.ended) {
            *slot = value;
        }
    }

    /// Forgets what does not stand in the text up to a byte.
    #[inline]
    pub(super) fn keep(&mut self, end: usize) {
        for slot in self.spans.iter_mut().filter(|slot| slot.end > end) {
            *slot = 0..0;
        }
    }
}

/// The fields of one game.
#[derive(Clone, Copy, Debug)]
pub struct Heading<'a> {
    text: &'a [u8],
    values: &'a Values,
}

impl<'a> Heading<'a> {
    pub(super) const fn new(text: &'a [u8], values: &'a Values) -> Heading<'a> {
        Heading { text, values }
    }

    /// Returns the first value given for the field.
    #[inline]
    pub fn get(&self, field: Field) -> Option<Cow<'a, str>> {
        let span = &self.values.spans[field as usize];
        (span.start > 0).then(|| unescape(&self.text[span.clone()]))
    }

    /// Returns how the moves begin of a game that has no tags.
    pub fn first_moves(&self) -> Option<Cow<'a, str>> {
        let end = self.text.len().min(FIRST_MOVES);
        let end = self.text[..end].iter().rposition(u8::is_ascii_whitespace)?;
        let first = self.text[..end].trim_ascii();
        let last = first.rsplit(u8::is_ascii_whitespace).next()?;
        let result = outcome(last).map_or(0, |_| last.len());
        first
            .starts_with(b"1")
            .then(|| decoded(&first[..first.len() - result]))
    }

    /// Returns the result by its tag, else by the last word of the moves.
    pub fn result(&self) -> Option<GameResult> {
        let tag = self
            .get(Field::Result)
            .and_then(|tag| outcome(tag.trim().as_bytes()));
        let last = || {
            self.text
                .trim_ascii_end()
                .rsplit(u8::is_ascii_whitespace)
                .next()
        };
        tag.or_else(|| outcome(last()?))
    }

    /// Returns the value unless it is missing, empty or the standard's `?` for unknown.
    #[inline]
    pub fn known(&self, field: Field) -> Option<Cow<'a, str>> {
        let value = self.get(field)?;
        (!matches!(value.trim(), "" | "?")).then_some(value)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pgn::Collection;

    #[test]
    fn every_field_is_known_by_its_tag_in_any_case() {
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
            assert_eq!(field_of(tag.as_bytes()), Some(field as usize));
            assert_eq!(
                field_of(tag.to_lowercase().as_bytes()),
                Some(field as usize)
            );
        }
        for name in ["", "Round", "Whit", "Whites", "Wrong"] {
            assert_eq!(field_of(name.as_bytes()), None, "{name}");
        }
    }

    #[test]
    fn the_first_of_two_tags_counts_and_comments_are_passed_over() {
        let text = "{x} [White \"A\"]\n% y\n[white \"B\"] [Black \"C \\\"D\\\"\"]\n\n1. e4 [ECO \"A00\"] *";
        let block = Collection::new(text.as_bytes()).block(Vec::new());
        let block = block.unwrap().unwrap();
        let heading = block.heading(&block.games()[0]);
        assert_eq!(heading.get(Field::White).as_deref(), Some("A"));
        assert_eq!(heading.get(Field::Black).as_deref(), Some("C \"D\""));
        assert_eq!(heading.get(Field::Eco), None);
    }
}
