//! Standard input: what the learner says, and how long it took.

use std::cell::RefCell;
use std::convert::Infallible;
use std::io::{self, BufReader, Read};
use std::sync::mpsc::{self, Receiver, RecvTimeoutError};
use std::thread;
use std::time::{Duration, Instant};

use super::capabilities::{Capabilities, Way};
use super::editor::LineEditor;
use super::hearing::{Hearing, HearingError};
use super::interrupt::Interrupts;
use super::lines::{Said, SaidLine, is_hang_up, read_line};
use super::screen::{Screen, ScreenError};
use crate::reply::Form;

/// How many lines a pipe may be ahead of the session.
const AHEAD: usize = 16;
/// How often whoever waits looks whether to end.
const GLANCE: Duration = Duration::from_millis(25);
/// The same where what is heard is to be said back at once.
const GLANCE_AT_HEARING: Duration = Duration::from_millis(5);

/// Hears the learner's lines, one at a time.
pub struct Listener {
    source: Source,
    interrupts: Interrupts,
    /// Whether what cannot be read is a terminal that is gone.
    terminal: bool,
    hearing: Option<RefCell<Hearing>>,
}

enum Source {
    Editor(Box<LineEditor>),
    /// What a thread reads, to the end or an error.
    Lines(Receiver<io::Result<Said>>),
}

/// Why nothing can be heard.
#[derive(Debug, thiserror::Error)]
pub enum ListenError {
    /// Standard input fails.
    #[error("standard input cannot be read ({0}): give a terminal, a file or a pipe to read from")]
    Input(#[source] io::Error),
    /// The prompt cannot be written.
    #[error(transparent)]
    Screen(#[from] ScreenError),
    /// Ctrl-C cannot be caught.
    #[error("Ctrl-C cannot be caught ({0}): only one listener can be there at a time")]
    Interrupts(#[source] ctrlc::Error),
}

impl Listener {
    /// Listens to standard input, to Ctrl-C and to the signals that ask the program to end, from now to
    /// the end of the program.
    ///
    /// # Errors
    ///
    /// [`ListenError`] when the terminal cannot be used, or when a listener is there already.
    pub fn standard(capabilities: Capabilities) -> Result<Listener, ListenError> {
        let (source, rouse): (_, fn()) = match capabilities.way {
            Way::Edited => {
                let editor = LineEditor::new().map_err(ListenError::Input)?;
                (Source::Editor(Box::new(editor)), rouse_editor)
            }
            Way::Prompted | Way::Piped => (Source::Lines(lines_of(io::stdin())), || {}),
        };
        Ok(Listener {
            source,
            interrupts: Interrupts::catch(rouse).map_err(ListenError::Interrupts)?,
            terminal: capabilities.way != Way::Piped,
            hearing: None,
        })
    }

    /// Listens to a recognizer too, whichever comes first.
    pub(crate) fn listen_to(&mut self, hearing: Hearing) {
        self.hearing = Some(RefCell::new(hearing));
    }

    /// Says which form of reply is awaited by mouth, if any, and whether silence is a yes from now on.
    pub(crate) fn attend(&self, form: Option<Form>, is_asked: bool) {
        if let Some(hearing) = &self.hearing {
            hearing.borrow_mut().attend(form, is_asked);
        }
    }

    /// Returns, once, why nothing more is heard.
    pub(crate) fn hearing_error(&self) -> Option<HearingError> {
        self.hearing.as_ref()?.borrow_mut().error()
    }

    /// Tells whether replies are taken by mouth.
    pub(crate) const fn hears(&self) -> bool {
        self.hearing.is_some()
    }

    /// Waits for the next thing said. The prompt is written where lines are typed, and nowhere else.
    ///
    /// # Errors
    ///
    /// [`ListenError`]
    pub fn line(&mut self, screen: &mut Screen, prompt: &str) -> Result<Said, ListenError> {
        let begun = Instant::now();
        if let Some(said) = self.interrupts.hear() {
            return Ok(said);
        }
        let said = match &mut self.source {
            Source::Editor(editor) if self.hearing.is_none() => {
                editor.read(prompt, &self.interrupts)
            }
            // While the editor reads, nothing is heard: then the terminal edits lines by itself.
            Source::Editor(_) | Source::Lines(_) => {
                screen.prompt(prompt)?;
                let said = self.wait(None);
                if !matches!(&said, Ok(Some(Said::Line(line))) if !line.heard) {
                    // The cursor still stands behind the prompt.
                    screen.prompt("\n")?;
                }
                said.map(|said| said.unwrap_or(Said::End))
            }
        };
        Ok(said.map_err(ListenError::Input)?.since(begun))
    }

    /// Tells whether a signal has asked the program to end: then nothing is waited for any more.
    pub fn is_to_end(&self) -> bool {
        self.interrupts.hear_end()
    }

    /// Waits for a time, and returns early at Ctrl-C and when the program is to end; the lines of a
    /// pipe are left for their questions.
    pub fn rest(&mut self, time: Duration) -> Option<Said> {
        let Ok(said) = self.glance(Some(time), |moment| {
            thread::sleep(moment);
            Ok::<_, Infallible>(None)
        });
        said
    }

    /// Waits for a time, and returns early when something is said meanwhile; `None` when nothing is.
    ///
    /// # Errors
    ///
    /// [`ListenError`]
    pub fn pause(&mut self, time: Duration) -> Result<Option<Said>, ListenError> {
        let begun = Instant::now();
        let said = self.wait(Some(time)).map_err(ListenError::Input)?;
        Ok(said.map(|said| said.since(begun)))
    }

    /// Waits for a time or without end for something that is said meanwhile.
    fn wait(&self, time: Option<Duration>) -> io::Result<Option<Said>> {
        self.glance(time, |moment| {
            let hearing = self.hearing.as_ref();
            if let Some(text) = hearing.and_then(|hearing| hearing.borrow_mut().next()) {
                let heard = true;
                return Ok(Some(Said::Line(SaidLine {
                    text,
                    heard,
                    ..SaidLine::default()
                })));
            }
            let moment = hearing.map_or(moment, |_| moment.min(GLANCE_AT_HEARING));
            match &self.source {
                Source::Editor(_) => LineEditor::glance(moment),
                Source::Lines(lines) => next_line(lines, moment, self.terminal),
            }
        })
    }

    /// Waits for a time or without end, a moment at once, and returns early at Ctrl-C, when the program is to
    /// end, and with what is said in one of the moments.
    fn glance<E>(
        &self,
        time: Option<Duration>,
        listen: impl Fn(Duration) -> Result<Option<Said>, E>,
    ) -> Result<Option<Said>, E> {
        let begun = Instant::now();
        loop {
            if let Some(said) = self.interrupts.hear() {
                return Ok(Some(said));
            }
            let left = time.map_or(GLANCE, |time| time.saturating_sub(begun.elapsed()));
            if left.is_zero() {
                return Ok(None);
            }
            if let Some(said) = listen(left.min(GLANCE))? {
                return Ok(Some(said));
            }
        }
    }
}

/// Wakes the editor, which reads without end: while it does, it hears of this signal itself, and at all
/// other times nobody minds it once the program is to end.
fn rouse_editor() {
    #[cfg(unix)]
    {
        use rustix::process::{Signal, getpid, kill_process};
        let _ = kill_process(getpid(), Signal::INT);
    }
}

/// Reads lines in a thread of its own, so that the listener can wait for other things too. The byte order mark
/// that some programs begin a text with is passed over.
fn lines_of(reader: impl Read + Send + 'static) -> Receiver<io::Result<Said>> {
    let (sender, lines) = mpsc::sync_channel(AHEAD);
    thread::spawn(move || {
        let mut input = BufReader::new(reader);
        let mut first = true;
        loop {
            let mut said = read_line(&mut input);
            if let Ok(Said::Line(line)) = &mut said
                && std::mem::take(&mut first)
                && line.text.starts_with('\u{feff}')
            {
                line.text.remove(0);
            }
            let last = !matches!(said, Ok(Said::Line(_)));
            if sender.send(said).is_err() || last {
                return;
            }
        }
    });
    lines
}

/// Waits a moment for a line; the end of the input and a terminal that is gone are an end for good.
fn next_line(
    lines: &Receiver<io::Result<Said>>,
    moment: Duration,
    terminal: bool,
) -> io::Result<Option<Said>> {
    match lines.recv_timeout(moment) {
        Ok(Err(error)) if terminal && is_hang_up(&error) => Ok(Some(Said::End)),
        Ok(said) => said.map(Some),
        Err(RecvTimeoutError::Disconnected) => Ok(Some(Said::End)),
        Err(RecvTimeoutError::Timeout) => Ok(None),
    }
}

#[cfg(test)]
mod tests {
    use std::io::{Write, pipe};
    use std::sync::atomic::Ordering;

    use super::*;

    const SOON: Duration = Duration::from_millis(20);
    const LATE: Duration = Duration::from_mins(1);

    /// Listens to any reader, as if it were a pipe; Ctrl-C is left alone.
    fn listener(reader: impl Read + Send + 'static) -> Listener {
        Listener {
            source: Source::Lines(lines_of(reader)),
            interrupts: Interrupts::default(),
            terminal: false,
            hearing: None,
        }
    }

    fn interrupt(listener: &Listener) {
        let unheard = &listener.interrupts.unheard;
        unheard.fetch_add(1, Ordering::SeqCst);
    }

    fn screen() -> Screen {
        let capabilities = Capabilities {
            way: Way::Piped,
            styled: false,
            wipes: false,
        };
        Screen::new(Vec::new(), capabilities)
    }

    fn next(listener: &mut Listener) -> Said {
        listener.line(&mut screen(), "> ").unwrap()
    }

    fn text(said: Said) -> String {
        match said {
            Said::Line(line) => line.text,
            Said::Interrupt | Said::End => panic!("{said:?} is no line"),
        }
    }

    #[test]
    fn each_line_is_heard_once_and_then_the_end_for_good() {
        let mut listener = listener("\u{feff}e4\r\n\nd5 e6".as_bytes());
        let heard: Vec<String> = (0..3).map(|_| text(next(&mut listener))).collect();
        assert_eq!(heard, ["e4", "", "d5 e6"]);
        for _ in 0..3 {
            assert_eq!(next(&mut listener), Said::End);
            assert_eq!(listener.pause(LATE).unwrap(), Some(Said::End));
        }
    }

    #[test]
    fn a_pause_ends_with_its_time_or_with_a_line() {
        let (reader, mut writer) = pipe().unwrap();
        let mut listener = listener(reader);
        let begun = Instant::now();
        assert_eq!(listener.pause(SOON).unwrap(), None);
        assert!(begun.elapsed() >= SOON);
        writer.write_all(b"half a li").unwrap();
        assert_eq!(listener.pause(SOON).unwrap(), None);
        writer.write_all(b"ne\n").unwrap();
        let said = listener.pause(LATE).unwrap().unwrap();
        assert_eq!(text(said), "half a line");
    }

    #[test]
    fn the_time_of_a_reply_runs_from_the_prompt_to_the_line() {
        let (reader, mut writer) = pipe().unwrap();
        let mut listener = listener(reader);
        let typing = thread::spawn(move || {
            thread::sleep(SOON);
            writer.write_all(b"e4\n").unwrap();
        });
        let Said::Line(line) = next(&mut listener) else {
            panic!("a line was written");
        };
        typing.join().unwrap();
        assert!((15..10_000).contains(&line.millis), "{}", line.millis);
    }

    #[test]
    fn an_interrupt_is_heard_before_the_lines_that_wait_and_only_once() {
        let mut listener = listener(b"e4\n".as_slice());
        interrupt(&listener);
        assert_eq!(next(&mut listener), Said::Interrupt);
        assert_eq!(text(next(&mut listener)), "e4");
        interrupt(&listener);
        assert_eq!(listener.pause(LATE).unwrap(), Some(Said::Interrupt));
        assert_eq!(next(&mut listener), Said::End);
    }

    #[test]
    fn a_listener_that_is_to_end_hears_nothing_else() {
        let mut listener = listener(b"e4\n".as_slice());
        interrupt(&listener);
        listener.interrupts.ending.store(true, Ordering::SeqCst);
        for _ in 0..3 {
            assert_eq!(next(&mut listener), Said::End);
            assert_eq!(listener.pause(LATE).unwrap(), Some(Said::End));
            assert_eq!(listener.rest(LATE), Some(Said::End));
        }
    }

    #[test]
    fn an_input_that_fails_is_told_apart_from_its_end() {
        struct Failing;

        impl Read for Failing {
            fn read(&mut self, _: &mut [u8]) -> io::Result<usize> {
                Err(io::ErrorKind::IsADirectory.into())
            }
        }

        let mut listener = listener(Failing);
        let error = listener.line(&mut screen(), "").unwrap_err();
        assert!(matches!(error, ListenError::Input(_)));
        assert_eq!(next(&mut listener), Said::End);
    }
}
