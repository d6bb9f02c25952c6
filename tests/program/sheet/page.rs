//! Sheets as pages: the same every time, well formed, and with no name that does anything.

use std::collections::HashSet;
use std::fs;

use crate::program::{CLUB, Desk};

const HOSTILE: &str = r#"[Event "<script>alert(1)</script> & \"Cup\""]
[Site "?"]
[Date "2026.03.01"]
[Round "1"]
[White "</title><img src=x onerror=alert(1)>"]
[Black "דוד *כהן* _x_ [a](b)"]
[Result "*"]

1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 *
"#;

fn page(desk: &Desk, options: &[&str], exercise: &[&str]) -> String {
    let said = desk.run(&[&["sheet"], options, exercise].concat(), "");
    said.ends(0, &[]);
    said.out
}

/// The tags of a page in order, each with its attributes; fails where a tag is not closed, or closed
/// by another.
fn tags(html: &str) -> Vec<(String, Vec<(String, String)>)> {
    const NEVER_CLOSED: [&str; 1] = ["meta"];
    let mut rest = html
        .strip_prefix("<!DOCTYPE html>")
        .expect("a doctype first");
    let mut open: Vec<String> = Vec::new();
    let mut tags = Vec::new();
    while let Some((text, after)) = rest.split_once('<') {
        let is_style = open.last().is_some_and(|tag| tag == "style");
        assert!(is_style || !text.contains('>'), "{text}");
        let (tag, next) = after.split_once('>').expect("a tag that ends");
        rest = next;
        if let Some(name) = tag.strip_prefix('/') {
            assert_eq!(open.pop().as_deref(), Some(name));
            continue;
        }
        let (name, attributes) = tag.split_once(' ').unwrap_or((tag, ""));
        assert!(name.chars().all(|c| c.is_ascii_alphanumeric()), "<{tag}>");
        if !NEVER_CLOSED.contains(&name) {
            open.push(name.to_owned());
        }
        let mut pairs = Vec::new();
        let mut left = attributes.trim();
        while !left.is_empty() {
            let (key, after) = left.split_once("=\"").expect("a quoted value");
            let (value, next) = after.split_once('"').expect("a quote that ends");
            pairs.push((key.to_owned(), value.to_owned()));
            left = next.trim_start();
        }
        tags.push((name.to_owned(), pairs));
    }
    assert!(open.is_empty(), "left open: {open:?}");
    tags
}

/// Each exercise of which a sheet can be made.
const EXERCISES: [&[&str]; 5] = [
    &["ahead", CLUB, "--seed", "5"],
    &[
        "replay",
        CLUB,
        "--seed",
        "5",
        "--ask",
        "all",
        "--questions",
        "5",
    ],
    &[
        "replay",
        CLUB,
        "--seed",
        "5",
        "--side",
        "black",
        "--sidelines",
    ],
    &[
        "drill",
        "name,place,color,aligned,between,crossing,span,distance,route",
        "--seed",
        "5",
    ],
    &["drill", "few", "--ask", "all", "--seed", "5"],
];

#[test]
fn the_same_seed_makes_the_same_sheet() {
    for exercise in EXERCISES {
        for format in ["html", "markdown", "json"] {
            let options = ["--format", format];
            let first = page(&Desk::new(), &options, exercise);
            assert_eq!(page(&Desk::new(), &options, exercise), first);
        }
    }
}

#[test]
fn the_command_on_a_sheet_makes_it_again() {
    let drawn_by_chance = ["replay", CLUB, "--random", "--every", "10", "--think", "30"];
    let few = [
        "drill", "few", "--from", CLUB, "--pieces", "10", "--count", "5",
    ];
    for (exercise, wishes) in [
        (&drawn_by_chance[..], ""),
        (&few[..], ""),
        (&few[..], "list = \"rank\""),
    ] {
        let desk = Desk::new();
        desk.wishes(wishes);
        let first = page(&desk, &["--format", "markdown"], exercise);
        let command = (first.lines())
            .find_map(|line| line.strip_prefix("    sansvoir "))
            .expect("a command");
        // A shell takes the sheet's name for a remark.
        let (command, name) = command.split_once(" # sheet ").expect("a name");
        assert!(first.contains(&format!("Sheet {name}")), "{name}");
        let words: Vec<&str> = command.split(' ').collect();
        let again = desk.run(&words, "");
        again.ends(0, &[]);
        assert_eq!(again.out, first);
    }
}

#[test]
fn a_page_is_well_formed_and_needs_nothing_else() {
    for exercise in EXERCISES {
        let html = page(&Desk::new(), &[], exercise);
        let tags = tags(&html);
        let mut ids = HashSet::new();
        let mut wanted = Vec::new();
        for (name, attributes) in &tags {
            assert!(
                !["script", "link", "iframe", "img", "a"].contains(&name.as_str()),
                "{name}"
            );
            for (key, value) in attributes {
                assert!(
                    !key.starts_with("on") && key != "src" && key != "href",
                    "{key}"
                );
                match key.as_str() {
                    "id" => assert!(ids.insert(value.clone()), "{value} twice"),
                    "aria-labelledby" | "aria-describedby" => wanted.push(value.clone()),
                    _ => {}
                }
            }
        }
        assert!(wanted.iter().all(|id| ids.contains(id)));
        let policies = tags.iter().filter(|(name, attributes)| {
            let policy = (
                "http-equiv".to_owned(),
                "Content-Security-Policy".to_owned(),
            );
            name == "meta" && attributes.contains(&policy)
        });
        let allowed: Vec<&str> = policies.map(|(_, all)| all[1].1.as_str()).collect();
        let [policy] = allowed[..] else {
            panic!("{allowed:?}")
        };
        assert!(policy.starts_with("default-src 'none'; style-src 'sha256-"));
        assert!(!policy.contains("unsafe") && !html.contains(" style=\""));
        let drawings = tags.iter().filter(|(name, _)| name == "svg");
        for (_, attributes) in drawings {
            assert!(attributes.contains(&("role".to_owned(), "img".to_owned())));
        }
        for drawn in ["title", "desc"] {
            let number = tags.iter().filter(|(name, _)| name == drawn).count();
            let boards = html.matches("<svg").count();
            assert_eq!(number, boards + usize::from(drawn == "title"));
        }
        assert!(!html.contains("url(") && !html.contains("@import"));
    }
}

#[test]
fn questions_and_key_go_to_files_of_their_own() {
    let desk = Desk::new();
    for (format, answer) in [("html", "is light."), ("markdown", "is light.")] {
        let paths = [desk.path(format), desk.path(&format!("key.{format}"))];
        let [out, key] = paths.each_ref().map(|path| path.to_str().unwrap());
        let options = ["--format", format, "--out", out, "--key", key];
        let exercise = ["drill", "color", "--count", "8", "--seed", "1"];
        page(&desk, &options, &exercise);
        let [questions, answers] = [out, key].map(|path| fs::read_to_string(path).unwrap());
        assert!(!questions.contains(answer) && answers.contains(answer));
        assert!(questions.contains("light or dark?") && !answers.contains("light or dark?"));
        let both = page(&desk, &options[..2], &exercise);
        assert!(both.contains(answer) && both.contains("light or dark?"));
    }
}

#[test]
fn nothing_is_written_where_one_of_two_files_is_there_already() {
    let desk = Desk::new();
    let key = desk.file("key.html", "mine");
    let out = desk.path("sheet.html");
    let out = out.to_str().unwrap();
    let said = desk.run(
        &["sheet", "--out", out, "--key", &key, "drill", "color"],
        "",
    );
    said.ends(1, &["key.html", "is there already"]);
    assert!(!desk.path("sheet.html").exists());
    desk.run(&["sheet", "--out", out, "--key", out, "drill", "color"], "")
        .ends(2, &["would be one file"]);
    desk.run(
        &["sheet", "--format", "json", "--key", out, "drill", "color"],
        "",
    )
    .ends(2, &["leave out --key"]);
}

#[test]
fn a_hostile_name_is_shown_and_does_nothing() {
    let desk = Desk::new();
    let file = desk.file(
        "<b>\u{202e}x.pgn",
        HOSTILE.replace("דוד", "\u{202e}דוד\u{1b}[2J"),
    );
    let exercise = ["replay", &file, "--seed", "1"];
    let html = page(&desk, &[], &exercise);
    tags(&html);
    assert!(!html.contains("<script") && !html.contains("<img") && !html.contains("<b>\u{202e}"));
    assert!(
        html.contains("&lt;/title&gt;&lt;img src=x onerror=alert(1)&gt;"),
        "{html}"
    );
    let markdown = page(&desk, &["--format", "markdown"], &exercise);
    assert!(markdown.contains(r"\*כהן\* \_x\_ \[a\](b)"), "{markdown}");
    assert!(markdown.contains(r"\<script\>"));
    for text in [html, markdown] {
        assert!(text.contains("דוד"));
        let unclean = |c: char| c != '\n' && (c.is_control() || c == '\u{202e}');
        assert!(!text.contains(unclean));
    }
}

/// The rows of a drawing as they stand in Markdown.
fn rows(markdown: &str) -> Vec<Vec<&str>> {
    let mut boards = Vec::new();
    let mut lines = markdown.lines();
    while let Some(line) = lines.next() {
        if line.starts_with("    8  ") || line.starts_with("    1  ") {
            let rest = lines.by_ref().take(8);
            boards.push(std::iter::once(line).chain(rest).collect());
        }
    }
    boards
}

#[test]
fn a_position_to_calculate_from_is_drawn_on_the_page_of_questions_and_nowhere_in_its_text() {
    let exercise = ["ahead", CLUB, "--count", "3", "--seed", "5"];
    let data = page(&Desk::new(), &["--format", "json"], &exercise);
    let starts: HashSet<String> = serde_json::from_str::<Vec<serde_json::Value>>(&data)
        .unwrap()
        .iter()
        .map(|asked| asked["start"].as_str().unwrap().to_owned())
        .collect();
    let html = page(&Desk::new(), &[], &exercise);
    let (questions, rest) = html.split_once("<h1>To be read aloud").unwrap();
    let (reading, key) = rest.split_once("<h1>Key").unwrap();
    for side in [questions, reading, key] {
        assert_eq!(side.matches("<svg").count(), 3);
        assert_eq!(side.matches("a letter in a ring is").count(), 1);
        assert_eq!(side.matches("<h2>Round ").count(), 3);
    }
    assert!(!html.contains("<p>8 ") && !html.contains("<p>1 "), "{html}");
    let markdown = page(&Desk::new(), &["--format", "markdown"], &exercise);
    let (questions, _) = markdown.split_once("# To be read aloud").unwrap();
    let boards = rows(questions);
    assert_eq!(boards.len(), 3, "{questions}");
    for board in boards {
        assert_eq!(board[8], "        a  b  c  d  e  f  g  h");
        // What stands between the columns of a row is its pieces, in the order of a FEN.
        let placement = board[..8].iter().map(|row| {
            let row = format!("{row:<32}");
            let square = |file: usize| row.as_bytes()[8 + 3 * file] as char;
            (0..8).map(square).collect::<String>()
        });
        let placement = placement.collect::<Vec<_>>().join("/");
        let spread = |fen: &String| {
            let pieces = fen.split(' ').next().unwrap().chars();
            pieces
                .map(|c| {
                    c.to_digit(10)
                        .map_or(c.to_string(), |n| " ".repeat(n as usize))
                })
                .collect::<String>()
        };
        assert!(
            starts.iter().any(|fen| spread(fen) == placement),
            "{placement}"
        );
    }
}

#[test]
fn what_a_round_asks_stays_beside_its_board_where_paper_ends() {
    for exercise in EXERCISES {
        let html = page(&Desk::new(), &[], exercise);
        for section in html.split("<section>").skip(1) {
            let section = section.split("</section>").next().unwrap();
            assert!(section.matches("<figure>").count() <= 1, "{section}");
            if section.contains("<figure>") {
                assert!(section.starts_with("<h2>"), "{section}");
                let asks = ["class=\"question\"", "class=\"answer\"", "<p>Question "];
                assert!(asks.iter().any(|asks| section.contains(asks)), "{section}");
            }
        }
    }
}

#[test]
fn a_plain_sheet_tells_its_boards_in_words() {
    let exercise = ["drill", "name", "--count", "3", "--seed", "1", "--plain"];
    let html = page(&Desk::new(), &[], &exercise);
    assert!(!html.contains("<svg"));
    assert!(html.contains("The marked square lies on "));
}

#[test]
fn a_sheet_reads_like_this() {
    let exercise = [
        "drill", "few", "--count", "1", "--plies", "2", "--seed", "3", "--ask", "occupant",
    ];
    let said = page(&Desk::new(), &["--format", "markdown"], &exercise);
    assert_eq!(
        said,
        fs::read_to_string("tests/program/sheet/few.md").unwrap()
    );
}
