//! Replies by mouth: a recognizer that is a script, whose utterances a test writes, and recognizers that do not
//! behave.

mod whole;

use std::fs::{self, File, OpenOptions};
use std::io::{BufRead, BufReader, Read, Write};
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::time::{Duration, Instant};

use serde_json::Value;

use crate::program::Desk;
use crate::speech::script;

/// A session whose learner speaks and does not type.
struct Speaking {
    child: Child,
    out: BufReader<ChildStdout>,
    /// It stays open: its end would be the learner's.
    input: ChildStdin,
    mouth: File,
}

impl Speaking {
    /// Begins a session. The recognizer writes down what it is told, and hears what is written into `mouth`.
    fn begin(desk: &Desk, wishes: &str, words: &[&str]) -> Speaking {
        let (mouth, told) = (desk.path("mouth"), desk.path("told.txt"));
        assert!(
            Command::new("mkfifo")
                .arg(&mouth)
                .status()
                .unwrap()
                .success()
        );
        let (told, mouth) = (told.display(), mouth.display());
        let body = format!(
            "cp \"$1\" '{told}.grammar'\ncp \"$2\" '{told}.words'\n\
             exec 3<&0\n\
             cat <&3 > '{told}' & exec cat '{mouth}'"
        );
        let path = desk.file("hears.sh", format!("#!/bin/sh\n{body}\n"));
        desk.wishes(&format!(
            "hearing = [\"sh\", \"{path}\", \"GRAMMAR\", \"WORDS\"]\n{wishes}"
        ));
        let mut child = desk
            .program(&[words, &["--plain", "--hear", "--seed", "1"]].concat())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        Speaking {
            out: BufReader::new(child.stdout.take().unwrap()),
            input: child.stdin.take().unwrap(),
            child,
            mouth: OpenOptions::new()
                .write(true)
                .open(desk.path("mouth"))
                .unwrap(),
        }
    }

    fn say(&mut self, utterance: &str) {
        writeln!(self.mouth, "{utterance}").unwrap();
    }

    /// Waits for a line that holds these words, and returns it.
    fn until(&mut self, words: &str) -> String {
        let mut all = String::new();
        loop {
            let begins = all.len();
            assert!(
                self.out.read_line(&mut all).unwrap() > 0,
                "never: {words}\n{all}"
            );
            if all[begins..].contains(words) {
                return all[begins..].trim_end().to_owned();
            }
        }
    }

    /// Says one thing after another, each once what was said before has its answer.
    fn talk(&mut self, talk: &[(&str, &str)]) {
        for (utterance, answer) in talk {
            self.say(utterance);
            if !answer.is_empty() {
                self.until(answer);
            }
        }
    }

    fn ends(mut self) {
        self.out.read_to_string(&mut String::new()).unwrap();
        drop(self.input);
        assert!(self.child.wait().unwrap().success());
    }
}

fn answers(desk: &Desk) -> Vec<Value> {
    let records = desk.records().into_iter();
    records
        .filter(|record| record["type"] == "answer")
        .collect()
}

#[test]
fn a_session_by_mouth_leaves_the_journal_of_the_same_session_typed() {
    let drill = [
        "drill",
        "color,distance,name",
        "--count",
        "3",
        "--think",
        "1000",
    ];
    let desk = Desk::new();
    let mut session = Speaking::begin(&desk, "", &drill);
    session.until("Question 1 of 3.");
    session.say("garbage garbage");
    session.talk(&[
        ("bella one", "b1?"),
        ("no", "Taken back."),
        ("cesar eight", "c8?"),
        ("yes", "Question 2 of 3."),
        ("question", "Question 2 of 3."),
        ("help", "By mouth: "),
        ("three", "3?"),
        ("two", "2?"),
        ("yes", "Question 3 of 3."),
        ("pass", "pass?"),
        ("yes", ""),
    ]);
    session.ends();
    let heard = answers(&desk);
    let typed = Desk::new();
    typed
        .run(
            &[&drill[..], &["--plain", "--seed", "1"]].concat(),
            "c8\nquestion\n2\npass\n",
        )
        .ends(0, &[]);
    let typed = answers(&typed);
    let counts = heard
        .iter()
        .map(|answer| answer["taken_back"].as_u64().unwrap_or_default());
    assert_eq!(counts.collect::<Vec<_>>(), [1, 1, 0]);
    let mut same = heard.clone();
    for (answer, typed) in same.iter_mut().zip(&typed) {
        assert_eq!(answer["heard"], true);
        let fields = answer.as_object_mut().unwrap();
        fields.remove("heard");
        fields.remove("taken_back");
        for name in ["time", "session", "millis"] {
            fields.insert(name.to_owned(), typed[name].clone());
        }
    }
    assert_eq!(same, typed);
    let said = desk.run(&["progress", "--plain"], "").out;
    assert!(
        said.contains("By mouth: 3 answers; 2 utterances were taken back."),
        "{said}"
    );
}

#[test]
fn the_recognizer_is_told_which_form_is_awaited_and_where_its_grammar_is() {
    let desk = Desk::new();
    let mut session = Speaking::begin(&desk, "", &["drill", "distance", "--count", "2"]);
    session.until("Question 1 of 2.");
    session.talk(&[("stop", "stop?"), ("yes", "")]);
    session.ends();
    let told = fs::read_to_string(desk.path("told.txt")).unwrap();
    assert!(told.starts_with("listen distance /"), "{told}");
    let grammar = fs::read_to_string(desk.path("told.txt.grammar")).unwrap();
    assert_eq!(
        grammar.trim_end(),
        desk.run(&["setup", "grammar"], "").out.trim_end()
    );
    let words = fs::read_to_string(desk.path("told.txt.words")).unwrap();
    assert_eq!(
        words.trim_end(),
        desk.run(&["setup", "words"], "").out.trim_end()
    );
    let distance = desk.run(&["setup", "grammar", "distance"], "").out;
    assert!(
        distance.contains("public <said> = <number> [moves] | never\n"),
        "{distance}"
    );
}

#[test]
fn what_is_no_reply_is_never_graded_and_the_session_goes_on() {
    let desk = Desk::new();
    let mut session = Speaking::begin(&desk, "", &["drill", "color", "--count", "2"]);
    session.until("Question 1 of 2.");
    let long = "x".repeat(1_000_000);
    for utterance in [&long, "пешка на е4", "\u{1b}[31m\u{202e}", "eva four"] {
        session.say(utterance);
        let told = session.until("Nothing was marked.");
        assert!(told.len() < 200 && !told.contains('\u{1b}'), "{told}");
    }
    session.talk(&[
        ("garbage", ""),
        ("stop", "stop?"),
        ("light", "light?"),
        ("stop", "stop?"),
        ("yes", ""),
    ]);
    session.ends();
    assert_eq!(answers(&desk), [] as [Value; 0]);
}

#[test]
fn silence_counts_for_a_reply_where_it_is_wished_and_never_for_a_word_that_ends() {
    let desk = Desk::new();
    let mut session = Speaking::begin(&desk, "silence = 0.3", &["drill", "color", "--count", "2"]);
    session.until("Question 1 of 2.");
    session.talk(&[("light", "Question 2 of 2."), ("stop", "stop?")]);
    std::thread::sleep(Duration::from_millis(900));
    session.talk(&[("no", "Taken back."), ("dark", "dark?")]);
    session.until("of 2");
    session.ends();
    assert_eq!(answers(&desk).len(), 2);
}

#[test]
fn nothing_is_heard_while_the_program_speaks_save_with_headphones() {
    for headphones in [false, true] {
        let desk = Desk::new();
        let voice = script(&desk, "cat > /dev/null; sleep 2");
        let wishes = format!("speech = [\"{voice}\"]\nheadphones = {headphones}");
        let mut session = Speaking::begin(
            &desk,
            &wishes,
            &["drill", "color", "--count", "2", "--speak"],
        );
        session.until("Question 1 of 2.");
        session.say("light");
        let begun = Instant::now();
        let told = || fs::read_to_string(desk.path("told.txt")).unwrap_or_default();
        while !told().contains("listen color") {
            assert!(begun.elapsed() < Duration::from_mins(1), "{}", told());
            std::thread::sleep(Duration::from_millis(20));
        }
        assert_eq!(told().starts_with("rest\n"), !headphones, "{}", told());
        if headphones {
            session.until("light?");
        } else {
            std::thread::sleep(Duration::from_millis(800));
            session.talk(&[("dark", "dark?")]);
        }
        drop(session.input);
        session.child.kill().unwrap();
        session.child.wait().unwrap();
    }
}

#[test]
fn a_recognizer_that_does_not_behave_is_told_once_and_the_keyboard_goes_on() {
    for (hearing, words) in [
        ("", "name a command that hears"),
        ("hearing = \"no-such-command-here\"", "cannot be run"),
        (
            "hearing = [\"sh\", \"-c\", \"echo 'no microphone' >&2\"]",
            "has ended (no microphone)",
        ),
        ("hearing = [\"yes\", \"light\"]", "writes without end"),
    ] {
        let desk = Desk::new();
        desk.wishes(hearing);
        let mut session = desk
            .program(&["drill", "color", "--count", "2", "--hear", "--plain"])
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        // What it said before it is found out wants a yes, and nobody says one.
        std::thread::sleep(Duration::from_millis(300));
        let mut input = session.stdin.take().unwrap();
        input.write_all(b"light\nlight\n").unwrap();
        std::thread::sleep(Duration::from_millis(300));
        drop(input);
        let said = session.wait_with_output().unwrap();
        let said = String::from_utf8(said.stdout).unwrap();
        assert_eq!(said.matches(words).count(), 1, "{hearing}: {said}");
        let answers = answers(&desk);
        assert_eq!(answers.len(), 2, "{hearing}: {said}");
        assert!(answers.iter().all(|answer| answer["heard"].is_null()));
    }
}
