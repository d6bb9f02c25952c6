//! Pipes that are slow, files that may not be read, names that would steer a terminal.

use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::process::Stdio;
use std::sync::mpsc::channel;
use std::time::Duration;

use super::{Desk, Said};
use sansvoir::voice::clean;

#[test]
fn the_games_of_a_slow_pipe_are_listed_before_it_ends() {
    for options in [
        &[] as &[&str],
        &["--format", "json"],
        &["--player", "quill"],
    ] {
        let desk = Desk::new();
        let mut child = desk
            .program(&[&["games", "-"], options].concat())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut stdin = child.stdin.take().unwrap();
        let stdout = BufReader::new(child.stdout.take().unwrap());
        let (told, lines) = channel();
        let reading = std::thread::spawn(move || {
            for line in stdout.lines() {
                told.send(line.unwrap()).unwrap();
            }
        });
        // Nothing tells that a game is over but the beginning of the next one.
        let game = "[White \"Quill\"]\n\n1. e4 *\n\n[White \"Vale\"]\n\n1. d4 *\n\n".repeat(40);
        stdin.write_all(game.as_bytes()).unwrap();
        stdin.flush().unwrap();
        // However slow the machine is, that long nothing would come if it were held back.
        let first = lines.recv_timeout(Duration::from_mins(1));
        assert!(first.unwrap().contains("Quill"), "{options:?}");
        drop(stdin);
        assert!(child.wait().unwrap().success());
        reading.join().unwrap();
    }
}

#[test]
fn names_that_would_steer_a_terminal_are_harmless_wherever_they_are_shown() {
    let evil = "\u{1b}[2J\u{1b}]0;title\u{7}\u{9b}31m\u{202e}\u{2066}\u{8}\u{7f}\u{200f}\u{e0041}";
    let text = format!(
        "[Event \"{evil}E\"]\n[White \"{evil}Quill\"]\n[Black \"Va{evil}le\"]\n[Date \"{evil}\"]\n\
         [Result \"{evil}\"]\n[Fo{evil}o \"x\"]\n[FEN \"{evil}\"]\n\n1. e4 {evil} e5 {{{evil}}} 2. Nf{evil}3 *\n\
         \n[White \"Quill\"]\n\n1. e4 {{{evil}}} e5 ; {evil}\n2. Nf9{evil} *\n"
    );
    let desk = Desk::new();
    let file = desk.file("ho\u{1b}[31m\u{202e}stile.pgn", &text);
    let missing = desk.path("no\u{1b}[31m\u{9b}\u{202e}where.pgn");
    let missing = missing.to_str().unwrap();
    let out = desk.path("out.pgn");
    let mut said = vec![
        desk.run(&["games", missing], ""),
        desk.run(&["games", &file, "--player", evil], ""),
        desk.run(&["games", &file, "--export", out.to_str().unwrap()], ""),
        desk.run(
            &["replay", &file, "--game", "2", "--plain"],
            "pass\n".repeat(20),
        ),
    ];
    for options in [
        &[] as &[&str],
        &["--player", "quill"],
        &["--random", "--seed", "1"],
        &["--check"],
        &["--check", "--plain"],
        &["--format", "json"],
    ] {
        said.push(desk.run(&[&["games", &file], options].concat(), ""));
        said.push(desk.run(&[&["games", "-"], options].concat(), &text));
    }
    for Said { out, err, .. } in &said {
        assert!(!(out.is_empty() && err.is_empty()));
        for shown in [out, err] {
            assert_eq!(&clean(shown), shown);
        }
    }
    assert!(said[0].err.contains("there is no such file"), "{said:?}");
}

/// A user who is nobody else's: 'nobody' on most systems.
#[cfg(unix)]
const NOBODY: u32 = 65_534;

#[test]
#[cfg(unix)]
fn a_file_that_may_not_be_read_is_told_with_what_to_do() {
    use std::os::unix::fs::PermissionsExt;
    use std::os::unix::process::CommandExt;

    let desk = Desk::new();
    let file = desk.file("private.pgn", "1. e4 *\n");
    let allow = |path: &str, mode| {
        fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
    };
    allow(&file, 0o000);
    let arguments = ["games", &file];
    let said = if fs::File::open(&file).is_err() {
        desk.run(&arguments, "")
    } else {
        // Nothing is forbidden to the one who runs this test, so the program runs as somebody else.
        let folder = desk.path("");
        allow(folder.to_str().unwrap(), 0o755);
        let program = desk.path("sansvoir");
        fs::copy(env!("CARGO_BIN_EXE_sansvoir"), &program).unwrap();
        allow(program.to_str().unwrap(), 0o755);
        let mut command = std::process::Command::new(program);
        command.args(arguments);
        desk.place(&mut command);
        command.current_dir("/").uid(NOBODY).gid(NOBODY);
        Said::of(command, b"")
    };
    said.ends(
        1,
        &["private.pgn: you may not read this file: change its permissions"],
    );
    assert_eq!(said.out, "");
}

#[test]
fn what_stood_where_moves_are_lost_is_quoted_without_what_makes_a_file_a_binary_one() {
    let desk = Desk::new();
    let words = "Long notes. ".repeat(9_000);
    let file = desk.file(
        "nul.pgn",
        format!("{{{words}}}\n1. e4 e5 2. Nb9 Nc6\0Nf3 *\n"),
    );
    let out = desk.path("out.pgn");
    desk.run(&["games", &file, "--export", out.to_str().unwrap()], "");
    let text = std::fs::read_to_string(&out).unwrap();
    assert!(
        text.contains("There stood: ") && !text.contains('\0'),
        "{text}"
    );
}
