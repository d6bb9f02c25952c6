//! Finding games by their tags.

use std::fmt;
use std::str::FromStr;

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
pub struct NoDay(String);

impl FromStr for Day {
    type Err = NoDay;

    fn from_str(text: &str) -> Result<Day, NoDay> {
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
            Err(NoDay(text.to_owned()))
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
    /// game through where it can fit.
    #[must_use]
    pub fn finds(&self, tags: &Tags) -> bool {
        self.finds_player(tags)
            && self.event.as_ref().is_none_or(|part| {
                ["Event", "Site"]
                    .iter()
                    .any(|tag| holds(tags.get(tag), part))
            })
            && self.finds_opening(tags)
            && self
                .result
                .as_ref()
                .is_none_or(|result| tags.get("Result") == Some(result))
            && self.finds_date(tags)
    }

    fn finds_player(&self, tags: &Tags) -> bool {
        self.player.as_ref().is_none_or(|wanted| {
            ["White", "Black"]
                .iter()
                .filter_map(|tag| tags.get(tag))
                .any(|name| words(wanted).all(|word| words(name).any(|other| other == word)))
        })
    }

    fn finds_opening(&self, tags: &Tags) -> bool {
        self.opening.as_ref().is_none_or(|wanted| {
            let code = tags.get("ECO").unwrap_or("").to_lowercase();
            (!code.is_empty() && code.starts_with(&wanted.to_lowercase()))
                || ["Opening", "Variation"]
                    .iter()
                    .any(|tag| holds(tags.get(tag), wanted))
        })
    }

    fn finds_date(&self, tags: &Tags) -> bool {
        let (earliest, latest) = Day::bounds(tags.get("Date").unwrap_or(""));
        self.since
            .as_ref()
            .is_none_or(|since| latest >= Day::bounds(&since.0).0)
            && self
                .until
                .as_ref()
                .is_none_or(|until| earliest <= Day::bounds(&until.0).1)
    }
}

/// Tells whether a value holds a part, whatever the case of its letters.
fn holds(value: Option<&str>, part: &str) -> bool {
    value.is_some_and(|value| value.to_lowercase().contains(&part.to_lowercase()))
}

/// The words of a name in small letters, without commas and periods.
fn words(name: &str) -> impl Iterator<Item = String> {
    name.split(|c: char| c.is_whitespace() || matches!(c, ',' | '.'))
        .filter(|word| !word.is_empty())
        .map(str::to_lowercase)
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
