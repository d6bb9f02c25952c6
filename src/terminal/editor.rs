//! Lines that are edited as they are typed.

use std::io::{self, IsTerminal};
use std::time::{Duration, Instant};

use rustyline::config::BellStyle;
use rustyline::error::{ReadlineError, Signal};
use rustyline::history::MemHistory;
use rustyline::{ColorMode, Config, Editor};

use super::interrupt::Interrupts;
use super::lines::{self, RawLine};

/// How often a pause looks for something typed.
const GLANCE: Duration = Duration::from_millis(50);

/// The line editor. It keeps no history: what was answered once is not to be called up again.
pub(super) struct LineEditor(Editor<(), MemHistory>);

/// What came from the keyboard.
#[derive(Debug)]
pub(super) enum Typed {
    Line(RawLine),
    Interrupt,
    End,
}

impl LineEditor {
    pub(super) fn new() -> io::Result<LineEditor> {
        let config = Config::builder()
            .max_history_size(0)
            .map_err(into_io)?
            .auto_add_history(false)
            // Pasted lines are replies one by one, as typed ones are.
            .bracketed_paste(false)
            .bell_style(BellStyle::None)
            .color_mode(ColorMode::Disabled)
            .build();
        let history = MemHistory::with_config(&config);
        Editor::with_history(config, history)
            .map(LineEditor)
            .map_err(into_io)
    }

    pub(super) fn read(&mut self, prompt: &str, interrupts: &Interrupts) -> io::Result<Typed> {
        loop {
            if interrupts.hear_end() {
                return Ok(Typed::End);
            }
            return match self.0.readline(prompt) {
                Ok(text) => Ok(Typed::Line(RawLine::new(text.as_bytes(), 0))),
                Err(ReadlineError::Eof) => Ok(Typed::End),
                // What asks the program to end wakes the editor as Ctrl-C does.
                Err(ReadlineError::Interrupted) if interrupts.hear_end() => Ok(Typed::End),
                Err(ReadlineError::Interrupted) => Ok(Typed::Interrupt),
                // Another size of the window is no word of the learner's.
                Err(ReadlineError::Signal(Signal::Resize)) => continue,
                #[cfg(unix)]
                Err(ReadlineError::Signal(Signal::Interrupt)) => Ok(Typed::Interrupt),
                // A key of a terminal that does not speak UTF-8: as through a pipe, that is a line
                // that cannot be read, and no reason to leave.
                Err(ReadlineError::Io(error)) if error.kind() == io::ErrorKind::InvalidData => {
                    Ok(Typed::Line(RawLine::new("\u{fffd}".as_bytes(), 0)))
                }
                Err(error) => match into_io(error) {
                    error if is_hang_up(&error) => Ok(Typed::End),
                    error => Err(error),
                },
            };
        }
    }

    /// Waits, and returns early with what is typed meanwhile.
    ///
    /// The terminal is in its own line mode then: a line counts once Enter is typed, and what is
    /// typed of a line before the pause ends goes into the next one that is read. Lines that were
    /// typed ahead while the editor was reading stay with the editor and do not shorten the pause.
    pub(super) fn pause(time: Duration, interrupts: &Interrupts) -> io::Result<Option<Typed>> {
        let begun = Instant::now();
        loop {
            if interrupts.hear_end() {
                return Ok(Some(Typed::End));
            }
            if interrupts.hear() {
                return Ok(Some(Typed::Interrupt));
            }
            let left = time.saturating_sub(begun.elapsed());
            if left.is_zero() {
                return Ok(None);
            }
            if wait_for_line(left.min(GLANCE))? {
                return match lines::read_line(&mut io::stdin().lock()) {
                    Ok(line) => Ok(Some(line.map_or(Typed::End, Typed::Line))),
                    Err(error) if is_hang_up(&error) => Ok(Some(Typed::End)),
                    Err(error) => Err(error),
                };
            }
        }
    }
}

/// Waits for a whole line, or the end of the input, on the terminal.
#[cfg(unix)]
fn wait_for_line(time: Duration) -> io::Result<bool> {
    use rustix::event::{PollFd, PollFlags, Timespec, poll};

    let input = io::stdin();
    debug_assert!(input.is_terminal(), "only a terminal has an editor");
    let time = Timespec::try_from(time).map_err(io::Error::other)?;
    match poll(&mut [PollFd::new(&input, PollFlags::IN)], Some(&time)) {
        Ok(ready) => Ok(ready > 0),
        Err(rustix::io::Errno::INTR) => Ok(false),
        Err(error) => Err(error.into()),
    }
}

/// Other systems cannot tell whether a whole line is there without reading it: the pause is full.
#[cfg(not(unix))]
fn wait_for_line(time: Duration) -> io::Result<bool> {
    std::thread::sleep(time);
    Ok(false)
}

/// Tells whether the terminal is gone, as when its window is closed.
#[cfg(unix)]
pub(super) fn is_hang_up(error: &io::Error) -> bool {
    error.raw_os_error() == Some(rustix::io::Errno::IO.raw_os_error())
}

#[cfg(not(unix))]
pub(super) fn is_hang_up(_: &io::Error) -> bool {
    false
}

fn into_io(error: ReadlineError) -> io::Error {
    match error {
        ReadlineError::Io(error) => error,
        #[cfg(unix)]
        ReadlineError::Errno(errno) => errno.into(),
        other => io::Error::other(other.to_string()),
    }
}
