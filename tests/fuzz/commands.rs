//! The program itself on PGN text: every command that takes games, drawn, plain and as JSON, through
//! pipes and on a pseudo-terminal, with a learner whose replies come from the same dice.

use std::fmt::Write;
use std::fs;

use sansvoir::exercise::Dice;
use serde_json::Value;

use crate::program::Desk;
use crate::walk::{Walk, right};
use crate::{reader, watched};

/// No more of a game is asked about, and no more lines are typed: a text does not take minutes.
const QUESTIONS: usize = 12;

/// The same texts that the reader gets, and those on one line each, where a line says all of a game.
pub(crate) fn seeds() -> Vec<Vec<u8>> {
    let mut seeds = reader::seeds();
    seeds.push(clocked(40).into_bytes());
    let on_one_line = seeds.iter().map(|text| {
        let text = String::from_utf8_lossy(text);
        text.split_whitespace().collect::<Vec<_>>().join(" ").into()
    });
    let on_one_line: Vec<Vec<u8>> = on_one_line.collect();
    seeds.extend(on_one_line);
    seeds
}

/// A game with a clock comment behind each ply, as servers write it: some 30 bytes a ply, and a move in the
/// middle that cannot be.
fn clocked(moves: usize) -> String {
    let mut text = "[Event \"Clocks\"]\n\n".to_owned();
    for number in 1..=moves {
        let (white, black) = match number % 4 {
            1 => ("Nf3", "Nf6"),
            2 => ("Nc3", "Nc6"),
            3 => ("Ng1", "Ng8"),
            _ => ("Nb1", "Nb8"),
        };
        let black = if number == moves / 2 { "Qh4" } else { black };
        // Writing into a text cannot fail.
        let _ = write!(
            text,
            "{number}. {white} {{[%clk 0:{number:02}:01]}} {number}... {black} {{[%clk 0:{number:02}:02]}} "
        );
    }
    text + "1-0\n"
}

/// What is told of the games is the same in every form, and an exercise over them does no harm.
pub(crate) fn target(text: &[u8]) {
    let desk = Desk::new();
    let file = desk.file("games.pgn", text);
    let mut dice = Dice::new(number_of(text), 0);
    let games = told_alike(&desk, &file);
    let seed = dice.below(1000).to_string();
    let game = (1 + dice.below(games.max(1))).to_string();
    let mut exercise = exercise(&mut dice, &desk, &file, &game);
    exercise.extend(["--seed", &seed].map(str::to_owned));
    match dice.below(4) {
        0 => on_paper(&mut dice, &desk, &exercise),
        1 => at_a_terminal(&mut dice, &desk, &exercise),
        _ => through_a_pipe(&mut dice, &desk, &exercise),
    }
    watched::run(&desk, &["progress"], "");
    watched::run(&desk, &["progress", "--format", "json"], "");
}

/// The dice of a text come from the text alone, so that it does again what it did.
fn number_of(text: &[u8]) -> u64 {
    text.iter().fold(7, |number: u64, byte| {
        number
            .wrapping_mul(1_000_003)
            .wrapping_add(u64::from(*byte))
    })
}

/// Lists, checks and writes out the games; returns how many there are.
fn told_alike(desk: &Desk, file: &str) -> usize {
    let list = watched::run(desk, &["games", file], "");
    let listed = list.out.lines().count();
    let plainly = watched::run(desk, &["games", file, "--plain"], "");
    assert_eq!(plainly.out.lines().count(), listed, "games told plainly");
    let colored = watched::colored(desk, &["games", file, "--color", "always"], "");
    assert_eq!(colored.out.lines().count(), listed, "games told in color");

    let entries = entries(desk, file);
    assert_eq!(entries.len(), listed, "games told as JSON");
    let sum = |count: fn(&Value) -> u64| entries.iter().map(count).sum::<u64>();
    let plies = sum(|entry| entry["plies"].as_u64().expect("a number"));
    let faults = sum(|entry| entry["faults"].as_array().expect("a list").len() as u64);
    let found = [listed as u64, plies, faults];
    for manner in [&["--check"][..], &["--check", "--plain"]] {
        let checked = watched::run(desk, &[&["games", file], manner].concat(), "");
        assert_eq!(counts(checked.out.lines().last()), found, "{manner:?}");
    }
    let drawn = watched::terminal(desk, &["games", file, "--check"], "");
    let closing = drawn.lines().rfind(|line| line.ends_with("(moves lost)."));
    assert_eq!(counts(closing), found, "checked on a terminal: {drawn}");

    let out = desk.path("out.pgn");
    let out = out.to_str().expect("a path in UTF-8");
    let exported = watched::run(desk, &["games", file, "--export", out], "");
    if list.code != Some(0) {
        // What cannot be read to its end is written out whole or not at all.
        assert!(exported.code == Some(1) && !desk.path("out.pgn").exists());
        return listed;
    }
    let written = exported
        .err
        .lines()
        .last()
        .and_then(|line| line.split(' ').next());
    assert_eq!(written, Some(listed.to_string().as_str()), "{exported:?}");
    let back = self::entries(desk, out);
    let plies_of = |entries: &[Value]| -> Vec<Value> {
        entries.iter().map(|entry| entry["plies"].clone()).collect()
    };
    assert_eq!(plies_of(&back), plies_of(&entries), "written and read back");
    listed
}

/// The games as `--format json` tells them, numbered from 1.
fn entries(desk: &Desk, file: &str) -> Vec<Value> {
    let said = watched::run(desk, &["games", file, "--format", "json"], "");
    let entries = said
        .out
        .lines()
        .map(|line| serde_json::from_str(line).expect("JSON"));
    let entries: Vec<Value> = entries.collect();
    for (at, entry) in entries.iter().enumerate() {
        assert_eq!(entry["number"], at + 1);
    }
    entries
}

/// The games, plies and faults of the line that closes a check; nothing where there is no game.
fn counts(line: Option<&str>) -> [u64; 3] {
    let words = line.unwrap_or_default().split_whitespace();
    let numbers: Vec<u64> = words.filter_map(|word| word.parse().ok()).collect();
    numbers
        .get(..3)
        .map_or([0; 3], |three| [three[0], three[1], three[2]])
}

/// An exercise that is held over the games, in a manner of its own.
fn exercise(dice: &mut Dice, desk: &Desk, file: &str, game: &str) -> Vec<String> {
    let few = (1 + dice.below(3)).to_string();
    let announce = dice.pick(&["words", "san", "long", "spelled"]).copied();
    let announce = announce.unwrap_or_default();
    desk.wishes(&format!("announce = \"{announce}\"\n"));
    let view = dice.pick(&["white", "black"]).copied().unwrap_or_default();
    let mut words = match dice.below(8) {
        0..=2 => vec![
            "replay",
            file,
            "--game",
            game,
            "--ask",
            "all",
            "--questions",
            &few,
            "--every",
            "6",
            "--side",
            view,
        ],
        3 => vec!["ahead", file, "--game", game, "--questions", &few],
        4 => vec!["ahead", file, "--game", game, "--mate", &few],
        5 => vec!["recite", file, "--game", game],
        6 => vec!["drill", "few", "--count", &few],
        _ => {
            let lesson = format!(
                "[[part]]\nexercise = \"replay\"\nfiles = \"games.pgn\"\ngame = {game}\nevery = 5\n\
                 [[part]]\nexercise = \"drill\"\nkinds = \"color\"\ncount = {few}\n"
            );
            return vec!["lesson".to_owned(), desk.file("lesson.toml", lesson)];
        }
    };
    if words[0] == "replay" && dice.chance(1, 3) {
        words.push("--sidelines");
    }
    words.into_iter().map(str::to_owned).collect()
}

/// The exercise as a sheet.
fn on_paper(dice: &mut Dice, desk: &Desk, exercise: &[String]) {
    let format = dice.pick(&["html", "markdown", "json", "script"]).copied();
    let sheet = ["sheet", "--format", format.unwrap_or_default()];
    // What answers, and what is said from beginning to end, is for no paper.
    let is_live = matches!(exercise[0].as_str(), "recite" | "lesson");
    if is_live || exercise.iter().any(|word| word == "--mate") {
        return through_a_pipe(dice, desk, exercise);
    }
    let exercise = exercise.iter().map(String::as_str);
    let said = watched::run(
        desk,
        &sheet.into_iter().chain(exercise).collect::<Vec<_>>(),
        "",
    );
    if sheet[2] == "json" && said.code == Some(0) {
        serde_json::from_str::<Value>(&said.out).expect("JSON");
    }
}

/// The exercise with a learner who gives all up, then with one whose replies are a walk; where they are the
/// truths that were told to the first one, all of them are right. (Other exercises ask what the replies before
/// make worth asking.)
fn through_a_pipe(dice: &mut Dice, desk: &Desk, exercise: &[String]) {
    let mut exercise: Vec<&str> = exercise.iter().map(String::as_str).collect();
    let plainly = dice.chance(1, 2);
    exercise.extend(if plainly {
        &["--plain"][..]
    } else {
        &["--color", "always"]
    });
    let run = if plainly {
        watched::run
    } else {
        watched::colored
    };
    run(desk, &exercise, &"pass\n".repeat(QUESTIONS));
    let known: Vec<String> = desk.records().iter().filter_map(right).collect();
    let gave_up = desk.records().len();
    let faultless = exercise[0] == "replay" && dice.chance(1, 2);
    let walk = Walk {
        dice,
        known: &known,
    };
    let typed = if faultless {
        walk.straight()
    } else {
        walk.astray()
    };
    run(desk, &exercise, &typed);
    let records = desk.records();
    for record in &records[gave_up..] {
        if faultless && right(record).is_some() {
            assert_eq!(record["verdict"], "right", "{typed:?} {record}");
        }
        if record["type"] == "answer" {
            assert_eq!(
                record["verdict"] == "right",
                record["score"] == 1.0,
                "{record}"
            );
        }
    }
    if matches!(exercise[0], "replay" | "ahead" | "recite") && !exercise.contains(&"--mate") {
        let resumed = [exercise[0], exercise[1], "--resume"];
        watched::run(desk, &resumed, &"pass\n".repeat(QUESTIONS));
    }
}

/// The exercise on a pseudo-terminal, with a learner who walks astray and then goes away.
fn at_a_terminal(dice: &mut Dice, desk: &Desk, exercise: &[String]) {
    let exercise: Vec<&str> = exercise.iter().map(String::as_str).collect();
    let typed = Walk { dice, known: &[] }.astray();
    watched::terminal(desk, &exercise, &typed);
    assert!(desk.records().iter().all(Value::is_object));
    assert!(fs::read_dir(desk.path("data")).is_ok() || desk.records().is_empty());
}
