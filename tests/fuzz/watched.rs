//! The program run under watch: it ends in time, by itself, with an exit code that means something, and
//! writes nothing that steers a terminal where that was not asked for.

use std::fs::{self, File};
use std::io::Write;
use std::process::Child;
use std::thread;
use std::time::{Duration, Instant};

use sansvoir::voice::clean;

use crate::program::{Desk, Said};
use crate::screen::Terminal;

/// A command takes far less than a second of a whole processor.
const PATIENCE: Duration = Duration::from_mins(1);
/// So often a command that runs is looked at.
const PAUSE: Duration = Duration::from_millis(3);

/// Runs the program through pipes; all that it says is plain text.
pub(crate) fn run(desk: &Desk, arguments: &[&str], input: &str) -> Said {
    let said = through_a_pipe(desk, arguments, input);
    assert_eq!(clean(&said.out), said.out, "{arguments:?}");
    said
}

/// Runs the program through pipes where it may use color.
pub(crate) fn colored(desk: &Desk, arguments: &[&str], input: &str) -> Said {
    let said = through_a_pipe(desk, arguments, input);
    let text = without_sequences(&said.out, "m");
    assert_eq!(clean(&text), text, "{arguments:?}");
    said
}

fn through_a_pipe(desk: &Desk, arguments: &[&str], input: &str) -> Said {
    let typed = desk.file("typed", input);
    let (out, err) = (desk.path("out"), desk.path("err"));
    let mut child = Guarded(
        (desk.program(arguments))
            .stdin(File::open(typed).expect("what is typed"))
            .stdout(File::create(&out).expect("a file"))
            .stderr(File::create(&err).expect("a file"))
            .spawn()
            .expect("the program starts"),
    );
    let end = Instant::now() + PATIENCE;
    let status = loop {
        if let Some(status) = child.0.try_wait().expect("it is our own") {
            break status;
        }
        assert!(Instant::now() < end, "{arguments:?} takes too long");
        thread::sleep(PAUSE);
    };
    let read = |path| String::from_utf8(fs::read(path).expect("a file")).expect("UTF-8");
    let said = Said {
        code: status.code(),
        out: read(out),
        err: read(err),
    };
    assert!(!said.err.contains("panicked"), "{arguments:?} {}", said.err);
    assert!(
        matches!(said.code, Some(0..=1)),
        "{arguments:?} {:?} {}",
        said.code,
        said.err
    );
    assert_eq!(clean(&said.err), said.err, "{arguments:?}");
    said
}

/// A process that does not outlive its test.
struct Guarded(Child);

impl Drop for Guarded {
    fn drop(&mut self) {
        // One that has ended cannot be killed, and need not be.
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// Runs the program on a pseudo-terminal, types some lines and goes away; returns all that was written
/// there, without what moves the cursor and what was typed.
pub(crate) fn terminal(desk: &Desk, arguments: &[&str], input: &str) -> String {
    let mut terminal = Terminal::start(desk.program(arguments));
    let end = Instant::now() + PATIENCE;
    let mut waited = 0;
    // Where it has ended already, nobody reads what is typed.
    // What is typed is written back as it is, by whoever edits the line.
    let _ = terminal.keys.write_all(clean(input).as_bytes());
    let status = loop {
        if let Some(status) = terminal.child.try_wait().expect("it is our own") {
            break status;
        }
        assert!(
            Instant::now() < end,
            "{arguments:?} takes too long on a terminal"
        );
        thread::sleep(PAUSE);
        waited += 1;
        if waited % 100 == 0 {
            let _ = terminal.keys.write_all(b"\x04");
        }
    };
    let seen = terminal.ends();
    assert!(!seen.contains("panicked"), "{arguments:?} {input:?} {seen}");
    assert!(
        matches!(status.code(), Some(0..=1)),
        "{arguments:?} {input:?} {status:?} {seen}"
    );
    let text = without_sequences(&seen, "mHJKABCDGhl").replace(['\r', '\u{7}'], "");
    assert_eq!(clean(&text), text, "{arguments:?} {input:?}");
    text
}

/// Leaves out the control sequences that end with one of these letters (ECMA-48, 5.4).
fn without_sequences(text: &str, finals: &str) -> String {
    let mut pieces = text.split("\u{1b}[");
    let mut plain = pieces.next().unwrap_or_default().to_owned();
    for piece in pieces {
        let rest = piece.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, ';' | '?'));
        match rest.strip_prefix(|c: char| finals.contains(c)) {
            Some(rest) => plain += rest,
            None => plain.extend(["\u{1b}[", piece]),
        }
    }
    plain
}
