//! Lines that are no longer than the screen is wide.

use std::borrow::Cow;
use std::io::{self, Write};

use anstream::stream::{AsLockedWrite, RawStream};
use anstream::{AutoStream, ColorChoice};
use textwrap::{Options, WordSplitter};

/// On a screen that is narrower than so many columns, lines are left as they are.
pub(super) const NARROWEST: usize = 30;
/// What stands behind so many spaces is another column.
const GAP: &str = "   ";
/// How far a column is moved in that does not fit beside the one before.
const DEEPER: usize = 4;

/// Breaks a line between words where it is longer than `width` columns. What was moved in stays so, and
/// a second column that does not fit comes on lines of its own.
pub(super) fn wrapped(line: &str, width: usize) -> Vec<Cow<'_, str>> {
    if width < NARROWEST || textwrap::core::display_width(line) <= width {
        return vec![Cow::Borrowed(line)];
    }
    let indent = line.len() - line.trim_start_matches(' ').len();
    match line[indent..].split_once(GAP) {
        Some((first, second)) => {
            let mut lines = broken(&line[..indent + first.len()], indent, width);
            let second = format!("{}{}", " ".repeat(indent + DEEPER), second.trim_start());
            let second = broken(&second, indent + DEEPER, width);
            lines.extend(second.into_iter().map(|line| Cow::Owned(line.into_owned())));
            lines
        }
        None => broken(line, indent, width),
    }
}

fn broken(line: &str, indent: usize, width: usize) -> Vec<Cow<'_, str>> {
    // However far a line is moved in, half of the screen is left for its words.
    let indent = " ".repeat(indent.min(width / 2));
    // The name of a file is not to be torn at its hyphens.
    let options = Options::new(width)
        .subsequent_indent(&indent)
        .word_splitter(WordSplitter::NoHyphenation);
    textwrap::wrap(line, options)
}

/// Writes a text that may hold styles, as help and errors of the command line do, to standard output or
/// standard error. On a terminal no line of it is longer than that is wide; where there is no color, or
/// `plain` is wished for, the styles are left out.
///
/// # Errors
///
/// When it cannot be written.
pub(crate) fn print_styled(text: &str, to_error: bool, plain: bool) -> io::Result<()> {
    if to_error {
        print(io::stderr(), text, plain)
    } else {
        print(io::stdout(), text, plain)
    }
}

fn print(stream: impl RawStream + AsLockedWrite, text: &str, plain: bool) -> io::Result<()> {
    let size = terminal_size::terminal_size().filter(|_| stream.is_terminal());
    let width = size.map_or(0, |(width, _)| usize::from(width.0));
    let choice = if plain {
        ColorChoice::Never
    } else {
        AutoStream::choice(&stream)
    };
    let mut stream = AutoStream::new(stream, choice);
    for line in text.lines().flat_map(|line| wrapped(line, width)) {
        writeln!(stream, "{line}")?;
    }
    stream.flush()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_broken_between_words_and_stays_moved_in() {
        assert_eq!(
            wrapped("  Say which square the first-knight stands on now.", 32),
            ["  Say which square the", "  first-knight stands on now."]
        );
        assert_eq!(wrapped("short", 30), ["short"]);
        let long = "a word and a word and a word and a word";
        assert_eq!(wrapped(long, 29), [long], "no screen is so narrow");
    }

    #[test]
    fn a_column_that_does_not_fit_comes_below_the_one_before() {
        let line = "  sansvoir lesson        chooses what to do today";
        assert_eq!(wrapped(line, 60), [line]);
        assert_eq!(
            wrapped(line, 40),
            ["  sansvoir lesson", "      chooses what to do today"]
        );
        assert_eq!(
            wrapped("  sansvoir progress      tells what you can do now", 30),
            [
                "  sansvoir progress",
                "      tells what you can do",
                "      now"
            ]
        );
    }

    #[test]
    fn no_line_is_longer_than_the_screen() {
        let line = "    Every answer is checked by the rules of chess, and games-demo/first-steps.pgn \
                    begins    with a second column";
        for width in NARROWEST..120 {
            for line in wrapped(line, width) {
                assert!(line.chars().count() <= width, "{width}: {line:?}");
            }
        }
    }
}
