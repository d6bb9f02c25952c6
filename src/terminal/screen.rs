//! Standard output, a line at a time, and the alternate screen of a terminal: what is shown there is kept in
//! no scrollback, and what stood before stands again afterwards.

use std::borrow::Cow;
use std::fmt::Write as _;
use std::io::{self, IsTerminal, Write};
use std::panic;
use std::sync::Once;
use std::sync::atomic::{AtomicBool, Ordering};

use anstream::AutoStream;
use anstyle::{AnsiColor, Style};

use super::capabilities::{Capabilities, Way};
use super::lines::is_hang_up;
use super::wrap::wrapped;

/// Saves the cursor, turns to the alternate screen and clears it (xterm's control sequences, private
/// mode 1049). A terminal without one passes over it.
const ENTER: &str = "\x1b[?1049h";
/// Turns back, and puts the cursor where it was.
const LEAVE: &str = "\x1b[?1049l";
/// Puts the cursor into the upper left corner, then erases all (ECMA-48, CUP and ED).
const HOME_AND_ERASE: &str = "\x1b[H\x1b[2J";

/// Whether this process has turned the terminal to its alternate screen.
static ENTERED: AtomicBool = AtomicBool::new(false);

/// Where the sentences of a session go.
///
/// Every call writes whole lines and hands them on at once. The text must be clean
/// (`voice::clean`): what comes here is written as it is.
pub struct Screen {
    out: Box<dyn Write>,
    capabilities: Capabilities,
    /// Whether what cannot be written to is a terminal that is gone.
    terminal: bool,
    /// Whether it stands on the alternate screen.
    entered: bool,
    /// How many rows were written since somebody read what stands there.
    unread: usize,
}

/// On a screen of fewer rows nothing is held back.
const LOWEST: usize = 10;

/// The role of a text on the screen. It is told by the words alone; the style only helps the eye.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tone {
    /// What is told: plies, help, the board.
    Plain,
    /// A heading.
    Heading,
    /// What the learner is asked.
    Question,
    /// That a reply was right.
    Right,
    /// That a reply was not wholly right.
    NotRight,
    /// What can be left unread.
    Aside,
}

/// Why nothing more can be said.
#[derive(Debug, thiserror::Error)]
pub enum ScreenError {
    /// The reader at the other end of the pipe has left. This is no failure: the program ends
    /// without a word.
    #[error("the reader of the output has left")]
    Closed,
    /// Standard output fails.
    #[error("standard output cannot be written ({0}): see whether the disk is full")]
    Failed(io::Error),
}

impl From<io::Error> for ScreenError {
    fn from(error: io::Error) -> ScreenError {
        match error.kind() {
            io::ErrorKind::BrokenPipe => ScreenError::Closed,
            _ => ScreenError::Failed(error),
        }
    }
}

impl Tone {
    /// Blue and yellow are told apart by nearly all eyes, red and green are not; dim and bold need
    /// no color at all.
    const fn style(self) -> Style {
        match self {
            Tone::Plain => Style::new(),
            Tone::Heading => Style::new().underline(),
            Tone::Question => Style::new().bold(),
            Tone::Right => AnsiColor::Cyan.on_default(),
            Tone::NotRight => AnsiColor::Yellow.on_default(),
            Tone::Aside => Style::new().dimmed(),
        }
    }
}

impl Screen {
    /// Takes standard output.
    pub fn standard(capabilities: Capabilities) -> Screen {
        // Lets old Windows consoles understand what is written; elsewhere nothing is changed.
        let mut screen = Screen::new(AutoStream::always(io::stdout()), capabilities);
        screen.terminal = io::stdout().is_terminal();
        screen
    }

    /// Takes any writer.
    pub(super) fn new(out: impl Write + 'static, capabilities: Capabilities) -> Screen {
        Screen {
            out: Box::new(out),
            capabilities,
            terminal: false,
            entered: false,
            unread: 0,
        }
    }

    /// Turns to the alternate screen, whose contents no scrollback keeps; where the screen cannot be
    /// wiped, nothing is done. It is left by [`Screen::leave`], when the screen is dropped, at a panic
    /// and wherever the program ends itself.
    ///
    /// # Errors
    ///
    /// [`ScreenError`]
    pub fn enter(&mut self) -> Result<(), ScreenError> {
        if self.capabilities.wipes && !self.entered {
            self.entered = true;
            note_entered();
            self.write(ENTER)?;
            self.wipe()?;
        }
        Ok(())
    }

    /// Turns back to the normal screen, as it was left; where it was not left, nothing is done.
    ///
    /// # Errors
    ///
    /// [`ScreenError`]
    pub fn leave(&mut self) -> Result<(), ScreenError> {
        if std::mem::take(&mut self.entered) && ENTERED.swap(false, Ordering::SeqCst) {
            self.write(LEAVE)?;
        }
        Ok(())
    }

    /// Tells whether the alternate screen is shown.
    pub const fn is_entered(&self) -> bool {
        self.entered
    }

    /// Says a text of one or several lines; an empty text is an empty line.
    ///
    /// # Errors
    ///
    /// [`ScreenError`]
    pub fn say(&mut self, tone: Tone, text: &str) -> Result<(), ScreenError> {
        let text = text.strip_suffix('\n').unwrap_or(text);
        if !self.capabilities.styled && !self.capabilities.wipes {
            return self.write(&format!("{text}\n"));
        }
        let mut lines = String::with_capacity(text.len() + 16);
        for line in text.split('\n').flat_map(|line| self.wrapped(line)) {
            // Each line opens and closes its own style, so that none leaks out of a cut line.
            let styled = self.capabilities.styled && !line.is_empty();
            let style = if styled { tone.style() } else { Style::new() };
            let _ = writeln!(lines, "{style}{line}{style:#}");
        }
        self.unread += lines.matches('\n').count();
        self.write(&lines)
    }

    /// Breaks a line between words where it is too long for the screen. Pipes, files and plain
    /// terminals get it whole.
    fn wrapped<'a>(&self, line: &'a str) -> Vec<Cow<'a, str>> {
        let size = self.capabilities.wipes.then(terminal_size::terminal_size);
        let width = size.flatten().map_or(0, |(width, _)| usize::from(width.0));
        wrapped(line, width)
    }

    /// Tells whether a line keeps its columns here, if it has any.
    pub fn fits_in_columns(&self, line: &str) -> bool {
        !line.contains("  ") || self.wrapped(line).len() == 1
    }

    /// Tells whether a line would push out of the alternate screen what nobody has read yet: what has
    /// left it cannot be scrolled back to.
    pub fn is_full_before(&self, line: &str) -> bool {
        let height = terminal_size::terminal_size().map_or(0, |(_, height)| usize::from(height.0));
        // The prompt needs a row too.
        self.entered && height >= LOWEST && self.unread + self.wrapped(line).len() + 1 > height
    }

    /// Notes that somebody has read what stands there.
    pub fn note_read(&mut self) {
        self.unread = 0;
    }

    /// Wipes the screen, so that plies read before can no longer be read; where that cannot be done
    /// nothing is written. What a terminal keeps to scroll back to stays: see [`Screen::enter`].
    ///
    /// # Errors
    ///
    /// [`ScreenError`]
    pub fn wipe(&mut self) -> Result<(), ScreenError> {
        if self.capabilities.wipes {
            self.write(HOME_AND_ERASE)?;
        }
        Ok(())
    }

    /// Writes a prompt, which stays on its line, where the way of reading wants one.
    pub(super) fn prompt(&mut self, prompt: &str) -> Result<(), ScreenError> {
        match self.capabilities.way {
            Way::Prompted | Way::Edited => self.write(prompt),
            Way::Piped => Ok(()),
        }
    }

    fn write(&mut self, text: &str) -> Result<(), ScreenError> {
        let written = self.out.write_all(text.as_bytes());
        match written.and_then(|()| self.out.flush()) {
            Err(error) if self.terminal && is_hang_up(&error) => Err(ScreenError::Closed),
            written => Ok(written?),
        }
    }
}

impl Drop for Screen {
    fn drop(&mut self) {
        // What went wrong before is told in its own place.
        let _ = self.leave();
    }
}

/// Notes that the terminal is being turned to its alternate screen; from now on a panic turns it back
/// before it is told.
fn note_entered() {
    static HOOK: Once = Once::new();
    HOOK.call_once(|| {
        let tell = panic::take_hook();
        panic::set_hook(Box::new(move |panic| {
            restore();
            tell(panic);
        }));
    });
    ENTERED.store(true, Ordering::SeqCst);
}

/// Turns the terminal back wherever the program ends.
pub(super) fn restore() {
    if ENTERED.swap(false, Ordering::SeqCst) {
        let mut out = io::stdout();
        // Nobody is left who could be told that it failed.
        let _ = out.write_all(LEAVE.as_bytes()).and_then(|()| out.flush());
    }
}

#[cfg(test)]
mod tests {
    use std::cell::RefCell;
    use std::rc::Rc;

    use super::*;

    #[derive(Clone, Default)]
    struct Paper(Rc<RefCell<Vec<u8>>>);

    impl Write for Paper {
        fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
            self.0.borrow_mut().write(bytes)
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    struct Refusing(io::ErrorKind);

    impl Write for Refusing {
        fn write(&mut self, _: &[u8]) -> io::Result<usize> {
            Err(self.0.into())
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    const TONES: [Tone; 6] = [
        Tone::Plain,
        Tone::Heading,
        Tone::Question,
        Tone::Right,
        Tone::NotRight,
        Tone::Aside,
    ];

    fn capabilities(styled: bool, wipes: bool) -> Capabilities {
        Capabilities {
            way: Way::Piped,
            styled,
            wipes,
        }
    }

    fn written(
        capabilities: Capabilities,
        say: impl Fn(&mut Screen) -> Result<(), ScreenError>,
    ) -> String {
        let paper = Paper::default();
        say(&mut Screen::new(paper.clone(), capabilities)).unwrap();
        String::from_utf8(paper.0.take()).unwrap()
    }

    #[test]
    fn without_style_every_tone_is_the_bare_text() {
        for tone in TONES {
            for (text, lines) in [
                ("", "\n"),
                ("a", "a\n"),
                ("a\n", "a\n"),
                ("a\n\nb", "a\n\nb\n"),
            ] {
                assert_eq!(
                    written(capabilities(false, false), |screen| screen.say(tone, text)),
                    lines
                );
            }
        }
    }

    #[test]
    fn a_style_opens_and_closes_on_each_line_and_leaves_the_text_alone() {
        for tone in TONES {
            let text = written(capabilities(true, false), |screen| {
                screen.say(tone, "one\n\ntwo")
            });
            let lines: Vec<&str> = text.lines().collect();
            assert_eq!(lines[1], "");
            for (line, words) in [(lines[0], "one"), (lines[2], "two")] {
                let styled = tone != Tone::Plain;
                assert_eq!(
                    line.starts_with('\x1b') && line.ends_with("\x1b[0m"),
                    styled
                );
                assert_eq!(anstream::adapter::strip_str(line).to_string(), words);
            }
        }
    }

    #[test]
    fn the_screen_is_wiped_only_where_it_may_be() {
        assert_eq!(written(capabilities(true, false), Screen::wipe), "");
        assert_eq!(
            written(capabilities(false, true), Screen::wipe),
            "\x1b[H\x1b[2J"
        );
    }

    #[test]
    fn the_alternate_screen_is_entered_only_where_it_may_be_and_left_however_the_screen_goes() {
        let leave = |screen: &mut Screen| {
            screen.enter()?;
            screen.leave()?;
            screen.leave()
        };
        assert_eq!(written(capabilities(true, false), leave), "");
        let whole = "\x1b[?1049h\x1b[H\x1b[2J\x1b[?1049l";
        assert_eq!(written(capabilities(false, true), leave), whole);
        assert_eq!(written(capabilities(false, true), Screen::enter), whole);
    }

    #[test]
    fn a_reader_that_has_left_is_told_apart_from_a_failure() {
        let say = |kind| {
            let mut screen = Screen::new(Refusing(kind), capabilities(false, false));
            screen.say(Tone::Plain, "e4").unwrap_err()
        };
        assert!(matches!(
            say(io::ErrorKind::BrokenPipe),
            ScreenError::Closed
        ));
        assert!(matches!(
            say(io::ErrorKind::StorageFull),
            ScreenError::Failed(_)
        ));
    }
}
