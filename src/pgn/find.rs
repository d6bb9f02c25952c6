//! Finding games by their tags.

use std::borrow::Cow;
use std::ops::RangeInclusive;
use std::str::FromStr;
use std::sync::atomic::{AtomicUsize, Ordering};

use serde::{Deserialize, Serialize};
use shakmaty::{Chess, Color, Position};

use super::day::Day;
use super::heading::{Field, Heading};
use super::lost::Cost;
use super::name::{Nearness, Wanted, joined};
use super::opening::is_of_family;
use super::passage::Passage;
use super::reading::{check, passes};
use crate::game::GameResult;
use crate::rules::standard;

/// What a game must be like. An empty search lets every game through.
#[derive(Clone, Debug, Default)]
pub struct Search {
    /// Words of the name of White or Black, in any order.
    pub player: Option<String>,
    /// A part of the event's or the site's name.
    pub event: Option<String>,
    /// The opening.
    pub opening: Option<Opening>,
    /// How it ended.
    pub ended: Option<Ended>,
    /// How many plies it has.
    pub plies: Option<RangeInclusive<usize>>,
    /// The first day.
    pub since: Option<Day>,
    /// The last day.
    pub until: Option<Day>,
}

/// How a game ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Ended {
    /// White won, by the tag or else by the end of the moves.
    #[serde(rename = "1-0")]
    WhiteWins,
    /// Black won.
    #[serde(rename = "0-1")]
    BlackWins,
    /// Nobody won.
    #[serde(rename = "1/2-1/2")]
    Draw,
    /// The end is not known.
    #[serde(rename = "*")]
    Unknown,
    /// The player won who is looked for.
    Won,
    /// That player lost.
    Lost,
}

/// An opening as people name it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Opening {
    /// ECO codes, or their beginnings, from the first to the last.
    Codes(String, String),
    /// A part of the opening's or the family's name, with letters and digits alone.
    Name(String),
    /// The position that the first moves lead to, in whatever order they are played.
    Position(Box<Chess>),
}

impl FromStr for Opening {
    type Err = String;

    /// Reads a code (`B20`), two codes (`B20-B99`), first moves (`1. e4 c5`), or a name.
    fn from_str(text: &str) -> Result<Opening, String> {
        let is_code = |code: &str| {
            let mut bytes = code.bytes();
            let is_letter = bytes
                .next()
                .is_some_and(|byte| matches!(byte.to_ascii_uppercase(), b'A'..=b'E'));
            is_letter && code.len() <= 3 && bytes.all(|byte| byte.is_ascii_digit())
        };
        let (first, last) = text.split_once('-').unwrap_or((text, text));
        let is_move =
            (text.split_whitespace().next()).is_some_and(|first| standard(first).is_some());
        if is_code(first) && is_code(last) && !is_move {
            let [first, last] = [first, last].map(str::to_ascii_uppercase);
            let len = first.len().min(last.len());
            if first[..len] > last[..len] {
                return Err(format!(
                    "{first}-{last} runs backwards: write {last}-{first}"
                ));
            }
            return Ok(Opening::Codes(first, last));
        }
        if !is_move && !text.starts_with("1.") {
            return Ok(Opening::Name(joined(text)));
        }
        let reading = check(&Passage::alone(text));
        match reading
            .faults
            .iter()
            .find(|fault| fault.cost > Cost::Nothing)
        {
            Some(fault) => Err(format!("\"{}\": {}", fault.token, fault.reason)),
            None => Ok(Opening::Position(Box::new(reading.end))),
        }
    }
}

/// Tells whether the main line of a game comes to a position.
fn comes_to(passage: &Passage, wanted: &Chess) -> bool {
    /// What was not reached by then is no opening.
    const PLIES: usize = 60;
    let is_it =
        |position: &Chess| position.turn() == wanted.turn() && position.board() == wanted.board();
    passes(passage, PLIES, is_it)
}

/// A search that is made ready for many games.
#[derive(Debug)]
pub struct Finder {
    search: Search,
    player: Option<Wanted>,
    nearness: Nearness,
    /// How many games fitted but for their date, which nobody knows.
    undated: AtomicUsize,
}

impl Finder {
    /// Makes a search ready, for players' names that come so near.
    pub fn new(search: &Search, nearness: Nearness) -> Finder {
        let event = search.event.as_deref();
        Finder {
            search: Search {
                event: event.map(joined),
                ..search.clone()
            },
            player: search.player.as_deref().map(Wanted::new),
            nearness,
            undated: AtomicUsize::new(0),
        }
    }

    /// Tells whether a game is looked for, whose text is given as a passage where its moves have to be read. A
    /// date of which the month or the day is open lets the game through where it can fit; without a year
    /// nothing fits.
    pub fn finds(&self, heading: &Heading<'_>, passage: impl Fn() -> Passage) -> bool {
        let search = &self.search;
        let is_event = |wanted: &String| holds(heading, &[Field::Event, Field::Site], wanted);
        let is_opening = |wanted: &Opening| match wanted {
            Opening::Codes(first, last) => {
                let code = heading
                    .get(Field::Eco)
                    .unwrap_or_default()
                    .to_ascii_uppercase();
                let fits = |bound: &String| code.get(..bound.len());
                fits(first).is_some_and(|code| code >= &first[..])
                    && fits(last).is_some_and(|code| code <= &last[..])
            }
            Opening::Name(name) => {
                let code = heading.get(Field::Eco).unwrap_or_default();
                holds(heading, &[Field::Opening, Field::Variation], name)
                    || is_of_family(&code, name)
            }
            // That takes longest and comes last.
            Opening::Position(_) => true,
        };
        let by_tags = (self.player.is_none() || self.side(heading).is_some())
            && search.ended.is_none_or(|ended| self.is_end(heading, ended))
            && search.opening.as_ref().is_none_or(is_opening)
            && search.event.as_ref().is_none_or(is_event);
        by_tags && self.is_of_time(heading) && self.is_played(&passage)
    }

    /// Returns the side that the player has who is looked for.
    pub fn side(&self, heading: &Heading<'_>) -> Option<Color> {
        let wanted = self.player.as_ref()?;
        let fits = |name: Cow<'_, str>| wanted.fits(&name, self.nearness);
        let has = |field| heading.get(field).is_some_and(fits);
        if has(Field::White) {
            Some(Color::White)
        } else {
            has(Field::Black).then_some(Color::Black)
        }
    }

    /// Returns the name of the player who is looked for.
    pub fn name(&self, heading: &Heading<'_>) -> Option<String> {
        let field = match self.side(heading)? {
            Color::White => Field::White,
            Color::Black => Field::Black,
        };
        heading.get(field).map(Cow::into_owned)
    }

    /// Returns how many games fitted but for their date, which nobody knows.
    pub fn undated(&self) -> usize {
        self.undated.load(Ordering::Relaxed)
    }

    fn is_end(&self, heading: &Heading<'_>, wanted: Ended) -> bool {
        let result = heading.result().unwrap_or(GameResult::Unknown);
        match wanted {
            Ended::WhiteWins => result == GameResult::WhiteWins,
            Ended::BlackWins => result == GameResult::BlackWins,
            Ended::Draw => result == GameResult::Draw,
            Ended::Unknown => result == GameResult::Unknown,
            Ended::Won => self.side(heading).is_some_and(|side| result == wins(side)),
            Ended::Lost => self.side(heading).is_some_and(|side| result == wins(!side)),
        }
    }

    fn is_of_time(&self, heading: &Heading<'_>) -> bool {
        let Search { since, until, .. } = &self.search;
        if since.is_none() && until.is_none() {
            return true;
        }
        let date = heading.get(Field::Date).unwrap_or_default();
        if !date.starts_with(|c: char| c.is_ascii_digit()) {
            self.undated.fetch_add(1, Ordering::Relaxed);
            return false;
        }
        since.as_ref().is_none_or(|since| since.may_precede(&date))
            && until.as_ref().is_none_or(|until| until.may_follow(&date))
    }

    fn is_played(&self, passage: &impl Fn() -> Passage) -> bool {
        let has_length = |plies: &RangeInclusive<usize>| plies.contains(&check(&passage()).plies);
        let position = match &self.search.opening {
            Some(Opening::Position(position)) => Some(position),
            Some(Opening::Codes(..) | Opening::Name(_)) | None => None,
        };
        position.is_none_or(|position| comes_to(&passage(), position))
            && self.search.plies.as_ref().is_none_or(has_length)
    }
}

const fn wins(side: Color) -> GameResult {
    match side {
        Color::White => GameResult::WhiteWins,
        Color::Black => GameResult::BlackWins,
    }
}

/// Tells whether one of these fields holds a joined text.
fn holds(heading: &Heading<'_>, fields: &[Field], wanted: &str) -> bool {
    let mut values = fields.iter().filter_map(|field| heading.get(*field));
    values.any(|value| joined(&value).contains(wanted))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::pgn::Collection;

    const TAGS: &str = "[Event \"Lamplight Evening\"]\n[Date \"2026.03.??\"]\n[White \"Quill, Tamsin\"]\n\
        [Black \"Orrin Vale\"]\n[Result \"1-0\"]\n[ECO \"C50\"]\n[Opening \"Italian Game\"]\n";

    fn finds(search: &Search) -> bool {
        found(search, TAGS)
    }

    fn found(search: &Search, text: &str) -> bool {
        finds_in(&Finder::new(search, Nearness::Whole), text)
    }

    fn finds_in(finder: &Finder, text: &str) -> bool {
        let block = Collection::new(text.as_bytes()).block(Vec::new());
        let block = block.unwrap().unwrap();
        let span = &block.games()[0];
        finder.finds(&block.heading(span), || block.passage(span))
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
    fn an_opening_is_found_by_code_range_name_or_first_moves() {
        let text = format!("{TAGS}\n1. e4 e5 2. Bc4 Nc6 3. Nf3 Bc5 1-0");
        for (opening, is_found) in [
            ("C5", true),
            ("c50", true),
            ("C40-C60", true),
            ("B-D", true),
            ("C51-C60", false),
            ("italian", true),
            ("giuoco", true),
            ("Italian-game", true),
            ("e4 e5 Bc4", true),
            ("B", false),
            ("1. e4 e5 2. Nf3 Nc6 3. Bc4", true),
            ("e4", true),
            ("1. d4", false),
        ] {
            let search = Search {
                opening: Some(opening.parse().unwrap()),
                ..Search::default()
            };
            assert_eq!(found(&search, &text), is_found, "{opening}");
        }
        for no_opening in ["1. e5", "e4 e4", "B99-B20"] {
            assert!(no_opening.parse::<Opening>().is_err(), "{no_opening}");
        }
    }

    #[test]
    fn an_end_is_found_by_tag_or_moves_and_for_a_player() {
        let ends = |tags: &str, moves: &str, ended, player: &str| {
            let search = Search {
                ended: Some(ended),
                player: (!player.is_empty()).then(|| player.to_owned()),
                ..Search::default()
            };
            found(
                &search,
                &format!("[White \"Quill\"]\n[Black \"Vale\"]\n{tags}\n{moves}\n"),
            )
        };
        let white = Ended::WhiteWins;
        assert!(ends("[Result \"1:0\"]\n", "1. e4 *", white, ""));
        assert!(
            ends("", "1. e4 1-0", white, "") && ends("[Result \"?\"]\n", "1. e4 1:0", white, "")
        );
        assert!(!ends("", "1. e4", white, ""));
        assert!(
            ends("", "1. e4 1-0", Ended::Won, "Quill")
                && ends("", "1. e4 1-0", Ended::Lost, "Vale")
        );
        assert!(
            !ends("", "1. e4 1-0", Ended::Lost, "Quill")
                && !ends("", "1. e4 1/2-1/2", Ended::Won, "Vale")
        );
    }

    #[test]
    fn a_length_is_counted_in_plies_and_a_game_without_a_date_is_left_out_and_counted() {
        let with = |plies| Search {
            plies: Some(plies),
            ..Search::default()
        };
        assert!(
            found(&with(2..=3), "1. e4 e5 2. d4 *") && !found(&with(4..=9), "1. e4 e5 2. d4 *")
        );
        let search = Search {
            since: Some("1900".parse().unwrap()),
            ..Search::default()
        };
        let finder = Finder::new(&search, Nearness::Whole);
        assert!(!finds_in(&finder, "[Date \"????.??.??\"]\n\n1. e4 *"));
        assert_eq!(finder.undated(), 1);
    }
}
