//! Lines of any text, however long or broken, in bounded memory.

use std::io::{self, BufRead, Read};

/// How much of one line is kept, in bytes; the rest of a longer line is dropped.
pub const LONGEST_LINE: usize = 64 << 10;

/// One line as it came in.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct RawLine {
    /// The text without its line ending.
    pub(super) text: String,
    /// How many bytes were dropped from its end.
    pub(super) dropped: u64,
}

impl RawLine {
    /// Keeps as much of a line as may be kept. Bytes that are no UTF-8 become U+FFFD.
    pub(super) fn new(bytes: &[u8], dropped_before: u64) -> RawLine {
        let mut kept = bytes.len().min(LONGEST_LINE);
        if kept < bytes.len() {
            // A character that would be cut in two is dropped whole.
            while kept > LONGEST_LINE - 3 && bytes[kept] & 0xc0 == 0x80 {
                kept -= 1;
            }
        }
        RawLine {
            text: String::from_utf8_lossy(&bytes[..kept]).into_owned(),
            dropped: dropped_before + (bytes.len() - kept) as u64,
        }
    }

    /// Takes away the byte order mark that some programs begin a text with.
    pub(super) fn without_mark(mut self) -> RawLine {
        if let Some(text) = self.text.strip_prefix('\u{feff}') {
            self.text = text.to_owned();
        }
        self
    }
}

/// Reads the next line; `None` at the end of the input. A last line needs no newline.
pub(super) fn read_line(input: &mut impl BufRead) -> io::Result<Option<RawLine>> {
    let mut bytes = Vec::new();
    // One byte more than is kept shows whether a character is cut in two.
    let limit = LONGEST_LINE as u64 + 1;
    if input.by_ref().take(limit).read_until(b'\n', &mut bytes)? == 0 {
        return Ok(None);
    }
    if bytes.last() == Some(&b'\n') {
        bytes.pop();
        if bytes.last() == Some(&b'\r') {
            bytes.pop();
        }
        return Ok(Some(RawLine::new(&bytes, 0)));
    }
    let dropped = if bytes.len() as u64 == limit {
        skip_line(input)?
    } else {
        0
    };
    Ok(Some(RawLine::new(&bytes, dropped)))
}

/// Passes over the rest of a line and returns how long it was, its newline left out.
fn skip_line(input: &mut impl BufRead) -> io::Result<u64> {
    let mut skipped = 0;
    loop {
        let buffer = match input.fill_buf() {
            Err(error) if error.kind() == io::ErrorKind::Interrupted => continue,
            filled => filled?,
        };
        if buffer.is_empty() {
            return Ok(skipped);
        }
        let newline = buffer.iter().position(|byte| *byte == b'\n');
        let length = newline.unwrap_or(buffer.len());
        skipped += length as u64;
        input.consume(length + usize::from(newline.is_some()));
        if newline.is_some() {
            return Ok(skipped);
        }
    }
}

#[cfg(test)]
mod tests {
    use std::io::{BufReader, repeat};

    use super::*;

    fn lines(bytes: &[u8]) -> Vec<(String, u64)> {
        let mut input = BufReader::with_capacity(7, bytes);
        let mut lines = Vec::new();
        while let Some(line) = read_line(&mut input).unwrap() {
            lines.push((line.text, line.dropped));
        }
        lines
    }

    #[test]
    fn lines_end_with_a_newline_a_carriage_return_and_newline_or_the_input() {
        let texts = ["e4", "", "d5 e6", "", "last"].map(|text| (text.to_owned(), 0));
        assert_eq!(lines(b"e4\n\nd5 e6\r\n\r\nlast"), texts);
        assert_eq!(lines(b""), []);
        assert_eq!(lines(b"\n"), [(String::new(), 0)]);
    }

    #[test]
    fn bytes_that_are_no_text_break_nothing() {
        assert_eq!(lines(b"\0e4\xff\n"), [("\0e4\u{fffd}".to_owned(), 0)]);
    }

    #[test]
    fn a_line_is_cut_at_its_limit_and_the_next_one_is_whole() {
        for (length, dropped) in [
            (LONGEST_LINE, 0),
            (LONGEST_LINE + 1, 1),
            (LONGEST_LINE + 999, 999),
        ] {
            let lines = lines(
                ["x".repeat(length).as_bytes(), b"\nnext\n"]
                    .concat()
                    .as_slice(),
            );
            assert_eq!(lines[0].0.len(), LONGEST_LINE.min(length));
            assert_eq!(lines[0].1, dropped);
            assert_eq!(lines[1], ("next".to_owned(), 0));
        }
    }

    #[test]
    fn no_character_is_cut_in_two() {
        for shift in 0..4 {
            let text = "x".repeat(shift) + &"♞🐴é".repeat(LONGEST_LINE / 8);
            let lines = lines(text.as_bytes());
            assert!(text.starts_with(&lines[0].0), "shifted by {shift}");
            assert_eq!(lines[0].0.len() as u64 + lines[0].1, text.len() as u64);
        }
    }

    #[test]
    fn a_hundred_million_bytes_without_a_newline_are_one_cut_line() {
        let mut input = BufReader::new(repeat(b'x').take(100_000_000));
        let line = read_line(&mut input).unwrap().unwrap();
        assert_eq!(line.text.len(), LONGEST_LINE);
        assert_eq!(line.dropped, 100_000_000 - LONGEST_LINE as u64);
        assert_eq!(read_line(&mut input).unwrap(), None);
    }
}
