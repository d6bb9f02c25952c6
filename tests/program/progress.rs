//! What all answers of a learner come to, in words, as data and as a page.

use std::collections::HashSet;
use std::fs;

use crate::program::Desk;
use serde_json::{Value, json};

/// An answer of the bare board as a line of a journal.
fn bare(
    second: usize,
    kind: &str,
    subject: &Value,
    verdict: &str,
    millis: u64,
    reply: &str,
) -> String {
    let time = format!(
        "2026-11-{:02}T18:{:02}:{:02}Z",
        1 + second / 3600,
        second / 60 % 60,
        second % 60
    );
    json!({
        "v": 1, "type": "answer", "time": time, "session": "s", "exercise": "drill", "kind": kind,
        "subject": subject, "expected": { "squares": [] }, "reply": reply, "verdict": verdict,
        "score": if verdict == "right" { 1.0 } else { 0.0 }, "millis": millis, "late": false, "looks": 0
    })
    .to_string()
}

fn color(second: usize, verdict: &str, millis: u64) -> String {
    bare(
        second,
        "color",
        &json!({ "square": "c4" }),
        verdict,
        millis,
        "light",
    )
}

/// An answer of `ahead` at so many plies.
fn ahead(second: usize, plies: u32, right: bool) -> String {
    let time = format!("2026-10-05T18:{:02}:{:02}Z", second / 60 % 60, second % 60);
    // Where the answer is always the same, it tells nothing.
    let square = format!("a{}", 1 + second % 8);
    json!({
        "v": 1, "type": "answer", "time": time, "session": "s", "exercise": "ahead",
        "kind": "attacks", "start": "8/8/8/8/8/8/8/8 w - - 0 1", "moves": [], "position": "8/8/8/8/8/8/8/8 w - - 0 1",
        "subject": { "square": "c4" }, "expected": { "squares": [square] }, "reply": "none",
        "verdict": if right { "right" } else { "wrong" }, "score": f64::from(u8::from(right)),
        "millis": 9_000, "late": false, "looks": 0,
        "hardness": { "plies": plies, "men": 20, "captures": 1, "moved": null, "opened": 0, "closed": 0 }
    })
    .to_string()
}

fn desk(lines: &[String]) -> Desk {
    let desk = Desk::new();
    journal(&desk, "learner", lines);
    desk
}

fn journal(desk: &Desk, file: &str, lines: &[String]) {
    fs::create_dir_all(desk.path("data")).unwrap();
    fs::write(
        desk.path("data").join(format!("{file}.jsonl")),
        lines.join("\n") + "\n",
    )
    .unwrap();
}

fn data(desk: &Desk) -> Value {
    let said = desk.run(&["progress", "--format", "json"], "");
    said.ends(0, &[]);
    serde_json::from_str(&said.out).unwrap()
}

#[test]
fn a_learner_who_has_never_answered_is_told_what_to_do_first() {
    let desk = Desk::new();
    for options in [&["progress"][..], &["progress", "--plain"]] {
        let said = desk.run(options, "");
        said.ends(0, &[]);
        assert!(
            said.out.contains("To begin: sansvoir lesson"),
            "{}",
            said.out
        );
    }
    let said = desk.run(&["progress", "all"], "");
    said.ends(0, &[]);
    assert!(said.out.contains("No learner"), "{}", said.out);
    let page = desk.path("none.html");
    desk.run(
        &[
            "progress",
            "--format",
            "html",
            "--out",
            page.to_str().unwrap(),
        ],
        "",
    )
    .ends(0, &[]);
    assert!(
        fs::read_to_string(page)
            .unwrap()
            .contains("has no answer yet that counts")
    );
}

/// Worked by hand: 30 answers, 28 right at 2 seconds.
#[test]
fn a_step_is_passed_with_its_mark_and_its_pace() {
    let lines: Vec<String> = (0..30)
        .map(|n| color(n, if n < 2 { "wrong" } else { "right" }, 2_000))
        .collect();
    let data = data(&desk(&lines));
    let colors = &data["steps"][2];
    assert_eq!(colors["step"], "colors");
    assert_eq!(colors["standing"], "passed");
    assert_eq!((&colors["right"], &colors["of"]), (&json!(28), &json!(30)));
    let kind = &data["kinds"][0]["all"];
    assert_eq!((&kind["right"], &kind["wrong"]), (&json!(28), &json!(2)));
    let share = kind["share"].as_f64().unwrap();
    assert!((share - 28.0 / 30.0).abs() < 1e-9, "{share}");
    assert_eq!(kind["median"], 2_000);
    assert_eq!(data["squares"]["color"]["c4"]["right"], 28);
}

#[test]
fn merged_answers_count_in_the_order_in_which_they_were_given() {
    // The wrong ones come first by time and last in the file.
    let right = (30..60).map(|n| color(n, "right", 1_000));
    let wrong = (0..30).map(|n| color(n, "wrong", 1_000));
    let data = data(&desk(&right.chain(wrong).collect::<Vec<_>>()));
    assert_eq!(data["steps"][2]["standing"], "passed");
}

#[test]
fn a_square_named_from_the_wrong_side_is_told_as_taken_for_the_other() {
    let subject = json!({ "square": "c6", "view": "black" });
    let lines: Vec<String> = (0..3)
        .map(|n| bare(n, "name", &subject, "wrong", 3_000, "f3"))
        .collect();
    let desk = desk(&lines);
    let data = data(&desk);
    assert_eq!(
        data["mistaken"],
        json!([{ "view": "black", "asked": "c6", "named": "f3", "times": 3 }])
    );
    assert_eq!(data["missed"][0]["missed"], 3);
    let said = desk.run(&["progress"], "");
    assert!(
        said.out.contains(
            "seen from Black's side: c6 for f3, which is right from the other side, 3 times."
        ),
        "{}",
        said.out
    );
}

#[test]
fn the_reach_is_told_only_when_it_is_measured() {
    let few: Vec<String> = (0..12).map(|n| ahead(n, 4, true)).collect();
    let said = desk(&few).run(&["progress"], "");
    assert!(
        said.out.contains(
            "not measured yet: 12 of the 30 answers that it takes, from the exercise ahead"
        ),
        "{}",
        said.out
    );
    // All right up to 5 plies, all wrong from 7 on.
    let many: Vec<String> = (0..60)
        .map(|n| {
            let plies = 3 + u32::try_from(n % 6).unwrap();
            ahead(n, plies, plies < 6)
        })
        .collect();
    let desk = desk(&many);
    let data = data(&desk);
    let reach = &data["reach"];
    let plies = reach["plies"].as_f64().unwrap();
    assert!((4.5..=6.5).contains(&plies), "{reach}");
    assert!(reach["low"].as_f64().unwrap() < plies && plies < reach["high"].as_f64().unwrap());
    assert_eq!(data["months"][0]["month"], "2026-10");
    assert_eq!(
        data["recall"][0],
        json!({ "plies": 3, "answers": 10, "right": 10 })
    );
    assert_eq!(
        data["recall"][5],
        json!({ "plies": 8, "answers": 10, "right": 0 })
    );
}

#[test]
fn broken_lines_are_told_with_their_place_and_the_rest_counts() {
    let lines = [
        color(0, "right", 900),
        "{ not json".to_owned(),
        color(1, "right", 900),
    ];
    let desk = desk(&lines);
    let said = desk.run(&["progress"], "");
    assert_eq!(said.code, Some(0));
    assert!(said.err.contains("learner.jsonl:line 2"), "{}", said.err);
    assert!(said.out.contains("2 answers"), "{}", said.out);
}

#[test]
fn learners_stand_side_by_side_and_other_commands_take_one() {
    let desk = desk(&[color(0, "right", 900)]);
    journal(
        &desk,
        "bruno",
        &[color(0, "wrong", 900), color(1, "right", 900)],
    );
    let said = desk.run(&["progress", "all"], "");
    let lines: Vec<&str> = said.out.lines().collect();
    assert!(
        lines[0].starts_with("bruno: ") && lines[1].starts_with("learner: "),
        "{}",
        said.out
    );
    let said = desk.run(
        &["progress", "--learner", "learner", "--learner", "Bruno"],
        "",
    );
    assert!(
        said.out.contains("learner: ") && said.out.contains("Bruno: "),
        "{}",
        said.out
    );
    let said = desk.run(&["drill", "color", "--learner", "A", "--learner", "B"], "");
    assert_eq!(said.code, Some(2), "{}", said.err);
}

const HOSTILE: &str = "<script>alert(1)</script> \"Ana\" 'Ö' \u{202e}דוד";

#[test]
fn a_page_is_well_formed_runs_nothing_and_has_a_table_for_every_chart() {
    let desk = Desk::new();
    let name = HOSTILE;
    let lines: Vec<String> = (0..40)
        .map(|n| ahead(n, 3 + u32::try_from(n % 5).unwrap(), n % 3 > 0))
        .chain((0..5).map(|n| {
            bare(
                n,
                "name",
                &json!({"square": "c6", "view": "white"}),
                "wrong",
                10,
                "f3",
            )
        }))
        .collect();
    journal(&desk, "bruno", &lines);
    // The learner's own file is made by the program, so that its name is the program's affair.
    desk.run(
        &["drill", "color", "--count", "3", "--learner", name],
        "light\nlight\nlight\n",
    );
    for (options, charts) in [
        (vec!["--learner", "bruno"], true),
        (vec!["--learner", name], true),
        (vec!["all"], false),
    ] {
        let path = desk.path("page.html");
        let _ = fs::remove_file(&path);
        let options = [
            &["progress", "--format", "html", "--out"],
            &[path.to_str().unwrap()][..],
            &options[..],
        ]
        .concat();
        desk.run(&options, "").ends(0, &[]);
        let page = fs::read_to_string(&path).unwrap();
        assert!(!page.contains("<script") && !page.contains('\u{202e}'));
        assert!(page.contains(
            "\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'sha256-"
        ));
        assert!(!page.contains("unsafe-") && !page.contains(" style=\""));
        let figures = page.matches("<figure>").count();
        assert_eq!(figures > 0, charts);
        assert_eq!(page.matches("</figure><table").count(), figures);
        let drawings = page.matches("<svg").count();
        assert_eq!(page.matches("<title id=").count(), drawings);
        assert_eq!(page.matches("<desc id=").count(), drawings);
        assert_eq!(page.matches("role=\"img\"").count(), drawings);
        let ids: Vec<&str> = page
            .split(" id=\"")
            .skip(1)
            .map(|rest| rest.split('"').next().unwrap())
            .collect();
        assert_eq!(
            ids.iter().collect::<HashSet<_>>().len(),
            ids.len(),
            "{ids:?}"
        );
        assert!(
            !page.contains("http:") && !page.contains("https:") && !page.contains("javascript:")
        );
        for tag in [
            "main", "section", "table", "tbody", "tr", "td", "th", "svg", "ul", "li", "p", "figure",
        ] {
            let opened = page.matches(&format!("<{tag}>")).count()
                + page.matches(&format!("<{tag} ")).count();
            assert_eq!(opened, page.matches(&format!("</{tag}>")).count(), "{tag}");
        }
    }
}

/// Paper is as wide as it is: a column more for each learner would be lost at its edge.
#[test]
fn on_the_page_of_a_group_every_learner_has_a_row_of_every_table() {
    const LEARNERS: usize = 12;
    let desk = Desk::new();
    for n in 0..LEARNERS {
        let kinds = [
            ("name", json!({"square": "c6", "view": "white"})),
            ("place", json!({"square": "c6", "view": "black"})),
            ("color", json!({"square": "g6"})),
            ("between", json!({"squares": ["c1", "g5"]})),
            ("crossing", json!({"men": ["Bc1", "Rh6"]})),
            (
                "distance",
                json!({"man": "Na1", "to": "h8", "blockers": []}),
            ),
            ("route", json!({"man": "Na1", "to": "h8", "blockers": []})),
            ("aligned", json!({"squares": ["c1", "h6"]})),
            ("span", json!({"man": "Nb3"})),
        ];
        let lines: Vec<String> = kinds
            .iter()
            .enumerate()
            .map(|(at, (kind, subject))| bare(at, kind, subject, "right", 900, "light"))
            .collect();
        journal(&desk, &format!("pupil-{n}"), &lines);
    }
    let path = desk.path("group.html");
    desk.run(
        &[
            "progress",
            "all",
            "--format",
            "html",
            "--out",
            path.to_str().unwrap(),
        ],
        "",
    )
    .ends(0, &[]);
    let page = fs::read_to_string(&path).unwrap();
    let tables: Vec<&str> = page.split("<table").skip(1).collect();
    assert!(tables.len() >= 6, "{page}");
    for table in tables {
        let table = table.split("</table>").next().unwrap();
        let heads = table.matches("<th scope=\"col\">").count();
        assert!((2..=7).contains(&heads), "{table}");
        let rows: Vec<&str> = table.split("<tr>").skip(2).collect();
        assert_eq!(rows.len(), LEARNERS, "{table}");
        for row in rows {
            assert_eq!(row.matches("<th scope=\"row\"").count(), 1, "{row}");
            assert_eq!(row.matches("<td").count(), heads - 1, "{row}");
        }
    }
    for n in 0..LEARNERS {
        let name = format!(">pupil-{n}</th>");
        assert_eq!(page.matches(&name).count(), page.matches("<table").count());
    }
}

#[test]
fn a_page_that_is_there_is_never_overwritten() {
    let desk = desk(&[color(0, "right", 900)]);
    let page = desk.file("mine.html", "mine");
    let said = desk.run(&["progress", "--format", "html", "--out", &page], "");
    assert_eq!(said.code, Some(1));
    assert!(said.err.contains("delete it first"), "{}", said.err);
    assert_eq!(fs::read_to_string(&page).unwrap(), "mine");
    fs::remove_file(&page).unwrap();
    desk.run(&["progress", "--format", "html", "--out", &page], "")
        .ends(0, &[]);
    let written = fs::read_to_string(&page).unwrap();
    assert!(written.starts_with("<!DOCTYPE html>"));
    let said = desk.run(&["progress", "--format", "html"], "");
    assert!(said.out.starts_with("<!DOCTYPE html>"), "{said:?}");
    desk.run(&["progress", "--out", &page], "")
        .ends(2, &["--out is for html"]);
}

#[test]
fn a_clock_that_went_backwards_leaves_every_answer_counted() {
    let mut lines = vec![color(0, "right", 900)];
    lines.push(lines[0].replace("2026", "2999"));
    lines.push(lines[0].replace("2026", "1970"));
    let said = desk(&lines).run(&["progress"], "");
    said.ends(0, &[]);
    assert!(said.out.contains("3 answers"), "{}", said.out);
}

/// The machines of one learner: a copy is continued elsewhere and merged back.
#[test]
fn merging_counts_nothing_twice_and_loses_nothing() {
    let here: Vec<String> = (0..5).map(|n| color(n, "right", 900)).collect();
    let desk = desk(&here);
    let copy = desk.path("copy.jsonl");
    let copy = copy.to_str().unwrap();
    let said = desk.run(&["journal", "copy", copy], "");
    said.ends(0, &[]);
    assert_eq!(fs::read(copy).unwrap(), fs::read(desk.journal()).unwrap());
    // Elsewhere three more, two of them letter for letter the same, a line with a later field, and a torn tail.
    let mut text = fs::read_to_string(copy).unwrap();
    let same = color(50, "wrong", 0);
    let later = color(60, "right", 7)
        .replace("{\"v\"", "{\"mood\":\"fine\",\"v\"")
        .replacen('{', "{\"more\":[1],", 1);
    for line in [&same, &same, &later] {
        text.push_str(line);
        text.push('\n');
    }
    text.push_str("{\"v\":1,\"type\":\"ans");
    fs::write(copy, text).unwrap();
    // Here two more.
    let mut own = fs::read_to_string(desk.journal()).unwrap();
    for n in [70, 71] {
        own.push_str(&(color(n, "right", 900) + "\n"));
    }
    fs::write(desk.journal(), own).unwrap();
    let said = desk.run(&["journal", "merge", copy], "");
    said.ends(0, &[]);
    assert!(
        said.out
            .contains("3 records brought in, 5 here already. Its last line is cut off"),
        "{}",
        said.out
    );
    assert_eq!(desk.records().len(), 10);
    assert!(fs::read_to_string(desk.journal()).unwrap().contains(&later));
    let said = desk.run(&["journal", "merge", copy], "");
    assert!(
        said.out.contains("0 records brought in, 8 here already"),
        "{}",
        said.out
    );
    assert_eq!(desk.records().len(), 10);
}

#[test]
fn a_file_that_is_no_journal_ends_with_one_and_only_ten_of_its_lines_are_told() {
    let desk = desk(&[color(0, "right", 900)]);
    let other = desk.file("other.jsonl", "hello\n".repeat(5_000));
    let said = desk.run(&["journal", "merge", &other], "");
    assert_eq!(said.code, Some(1), "{}", said.err);
    assert!(
        said.err.contains("line 10 cannot be read") && !said.err.contains("line 11 cannot"),
        "{}",
        said.err
    );
    assert!(said.err.contains("4990 more lines cannot"), "{}", said.err);
    assert!(said.err.contains("this is no journal"), "{}", said.err);
    let empty = desk.file("empty.jsonl", "");
    desk.run(&["journal", "merge", &empty], "")
        .ends(1, &["this is no journal"]);
    assert_eq!(desk.records().len(), 1);
    let said = desk.run(&["journal", "merge", "nowhere.jsonl"], "");
    assert_eq!(said.code, Some(1));
    assert!(said.err.contains("nowhere.jsonl"), "{}", said.err);
    // Whoever reads a journal with so many broken lines is spared them too.
    journal(&desk, "learner", &vec!["hello".to_owned(); 5_000]);
    for command in [&["progress"][..], &["drill", "color", "--count", "1"]] {
        let said = desk.run(command, "");
        assert!(said.err.lines().count() < 12, "{}", said.err);
        assert!(said.err.contains("4990 more lines"), "{}", said.err);
    }
}

#[test]
fn another_learners_journal_is_merged_only_on_purpose() {
    let desk = Desk::new();
    let drill = |name| {
        let drill = ["drill", "color", "--count", "2", "--learner", name];
        desk.run(&drill, "light\nlight\n").ends(0, &[]);
    };
    drill("Ana");
    drill("Bruno Ek");
    let (ana, bruno) = (
        desk.path("data/ana.jsonl"),
        desk.path("data/bruno ek.jsonl"),
    );
    let before = fs::read_to_string(&ana).unwrap();
    let merge = |more: &[&str]| {
        let merge = [
            "journal",
            "--learner",
            "Ana",
            "merge",
            bruno.to_str().unwrap(),
        ];
        desk.run(&[&merge, more].concat(), "")
    };
    merge(&[]).ends(1, &["line 1", "\"Bruno Ek\"", "--from"]);
    merge(&["--from", "Carla"]).ends(1, &["nothing was brought in"]);
    assert_eq!(fs::read_to_string(&ana).unwrap(), before);
    merge(&["--from", "BRUNO EK"]).ends(0, &[]);
    assert_eq!(
        fs::read_to_string(&ana).unwrap().lines().count(),
        2 * before.lines().count()
    );
    // What is here already is nothing new, and so no reason to refuse.
    merge(&[]).ends(0, &[]);
    // A group is told by the names that its learners typed.
    let said = desk.run(&["progress", "all"], "");
    let names: Vec<&str> = (said.out.lines())
        .filter_map(|line| Some(line.split_once(": ")?.0))
        .collect();
    assert_eq!(names, ["Ana", "Bruno Ek"], "{}", said.out);
}

#[test]
fn what_came_again_in_a_drill_enters_no_figure() {
    let again = |n| color(n, "right", 900).replacen('{', "{\"repeat\":true,", 1);
    let lines: Vec<String> = (0..4)
        .map(|n| color(n, "pass", 900))
        .chain((4..40).map(again))
        .collect();
    let desk = desk(&lines);
    let data = data(&desk);
    assert_eq!(data["answers"], 4);
    assert_eq!(data["steps"][2]["of"], 4);
    assert_eq!(data["steps"][2]["right"], 0);
    assert_eq!(data["kinds"][0]["all"]["right"], 0);
    assert_eq!(data["squares"]["color"]["c4"]["right"], 0);
    let said = desk.run(&["progress"], "");
    assert!(said.out.contains("0 of 4 right so far"), "{}", said.out);
}

#[test]
fn a_passed_step_says_when_it_was_passed_and_what_it_is_now() {
    let lines: Vec<String> = (0..36)
        .map(|n| color(n, if n < 30 { "right" } else { "wrong" }, 2_000))
        .collect();
    let desk = desk(&lines);
    let said = desk.run(&["progress"], "");
    assert!(
        said.out.contains(
            "Square colors: passed on 1 November 2026; now 24 of the last 30 right, median 2 seconds."
        ),
        "{}",
        said.out
    );
    assert_eq!(data(&desk)["steps"][2]["passed"], "2026-11-01T18:00:29Z");
    // 30 of 36 are 83.3 percent.
    assert!(
        said.out.contains("color: 83 percent of 36 right"),
        "{}",
        said.out
    );
}

#[test]
fn what_comes_next_is_told_once_first_to_the_eye_and_last_to_the_ear() {
    let squares = shakmaty::Square::ALL;
    let lines: Vec<String> = (0..400)
        .map(|n| {
            let subject = json!({ "square": squares[n % 64].to_string(), "view": "white" });
            let verdict = if n % 3 == 0 { "wrong" } else { "right" };
            bare(n, "name", &subject, verdict, 3_000, "f3")
        })
        .collect();
    let desk = desk(&lines);
    for (options, is_last) in [(&["progress"][..], false), (&["progress", "--plain"], true)] {
        let said = desk.run(options, "").out;
        let lines: Vec<&str> = said.lines().collect();
        assert!(lines.len() > 24, "{said}");
        assert!(
            lines[1].starts_with("You stand at step 1 of 29, "),
            "{said}"
        );
        let at = if is_last { lines.len() - 1 } else { 3 };
        assert_eq!(lines[at], "To go on: sansvoir lesson", "{said}");
        for once in [
            "sansvoir lesson",
            "at step 1 of 29, Squares from White's side",
        ] {
            assert_eq!(said.matches(once).count(), 1, "{said}");
        }
    }
}
