//! Finding games by their tags.

use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

use super::{Field, Heading};
use crate::game::Tags;

/// What a game's tags must hold. An empty search lets every game through.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Search {
    /// Words of the name of White or Black, in any order.
    pub player: Option<String>,
    /// A part of the event's or the site's name.
    pub event: Option<String>,
    /// The beginning of the ECO code, or a part of the opening's name.
    pub opening: Option<String>,
    /// The result, as the `Result` tag gives it.
    pub result: Option<String>,
    /// The first day.
    pub since: Option<Day>,
    /// The last day.
    pub until: Option<Day>,
}

/// A day, or a month or a year of which the days are left open: `2026`, `2026.03`, `2026-03-01`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Day(String);

/// A text that is no day.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("\"{0}\" is no date: write a year, or a year and a month, or a day, as in 2026.03.01")]
pub struct ParseDayError(String);

impl FromStr for Day {
    type Err = ParseDayError;

    fn from_str(text: &str) -> Result<Day, ParseDayError> {
        let parts: Vec<&str> = text.split(['.', '-', '/']).collect();
        let widths: &[usize] = &[4, 2, 2];
        let fits = parts.len() <= 3
            && parts.iter().zip(widths).all(|(part, width)| {
                part.len() == *width && part.bytes().all(|byte| byte.is_ascii_digit())
            });
        let is_within = |part: usize, most: &str| {
            parts
                .get(part)
                .is_none_or(|part| ("01"..=most).contains(part))
        };
        if fits && is_within(1, "12") && is_within(2, "31") {
            Ok(Day(parts.join(".")))
        } else {
            Err(ParseDayError(text.to_owned()))
        }
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl Day {
    /// The earliest day that an incomplete date can mean, and the latest, for comparing as text.
    fn bounds(date: &str) -> (String, String) {
        let fill = |unknown: char| -> String {
            let template = "????.??.??".chars().enumerate();
            template
                .map(|(at, hole)| match date.chars().nth(at) {
                    Some('?') | None if hole == '?' => unknown,
                    Some(known) if hole == '?' => known,
                    _ => '.',
                })
                .collect()
        };
        (fill('0'), fill('9'))
    }
}

impl Search {
    /// Tells whether a game with these tags is looked for. A date that the tags leave open lets the
    /// game through where it can fit. Case and accents do not matter.
    #[must_use]
    pub fn finds(&self, tags: &Tags) -> bool {
        let heading = Heading::from_fields(|field| tags.get(field.tag()));
        Finder::new(self).finds(&heading)
    }
}

/// A search that is made ready for many games.
#[derive(Clone, Debug)]
pub struct Finder {
    player: Option<Vec<String>>,
    event: Option<String>,
    opening: Option<String>,
    result: Option<String>,
    since: Option<String>,
    until: Option<String>,
}

impl Finder {
    /// Makes a search ready.
    #[must_use]
    pub fn new(search: &Search) -> Finder {
        let folded = |text: &Option<String>| text.as_deref().map(|text| fold(text).into_owned());
        let words = |name: &str| words(&fold(name)).map(str::to_owned).collect();
        Finder {
            player: search.player.as_deref().map(words),
            event: folded(&search.event),
            opening: folded(&search.opening),
            result: search.result.clone(),
            since: search.since.as_ref().map(|since| Day::bounds(&since.0).0),
            until: search.until.as_ref().map(|until| Day::bounds(&until.0).1),
        }
    }

    /// Tells whether a game with this heading is looked for.
    #[must_use]
    pub fn finds(&self, heading: &Heading<'_>) -> bool {
        self.finds_by(|field| self.fits(field, heading.get(field)))
    }

    /// Puts together whether a game is looked for from whether each of its fields [`fits`](Finder::fits).
    pub(super) fn finds_by(&self, fits: impl Fn(Field) -> bool) -> bool {
        // A condition is met where one of its fields fits.
        let is_met =
            |asked: bool, fields: &[Field]| !asked || fields.iter().any(|field| fits(*field));
        is_met(self.player.is_some(), &[Field::White, Field::Black])
            && is_met(self.result.is_some(), &[Field::Result])
            && is_met(self.since.is_some() || self.until.is_some(), &[Field::Date])
            && is_met(
                self.opening.is_some(),
                &[Field::Eco, Field::Opening, Field::Variation],
            )
            && is_met(self.event.is_some(), &[Field::Event, Field::Site])
    }

    /// Tells whether one field's value is what is looked for in that field.
    pub(super) fn fits(&self, field: Field, value: Option<&str>) -> bool {
        let holds = |part: &Option<String>| {
            value
                .zip(part.as_deref())
                .is_some_and(|(value, part)| fold(value).contains(part))
        };
        match field {
            Field::White | Field::Black => value
                .zip(self.player.as_deref())
                .is_some_and(|(name, wanted)| fits_name(name, wanted)),
            Field::Event | Field::Site => holds(&self.event),
            Field::Opening | Field::Variation => holds(&self.opening),
            Field::Eco => value
                .zip(self.opening.as_deref())
                .is_some_and(|(code, wanted)| !code.is_empty() && fold(code).starts_with(wanted)),
            Field::Result => value == self.result.as_deref(),
            Field::Date => {
                let (earliest, latest) = Day::bounds(value.unwrap_or(""));
                self.since.as_ref().is_none_or(|since| latest >= *since)
                    && self.until.as_ref().is_none_or(|until| earliest <= *until)
            }
        }
    }
}

/// Tells whether a name holds all the wanted words, which are folded already.
fn fits_name(name: &str, wanted: &[String]) -> bool {
    wanted.iter().all(|wanted| {
        may_hold_word(name, wanted) && words(name).any(|word| fits_word(word, wanted))
    })
}

/// Tells whether some word of the name begins with the letter wanted, or with one that may turn out to
/// be it without its accent. Most names are ruled out by this.
fn may_hold_word(name: &str, wanted: &str) -> bool {
    let Some(first) = wanted.as_bytes().first() else {
        return true;
    };
    let mut before = b' ';
    name.bytes().any(|byte| {
        let begins = !std::mem::replace(&mut before, byte).is_ascii_alphanumeric();
        begins && (!byte.is_ascii() || byte.to_ascii_lowercase() == *first)
    })
}

fn fits_word(word: &str, wanted: &str) -> bool {
    word.eq_ignore_ascii_case(wanted) || (!word.is_ascii() && fold(word) == wanted)
}

/// Takes away what does not matter when names are compared: case, accents, moves and ligatures.
fn fold(text: &str) -> Cow<'_, str> {
    if text.is_ascii() {
        return if text.bytes().any(|byte| byte.is_ascii_uppercase()) {
            text.to_ascii_lowercase().into()
        } else {
            text.into()
        };
    }
    let mut folded = String::with_capacity(text.len());
    for char in text.nfkd().filter(|char| !is_combining_mark(*char)) {
        for small in char.to_lowercase() {
            match small {
                'ø' => folded.push('o'),
                'ł' => folded.push('l'),
                'đ' | 'ð' => folded.push('d'),
                'ħ' => folded.push('h'),
                'ı' => folded.push('i'),
                'ß' => folded.push_str("ss"),
                'æ' => folded.push_str("ae"),
                'œ' => folded.push_str("oe"),
                'þ' => folded.push_str("th"),
                // A capital I with a dot becomes two in small letters.
                other if is_combining_mark(other) => {}
                other => folded.push(other),
            }
        }
    }
    folded.into()
}

/// The words of a name, without commas and periods.
fn words(name: &str) -> impl Iterator<Item = &str> {
    let parts = |part: char| part == ',' || part == '.' || part == ' ' || part.is_whitespace();
    name.split(parts).filter(|word| !word.is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tags() -> Tags {
        [
            ("Event", "Lamplight Evening"),
            ("Date", "2026.03.??"),
            ("White", "Quill, Tamsin"),
            ("Black", "Orrin Vale"),
            ("Result", "1-0"),
            ("ECO", "C50"),
            ("Opening", "Italian Game"),
        ]
        .into_iter()
        .collect()
    }

    #[test]
    fn a_player_is_found_by_words_in_any_order() {
        for player in ["Tamsin Quill", "quill, tamsin", "Quill", "vale"] {
            let search = Search {
                player: Some(player.into()),
                ..Search::default()
            };
            assert!(search.finds(&tags()), "{player}");
        }
        for player in ["Qui", "Tamsin Vale", "Nobody"] {
            let search = Search {
                player: Some(player.into()),
                ..Search::default()
            };
            assert!(!search.finds(&tags()), "{player}");
        }
    }

    #[test]
    fn an_opening_is_found_by_code_or_name() {
        for (opening, found) in [("C5", true), ("c50", true), ("italian", true), ("B", false)] {
            let search = Search {
                opening: Some(opening.into()),
                ..Search::default()
            };
            assert_eq!(search.finds(&tags()), found, "{opening}");
        }
    }

    #[test]
    fn a_date_that_is_open_fits_where_it_can() {
        let search = |since: Option<&str>, until: Option<&str>| Search {
            since: since.map(|day| day.parse().unwrap()),
            until: until.map(|day| day.parse().unwrap()),
            ..Search::default()
        };
        assert!(search(Some("2026.03.15"), None).finds(&tags()));
        assert!(search(Some("2026"), Some("2026")).finds(&tags()));
        assert!(search(None, Some("2026-03-01")).finds(&tags()));
        assert!(!search(Some("2026.04"), None).finds(&tags()));
        assert!(!search(None, Some("2026.02.28")).finds(&tags()));
        for no_day in ["March", "2026.13", "2026.00", "2026.12.32", "2026.1.1", ""] {
            assert!(no_day.parse::<Day>().is_err(), "{no_day}");
        }
    }
}
