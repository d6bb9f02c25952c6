//! The few tags by which games are listed and found, read without copying them.

use std::borrow::Cow;
use std::ops::Range;

use super::Finder;
use super::pair::{self, unescape};
use super::token::{Kind, Lexer};

/// A tag by which games are listed and found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
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
    Eco,
    /// `Opening`
    Opening,
    /// `Variation`
    Variation,
}

impl Field {
    /// The fields that a list of games shows.
    pub const LISTED: [Field; 5] = [
        Field::White,
        Field::Black,
        Field::Date,
        Field::Result,
        Field::Event,
    ];

    /// All fields.
    pub const ALL: [Field; 9] = [
        Field::White,
        Field::Black,
        Field::Date,
        Field::Result,
        Field::Event,
        Field::Site,
        Field::Eco,
        Field::Opening,
        Field::Variation,
    ];

    /// Returns the name of the tag (PGN standard, 8.1 and 9).
    #[must_use]
    pub const fn tag(self) -> &'static str {
        match self {
            Field::White => "White",
            Field::Black => "Black",
            Field::Date => "Date",
            Field::Result => "Result",
            Field::Event => "Event",
            Field::Site => "Site",
            Field::Eco => "ECO",
            Field::Opening => "Opening",
            Field::Variation => "Variation",
        }
    }

    fn named(name: &[u8]) -> Option<Field> {
        // Length and first letter leave one field at most.
        let field = match (name.len(), name.first()?.to_ascii_lowercase()) {
            (5, b'w') => Field::White,
            (5, b'b') => Field::Black,
            (4, b'd') => Field::Date,
            (6, b'r') => Field::Result,
            (5, b'e') => Field::Event,
            (4, b's') => Field::Site,
            (3, b'e') => Field::Eco,
            (7, b'o') => Field::Opening,
            (9, b'v') => Field::Variation,
            _ => return None,
        };
        let is_its_name = field.tag().as_bytes().eq_ignore_ascii_case(name);
        is_its_name.then_some(field)
    }
}

/// Where the values of a game's fields stand in its text, as the splitter came by them.
#[derive(Clone, Debug)]
pub(super) struct Values {
    /// For each field a span, empty at 0 for none: no value stands there.
    spans: [Range<u32>; 9],
    /// Whether these are all. Where tags are not plainly written, they have to be read.
    pub(super) are_all: bool,
}

impl Values {
    pub(super) const fn new() -> Values {
        Values {
            spans: [const { 0..0 }; 9],
            are_all: true,
        }
    }

    /// Takes the first value given for a field.
    pub(super) fn take(&mut self, name: &[u8], value: Range<usize>) {
        let Some(field) = Field::named(name) else {
            return;
        };
        let slot = &mut self.spans[field as usize];
        if slot.start > 0 {
            return;
        }
        match (u32::try_from(value.start), u32::try_from(value.end)) {
            (Ok(start), Ok(end)) => *slot = start..end,
            _ => self.are_all = false,
        }
    }

    fn get<'a>(&self, text: &'a [u8], field: Field) -> Option<Cow<'a, str>> {
        let span = &self.spans[field as usize];
        (span.start > 0).then(|| unescape(&text[span.start as usize..span.end as usize]))
    }

    /// Returns the heading of the game with this `text`, or of it only these `fields`.
    pub(super) fn heading<'a>(&self, text: &'a [u8], fields: &[Field]) -> Heading<'a> {
        if !self.are_all {
            return Heading::of(text);
        }
        let mut heading = Heading::default();
        for field in fields {
            heading.0[*field as usize] = self.get(text, *field);
        }
        heading
    }

    /// Tells whether `finder` finds the game with this `text`, and reads no field that it does not ask for.
    pub(super) fn are_found(&self, text: &[u8], finder: &Finder) -> bool {
        if self.are_all {
            finder.finds_by(|field| finder.fits(field, self.get(text, field).as_deref()))
        } else {
            finder.finds(&Heading::of(text))
        }
    }
}

/// The fields of one game.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Heading<'a>([Option<Cow<'a, str>>; 9]);

impl<'a> Heading<'a> {
    /// Reads the tags of a game. The values are those of [`read`](super::read).
    #[must_use]
    pub fn of(text: &'a [u8]) -> Heading<'a> {
        let lexer = Lexer::whole(text, true);
        let mut heading = Heading::default();
        let mut at = 0;
        loop {
            let rest = &text[at..];
            if let Some(pair) = pair::plain(rest) {
                heading.take(&rest[pair.name], &rest[pair.value]);
                at += pair.end;
                continue;
            }
            // Between plain pairs stand plain line ends.
            if let [b'\n', b'[', ..] = rest {
                at += 1;
                continue;
            }
            let Some(token) = lexer.token(at) else {
                return heading;
            };
            match token.kind {
                Kind::Space
                | Kind::Escape
                | Kind::Bracket
                | Kind::LineComment
                | Kind::Brace { closed: true } => {}
                Kind::Pair => {
                    let text = &text[token.span.clone()];
                    if let Ok(pair) = pair::pair(text, true) {
                        heading.take(&text[pair.name], &text[pair.value]);
                    }
                }
                Kind::Brace { closed: false }
                | Kind::Open
                | Kind::Close
                | Kind::DrawOffer
                | Kind::Nag
                | Kind::StrayBrace
                | Kind::Word => return heading,
            }
            at = token.span.end;
        }
    }

    /// Puts a heading together from what `value` gives for each field.
    #[must_use]
    pub fn from_fields(value: impl Fn(Field) -> Option<&'a str>) -> Heading<'a> {
        Heading(Field::ALL.map(|field| value(field).map(Cow::Borrowed)))
    }

    /// Returns the first value given for the field.
    #[must_use]
    pub fn get(&self, field: Field) -> Option<&str> {
        self.0[field as usize].as_deref()
    }

    /// Returns the value unless it is missing, empty or the standard's `?` for unknown.
    #[must_use]
    pub fn known(&self, field: Field) -> Option<&str> {
        let says_something = |value: &&str| {
            value.starts_with(|first: char| first.is_ascii_alphanumeric())
                || !matches!(value.trim(), "" | "?")
        };
        self.get(field).filter(says_something)
    }

    fn take(&mut self, name: &[u8], value: &'a [u8]) {
        if let Some(field) = Field::named(name) {
            self.0[field as usize].get_or_insert_with(|| unescape(value));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_field_is_known_by_its_tag_in_any_case() {
        for field in Field::ALL {
            assert_eq!(Field::named(field.tag().as_bytes()), Some(field));
            let small = field.tag().to_lowercase();
            assert_eq!(Field::named(small.as_bytes()), Some(field));
        }
        for name in ["", "Round", "Whit", "Whites", "Wrong"] {
            assert_eq!(Field::named(name.as_bytes()), None, "{name}");
        }
    }

    #[test]
    fn the_first_of_two_tags_counts_and_comments_are_passed_over() {
        let text = b"{x} [White \"A\"]\n% y\n[white \"B\"] [Black \"C \\\"D\\\"\"]\n\n1. e4 [ECO \"A00\"] *";
        let heading = Heading::of(text);
        assert_eq!(heading.get(Field::White), Some("A"));
        assert_eq!(heading.get(Field::Black), Some("C \"D\""));
        assert_eq!(heading.get(Field::Eco), None);
    }
}
