//! Comments: their text, and the clock times in them.

use std::time::Duration;

use super::passage::decode;

/// Takes the marks off a comment; its line ends become LF.
pub(super) fn comment_text(token: &[u8]) -> String {
    let text = decode(inside(token));
    let text = text.trim();
    if text.contains('\r') {
        text.replace("\r\n", "\n").replace('\r', "\n")
    } else {
        text.to_owned()
    }
}

/// Tells whether a comment holds white space at most.
pub(super) fn is_empty(token: &[u8]) -> bool {
    let inside = inside(token);
    inside.trim_ascii().is_empty() || decode(inside).trim().is_empty()
}

fn inside(token: &[u8]) -> &[u8] {
    match token {
        [b'{', inside @ .., b'}'] | [b'{' | b';', inside @ ..] => inside,
        all => all,
    }
}

/// Reads the time that a side has left from a comment that holds `[%clk h:mm:ss]`.
///
/// The command is common practice, no source.
///
/// ```
/// use std::time::Duration;
/// use sansvoir::pgn::clock;
///
/// assert_eq!(clock("[%clk 1:30:05] a long think"), Some(Duration::from_secs(5405)));
/// assert_eq!(clock("no clock here"), None);
/// ```
#[must_use]
pub fn clock(comment: &str) -> Option<Duration> {
    let (_, rest) = comment.split_once("[%clk")?;
    let (time, _) = rest.split_once(']')?;
    let mut parts = time.trim().rsplit(':');
    let seconds: f64 = digits(parts.next()?)?.parse().ok()?;
    let minutes: u32 = digits(parts.next()?)?.parse().ok()?;
    let hours: u32 = digits(parts.next().unwrap_or("0"))?.parse().ok()?;
    let whole = parts.next().is_none() && minutes < 60 && seconds < 60.0;
    let time = u64::from(hours) * 3600 + u64::from(minutes) * 60;
    whole.then(|| Duration::from_secs(time) + Duration::from_secs_f64(seconds))
}

fn digits(part: &str) -> Option<&str> {
    let plain = part
        .bytes()
        .all(|byte| byte.is_ascii_digit() || byte == b'.');
    plain.then_some(part)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_whole_time_is_read() {
        assert_eq!(
            clock("x [%clk 0:00:09.5] y"),
            Some(Duration::from_millis(9500))
        );
        assert_eq!(clock("[%clk 12:05]"), Some(Duration::from_secs(725)));
        for text in [
            "[%clk ]",
            "[%clk 5]",
            "[%clk 1:2:3:4]",
            "[%clk -1:00:00]",
            "[%clk 0:99:00]",
            "[%clk 0:01:00",
        ] {
            assert_eq!(clock(text), None, "{text}");
        }
    }
}
