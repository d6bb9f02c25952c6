//! Pages of help and errors in the command line, which are made ready elsewhere, styles and all.

use std::io::{self, Write};

use anstream::stream::{AsLockedWrite, RawStream};
use anstream::{AutoStream, ColorChoice};

use super::wrap::wrapped;

/// Writes a text that may hold styles to standard output or standard error. On a terminal no line of it
/// is longer than that is wide; where there is no color, or `plain` is wished for, the styles are left
/// out.
///
/// # Errors
///
/// When it cannot be written.
pub fn advise(text: &str, to_error: bool, plain: bool) -> io::Result<()> {
    if to_error {
        write(io::stderr(), text, plain)
    } else {
        write(io::stdout(), text, plain)
    }
}

fn write(stream: impl RawStream + AsLockedWrite, text: &str, plain: bool) -> io::Result<()> {
    let size = terminal_size::terminal_size().filter(|_| stream.is_terminal());
    let choice = if plain {
        ColorChoice::Never
    } else {
        AutoStream::choice(&stream)
    };
    let mut stream = AutoStream::new(stream, choice);
    for line in text.lines() {
        match size {
            Some((width, _)) => {
                for line in wrapped(line, usize::from(width.0)) {
                    writeln!(stream, "{line}")?;
                }
            }
            None => writeln!(stream, "{line}")?,
        }
    }
    stream.flush()
}
