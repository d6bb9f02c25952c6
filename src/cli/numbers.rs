//! Which games of a file are meant, by their numbers.

use std::fmt::{self, Display};
use std::str::FromStr;

use crate::voice::commands as words;

/// Game numbers, each counted from 1 in its file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Numbers {
    pub(super) first: usize,
    pub(super) last: usize,
    /// Which sideline of the one game is meant, counted from 1 in the order of the text.
    pub(super) sideline: Option<usize>,
}

impl Numbers {
    /// Tells whether a game has one of these numbers.
    pub(super) const fn contain(self, number: usize) -> bool {
        self.first <= number && number <= self.last
    }

    /// Tells whether exactly one game is named.
    pub(super) const fn is_one(self) -> bool {
        self.first == self.last
    }
}

impl FromStr for Numbers {
    type Err = String;

    fn from_str(text: &str) -> Result<Numbers, String> {
        let number = |text: &str| {
            let number = text.parse().ok().filter(|number| *number > 0);
            number.ok_or_else(|| words::no_game_number(text))
        };
        let (games, sideline) = text.split_once(':').unzip();
        let sideline = sideline.map(number).transpose()?;
        let (first, last) = match text.split_once('-') {
            _ if text == "all" => (1, usize::MAX),
            Some((first, last)) if sideline.is_none() => (number(first)?, number(last)?),
            _ => [number(games.unwrap_or(text))?; 2].into(),
        };
        if first > last {
            return Err(words::games_backwards(first, last));
        }
        Ok(Numbers {
            first,
            last,
            sideline,
        })
    }
}

impl Display for Numbers {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.first, self.last) {
            (first, last) if first == last => write!(to, "{first}")?,
            (1, usize::MAX) => to.write_str("all")?,
            (first, last) => write!(to, "{first}-{last}")?,
        }
        self.sideline
            .map_or(Ok(()), |number| write!(to, ":{number}"))
    }
}
