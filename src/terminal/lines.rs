//! Standard input: lines of any text, however long or broken, in bounded memory; and games first, replies
//! afterwards.

use std::io::{self, BufRead, Read};
use std::time::Instant;

/// How much of one line is kept, in bytes; the rest of a longer line is dropped.
pub(super) const LONGEST_LINE: usize = 64 << 10;

/// What was said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Said {
    /// A line.
    Line(SaidLine),
    /// Ctrl-C. The caller warns once, and stops when it comes twice in a row.
    Interrupt,
    /// Ctrl-D, the end of the input, or a signal that asks the program to end; after the latter two
    /// nothing else is said.
    End,
}

/// A line that was said.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct SaidLine {
    /// The text, without its line ending and at most 64 KiB of it.
    pub text: String,
    /// How many bytes were dropped because the line was longer: the learner should be told.
    pub dropped: u64,
    /// Milliseconds from the call to the line.
    pub millis: u64,
    /// Whether it was said by mouth; an empty one has only an error behind it.
    pub heard: bool,
}

impl Said {
    /// Keeps as much of a line as may be kept. Bytes that are no UTF-8 become U+FFFD.
    pub(super) fn line(bytes: &[u8], dropped_before: u64) -> Said {
        let mut kept = bytes.len().min(LONGEST_LINE);
        if kept < bytes.len() {
            // A character that would be cut in two is dropped whole.
            while kept > LONGEST_LINE - 3 && bytes[kept] & 0xc0 == 0x80 {
                kept -= 1;
            }
        }
        Said::Line(SaidLine {
            text: String::from_utf8_lossy(&bytes[..kept]).into_owned(),
            dropped: dropped_before + (bytes.len() - kept) as u64,
            ..SaidLine::default()
        })
    }

    /// Notes how long a line took from this time to now.
    pub(super) fn since(mut self, begun: Instant) -> Said {
        if let Said::Line(line) = &mut self {
            line.millis = u64::try_from(begun.elapsed().as_millis()).unwrap_or(u64::MAX);
        }
        self
    }
}

/// Reads the next line, or the end of the input. A last line needs no newline.
pub(super) fn read_line(input: &mut impl BufRead) -> io::Result<Said> {
    let mut bytes = Vec::new();
    let mut goes_on = read_piece(input, &mut bytes)?;
    if bytes.is_empty() {
        return Ok(Said::End);
    }
    let (mut dropped, mut rest) = (0, Vec::new());
    while goes_on {
        rest.clear();
        goes_on = read_piece(input, &mut rest)?;
        dropped += (rest.len() - usize::from(rest.ends_with(b"\n"))) as u64;
    }
    if bytes.pop_if(|last| *last == b'\n').is_some() {
        bytes.pop_if(|last| *last == b'\r');
    }
    Ok(Said::line(&bytes, dropped))
}

/// Reads up to the end of a line, and tells whether it goes on behind the bytes that are kept at once. One byte
/// more than is kept of a line shows whether a character is cut in two.
fn read_piece(input: &mut impl BufRead, bytes: &mut Vec<u8>) -> io::Result<bool> {
    let mut piece = input.by_ref().take(LONGEST_LINE as u64 + 1);
    piece.read_until(b'\n', bytes)?;
    Ok(piece.limit() == 0 && !bytes.ends_with(b"\n"))
}

/// Tells whether the terminal is gone, as when its window is closed.
pub(super) fn is_hang_up(error: &io::Error) -> bool {
    #[cfg(unix)]
    return error.raw_os_error() == Some(rustix::io::Errno::IO.raw_os_error());
    #[cfg(not(unix))]
    return error.kind() == io::ErrorKind::BrokenPipe;
}

/// Opens standard input to read games from it.
///
/// # Errors
///
/// When there is no standard input.
pub(crate) fn games_from_input() -> io::Result<Box<dyn Read + Send>> {
    #[cfg(unix)]
    {
        use std::os::fd::AsFd;

        // No buffer of the standard library: what was read too far is never taken for a reply.
        let input = io::stdin().as_fd().try_clone_to_owned()?;
        Ok(Box::new(std::fs::File::from(input)))
    }
    #[cfg(not(unix))]
    Ok(Box::new(io::stdin()))
}

/// Takes replies from the terminal that controls this process, now that standard input has given
/// games, and returns whether there is one. Where there is none, standard input is at its end.
///
/// # Errors
///
/// When standard input cannot be exchanged.
pub(crate) fn replies_from_terminal() -> io::Result<bool> {
    #[cfg(unix)]
    {
        use std::fs::File;

        let terminal = File::open("/dev/tty");
        let found = terminal.is_ok();
        let input = terminal.or_else(|_| File::open("/dev/null"))?;
        rustix::stdio::dup2_stdin(&input)?;
        Ok(found)
    }
    #[cfg(not(unix))]
    {
        // No terminal is looked for; the games that were not read are no replies.
        io::copy(&mut io::stdin().lock(), &mut io::sink())?;
        Ok(false)
    }
}

#[cfg(test)]
mod tests {
    use std::io::{BufReader, repeat};

    use super::*;

    fn lines(bytes: &[u8]) -> Vec<(String, u64)> {
        let mut input = BufReader::with_capacity(7, bytes);
        let mut lines = Vec::new();
        while let Said::Line(line) = read_line(&mut input).unwrap() {
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
        let Said::Line(line) = read_line(&mut input).unwrap() else {
            panic!("there is a line");
        };
        assert_eq!(line.text.len(), LONGEST_LINE);
        assert_eq!(line.dropped, 100_000_000 - LONGEST_LINE as u64);
        assert_eq!(read_line(&mut input).unwrap(), Said::End);
    }
}
