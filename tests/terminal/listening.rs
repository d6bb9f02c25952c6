//! A terminal, a plain terminal and a pipe, each with a listener in a process of its own.

use std::env;
use std::io::{Read, Write};
use std::process::{Command, Stdio};
use std::thread;
use std::time::Duration;

use crate::screen::Terminal;
use sansvoir::terminal::{Capabilities, ColorChoice, Listener, Said, Screen, ScreenError, Tone};

const PLAIN: &str = "SANSVOIR_TEST_PLAIN";
const PAUSE: &str = "SANSVOIR_TEST_PAUSE";
const PANIC: &str = "SANSVOIR_TEST_PANIC";

/// Says what it hears, each thing between marks that no echo of the terminal has.
#[test]
#[ignore = "the other tests run this as a process of its own"]
fn listen_from_a_process_of_its_own() {
    let plain = env::var_os(PLAIN).is_some();
    let capabilities = Capabilities::of_this_process(plain, ColorChoice::Auto);
    let mut screen = Screen::standard(capabilities);
    let mut listener = Listener::standard(capabilities).unwrap();
    if let Ok(seconds) = env::var(PAUSE) {
        let pause = Duration::from_secs(seconds.parse().unwrap());
        screen.say(Tone::Plain, "[pause]").unwrap();
        let said = listener.pause(pause).unwrap();
        let early = said.map_or("none".to_owned(), words);
        screen
            .say(Tone::Plain, &format!("[paused {early}]"))
            .unwrap();
    }
    screen.wipe().unwrap();
    if env::var_os(PANIC).is_some() {
        screen.enter().unwrap();
        listener.line(&mut screen, "reply> ").unwrap();
        panic!("[panic]");
    }
    screen.say(Tone::Question, "[ready]").unwrap();
    loop {
        let said = listener.line(&mut screen, "reply> ").unwrap();
        let ended = said == Said::End;
        match screen.say(Tone::Plain, &format!("[{}]", words(said))) {
            Err(ScreenError::Closed) => return,
            said => said.unwrap(),
        }
        if ended {
            return;
        }
    }
}

fn words(said: Said) -> String {
    match said {
        Said::Line(line) => format!(
            "line {} {:?} +{}",
            line.text.len(),
            line.text.get(..8.min(line.text.len())),
            line.dropped
        ),
        Said::Interrupt => "interrupt".to_owned(),
        Said::End => "end".to_owned(),
    }
}

fn program() -> Command {
    let mut command = Command::new(env::current_exe().unwrap());
    command
        .args(["--ignored", "--exact", "--nocapture"])
        .arg("listening::listen_from_a_process_of_its_own")
        .env("TERM", "xterm")
        .env_remove("NO_COLOR")
        .env_remove("CLICOLOR")
        .env_remove("CLICOLOR_FORCE")
        .env_remove(PLAIN)
        .env_remove(PANIC)
        .env_remove(PAUSE);
    command
}

/// Hears the same on any terminal: a line, Ctrl-C, a line, Ctrl-D.
fn converse(session: &mut Terminal) -> String {
    let mut all = session.sees("[ready]");
    all += &session.sees("reply> ");
    session.types_line("d5 e6");
    all += &session.sees("[line 5 Some(\"d5 e6\") +0]");
    all += &session.sees("reply> ");
    session.control('c');
    all += &session.sees("[interrupt]");
    all += &session.sees("reply> ");
    session.control('c');
    all += &session.sees("[interrupt]");
    all += &session.sees("reply> ");
    session.types_line("");
    all += &session.sees("[line 0 Some(\"\") +0]");
    all += &session.sees("reply> ");
    session.control('d');
    all += &session.sees("[end]");
    all + &session.ends()
}

#[test]
fn a_terminal_edits_lines_and_hears_interrupts_and_the_end() {
    let mut session = Terminal::start(program());
    let all = converse(&mut session);
    assert!(all.contains("\x1b[H\x1b[2J"), "the screen was wiped");
    assert!(all.contains("\x1b[1m"), "the question is bold");
}

#[test]
fn a_line_is_edited_before_it_is_heard() {
    let mut session = Terminal::start(program());
    session.sees("reply> ");
    session.types("d5 e7\x7f6\x01c4 \n");
    session.sees("[line 8 Some(\"c4 d5 e6\") +0]");
    session.sees("reply> ");
    session.types("\x1b[A\n");
    session.sees("[line 0 Some(\"\") +0]");
    session.sees("reply> ");
    session.control('d');
    session.sees("[end]");
}

#[test]
fn an_end_that_is_typed_before_anything_is_awaited_is_heard() {
    let mut session = Terminal::start(program());
    session.control('d');
    session.sees("[end]");
}

#[test]
fn what_is_typed_ahead_is_heard_line_by_line() {
    let mut session = Terminal::start(program());
    session.sees("reply> ");
    session.types("one\ntwo\n\nthree\n");
    for said in [
        "3 Some(\"one\")",
        "3 Some(\"two\")",
        "0 Some(\"\")",
        "5 Some(\"three\")",
    ] {
        session.sees(&format!("[line {said} +0]"));
        session.sees("reply> ");
    }
    session.control('d');
    session.sees("[end]");
}

#[test]
fn a_plain_terminal_never_sees_an_escape() {
    let mut plain = program();
    plain.env(PLAIN, "1");
    let mut dumb = program();
    dumb.env("TERM", "dumb");
    for command in [plain, dumb] {
        let all = converse(&mut Terminal::start(command));
        assert!(!all.contains('\x1b'), "{all:?}");
    }
}

#[test]
fn a_panic_is_told_on_the_normal_screen() {
    let mut command = program();
    command.env(PANIC, "1");
    let mut session = Terminal::start(command);
    session.sees("\x1b[?1049h");
    session.sees("reply> ");
    session.types_line("");
    let before = session.sees("[panic]");
    assert!(before.contains("\x1b[?1049l"), "{before:?}");
    let after = session.ends();
    assert!(!after.contains("\x1b[?1049"), "{after:?}");
}

#[test]
fn a_pause_ends_early_at_a_line_an_interrupt_and_the_end() {
    let ends_early = |plain: bool, keys: &str, said: &str| {
        let mut command = program();
        command.env(PAUSE, "600");
        if plain {
            command.env(PLAIN, "1");
        }
        let mut session = Terminal::start(command);
        session.sees("[pause]");
        session.types(keys);
        session.sees(&format!("[paused {said}]"));
    };
    thread::scope(|scope| {
        for (keys, said) in [
            ("\n", "line 0 Some(\"\") +0"),
            ("\x03", "interrupt"),
            ("\x04", "end"),
        ] {
            scope.spawn(move || ends_early(false, keys, said));
            scope.spawn(move || ends_early(true, keys, said));
        }
    });
}

#[test]
fn what_is_typed_in_a_pause_of_a_terminal_is_not_lost() {
    let mut command = program();
    command.env(PAUSE, "1");
    let mut session = Terminal::start(command);
    session.sees("[pause]");
    session.types("d5");
    session.sees("[paused none]");
    session.sees("reply> ");
    session.types_line(" e6");
    session.sees("[line 5 Some(\"d5 e6\") +0]");
    session.sees("reply> ");
    session.control('d');
    session.sees("[end]");
}

fn piped(input: Vec<u8>) -> String {
    let mut child = program()
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut stdin = child.stdin.take().unwrap();
    let writing = thread::spawn(move || stdin.write_all(&input));
    let mut out = String::new();
    child
        .stdout
        .take()
        .unwrap()
        .read_to_string(&mut out)
        .unwrap();
    writing.join().unwrap().unwrap();
    assert!(child.wait().unwrap().success());
    out
}

#[test]
fn a_pipe_gets_no_prompt_and_no_escape() {
    let out = piped(b"d5 e6\n\nlast".to_vec());
    for said in [
        "[line 5 Some(\"d5 e6\") +0]",
        "[line 0 Some(\"\") +0]",
        "[line 4 Some(\"last\") +0]",
        "[end]",
    ] {
        assert!(out.contains(said), "{out}");
    }
    assert!(!out.contains('\x1b') && !out.contains("reply>"), "{out}");
}

#[test]
fn an_endless_line_and_broken_text_from_a_pipe_do_no_harm() {
    let mut input = vec![b'x'; 20_000_000];
    input.extend_from_slice(b"\n\0\xff\xfe\n");
    let out = piped(input);
    assert!(out.contains(&format!(
        "[line 65536 Some(\"xxxxxxxx\") +{}]",
        20_000_000 - 65_536
    )));
    assert!(out.contains("[line 7 "), "{out}");
}

#[test]
fn a_pipe_that_closes_ends_the_program_quietly() {
    let mut child = program()
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut stdin = child.stdin.take().unwrap();
    let mut out = child.stdout.take().unwrap();
    let mut seen = Vec::new();
    while !seen.ends_with(b"[ready]") {
        let mut byte = [0];
        out.read_exact(&mut byte).unwrap();
        seen.push(byte[0]);
    }
    drop(out);
    stdin.write_all(b"d5\n").unwrap();
    let mut errors = String::new();
    child
        .stderr
        .take()
        .unwrap()
        .read_to_string(&mut errors)
        .unwrap();
    // The test harness itself complains of the closed pipe; the program must not.
    assert!(!errors.contains(file!()), "{errors}");
    child.wait().unwrap();
}
