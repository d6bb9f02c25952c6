//! The few tags by which games are listed and found, read without copying them.

use std::borrow::Cow;

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
        // No other length is one of theirs.
        if !(3..=9).contains(&name.len()) {
            return None;
        }
        Field::ALL
            .into_iter()
            .find(|field| field.tag().as_bytes().eq_ignore_ascii_case(name))
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
        self.get(field)
            .filter(|value| !matches!(value.trim(), "" | "?"))
    }

    fn take(&mut self, name: &[u8], value: &'a [u8]) {
        if let Some(field) = Field::named(name) {
            self.0[field as usize].get_or_insert_with(|| unescape(value));
        }
    }
}
