//! Sheets as data, held against what the live exercise writes into the journal.

use sansvoir::question::{BareQuestion, Question};
use serde_json::Value;

use crate::program::{CLUB, Desk};

const OVER_A_LINE: &str = "whereabouts,occupant,standing,attacks,attackers,moves,legality,check,checks,\
    captures,hanging,mate,exchange,balance,rights,taken,played,rebuild";

/// The questions of a sheet.
fn sheet(exercise: &[&str]) -> Vec<Value> {
    let said = Desk::new().run(&[&["sheet", "--format", "json"], exercise].concat(), "");
    said.ends(0, &[]);
    serde_json::from_str(&said.out).unwrap()
}

/// The answers that the live exercise keeps, without what only a learner gives.
fn live(exercise: &[&str], input: &str) -> Vec<Value> {
    let desk = Desk::new();
    desk.run(exercise, input).ends(0, &[]);
    let mut answers = desk.records();
    answers.retain(|record| record["type"] == "answer");
    for answer in &mut answers {
        let answer = answer.as_object_mut().unwrap();
        for given in [
            "reply", "verdict", "score", "millis", "late", "looks", "time", "session",
        ] {
            assert!(answer.remove(given).is_some(), "{given}");
        }
        answer.remove("think");
    }
    answers
}

/// Sees that the questions are the same, and that each of the sheet has its sentence.
fn assert_same(mut sheet: Vec<Value>, live: &[Value], least: usize) {
    assert!(sheet.len() >= least, "{} questions", sheet.len());
    for question in &mut sheet {
        let text = question.as_object_mut().unwrap().remove("text").unwrap();
        assert!(!text.as_str().unwrap().is_empty());
    }
    assert_eq!(sheet, live);
}

/// A right reply, in words that the prompt reads.
fn right_reply(asked: &Value) -> String {
    let expected = &asked["expected"];
    if let Ok(Question::Bare(BareQuestion::Route(route))) =
        serde_json::from_value::<Question>(asked.clone())
    {
        let squares: Vec<String> = route
            .travel
            .route()
            .iter()
            .map(ToString::to_string)
            .collect();
        return if squares.is_empty() {
            "never".to_owned()
        } else {
            squares.join(" ")
        };
    }
    if let Some(squares) = expected["squares"].as_array() {
        let names: Vec<&str> = squares.iter().map(|name| name.as_str().unwrap()).collect();
        return if names.is_empty() {
            "none".to_owned()
        } else {
            names.join(" ")
        };
    }
    if expected["from_left"].is_u64() {
        return format!("{} {}", expected["from_left"], expected["from_bottom"]);
    }
    if expected.get("moves").is_some_and(Value::is_null) {
        return "never".to_owned();
    }
    let value = expected.as_object().unwrap().values().next().unwrap();
    value
        .as_str()
        .map_or_else(|| value.to_string(), str::to_owned)
}

#[test]
fn a_sheet_of_a_replay_asks_what_the_live_replay_asks() {
    for (game, seed) in [("1", "7"), ("2", "8"), ("3", "9")] {
        let exercise = [
            "replay",
            CLUB,
            "--game",
            game,
            "--seed",
            seed,
            "--ask",
            OVER_A_LINE,
            "--questions",
            "6",
        ];
        let live = live(&exercise, &"pass\n".repeat(400));
        assert_same(sheet(&exercise), &live, 20);
    }
}

#[test]
fn a_sheet_of_a_replay_with_sidelines_or_of_a_part_of_a_game_asks_what_the_live_one_asks() {
    let with_sidelines = ["replay", CLUB, "--sidelines", "--every", "5", "--seed", "3"];
    let cut = [
        "replay", CLUB, "--every", "6", "--from", "3", "--to", "12...", "--seed", "3",
    ];
    for exercise in [&with_sidelines[..], &cut[..]] {
        let live = live(exercise, &"pass\n".repeat(400));
        assert_same(sheet(exercise), &live, 6);
    }
}

#[test]
fn a_sheet_of_a_drill_asks_what_a_learner_is_asked_who_misses_nothing() {
    let mixed = "name,place,color,aligned,between,crossing,span,distance,route";
    for kinds in mixed.split(',').chain([mixed]) {
        for more in [
            &["--count", "24"][..],
            &["--count", "8", "--piece", "knight,queen"],
        ] {
            let travels = ["crossing", "span", "distance", "route", mixed].contains(&kinds);
            if more.contains(&"--piece") && !travels {
                continue;
            }
            let exercise = [&["drill", kinds, "--seed", "11"], more].concat();
            let sheet = sheet(&exercise);
            let replies: String = sheet
                .iter()
                .map(|asked| right_reply(asked) + "\n")
                .collect();
            let live = live(&exercise, &replies);
            assert_same(sheet, &live, 8);
        }
    }
}

#[test]
fn a_sheet_of_few_pieces_asks_what_the_live_drill_asks() {
    let drawn = [
        "drill", "few", "--ask", "all", "--seed", "5", "--count", "24",
    ];
    let of_a_game = [
        "drill", "few", "--from", CLUB, "--pieces", "10", "--seed", "6", "--plies", "6",
    ];
    for exercise in [&drawn[..], &of_a_game[..]] {
        let live = live(exercise, &"pass\n".repeat(40));
        assert_same(sheet(exercise), &live, 10);
    }
}

#[test]
fn a_sheet_of_calculation_asks_what_the_live_session_asks_with_the_same_plies() {
    for (plies, show) in [("4", "diagram"), ("3", "none"), ("6", "list")] {
        let exercise = [
            "ahead", CLUB, "--plies", plies, "--show", show, "--count", "4", "--seed", "8",
        ];
        let live = live(&exercise, &"pass\n".repeat(20));
        assert_same(sheet(&exercise), &live, 4);
    }
}

#[test]
fn weak_questions_of_a_journal_change_no_sheet() {
    let desk = Desk::new();
    let drill = ["drill", "color", "--count", "30", "--seed", "1"];
    let sheet = [&["sheet", "--format", "json"], &drill[..]].concat();
    let before = desk.run(&sheet, "").out;
    desk.run(&drill, "pass\n".repeat(30)).ends(0, &[]);
    assert_eq!(desk.run(&sheet, "").out, before);
}
