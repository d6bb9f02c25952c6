//! Sentences spoken by a command of the user's: what arrives there, and commands that do not behave.

use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::os::unix::fs::PermissionsExt;
use std::process::Stdio;
use std::thread;
use std::time::{Duration, Instant};

use crate::program::{CLUB, Desk, Said};
use crate::screen::Terminal;
use sansvoir::terminal::{Speech, SpeechError};

/// Puts a shell script on the desk that is run for each sentence.
pub(crate) fn script(desk: &Desk, body: &str) -> String {
    let path = desk.file("speech.sh", format!("#!/bin/sh\n{body}\n"));
    fs::set_permissions(&path, fs::Permissions::from_mode(0o755)).unwrap();
    path
}

/// A command that writes down what it gets.
fn logging(desk: &Desk) -> (String, std::path::PathBuf) {
    let log = desk.path("spoken.txt");
    (script(desk, &format!("cat >> '{}'", log.display())), log)
}

fn spoken(log: &std::path::Path) -> Vec<String> {
    let text = fs::read_to_string(log).unwrap_or_default();
    text.lines().map(str::to_owned).collect()
}

/// Waits for something that another process does.
fn until(what: &str, mut holds: impl FnMut() -> bool) {
    let begun = Instant::now();
    while !holds() {
        assert!(begun.elapsed() < Duration::from_mins(1), "never: {what}");
        thread::sleep(Duration::from_millis(5));
    }
}

#[test]
fn every_sentence_of_a_session_arrives_in_order_and_as_it_is_said_plainly() {
    let desk = Desk::new();
    let (command, log) = logging(&desk);
    let session = ["replay", CLUB, "--seed", "208", "--plain"];
    let speaking = [&session[..], &["--speech", &command]].concat();
    let said = desk.run(&speaking, "d6\nyes\nz9\npass\nhelp\nlook\nstop\n");
    said.ends(0, &[]);
    let wanted: Vec<String> = said.out.lines().map(sansvoir::voice::for_the_ear).collect();
    assert_eq!(spoken(&log), wanted);
    for sentence in wanted {
        assert!(!sentence.contains(['#', '+', '/', '|']), "{sentence}");
        assert!(!sentence.contains("..."), "{sentence}");
    }
}

/// A part of each exercise; what stands on the screen around them is spoken too.
const LESSON: &str = "title = \"Tuesday\"\nnotes = \"Take your time.\"\n\
    [[part]]\nheading = \"Colors\"\nexercise = \"drill\"\nkinds = [\"color\"]\ncount = 2\npass = 1\n\
    [[part]]\nnotes = \"Two plies\\u001b[2J only.\"\nexercise = \"ahead\"\nfiles = \"club.pgn\"\n\
    count = 1\nquestions = 1\nplies = 2\nshow = \"list\"\n";

#[test]
fn every_sentence_of_every_exercise_arrives_in_order_and_clean() {
    let around = "again\nhelp\nquestion\nlook\nz9\npass\n";
    for (session, replies) in [
        (
            &["ahead", CLUB, "--count", "2", "--show", "diagram"][..],
            around,
        ),
        (&["ahead", CLUB, "--count", "2", "--show", "list"], around),
        (
            &["ahead", CLUB, "--count", "2", "--show", "list", "RANK"],
            around,
        ),
        (&["ahead", CLUB, "--count", "2", "--show", "none"], around),
        (
            &[
                "ahead", CLUB, "--mate", "1", "--count", "2", "--show", "list",
            ],
            around,
        ),
        (
            &["recite", CLUB, "--side", "black", "--every", "2"],
            "a6\nNf3\nhint\npass\n",
        ),
        (
            &[
                "drill",
                "name,place,color,aligned,between,span,crossing,distance,route",
            ],
            around,
        ),
        (&["drill", "few", "--count", "2", "--ask", "all"], around),
        (
            &[
                "replay",
                CLUB,
                "--ask",
                "all",
                "--sidelines",
                "--every",
                "2",
            ],
            around,
        ),
        (&["lesson", "LESSON"], "light\nlight\nlight\npass\n"),
        (&["lesson", "--minutes", "1"], "light\npass\n"),
    ] {
        let desk = Desk::new();
        fs::copy(CLUB, desk.path("club.pgn")).unwrap();
        let lesson = desk.file("lesson.toml", LESSON);
        let (command, log) = logging(&desk);
        let mut words: Vec<&str> = session.to_vec();
        if words.pop_if(|word| *word == "RANK").is_some() {
            desk.wishes("list = \"rank\"");
        }
        words.extend(["--plain", "--seed", "5", "--speech", &command]);
        words
            .iter_mut()
            .filter(|word| **word == "LESSON")
            .for_each(|word| *word = &lesson);
        let said = desk.run(&words, &(replies.to_owned() + "pass\npass\npass\nstop\n"));
        said.ends(0, &[]);
        let wanted: Vec<String> = said.out.lines().map(sansvoir::voice::for_the_ear).collect();
        let wanted: Vec<String> = wanted.into_iter().filter(|said| !said.is_empty()).collect();
        assert!(wanted.len() > 5, "{words:?}: {wanted:?}");
        let spoken = spoken(&log);
        assert_eq!(spoken, wanted, "{words:?}");
        for sentence in spoken {
            let odd = |c: char| c.is_control() || "#+|%…—–<>".contains(c);
            assert!(!sentence.contains(odd), "{words:?}: {sentence}");
        }
    }
}

#[test]
fn what_ends_an_exercise_early_is_spoken_too() {
    let desk = Desk::new();
    let (command, log) = logging(&desk);
    let said = desk.run(&["replay", "no-such.pgn", "--speech", &command], "");
    said.ends(1, &["there is no such file"]);
    assert_eq!(
        spoken(&log),
        [
            "no-such.pgn: there is no such file: check the name and the folder",
            "sansvoir help replay tells more.",
        ]
    );
}

#[test]
fn moves_are_spoken_in_words_whatever_the_eye_gets() {
    let desk = Desk::new();
    let (command, log) = logging(&desk);
    let session = ["replay", CLUB, "--seed", "208", "--speech", &command];
    desk.wishes("announce = \"san\"\n");
    let said = desk.run(&session, "look\nstop\n");
    said.ends(0, &[]);
    assert!(said.out.contains("1. e4 e5"), "{}", said.out);
    let spoken = spoken(&log);
    let has = |sentence: &str| spoken.iter().any(|spoken| spoken == sentence);
    assert!(
        has("Move 1, White: pawn to e4. Black: pawn to e5."),
        "{spoken:?}"
    );
    assert!(
        spoken
            .iter()
            .any(|sentence| sentence.starts_with("White: king e1")),
        "{spoken:?}"
    );
    assert!(
        !spoken.iter().any(|sentence| sentence.contains(":P:")),
        "{spoken:?}"
    );
}

#[test]
fn names_from_a_file_are_spoken_without_control_characters() {
    let desk = Desk::new();
    let (command, log) = logging(&desk);
    let game = "[White \"Berg\u{1b}[31m, A\u{202e}nna\"]\n\n1. e4 e5 *\n";
    let file = desk.file("game.pgn", game);
    desk.run(&["replay", &file, "--speech", &command], "stop\n")
        .ends(0, &[]);
    let spoken = spoken(&log);
    assert_eq!(spoken[0], "White: Berg[31m, Anna.");
}

#[test]
fn a_command_that_fails_or_is_not_there_is_told_once_and_the_session_goes_on() {
    let desk = Desk::new();
    let failing = script(&desk, "echo 'no sound device' >&2; exit 3");
    for (command, words) in [
        (failing.as_str(), "failed (exit status: 3: no sound device)"),
        ("no-such-command-here", "cannot be run"),
    ] {
        let session = [
            "drill", "color", "--count", "4", "--seed", "1", "--speech", command,
        ];
        let said = desk.run(&session, "light\nlight\nlight\nlight\nlight\nlight\n");
        said.ends(0, &[]);
        assert_eq!(said.out.matches(words).count(), 1, "{}", said.out);
        assert!(said.out.contains("Question 4 of 4."), "{}", said.out);
    }
}

#[test]
fn a_command_that_ends_at_once_and_complains_is_told_once_and_goes_on() {
    let desk = Desk::new();
    let log = desk.path("spoken.txt");
    let complaint = "cannot find card 0";
    for (body, times) in [
        (
            format!("cat >> '{}'; echo '{complaint}' >&2", log.display()),
            1,
        ),
        // A pipe that hands the sentence on does not complain.
        (format!("tee -a '{}'", log.display()), 0),
    ] {
        let command = script(&desk, &body);
        let session = ["drill", "color,distance", "--count", "4", "--seed", "1"];
        let session = [&session[..], &["--plain", "--speech", &command]].concat();
        let said = desk.run(&session, "pass\npass\npass\npass\nstop\n");
        said.ends(0, &[]);
        let told = said.out.matches("Perhaps nothing is heard").count();
        assert_eq!(told, times, "{}", said.out);
        assert!(told == 0 || said.out.contains(complaint));
        let last = said.out.lines().rfind(|line| !line.starts_with("Perhaps"));
        let last = sansvoir::voice::for_the_ear(last.unwrap());
        assert_eq!(spoken(&log).last(), Some(&last));
    }
}

#[test]
fn without_any_speech_command_the_user_is_told_what_to_install() {
    let desk = Desk::new();
    let mut program = desk.program(&["drill", "color", "--count", "1", "--speak"]);
    program.env("PATH", desk.path("nothing"));
    let said = Said::of(program, b"light\n");
    said.ends(0, &[]);
    assert!(
        said.out.contains("Install espeak-ng or speech-dispatcher"),
        "{}",
        said.out
    );
}

fn error(body: &str) -> SpeechError {
    let desk = Desk::new();
    let command = script(&desk, body);
    let speech = Speech::new(Some(vec![command]), Duration::from_millis(50));
    speech.say("e4");
    speech.say("d4");
    let mut found = None;
    until("the trouble is told", || {
        found = speech.error();
        found.is_some()
    });
    until("all is over", || !speech.is_speaking());
    assert_eq!(speech.error(), None, "it is told once");
    found.unwrap()
}

#[test]
fn a_command_that_hangs_is_ended_with_all_that_it_started() {
    let desk = Desk::new();
    let child = desk.path("child");
    let body = format!("sleep 1000 & echo $! > '{}'; wait", child.display());
    assert!(matches!(error(&body), SpeechError::Hung { .. }));
    let pid = fs::read_to_string(&child).unwrap();
    let state = || fs::read_to_string(format!("/proc/{}/stat", pid.trim())).unwrap_or_default();
    until("its child is gone", || {
        state().is_empty() || state().contains(") Z ")
    });
}

#[test]
fn a_command_that_writes_without_end_is_ended() {
    let flood = error("while :; do echo 0123456789012345678901234567890123456789; done");
    assert!(matches!(flood, SpeechError::Flooded { .. }), "{flood:?}");
}

#[test]
fn a_command_that_hangs_is_found_out_though_every_sentence_is_cut_off() {
    let desk = Desk::new();
    let command = script(&desk, "sleep 1000");
    let speech = Speech::new(Some(vec![command]), Duration::from_millis(50));
    let mut found = None;
    until("the trouble is told", || {
        speech.say("e4");
        thread::sleep(Duration::from_millis(20));
        speech.hush();
        found = speech.error();
        found.is_some()
    });
    assert!(matches!(found, Some(SpeechError::Hung { .. })), "{found:?}");
}

#[test]
fn a_command_that_reads_nothing_holds_up_no_long_sentence() {
    let desk = Desk::new();
    let speech = Speech::new(Some(vec![script(&desk, "sleep 1000")]), Speech::PATIENCE);
    speech.say(&"very long ".repeat(20_000));
    thread::sleep(Duration::from_millis(50));
    speech.hush();
    until("it is cut off", || !speech.is_speaking());
}

/// Two programs of known names that write down in which spoken language they were spoken to.
#[test]
fn the_words_of_the_appendix_are_spoken_by_a_german_voice_where_there_is_one() {
    for (voice, wanted) in [
        (
            "",
            "Move 1, White:|-v de Bauer|to|-v de Eva vier.|Black:|-v de Bauer|to|-v de Eva fünf.",
        ),
        // One that has no such voice speaks all as it can.
        (
            "-v de",
            "Move 1, White:|Bauer|to|Eva vier.|Black:|Bauer|to|Eva fünf.",
        ),
    ] {
        let desk = Desk::new();
        let log = desk.path("spoken.txt");
        let body = format!(
            "[ \"$*\" = '{voice}' ] && [ -n \"$*\" ] && exit 1; read line; echo $* \"$line\" >> '{}'",
            log.display()
        );
        let path = desk.file("espeak-ng", format!("#!/bin/sh\n{body}\n"));
        fs::set_permissions(&path, fs::Permissions::from_mode(0o755)).unwrap();
        let session = ["replay", CLUB, "--to", "1...", "--speech", &path];
        desk.wishes("announce = \"spelled\"\n");
        desk.run(&session, "stop\n").ends(0, &[]);
        let spoken = spoken(&log).join("|");
        assert!(spoken.contains(wanted), "{spoken}");
    }
}

#[test]
fn a_sentence_is_cut_off_and_what_was_to_follow_is_dropped() {
    let desk = Desk::new();
    let log = desk.path("spoken.txt");
    let body = format!(
        "read line; echo \"$line\" >> '{0}'; [ \"$line\" = long ] && sleep 1000; true",
        log.display()
    );
    let speech = Speech::new(Some(vec![script(&desk, &body)]), Speech::PATIENCE);
    speech.say("long");
    speech.say("never heard");
    until("the first sentence begins", || spoken(&log) == ["long"]);
    speech.hush();
    speech.say("next");
    until("the next sentence comes", || {
        spoken(&log) == ["long", "next"]
    });
    until("all is over", || !speech.is_speaking());
    assert_eq!(speech.error(), None);
}

/// A question is on the screen while the sentences before it are still spoken.
#[test]
fn reading_does_not_wait_for_sound() {
    let desk = Desk::new();
    let command = script(&desk, "cat > /dev/null; sleep 1000");
    let mut program = desk
        .program(&[
            "drill", "color", "--count", "2", "--seed", "1", "--speech", &command,
        ])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut input = program.stdin.take().unwrap();
    let mut lines = BufReader::new(program.stdout.take().unwrap()).lines();
    let mut next = |start: &str| {
        lines
            .by_ref()
            .map_while(Result::ok)
            .any(|line| line.starts_with(start))
    };
    assert!(next("Question 1 of 2."));
    input.write_all(b"light\n").unwrap();
    assert!(next("Question 2 of 2."));
    program.kill().unwrap();
    program.wait().unwrap();
}

#[test]
fn replies_by_mouth_and_in_german_letters_are_graded_like_written_ones() {
    let desk = Desk::new();
    let session = [
        "replay",
        CLUB,
        "--seed",
        "208",
        "--ask",
        "played,whereabouts",
        "--every",
        "8",
    ];
    desk.wishes("letters = \"german\"");
    let said = desk.run(&session, "Gustav vier\nSpringer Felix drei\nstop\n");
    said.ends(0, &[]);
    let answers: Vec<_> = desk
        .records()
        .into_iter()
        .filter(|record| record["type"] == "answer")
        .collect();
    assert_eq!(answers[0]["reply"], "Gustav vier", "{}", said.out);
}

#[test]
fn on_a_plain_terminal_prompts_are_numbered_and_all_is_heard_to_the_end() {
    let desk = Desk::new();
    let (command, log) = logging(&desk);
    let session = [
        "recite", CLUB, "--side", "white", "--plain", "--speech", &command,
    ];
    let program = desk.program(&session);
    let mut terminal = Terminal::start(program);
    let mut all = terminal.sees("1 of 27. Your reply: ");
    terminal.types_line("e4");
    all += &terminal.sees("2 of 27. Your reply: ");
    terminal.types_line("a6");
    all += &terminal.sees("2 of 27. Your reply: ");
    terminal.control('d');
    all += &terminal.ends();
    assert!(!all.contains('\u{1b}'), "{all:?}");
    let spoken = spoken(&log);
    assert!(
        spoken
            .last()
            .is_some_and(|last| last.starts_with("Right with help, ")),
        "the end of the input cuts nothing off: {spoken:?}"
    );
}

#[test]
fn a_mistyped_command_is_told_without_color_where_all_is_plain() {
    for (words, is_colored) in [
        (&["drill", "colr", "--plain"][..], false),
        (&["drill", "colr"], true),
    ] {
        let program = Desk::new().program(words);
        let mut terminal = Terminal::start(program);
        let all = terminal.ends();
        assert!(all.contains("colr"), "{all:?}");
        assert_eq!(all.contains('\u{1b}'), is_colored, "{all:?}");
    }
}
