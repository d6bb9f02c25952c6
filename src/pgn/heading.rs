//! The few tags by which games are listed and found, read without copying them.

use std::borrow::Cow;
use std::ops::Range;

use strum::VariantNames;

use super::signs::outcome;
use super::tag_pair::{self, unescape};
use super::token::{Kind, Lexer};
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
    spans: [Range<u32>; FIELDS],
    /// Whether these are all. Where tags are not plainly written, they have to be read.
    pub(super) are_all: bool,
}

impl Values {
    pub(super) const fn new() -> Values {
        Values {
            spans: [const { 0..0 }; FIELDS],
            are_all: true,
        }
    }

    /// Takes the first value given for a field.
    pub(super) fn take(&mut self, name: &[u8], value: Range<usize>) {
        let Some(field) = field_of(name) else {
            return;
        };
        let slot = &mut self.spans[field];
        if slot.start > 0 {
            return;
        }
        match (u32::try_from(value.start), u32::try_from(value.end)) {
            (Ok(start), Ok(end)) => *slot = start..end,
            _ => self.are_all = false,
        }
    }

    /// Reads all tags of a game.
    fn of(text: &[u8], line_start: bool) -> Values {
        let lexer = Lexer::whole(text, line_start);
        let mut values = Values::new();
        let mut at = 0;
        while let Some(token) = lexer.token(at) {
            if let Some(end) = lexer.prose_line(&token) {
                at = end;
                continue;
            }
            if token.kind.is_movetext() {
                break;
            }
            let text = &text[token.span.clone()];
            if token.kind == Kind::Pair
                && let Ok(pair) = tag_pair::read(text, true)
            {
                let value = at + pair.value.start..at + pair.value.end;
                values.take(&text[pair.name], value);
            }
            at = token.span.end;
        }
        values
    }
}

/// The fields of one game.
#[derive(Clone, Debug)]
pub struct Heading<'a> {
    text: &'a [u8],
    values: Cow<'a, Values>,
}

impl<'a> Heading<'a> {
    /// Reads the tags of a game that begins in this column. The values are those of [`read`](super::read).
    pub fn of(text: &'a [u8], column: usize) -> Heading<'a> {
        let values = Cow::Owned(Values::of(text, column == 1));
        Heading { text, values }
    }

    /// Takes the values that the splitter came by, where they are all.
    pub(super) fn from_values(text: &'a [u8], column: usize, values: &'a Values) -> Heading<'a> {
        if !values.are_all {
            return Heading::of(text, column);
        }
        let values = Cow::Borrowed(values);
        Heading { text, values }
    }

    /// Returns the first value given for the field.
    pub fn get(&self, field: Field) -> Option<Cow<'a, str>> {
        let span = &self.values.spans[field as usize];
        (span.start > 0).then(|| unescape(&self.text[span.start as usize..span.end as usize]))
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
    pub fn known(&self, field: Field) -> Option<Cow<'a, str>> {
        let value = self.get(field)?;
        (!matches!(value.trim(), "" | "?")).then_some(value)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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
        let text = b"{x} [White \"A\"]\n% y\n[white \"B\"] [Black \"C \\\"D\\\"\"]\n\n1. e4 [ECO \"A00\"] *";
        let heading = Heading::of(text, 1);
        assert_eq!(heading.get(Field::White).as_deref(), Some("A"));
        assert_eq!(heading.get(Field::Black).as_deref(), Some("C \"D\""));
        assert_eq!(heading.get(Field::Eco), None);
    }
}
