//! README's session is what the program really prints.

use std::fs;
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};

fn readme() -> String {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md")).unwrap()
}

/// The time that a reply took is the one thing that may differ.
fn without_times(line: &str) -> String {
    let time = |word: &str| word.parse::<f64>().is_ok();
    let words: Vec<&str> = line.split(' ').collect();
    let kept = words.iter().enumerate().map(|(n, word)| {
        let is_time = time(word)
            && words
                .get(n + 1)
                .is_some_and(|next| next.starts_with("second"));
        if is_time { "N" } else { word }
    });
    kept.collect::<Vec<_>>()
        .join(" ")
        .replace("1 second", "N seconds")
}

#[test]
fn the_session_in_the_readme_is_what_the_program_prints() {
    let readme = readme();
    let block = readme
        .split("```text\n")
        .nth(1)
        .and_then(|rest| rest.split("\n```").next());
    let block = block.expect("a session");
    let (replies, expected): (Vec<&str>, Vec<&str>) =
        block.lines().partition(|line| line.starts_with("> "));
    let command = readme
        .lines()
        .find_map(|line| line.split('`').nth(1)?.strip_prefix("sansvoir replay "));
    let arguments = command.expect("the command of the session").split(' ');
    let data = tempfile::tempdir().unwrap();
    let mut program = Command::new(env!("CARGO_BIN_EXE_sansvoir"))
        .arg("replay")
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .env("SANSVOIR_DATA", data.path())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let typed: Vec<&str> = replies.iter().map(|reply| &reply[2..]).collect();
    let mut stdin = program.stdin.take().unwrap();
    stdin
        .write_all((typed.join("\n") + "\n").as_bytes())
        .unwrap();
    drop(stdin);
    let output = program.wait_with_output().unwrap();
    assert!(output.status.success());
    let printed = String::from_utf8(output.stdout).unwrap();
    let printed: Vec<String> = printed.lines().map(without_times).collect();
    let expected: Vec<String> = expected.iter().map(|line| without_times(line)).collect();
    assert_eq!(printed, expected);
}

#[test]
fn every_kind_of_question_has_its_row_in_the_handbook() {
    let page = include_str!("../../src/voice/handbook/kinds.md");
    for kind in sansvoir::question::Kind::ALL {
        assert!(page.contains(&format!("| `{kind}` |")), "{kind}");
    }
}

#[test]
fn the_readme_can_be_read_in_some_minutes() {
    assert!(readme().len() <= 10_000, "{} bytes", readme().len());
}
