//! Days as people and PGN files name them.

use std::fmt;
use std::str::FromStr;

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
        let is_there = |day: &str| day.parse::<jiff::civil::Date>().is_ok();
        if fits && (parts.len() < BOUNDS.len() || is_there(&parts.join("-"))) {
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
    /// Tells whether a date of a game can be this day or a later one.
    pub(super) fn may_precede(&self, date: &str) -> bool {
        filled(date, b'9') >= filled(&self.0, b'0')
    }

    /// Tells whether a date of a game can be this day or an earlier one.
    pub(super) fn may_follow(&self, date: &str) -> bool {
        filled(date, b'0') <= filled(&self.0, b'9')
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_date_that_is_open_fits_where_it_can() {
        let day = |text: &str| text.parse::<Day>().unwrap();
        let date = "2026.03.??";
        assert!(day("2026.03.15").may_precede(date) && day("2026").may_precede(date));
        assert!(day("2026").may_follow(date) && day("2026-03-01").may_follow(date));
        assert!(!day("2026.04").may_precede(date) && !day("2026.02.28").may_follow(date));
        for no_day in [
            "March",
            "2026.13",
            "2026.00",
            "2026.12.32",
            "2021.02.30",
            "2026.03.01.5",
            "2026.1.1",
            "",
        ] {
            assert!(no_day.parse::<Day>().is_err(), "{no_day}");
        }
    }
}
