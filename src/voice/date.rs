//! Dates of games in words.

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// Names a month, 1 to 12.
pub(super) fn month_name(month: i8) -> &'static str {
    let index = usize::try_from(month)
        .ok()
        .and_then(|month| month.checked_sub(1));
    index
        .and_then(|index| MONTHS.get(index))
        .copied()
        .unwrap_or("?")
}

/// Says the date of a game as far as it is known: `2024.03.??` is "March 2024" (PGN standard,
/// 8.1.1.3). A date in another form is said as it stands; nothing known is `None`.
pub(super) fn date(text: &str) -> Option<String> {
    let parts: Vec<&str> = text.split('.').collect();
    let [year, month, day] = parts[..] else {
        return Some(text.to_owned());
    };
    let unknown = |part: &str| part.chars().all(|c| c == '?');
    if unknown(year) {
        return None;
    }
    if unknown(month) {
        return Some(year.to_owned());
    }
    let name = month
        .parse::<usize>()
        .ok()
        .and_then(|number| MONTHS.get(number.checked_sub(1)?));
    let (Some(name), Ok(_)) = (name, year.parse::<u16>()) else {
        return Some(text.to_owned());
    };
    if unknown(day) {
        return Some(format!("{name} {year}"));
    }
    match day.parse::<u8>() {
        Ok(day @ 1..=31) => Some(format!("{day} {name} {year}")),
        _ => Some(text.to_owned()),
    }
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
}
