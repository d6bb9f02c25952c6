//! Values that several commands read from the command line.

use std::time::Duration;

/// Reads a time in seconds, with or without a fraction.
pub(super) fn seconds(text: &str) -> Result<Duration, String> {
    text.parse::<f64>()
        .ok()
        .filter(|seconds| *seconds > 0.0 && *seconds <= 86_400.0)
        .map(Duration::from_secs_f64)
        .ok_or_else(|| "write a number of seconds, as in 5 or 2.5".to_owned())
}

/// Counts the milliseconds of a time.
pub(super) fn millis(time: Duration) -> u64 {
    u64::try_from(time.as_millis()).unwrap_or(u64::MAX)
}
