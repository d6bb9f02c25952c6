//! What a machine is set up with: completions, manual pages, a config file.

use std::fs;
use std::process::Command;

use crate::program::Desk;

/// What bash offers behind a command line that is typed so far.
fn offered(desk: &Desk, script: &str, line: &[&str]) -> Option<String> {
    let words: Vec<String> = line.iter().map(|word| format!("'{word}'")).collect();
    let function = "$(complete -p sansvoir | sed 's/.*-F \\([^ ]*\\).*/\\1/')";
    let last = words.len() - 1;
    let typed = format!(
        "source {script}; COMP_WORDS=({}); COMP_CWORD={last}; COMP_TYPE=9; {function} sansvoir {} {}; \
         echo \"${{COMPREPLY[@]}}\"",
        words.join(" "),
        words[last],
        words[last - 1],
    );
    let mut bash = Command::new("bash");
    bash.args(["--norc", "-c", &typed]);
    desk.place(&mut bash);
    let program = std::path::Path::new(env!("CARGO_BIN_EXE_sansvoir"));
    let path = std::env::var("PATH").unwrap_or_default();
    let path = format!("{}:{path}", program.parent().unwrap().display());
    let output = bash.env("PATH", path).output().ok()?;
    Some(String::from_utf8(output.stdout).unwrap() + &String::from_utf8_lossy(&output.stderr))
}

#[test]
#[cfg(unix)]
fn bash_completes_commands_kinds_learners_demo_files_and_steps() {
    let desk = Desk::new();
    desk.run(&["drill", "color", "--learner", "wilhelmina"], "dark\n")
        .ends(0, &[]);
    let script = desk.run(&["setup", "completions", "bash"], "").out;
    let script = desk.file("completions.bash", script);
    for (line, word) in [
        (&["sansvoir", "rep"][..], "replay"),
        (&["sansvoir", "drill", "cro"], "crossing"),
        (&["sansvoir", "drill", "color,cro"], "color,crossing"),
        (&["sansvoir", "replay", "--ask", "whe"], "whereabouts"),
        (&["sansvoir", "replay", "--learner", "wil"], "wilhelmina"),
        (&["sansvoir", "replay", "club-e"], "club-evening.pgn"),
        (&["sansvoir", "lesson", "first-l"], "first-lesson.toml"),
        (&["sansvoir", "lesson", "--start", "four-"], "four-plies"),
        (&["sansvoir", "help", "by"], "by-ear"),
        (&["sansvoir", "setup", "completions", "zs"], "zsh"),
    ] {
        let Some(said) = offered(&desk, &script, line) else {
            return;
        };
        assert!(
            said.contains(word) || said.trim() == "whereabouts",
            "{line:?}: {said}"
        );
    }
}

#[test]
fn there_are_completions_for_five_shells() {
    let desk = Desk::new();
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let said = desk.run(&["setup", "completions", shell], "");
        said.ends(0, &[]);
        assert!(said.out.contains("sansvoir"), "{said:?}");
    }
}

#[test]
fn the_handbook_lies_as_manual_pages_in_the_folder_that_is_named() {
    let desk = Desk::new();
    let folder = desk.path("manual/deep");
    let said = desk.run(&["setup", "manual", folder.to_str().unwrap()], "");
    said.ends(0, &[]);
    let read = |name: &str| fs::read_to_string(folder.join(name)).unwrap();
    let replay = read("sansvoir-replay.1");
    assert!(
        replay.contains(".SH \"After a miss\"") || replay.contains(".SH After"),
        "{replay}"
    );
    assert!(replay.contains("\\-\\-every"), "{replay}");
    assert!(read("sansvoir-kinds.7").contains("whereabouts"));
    assert!(read("sansvoir.1").contains("\\fBsansvoir help\\fR lists its pages"));
    assert_eq!(fs::read_dir(&folder).unwrap().count(), 20);
    desk.file("taken", "");
    let taken = desk.path("taken/deep");
    let said = desk.run(&["setup", "manual", taken.to_str().unwrap()], "");
    said.ends(1, &["taken", "sansvoir help setup"]);
}

#[test]
fn the_config_file_to_begin_with_is_one_of_remarks_that_hold_without_their_marks() {
    let desk = Desk::new();
    let said = desk.run(&["setup", "config"], "");
    said.ends(0, &[]);
    let file = desk.path("config/sansvoir/config.toml");
    assert!(said.out.contains(file.to_str().unwrap()), "{said:?}");
    assert!(
        said.out.lines().all(|line| line.starts_with('#')),
        "{said:?}"
    );
    desk.wishes(&said.out);
    desk.run(&["drill", "color", "--count", "1"], "")
        .ends(0, &[]);
    assert!(desk.journal().exists());
    let lines = said
        .out
        .lines()
        .skip(2)
        .map(|line| line.trim_start_matches(['#', ' ']));
    desk.wishes(&lines.collect::<Vec<_>>().join("\n"));
    desk.run(&["drill", "color", "--count", "1"], "")
        .ends(0, &[]);
    assert!(
        desk.path("data/ana.jsonl").exists(),
        "the learner of the sample"
    );
}
