//! One session is held by one process, and its answers outlive its journal.

use std::fs;
use std::io::{BufRead, BufReader, Lines, Write};
use std::process::{Child, ChildStdin, ChildStdout, Stdio};

use crate::program::{CLUB, Desk};

/// A session that waits for its next line.
struct Waiting {
    child: Child,
    stdin: ChildStdin,
    lines: Lines<BufReader<ChildStdout>>,
}

impl Waiting {
    /// Begins a session and waits until a line of it holds these words.
    fn at(desk: &Desk, arguments: &[&str], words: &str) -> Waiting {
        let mut child = desk
            .program(arguments)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut waiting = Waiting {
            stdin: child.stdin.take().unwrap(),
            lines: BufReader::new(child.stdout.take().unwrap()).lines(),
            child,
        };
        waiting.sees(words);
        waiting
    }

    fn sees(&mut self, words: &str) {
        let mut seen = self.lines.by_ref().map(Result::unwrap);
        assert!(
            seen.any(|line| line.contains(words)),
            "{words:?} never came"
        );
    }

    fn types(&mut self, line: &str) {
        writeln!(self.stdin, "{line}").unwrap();
    }

    /// Ends the input, and returns what is said then.
    fn leaves(mut self) -> Vec<String> {
        drop(self.stdin);
        let said = self.lines.map(Result::unwrap).collect();
        assert!(self.child.wait().unwrap().success());
        said
    }

    fn dies(mut self) {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
    }
}

/// The files in the data folder.
fn kept(desk: &Desk) -> Vec<String> {
    let entries = fs::read_dir(desk.path("data")).unwrap();
    let mut names: Vec<String> = entries
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[test]
fn a_session_that_is_held_is_told_to_the_second_process_and_free_again_after_a_kill() {
    for begin in [
        &["replay", CLUB, "--seed", "208"] as &[&str],
        &["recite", CLUB],
        &["ahead", CLUB, "--seed", "1"],
        &[
            "ahead", CLUB, "--game", "all", "--mate", "1", "--show", "list",
        ],
        &["drill", "color", "--seed", "1"],
        &["drill", "few", "--seed", "1"],
        &["lesson", "--seed", "3"],
    ] {
        let desk = Desk::new();
        let mut first = Waiting::at(&desk, begin, "?");
        let resume = [begin[0], "--resume"];
        let before = fs::read(desk.journal()).unwrap();
        let second = desk.run(&resume, "pass\n");
        second.ends(1, &["is open at this moment", "leave out --resume"]);
        assert_eq!(second.out, "", "{begin:?}");
        assert_eq!(fs::read(desk.journal()).unwrap(), before, "{begin:?}");
        // Another session of the same learner is free at any time.
        desk.run(&["drill", "name", "--count", "1"], "pass\n")
            .ends(0, &[]);
        first.types("pass");
        first.sees("Passed.");
        let answers = |desk: &Desk| {
            let records = desk.records();
            let kind = |kind| {
                records
                    .iter()
                    .filter(|record| record["type"] == kind)
                    .count()
            };
            (kind("start"), kind("answer"))
        };
        let held = answers(&desk);
        first.dies();
        let third = desk.run(&resume, "");
        third.ends(0, &[]);
        assert!(third.out.contains('?'), "{third:?}");
        assert_eq!(answers(&desk), held, "{begin:?}");
        assert_eq!(kept(&desk), ["learner.jsonl"], "{begin:?}");
    }
}

#[test]
fn a_part_of_a_lesson_that_is_held_is_held_for_its_exercise_too() {
    let desk = Desk::new();
    let lesson = ["lesson", "--start", "white-squares", "--seed", "3"];
    let lesson = Waiting::at(&desk, &lesson, "Question 1 of");
    desk.run(&["drill", "--resume"], "pass\n")
        .ends(1, &["is open at this moment"]);
    lesson.leaves();
}

#[test]
fn a_journal_that_is_deleted_cut_or_replaced_in_mid_session_loses_no_answer_of_it() {
    type Harm = fn(&Desk);
    let harms: [(Harm, bool); 4] = [
        (|desk| fs::remove_file(desk.journal()).unwrap(), true),
        (|desk| fs::remove_dir_all(desk.path("data")).unwrap(), true),
        (|desk| fs::write(desk.journal(), "").unwrap(), true),
        // A copy of it lacks nothing.
        (
            |desk| {
                fs::copy(desk.journal(), desk.path("copy")).unwrap();
                fs::rename(desk.path("copy"), desk.journal()).unwrap();
            },
            false,
        ),
    ];
    for (harm, is_told) in harms {
        let desk = Desk::new();
        let drill = ["drill", "color", "--count", "4", "--seed", "1"];
        desk.run(&drill, "pass\n").ends(0, &[]);
        let mut session = Waiting::at(&desk, &["drill", "--resume"], "Question 2 of 4");
        session.types("pass");
        session.sees("Question 3 of 4");
        harm(&desk);
        session.types("pass");
        session.types("pass");
        let said = session.leaves().join("\n");
        let told = said
            .matches("was deleted or replaced in the meantime")
            .count();
        assert_eq!(told, usize::from(is_told), "{said}");
        let records = desk.records();
        let types: Vec<&str> = (records.iter())
            .map(|record| record["type"].as_str().unwrap())
            .collect();
        let expected = [
            "start", "answer", "end", "answer", "answer", "answer", "end",
        ];
        assert_eq!(types, expected);
        desk.run(&["drill", "--resume"], "")
            .ends(1, &["there is no unfinished drill"]);
    }
}

#[test]
fn journals_are_for_their_owner_alone() {
    use std::os::unix::fs::PermissionsExt;

    let mode = |path: &std::path::Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
    let set = |path: &std::path::Path, mode| {
        fs::set_permissions(path, fs::Permissions::from_mode(mode)).unwrap();
    };
    let drill = ["drill", "color", "--count", "1"];
    let desk = Desk::new();
    desk.run(&drill, "pass\n").ends(0, &[]);
    assert_eq!(mode(&desk.path("data")), 0o700);
    assert_eq!(mode(&desk.journal()), 0o600);
    // A journal that others could read is taken from their eyes; a folder that is not ours stays.
    set(&desk.journal(), 0o644);
    set(&desk.path("data"), 0o755);
    desk.run(&drill, "pass\n").ends(0, &[]);
    assert_eq!(mode(&desk.journal()), 0o600);
    assert_eq!(mode(&desk.path("data")), 0o755);
}
