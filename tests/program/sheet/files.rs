//! Where sheets go: files whole or not at all, and nothing overwritten unasked.

use std::fs;

use crate::program::{CLUB, Desk};

const DRILL: [&str; 7] = ["drill", "color", "--count", "3", "--seed", "1", "--plain"];

fn sheet(options: &[&str]) -> Vec<String> {
    [&["sheet", "--format", "json"], options, &DRILL]
        .concat()
        .into_iter()
        .map(str::to_owned)
        .collect()
}

fn run(desk: &Desk, options: &[&str]) -> crate::program::Said {
    let words = sheet(options);
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    desk.run(&words, "")
}

#[test]
fn a_sheet_goes_to_standard_output_or_to_a_file_with_the_same_text() {
    let desk = Desk::new();
    let out = desk.path("sheet.json");
    let said = run(&desk, &["--out", out.to_str().unwrap()]);
    said.ends(0, &[]);
    assert_eq!(said.out, "");
    let text = run(&desk, &[]).out;
    assert_eq!(fs::read_to_string(&out).unwrap(), text);
    assert!(
        text.starts_with("[\n{") && text.ends_with("}\n]\n"),
        "{text}"
    );
}

#[test]
fn a_sheet_is_written_as_its_file_is_named_where_no_option_tells() {
    let desk = Desk::new();
    for (name, begins) in [
        ("a.json", "[\n{"),
        ("a.txt", "DRILL: COLOR"),
        ("a.md", "# Drill: color"),
        ("a.page", "<!DOCTYPE html>"),
    ] {
        let out = desk.path(name);
        let words = [&["sheet", "--out", out.to_str().unwrap()], &DRILL[..]].concat();
        desk.run(&words, "").ends(0, &[]);
        let text = fs::read_to_string(&out).unwrap();
        assert!(text.starts_with(begins), "{name}: {text}");
    }
}

#[test]
fn a_file_that_is_there_is_never_overwritten() {
    let desk = Desk::new();
    let out = desk.file("sheet.json", "mine");
    run(&desk, &["--out", &out]).ends(1, &["sheet.json", "is there already", "delete it first"]);
    assert_eq!(fs::read_to_string(&out).unwrap(), "mine");
    fs::remove_file(&out).unwrap();
    run(&desk, &["--out", &out]).ends(0, &[]);
    assert!(fs::read_to_string(&out).unwrap().starts_with('['));
    let beside = fs::read_dir(desk.path("")).unwrap().count();
    assert_eq!(beside, 1, "nothing is left beside the sheet");
}

#[test]
fn a_place_where_no_file_can_be_is_told() {
    let desk = Desk::new();
    let nowhere = desk.path("no/such/sheet.json");
    run(&desk, &["--out", nowhere.to_str().unwrap()]).ends(1, &["there is no such folder"]);
    let folder = desk.path("");
    run(&desk, &["--out", folder.to_str().unwrap()]).ends(1, &["this is a folder"]);
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told_with_exit_code_1() {
    let desk = Desk::new();
    run(&desk, &["--out", "/dev/full"]).ends(1, &["/dev/full", "disk is full"]);
    let words = sheet(&[]);
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let full = fs::File::options().write(true).open("/dev/full").unwrap();
    let child = desk.program(&words).stdout(full).output().unwrap();
    assert_eq!(child.status.code(), Some(1));
    assert!(
        String::from_utf8(child.stderr)
            .unwrap()
            .contains("disk is full")
    );
}

#[test]
fn what_does_not_fit_a_sheet_is_a_usage_error() {
    let desk = Desk::new();
    desk.run(&["sheet", "--format", "json"], "").ends(2, &[]);
    desk.run(&["sheet", "drill", "color", "--out", "x.html"], "")
        .ends(2, &["'--out'", "stands before the exercise"]);
    desk.run(&["sheet"], "").ends(2, &["EXERCISE"]);
    desk.run(&["sheet", "enter", "x.txt", "drill", "color"], "")
        .ends(2, &["'drill'"]);
    desk.run(&["sheet", "replay", "--resume"], "")
        .ends(2, &["a sheet always starts over"]);
    desk.run(&["sheet", "drill", "--resume"], "")
        .ends(2, &["a sheet always starts over"]);
    desk.run(&["sheet", "replay", CLUB, "--game", "99"], "")
        .ends(1, &["no game 99"]);
}
