//! Lines on terminals of many widths.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::process::Command;

use super::*;
use crate::program::{CLUB, Desk};

const WIDTHS: [usize; 6] = [30, 40, 50, 60, 80, 120];
const PAGES: [&str; 13] = [
    "",
    "replay",
    "ahead",
    "drill",
    "recite",
    "lesson",
    "games",
    "progress",
    "journal",
    "sheet",
    "sheet replay",
    "sheet ahead",
    "sheet drill",
];

/// What a shell on a terminal of that width shows.
fn shown(desk: &Desk, width: usize, script: &str) -> Learner {
    let mut command = Command::new("sh");
    command.args(["-c", &format!("stty cols {width} rows 24; {script}")]);
    desk.place(&mut command);
    Learner::sits(command)
}

fn lines(seen: &str) -> Vec<String> {
    let text = anstream::adapter::strip_str(seen).to_string();
    text.lines()
        .map(|line| line.trim_end().to_owned())
        .collect()
}

fn words(lines: &[String]) -> BTreeSet<&str> {
    lines
        .iter()
        .flat_map(|line| line.split_whitespace())
        .collect()
}

#[test]
fn no_line_of_a_page_of_help_is_longer_than_the_terminal_and_no_word_is_cut() {
    let desk = Desk::new();
    let program = env!("CARGO_BIN_EXE_sansvoir");
    let mut script = format!("'{program}' </dev/null;");
    for page in PAGES {
        write!(script, "'{program}' {page} -h; '{program}' {page} --help;").unwrap();
    }
    // The handbook, through a pager and without one; an error in the command line too.
    write!(
        script,
        "PAGER=cat '{program}' help replay; PAGER=cat '{program}' help kinds;"
    )
    .unwrap();
    write!(script, "'{program}' replay --nonsense 2>&1; true").unwrap();
    let widest = lines(&shown(&desk, 120, &script).leaves());
    let known = words(&widest);
    for width in WIDTHS {
        let narrow = lines(&shown(&desk, width, &script).leaves());
        for line in &narrow {
            assert!(line.chars().count() <= width, "{width}: {line:?}");
        }
        let mut cut = words(&narrow);
        // Half of the screen holds any word that is shorter.
        cut.retain(|word| !known.contains(word) && word.len() < width / 2);
        assert!(cut.is_empty(), "{width}: {cut:?}");
    }
}

#[test]
fn a_page_of_the_handbook_that_is_longer_than_the_screen_comes_through_the_pager() {
    let desk = Desk::new();
    let program = env!("CARGO_BIN_EXE_sansvoir");
    let pager = "PAGER=\"sh -c 'cat; echo PAGED'\"";
    for (page, is_paged) in [
        ("help pgn", true),
        ("help journal --plain", false),
        ("help help", true),
    ] {
        let rows = if page == "help help" { 9 } else { 12 };
        let script = format!("stty rows {rows}; {pager} '{program}' {page}");
        let seen = shown(&desk, 80, &script).leaves();
        assert_eq!(seen.contains("PAGED"), is_paged, "{page}: {seen}");
    }
    let short = format!("{pager} '{program}' help recite");
    assert!(!shown(&desk, 120, &short).leaves().contains("PAGED"));
}

#[test]
fn no_line_of_a_summary_is_longer_than_the_terminal() {
    let program = env!("CARGO_BIN_EXE_sansvoir");
    let session = format!("exec '{program}' replay {CLUB} --seed 208");
    for width in WIDTHS {
        let desk = Desk::new();
        desk.wishes("by = \"checkpoint\"");
        let mut learner = shown(&desk, width, &session);
        learner
            .sees(GO_ON)
            .types("")
            .sees(GO_ON)
            .types("")
            .sees(REPLY);
        learner
            .types("d6")
            .sees("Right, in ")
            .sees(REPLY)
            .control('d');
        let all = learner.leaves();
        let (_, summary) = all.split_once("\x1b[?1049l").unwrap();
        let lines = lines(summary);
        for line in &lines {
            assert!(line.chars().count() <= width, "{width}: {line:?}");
        }
        let has = |start: &str| lines.iter().any(|line| line.starts_with(start));
        assert_eq!(has("whereabouts     1"), width >= 50, "{lines:?}");
        assert_eq!(has("whereabouts: 1 right"), width < 50, "{lines:?}");
    }
}

#[test]
fn the_help_of_a_sheet_offers_nothing_that_paper_cannot_do() {
    let desk = Desk::new();
    for exercise in ["replay", "ahead", "drill"] {
        let said = desk.run(&["sheet", exercise, "--help"], "");
        said.ends(0, &[]);
        assert!(!said.out.contains("--resume"), "{said:?}");
        let said = desk.run(&[exercise, "--help"], "");
        assert!(said.out.contains("--resume"), "{said:?}");
    }
}
