//! Lines that are edited as they are typed.

use std::io;
use std::time::Duration;

use rustyline::config::BellStyle;
use rustyline::error::{ReadlineError, Signal};
use rustyline::history::MemHistory;
use rustyline::{ColorMode, Config, Editor};

use super::interrupt::Interrupts;
use super::lines::{Said, is_hang_up, read_line};

/// The line editor. It keeps no history: what was answered once is not to be called up again.
pub(super) struct LineEditor(Editor<(), MemHistory>);

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

    pub(super) fn read(&mut self, prompt: &str, interrupts: &Interrupts) -> io::Result<Said> {
        loop {
            if interrupts.hear_end() {
                return Ok(Said::End);
            }
            if end_waits()? {
                return or_hung_up(read_line(&mut io::stdin().lock()));
            }
            return match self.0.readline(prompt) {
                Ok(text) => Ok(Said::line(text.as_bytes(), 0)),
                Err(ReadlineError::Eof) => Ok(Said::End),
                // What asks the program to end wakes the editor as Ctrl-C does.
                Err(ReadlineError::Interrupted) if interrupts.hear_end() => Ok(Said::End),
                Err(ReadlineError::Interrupted) => Ok(Said::Interrupt),
                // Another size of the window is no word of the learner's.
                Err(ReadlineError::Signal(Signal::Resize)) => continue,
                #[cfg(unix)]
                Err(ReadlineError::Signal(Signal::Interrupt)) => Ok(Said::Interrupt),
                // A key of a terminal that does not speak UTF-8: as through a pipe, that is a line
                // that cannot be read, and no reason to leave.
                Err(ReadlineError::Io(error)) if error.kind() == io::ErrorKind::InvalidData => {
                    Ok(Said::line("\u{fffd}".as_bytes(), 0))
                }
                Err(error) => or_hung_up(Err(into_io(error))),
            };
        }
    }

    /// Waits a moment, and returns early with what is typed meanwhile.
    ///
    /// The terminal is in its own line mode then: a line counts once Enter is typed, and what is
    /// typed of a line before the pause ends goes into the next one that is read. Lines that were
    /// typed ahead while the editor was reading stay with the editor and do not shorten the pause.
    pub(super) fn glance(time: Duration) -> io::Result<Option<Said>> {
        if wait_for_line(time)? {
            or_hung_up(read_line(&mut io::stdin().lock())).map(Some)
        } else {
            Ok(None)
        }
    }
}

/// Takes a terminal that is gone for the end of the input.
fn or_hung_up(said: io::Result<Said>) -> io::Result<Said> {
    match said {
        Err(error) if is_hang_up(&error) => Ok(Said::End),
        said => said,
    }
}

/// Waits for a whole line, or the end of the input, on the terminal. Where a system cannot tell whether a whole
/// line is there without reading it, the pause is full.
fn wait_for_line(time: Duration) -> io::Result<bool> {
    #[cfg(unix)]
    {
        use std::io::IsTerminal;

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
    #[cfg(not(unix))]
    {
        std::thread::sleep(time);
        Ok(false)
    }
}

/// Tells whether Ctrl-D alone was typed while nothing was awaited: the editor would not see it.
fn end_waits() -> io::Result<bool> {
    #[cfg(unix)]
    {
        let waits = wait_for_line(Duration::ZERO)?;
        Ok(waits && rustix::io::ioctl_fionread(io::stdin()).is_ok_and(|bytes| bytes == 0))
    }
    #[cfg(not(unix))]
    {
        Ok(false)
    }
}

fn into_io(error: ReadlineError) -> io::Error {
    match error {
        ReadlineError::Io(error) => error,
        #[cfg(unix)]
        ReadlineError::Errno(errno) => errno.into(),
        other => io::Error::other(other.to_string()),
    }
}
