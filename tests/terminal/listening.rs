//! A terminal, a plain terminal and a pipe, each with a listener in a process of its own.

use std::env;
use std::io::{Read, Write};
use std::process::{Command, Stdio};
use std::thread;
use std::time::Duration;

use rexpect::session::{PtySession, spawn_command};
use sansvoir::terminal::{Capabilities, ColorChoice, Listener, Said, Screen, ScreenError, Tone};

const PLAIN: &str = "SANSVOIR_TEST_PLAIN";
const PAUSE: &str = "SANSVOIR_TEST_PAUSE";
const PANIC: &str = "SANSVOIR_TEST_PANIC";
const PATIENCE_MILLIS: u64 = 20_000;

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

fn session(command: Command) -> PtySession {
    spawn_command(command, Some(PATIENCE_MILLIS)).unwrap()
}

/// Hears the same on any terminal: a line, Ctrl-C, a line, Ctrl-D.
fn converse(session: &mut PtySession) -> String {
    let mut all = session.exp_string("[ready]").unwrap();
    all += &session.exp_string("reply> ").unwrap();
    session.send_line("d5 e6").unwrap();
    all += &session.exp_string("[line 5 Some(\"d5 e6\") +0]").unwrap();
    all += &session.exp_string("reply> ").unwrap();
    session.send_control('c').unwrap();
    all += &session.exp_string("[interrupt]").unwrap();
    all += &session.exp_string("reply> ").unwrap();
    session.send_control('c').unwrap();
    all += &session.exp_string("[interrupt]").unwrap();
    all += &session.exp_string("reply> ").unwrap();
    session.send_line("").unwrap();
    all += &session.exp_string("[line 0 Some(\"\") +0]").unwrap();
    all += &session.exp_string("reply> ").unwrap();
    session.send_control('d').unwrap();
    all += &session.exp_string("[end]").unwrap();
    all + &session.exp_eof().unwrap()
}

#[test]
fn a_terminal_edits_lines_and_hears_interrupts_and_the_end() {
    let mut session = session(program());
    let all = converse(&mut session);
    assert!(all.contains("\x1b[H\x1b[2J"), "the screen was wiped");
    assert!(all.contains("\x1b[1m"), "the question is bold");
}

#[test]
fn a_line_is_edited_before_it_is_heard() {
    let mut session = session(program());
    session.exp_string("reply> ").unwrap();
    session.send("d5 e7\x7f6\x01c4 \n").unwrap();
    session
        .exp_string("[line 8 Some(\"c4 d5 e6\") +0]")
        .unwrap();
    session.exp_string("reply> ").unwrap();
    session.send("\x1b[A\n").unwrap();
    session.exp_string("[line 0 Some(\"\") +0]").unwrap();
    session.send_control('d').unwrap();
}

#[test]
fn what_is_typed_ahead_is_heard_line_by_line() {
    let mut session = session(program());
    session.exp_string("reply> ").unwrap();
    session.send("one\ntwo\n\nthree\n").unwrap();
    for said in [
        "3 Some(\"one\")",
        "3 Some(\"two\")",
        "0 Some(\"\")",
        "5 Some(\"three\")",
    ] {
        session.exp_string(&format!("[line {said} +0]")).unwrap();
    }
    session.send_control('d').unwrap();
    session.exp_string("[end]").unwrap();
}

#[test]
fn a_plain_terminal_never_sees_an_escape() {
    let mut plain = program();
    plain.env(PLAIN, "1");
    let mut dumb = program();
    dumb.env("TERM", "dumb");
    for command in [plain, dumb] {
        let all = converse(&mut session(command));
        assert!(!all.contains('\x1b'), "{all:?}");
    }
}

#[test]
fn a_panic_is_told_on_the_normal_screen() {
    let mut command = program();
    command.env(PANIC, "1");
    let mut session = session(command);
    session.exp_string("\x1b[?1049h").unwrap();
    session.exp_string("reply> ").unwrap();
    session.send_line("").unwrap();
    let before = session.exp_string("[panic]").unwrap();
    assert!(before.contains("\x1b[?1049l"), "{before:?}");
    let after = session.exp_eof().unwrap();
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
        let mut session = session(command);
        session.exp_string("[pause]").unwrap();
        session.send(keys).unwrap();
        session.flush().unwrap();
        session.exp_string(&format!("[paused {said}]")).unwrap();
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
    let mut session = session(command);
    session.exp_string("[pause]").unwrap();
    session.send("d5").unwrap();
    session.flush().unwrap();
    session.exp_string("[paused none]").unwrap();
    session.exp_string("reply> ").unwrap();
    session.send_line(" e6").unwrap();
    session.exp_string("[line 5 Some(\"d5 e6\") +0]").unwrap();
    session.send_control('d').unwrap();
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
