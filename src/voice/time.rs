//! Dates and durations in words.

use jiff::Timestamp;
use jiff::civil::Date;

use super::naming::count;

/// Names a month of the calendar; `None` where there is no such month.
fn month(number: i8) -> Option<String> {
    let first = Date::new(2000, number, 1).ok()?;
    Some(first.strftime("%B").to_string())
}

/// Says on which day a time lies, by the clock of Greenwich.
pub(crate) fn day(time: Timestamp) -> String {
    time.strftime("%-d %B %-Y").to_string()
}

/// Names a day in little room: "1 Mar 2026".
pub(super) fn date_briefly(time: Timestamp) -> String {
    time.strftime("%-d %b %-Y").to_string()
}

/// Says the date of a game as far as it is known: `2024.03.??` is "March 2024" (PGN standard,
/// 8.1.1.3). A date in another form is said as it stands; nothing known is `None`.
pub(super) fn date(text: &str) -> Option<String> {
    let unknown = |part: &str| part.chars().all(|c| c == '?');
    let parts: Vec<&str> = text.split('.').collect();
    let [year, number, day] = parts[..] else {
        return Some(text.to_owned());
    };
    if unknown(year) {
        return None;
    }
    if unknown(number) {
        return Some(year.to_owned());
    }
    let name = number.parse().ok().and_then(month);
    let said = match (name, year.parse::<u16>(), day.parse::<u8>()) {
        (Some(name), Ok(_), _) if unknown(day) => format!("{name} {year}"),
        (Some(name), Ok(_), Ok(day @ 1..=31)) => format!("{day} {name} {year}"),
        _ => text.to_owned(),
    };
    Some(said)
}

/// Says a duration given in milliseconds: "4.2 seconds", from a minute on "1 minute 5 seconds".
pub(crate) fn duration(millis: u64) -> String {
    let tenths = millis.saturating_add(50) / 100;
    match (tenths / 10, tenths % 10) {
        (seconds @ 0..60, 0) => count(seconds, "second", "seconds"),
        (seconds @ 0..60, tenth) => format!("{seconds}.{tenth} seconds"),
        _ => minutes(millis.saturating_add(500) / 1000),
    }
}

fn minutes(seconds: u64) -> String {
    let minutes = count(seconds / 60, "minute", "minutes");
    match seconds % 60 {
        0 => minutes,
        rest => format!("{minutes} {}", count(rest, "second", "seconds")),
    }
}

/// Writes seconds with a tenth, without their name.
pub(crate) fn tenths(millis: u64) -> String {
    let tenths = millis.saturating_add(50) / 100;
    format!("{}.{}", tenths / 10, tenths % 10)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_date_is_said_as_far_as_it_is_known() {
        let table = [
            ("1992.11.04", Some("4 November 1992")),
            ("1992.11.??", Some("November 1992")),
            ("1992.??.??", Some("1992")),
            ("????.??.??", None),
            ("1992.13.01", Some("1992.13.01")),
            ("1992.00.01", Some("1992.00.01")),
            ("1992.11.77", Some("1992.11.77")),
            ("autumn 1851", Some("autumn 1851")),
        ];
        for (text, said) in table {
            assert_eq!(date(text).as_deref(), said, "{text}");
        }
    }

    #[test]
    fn a_duration_is_said_as_a_person_would_say_it() {
        let table = [
            (0, "0 seconds"),
            (49, "0 seconds"),
            (50, "0.1 seconds"),
            (949, "0.9 seconds"),
            (950, "1 second"),
            (1_049, "1 second"),
            (1_050, "1.1 seconds"),
            (4_210, "4.2 seconds"),
            (12_000, "12 seconds"),
            (59_949, "59.9 seconds"),
            (59_950, "1 minute"),
            (60_500, "1 minute 1 second"),
            (65_000, "1 minute 5 seconds"),
            (3_600_000, "60 minutes"),
        ];
        for (millis, said) in table {
            assert_eq!(duration(millis), said, "{millis}");
        }
        assert!(duration(u64::MAX).ends_with("seconds"));
    }
}
