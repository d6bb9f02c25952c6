//! How long something took, in words.

use super::naming::count;

/// Says a duration given in milliseconds: "4.2 seconds", from a minute on "1 minute 5 seconds".
///
/// ```
/// assert_eq!(sansvoir::voice::duration(4_210), "4.2 seconds");
/// ```
#[must_use]
pub fn duration(millis: u64) -> String {
    let tenths = millis.saturating_add(50) / 100;
    match (tenths / 10, tenths % 10) {
        (1, 0) => "1 second".to_owned(),
        (seconds @ 0..60, 0) => format!("{seconds} seconds"),
        (seconds @ 0..60, tenth) => format!("{seconds}.{tenth} seconds"),
        _ => minutes(millis.saturating_add(500) / 1000),
    }
}

fn minutes(seconds: u64) -> String {
    let part =
        |number: u64, one, many| count(usize::try_from(number).unwrap_or(usize::MAX), one, many);
    let minutes = part(seconds / 60, "minute", "minutes");
    match seconds % 60 {
        0 => minutes,
        rest => format!("{minutes} {}", part(rest, "second", "seconds")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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
