//! Written answers that are graded into the journal.

use std::fs;

use serde_json::{Value, json};

use crate::program::{CLUB, Desk, Said};

/// The command that stands on a sheet of this exercise, and the sheet's questions.
fn sheet(desk: &Desk, exercise: &[&str]) -> (String, Vec<Value>) {
    let markdown = desk.run(&[&["sheet", "--format", "markdown"], exercise].concat(), "");
    markdown.ends(0, &[]);
    let command = markdown
        .out
        .lines()
        .find_map(|line| line.strip_prefix("    sansvoir sheet"));
    let json = desk.run(&[&["sheet", "--format", "json"], exercise].concat(), "");
    (
        format!("sansvoir sheet{}", command.unwrap()),
        serde_json::from_str(&json.out).unwrap(),
    )
}

fn enter(desk: &Desk, text: &str, more: &[&str]) -> Said {
    let file = desk.file("answers.txt", text);
    desk.run(&[&["sheet", "enter", &file], more].concat(), "")
}

fn typed(command: &str, replies: &[&str]) -> String {
    let lines: Vec<String> = replies
        .iter()
        .enumerate()
        .map(|(n, reply)| format!("{} {reply}\n", n + 1))
        .collect();
    format!("{command}\n{}", lines.concat())
}

/// The records without what differs from one sitting to the next.
fn lasting(mut records: Vec<Value>) -> Vec<Value> {
    for record in &mut records {
        let record = record.as_object_mut().unwrap();
        for passing in ["time", "session", "millis", "think"] {
            record.remove(passing);
        }
    }
    records
}

#[test]
fn entered_answers_stand_in_the_journal_as_if_given_live() {
    let of_a_game = [
        "replay",
        CLUB,
        "--game",
        "2",
        "--seed",
        "8",
        "--ask",
        "occupant,legality,check",
    ];
    let of_few_pieces = [
        "drill",
        "few",
        "--ask",
        "occupant,attacks",
        "--seed",
        "3",
        "--count",
        "6",
    ];
    let bare = ["drill", "color,distance", "--seed", "3", "--count", "4"];
    for exercise in [&of_a_game[..], &of_few_pieces[..], &bare[..]] {
        let (on_paper, live) = (Desk::new(), Desk::new());
        let (command, questions) = sheet(&on_paper, exercise);
        let reply = |question: &Value| match question["kind"].as_str().unwrap() {
            "legality" => "legal",
            "color" => "dark",
            "distance" => "2",
            "occupant" => "white knight",
            _ => "none",
        };
        let replies: Vec<&str> = questions.iter().map(reply).collect();
        enter(&on_paper, &typed(&command, &replies), &[]).ends(0, &[]);
        live.run(exercise, replies.join("\n") + "\n").ends(0, &[]);
        let entered = on_paper.records();
        assert_eq!(entered.len(), questions.len() + 2);
        for answer in &entered[1..=questions.len()] {
            assert!(answer["millis"].is_null(), "no time is known: {answer}");
            assert_eq!(answer["late"], false);
        }
        assert_eq!(lasting(entered), lasting(live.records()), "{exercise:?}");
    }
}

#[test]
fn what_was_missed_does_not_come_again_on_paper() {
    let desk = Desk::new();
    let (command, _) = sheet(&desk, &["drill", "color", "--count", "12", "--seed", "1"]);
    let said = enter(&desk, &typed(&command, &["dark"; 12]), &[]);
    said.ends(0, &[]);
    assert_eq!(desk.records().len(), 14);
    let said_wrong = said.out.matches("Not right.").count();
    assert!(said_wrong > 0);
    let wrong = desk
        .records()
        .iter()
        .filter(|record| record["verdict"] == "wrong")
        .count();
    assert_eq!(said_wrong, wrong);
    assert!(
        said.out.contains("12 answers entered for learner: "),
        "{said:?}"
    );
}

#[test]
fn a_number_alone_and_the_word_pass_give_a_question_up() {
    let desk = Desk::new();
    let (command, _) = sheet(&desk, &["drill", "color", "--count", "3", "--seed", "1"]);
    enter(
        &desk,
        &format!("{command}\n\n# monday\n3. light\n1\n2) Pass\n"),
        &[],
    )
    .ends(0, &[]);
    let verdicts: Vec<Value> = desk.records()[1..3]
        .iter()
        .map(|record| record["verdict"].clone())
        .collect();
    assert_eq!(verdicts, ["pass", "pass"]);
}

#[test]
fn one_bad_line_enters_nothing_and_is_named() {
    let desk = Desk::new();
    let (command, _) = sheet(&desk, &["drill", "color", "--count", "3", "--seed", "1"]);
    for (lines, words) in [
        (
            "1 dark\n2 green\n3 blue\n",
            &[
                "answers.txt:3: question 2: ",
                "answers.txt:4: question 3: ",
                "Nothing was entered",
            ][..],
        ),
        (
            "1 dark\n2 dark\n",
            &["answers.txt:3: no line answers question 3"],
        ),
        (
            "1 dark\n2 dark\n3 dark\n4 dark\n",
            &["answers.txt:5: the sheet has no question 4"],
        ),
        (
            "1 dark\n2 dark\n1 light\n",
            &["answers.txt:4: question 1 is answered in line 2 already"],
        ),
        (
            "1 dark\ndark\n3 dark\n",
            &["answers.txt:3: this line begins with no number"],
        ),
    ] {
        enter(&desk, &format!("{command}\n{lines}"), &[]).ends(1, words);
        assert!(!desk.journal().exists(), "{lines}");
    }
}

#[test]
fn a_head_that_is_no_sheets_command_is_named() {
    let desk = Desk::new();
    for (text, words) in [
        ("", "nothing is written here"),
        ("1 dark\n", "answers.txt:1: this is no command of a sheet"),
        (
            "sansvoir games x.pgn\n",
            "answers.txt:1: this is no command of a sheet",
        ),
        ("sansvoir sheet --help\n", "answers.txt:1: "),
        (
            "sansvoir sheet drill colour --seed 1\n1 dark\n",
            "answers.txt:1: this is no command of a sheet (invalid value 'colour'",
        ),
        ("sansvoir sheet drill color\n1 dark\n", "--seed is missing"),
        (
            "sansvoir sheet --seed 1 enter answers.txt\n",
            "it names no exercise",
        ),
        (
            "sansvoir sheet --seed 1 replay -\n1 dark\n",
            "standard input",
        ),
        (
            "sansvoir sheet --seed 1 replay gone.pgn\n1 dark\n",
            "answers.txt:1: gone.pgn: there is no such file",
        ),
        (
            "sansvoir sheet --seed 1 drill few --ask rights\n1 none\n",
            "answers.txt:1: there is nothing to ask",
        ),
        (
            "sansvoir sheet --seed 1 drill color # sheet 00000000\n1 dark\n",
            "answers.txt:1: this would be sheet ",
        ),
    ] {
        enter(&desk, text, &[]).ends(1, &[words]);
    }
    let file = desk.file(
        "latin.txt",
        b"sansvoir sheet drill color --seed 1\n1 \xe9\n",
    );
    desk.run(&["sheet", "enter", &file], "")
        .ends(1, &["latin.txt:2: ", "UTF-8"]);
    desk.run(&["sheet", "enter", "gone.txt"], "")
        .ends(1, &["gone.txt", "no such file"]);
    assert!(!desk.journal().exists());
}

#[test]
fn the_same_answers_are_entered_once() {
    let desk = Desk::new();
    let (command, _) = sheet(&desk, &["drill", "color", "--count", "3", "--seed", "1"]);
    let text = typed(&command, &["dark", "light", "dark"]);
    enter(&desk, &text, &[]).ends(0, &[]);
    let kept = fs::read_to_string(desk.journal()).unwrap();
    // Other spaces make no other answers.
    for again in [text.clone(), text.replace(' ', "  ")] {
        enter(&desk, &again.replacen("  ", " ", 20), &[]).ends(1, &["in the journal already"]);
    }
    assert_eq!(fs::read_to_string(desk.journal()).unwrap(), kept);
    enter(&desk, &text, &["--learner", "Ana"]).ends(0, &[]);
    enter(&desk, &typed(&command, &["dark", "dark", "dark"]), &[]).ends(0, &[]);
    assert_eq!(desk.records().len(), 10);
}

#[test]
fn a_file_with_a_name_for_the_shell_to_quote_is_found_again() {
    let desk = Desk::new();
    let games = fs::read_to_string(CLUB).unwrap();
    let file = desk.file("Ana's \"games\" & more.pgn", games);
    let (command, questions) = sheet(&desk, &["replay", &file, "--seed", "2", "--to", "8"]);
    let passed = vec![""; questions.len()];
    enter(&desk, &typed(&command, &passed), &[]).ends(0, &[]);
}

#[cfg(target_os = "linux")]
#[test]
fn a_disk_that_runs_full_halfway_enters_nothing() {
    let desk = Desk::new();
    let (command, _) = sheet(&desk, &["drill", "color", "--count", "12", "--seed", "1"]);
    let short = sheet(&desk, &["drill", "color", "--count", "1", "--seed", "1"]).0;
    enter(&desk, &typed(&short, &["dark"]), &[]).ends(0, &[]);
    let kept = fs::read_to_string(desk.journal()).unwrap();
    let file = desk.file("answers.txt", typed(&command, &["dark"; 12]));
    // No file may grow beyond 2 KB: some of the records would fit.
    let limited = "trap '' XFSZ; ulimit -f 4; exec \"$0\" sheet enter \"$1\"";
    let mut shell = std::process::Command::new("sh");
    shell.args(["-c", limited, env!("CARGO_BIN_EXE_sansvoir"), &file]);
    desk.place(&mut shell);
    Said::of(shell, b"").ends(1, &["learner.jsonl", "no space left"]);
    assert!(kept.len() < 1024, "{}", kept.len());
    assert_eq!(fs::read_to_string(desk.journal()).unwrap(), kept);
}

#[test]
fn the_answers_in_the_handbook_can_be_entered() {
    let desk = Desk::new();
    let page = include_str!("../../../src/voice/handbook/sheet.md");
    let (_, after) = page.split_once("```text\nsansvoir sheet").unwrap();
    let (answers, _) = after.split_once("```").unwrap();
    let said = enter(&desk, &format!("sansvoir sheet{answers}"), &[]);
    said.ends(0, &[]);
    assert!(
        said.out.ends_with(
            "3 answers entered for learner: 2 right, 0 in part, 0 wrong, 1 passed. 2 of 3 points.\n"
        ),
        "{said:?}"
    );
}

#[test]
fn a_pupil_may_write_the_piece_letters_of_another_language() {
    let exercise = ["replay", CLUB, "--ask", "occupant", "--seed", "8"];
    let german = |letter: &str| match letter {
        "N" => "S",
        "n" => "s",
        "B" => "L",
        "b" => "l",
        "R" => "T",
        "r" => "t",
        "Q" => "D",
        "q" => "d",
        "P" => "B",
        "p" => "b",
        "K" => "K",
        _ => "k",
    };
    let desk = Desk::new();
    let (command, questions) = sheet(&desk, &exercise);
    let replies: Vec<&str> = questions
        .iter()
        .map(|question| {
            question["expected"]["piece"]
                .as_str()
                .map_or("empty", german)
        })
        .collect();
    assert!(
        replies
            .iter()
            .any(|reply| matches!(*reply, "S" | "s" | "L" | "l" | "B" | "b"))
    );
    desk.wishes("letters = \"german\"");
    enter(&desk, &typed(&command, &replies), &[]).ends(0, &[]);
    let records = desk.records();
    let answers = records.iter().filter(|record| record["type"] == "answer");
    for answer in answers {
        assert_eq!(answer["verdict"], "right", "{answer}");
    }
}

#[test]
fn a_step_that_asks_for_speed_is_not_passed_on_paper() {
    let desk = Desk::new();
    let (command, questions) = sheet(&desk, &["drill", "color", "--count", "30", "--seed", "1"]);
    let right = |question: &Value| question["expected"]["color"].as_str().unwrap().to_owned();
    let replies: Vec<String> = questions.iter().map(right).collect();
    let replies: Vec<&str> = replies.iter().map(String::as_str).collect();
    enter(&desk, &typed(&command, &replies), &[]).ends(0, &[]);
    let said = desk.run(&["progress", "--format", "json"], "");
    let data: Value = serde_json::from_str(&said.out).unwrap();
    let colors = &data["steps"][2];
    assert_eq!(
        (&colors["step"], &colors["standing"]),
        (&json!("colors"), &json!("accurate"))
    );
    assert!(data["kinds"][0]["all"]["median"].is_null(), "{data}");
    assert_eq!(data["kinds"][0]["all"]["right"], 30);
    let said = desk.run(&["progress"], "");
    assert!(
        said.out.contains("on paper no time is known"),
        "{}",
        said.out
    );
}
