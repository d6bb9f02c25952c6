//! Finding games by their tags.

use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

use super::heading::{Field, Heading};

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
        const BOUNDS: [(&str, &str); 3] = [("0000", "9999"), ("01", "12"), ("01", "31")];
        let parts: Vec<&str> = text.split(['.', '-', '/']).collect();
        let mut bounded = parts.iter().zip(BOUNDS);
        let fits = bounded.all(|(part, (least, most))| {
            part.len() == most.len()
                && part.bytes().all(|byte| byte.is_ascii_digit())
                && (least..=most).contains(part)
        });
        if fits && parts.len() <= BOUNDS.len() {
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

/// Fills what a date leaves open, so that dates can be compared: with zeros for the earliest day that it can
/// mean, with nines for the latest.
fn filled(date: &str, unknown: u8) -> [u8; 10] {
    let mut filled = *b"????.??.??";
    for (place, known) in filled.iter_mut().zip(date.bytes()) {
        if *place == b'?' {
            *place = known;
        }
    }
    filled.map(|byte| if byte == b'?' { unknown } else { byte })
}

/// A search that is made ready for many games.
#[derive(Clone, Debug)]
pub struct Finder(Search);

impl Finder {
    /// Makes a search ready.
    pub fn new(search: &Search) -> Finder {
        let folded = |text: &Option<String>| text.as_deref().map(|text| fold(text).into_owned());
        Finder(Search {
            player: folded(&search.player),
            event: folded(&search.event),
            opening: folded(&search.opening),
            ..search.clone()
        })
    }

    /// Tells whether a game with this heading is looked for. A date that the tags leave open lets the
    /// game through where it can fit. Case and accents do not matter.
    pub fn finds(&self, heading: &Heading<'_>) -> bool {
        let Finder(search) = self;
        // A condition is met where one of its fields fits.
        let any = |fields: &[Field], fits: &dyn Fn(&str) -> bool| {
            let mut values = fields.iter().filter_map(|field| heading.get(*field));
            values.any(|value| fits(&value))
        };
        let holds =
            |fields: &[Field], wanted: &str| any(fields, &|name| fold(name).contains(wanted));
        let is_player = |wanted: &String| {
            let fits = |name: &str| fits_name(name, wanted);
            any(&[Field::White, Field::Black], &fits)
        };
        let is_result = |wanted: &String| any(&[Field::Result], &|value| value == wanted);
        let is_opening = |wanted: &String| {
            let fits = |code: &str| !code.is_empty() && fold(code).starts_with(wanted);
            any(&[Field::Eco], &fits) || holds(&[Field::Opening, Field::Variation], wanted)
        };
        let is_event = |wanted: &String| holds(&[Field::Event, Field::Site], wanted);
        let date = || heading.get(Field::Date).unwrap_or_default();
        let is_since = |Day(since): &Day| filled(&date(), b'9') >= filled(since, b'0');
        let is_until = |Day(until): &Day| filled(&date(), b'0') <= filled(until, b'9');
        search.player.as_ref().is_none_or(is_player)
            && search.result.as_ref().is_none_or(is_result)
            && search.since.as_ref().is_none_or(is_since)
            && search.until.as_ref().is_none_or(is_until)
            && search.opening.as_ref().is_none_or(is_opening)
            && search.event.as_ref().is_none_or(is_event)
    }
}

/// Tells whether a name holds all the wanted words, which are folded already.
fn fits_name(name: &str, wanted: &str) -> bool {
    words(wanted).all(|wanted| {
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

/// Takes away what does not matter when names are compared: case, accents, crossbars and ligatures.
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

    const TAGS: &str = "[Event \"Lamplight Evening\"]\n[Date \"2026.03.??\"]\n[White \"Quill, Tamsin\"]\n\
        [Black \"Orrin Vale\"]\n[Result \"1-0\"]\n[ECO \"C50\"]\n[Opening \"Italian Game\"]\n";

    fn finds(search: &Search) -> bool {
        Finder::new(search).finds(&Heading::of(TAGS.as_bytes()))
    }

    #[test]
    fn a_player_is_found_by_words_in_any_order() {
        for player in ["Tamsin Quill", "quill, tamsin", "Quill", "vale"] {
            let search = Search {
                player: Some(player.into()),
                ..Search::default()
            };
            assert!(finds(&search), "{player}");
        }
        for player in ["Qui", "Tamsin Vale", "Nobody"] {
            let search = Search {
                player: Some(player.into()),
                ..Search::default()
            };
            assert!(!finds(&search), "{player}");
        }
    }

    #[test]
    fn an_opening_is_found_by_code_or_name() {
        for (opening, found) in [("C5", true), ("c50", true), ("italian", true), ("B", false)] {
            let search = Search {
                opening: Some(opening.into()),
                ..Search::default()
            };
            assert_eq!(finds(&search), found, "{opening}");
        }
    }

    #[test]
    fn a_date_that_is_open_fits_where_it_can() {
        let search = |since: Option<&str>, until: Option<&str>| Search {
            since: since.map(|day| day.parse().unwrap()),
            until: until.map(|day| day.parse().unwrap()),
            ..Search::default()
        };
        assert!(finds(&search(Some("2026.03.15"), None)));
        assert!(finds(&search(Some("2026"), Some("2026"))));
        assert!(finds(&search(None, Some("2026-03-01"))));
        assert!(!finds(&search(Some("2026.04"), None)));
        assert!(!finds(&search(None, Some("2026.02.28"))));
        for no_day in ["March", "2026.13", "2026.00", "2026.12.32", "2026.1.1", ""] {
            assert!(no_day.parse::<Day>().is_err(), "{no_day}");
        }
    }
}
