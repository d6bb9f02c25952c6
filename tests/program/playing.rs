//! Games against an opponent: through a pipe, stopped, killed, gone on with, and kept.

use std::io::{BufRead, BufReader, Write};
use std::process::{Child, Stdio};
use std::time::Duration;

use sansvoir::exercise::Dice;
use sansvoir::game::{Line, Start};
use serde_json::Value;
use shakmaty::san::San;
use shakmaty::uci::UciMove;
use shakmaty::{Color, Position};

use crate::program::Desk;

fn of_type<'a>(records: &'a [Value], name: &str) -> Vec<&'a Value> {
    let is_it = |record: &&Value| record["type"] == name;
    records.iter().filter(is_it).collect()
}

/// Plays the moves of a journal, each once, and holds every record of a move against the game.
fn line_of(records: &[Value]) -> Line {
    let mut line = Line::new(Start::standard());
    for record in records {
        let uci = match (record["type"].as_str(), record["kind"].as_str()) {
            (Some("answer"), Some("turn")) => {
                let moves: Vec<UciMove> = line.uci(line.len()).collect();
                let moves: Vec<String> = moves.iter().map(ToString::to_string).collect();
                assert_eq!(record["moves"], Value::from(moves), "nothing lost or twice");
                &record["move"]
            }
            (Some("said"), _) if record["by"] == "opponent" => &record["said"],
            _ => continue,
        };
        // Behind its end, what cost most in the game is told beside it.
        if let Some(uci) = uci.as_str().filter(|said| !said.starts_with("reviewed")) {
            let mv = uci.parse::<UciMove>().unwrap().to_move(line.end()).unwrap();
            line.push(mv).unwrap();
        }
    }
    line
}

#[test]
fn slips_are_told_and_kept_with_their_reason_and_the_game_is_kept_as_pgn() {
    let desk = Desk::new();
    let out = desk.path("own.pgn");
    let out = out.to_str().unwrap();
    let play = [
        "play", "--side", "white", "--rating", "500", "--seed", "4", "--out", out,
    ];
    let said = desk.run(
        &play,
        "e4\nBa7\nNg1h3\nhello\nlook\nd3\ntake back\nd4\nRa3\nresign\n",
    );
    said.ends(0, &[]);
    for words in [
        "Your opponent plays at about 500, on an engine's scale; it is no person's rating.",
        "\"Ba7\" is no legal move: no bishop of White can go to a7.",
        "\"hello\" is no move. Nothing was marked.",
        "Your last move and the answer are taken back.",
        "You resign: you lose.",
        "The picture failed first at White's move 2.",
        "is kept in",
    ] {
        assert!(said.out.contains(words), "{words:?} is missing: {said:?}");
    }
    let records = desk.records();
    let turns: Vec<&Value> = of_type(&records, "answer")
        .into_iter()
        .filter(|answer| answer["kind"] == "turn")
        .collect();
    let told: Vec<(&Value, &Value, &Value)> = turns
        .iter()
        .map(|turn| (&turn["verdict"], &turn["move"], &turn["reason"]))
        .collect();
    assert_eq!(told[0], (&"right".into(), &"e2e4".into(), &Value::Null));
    assert_eq!(told[1], (&"wrong".into(), &Value::Null, &Value::Null));
    let slip = turns.last().unwrap();
    assert_eq!(
        (&slip["reason"], &slip["by"]),
        (&"blocked".into(), &"a2".into())
    );
    assert_eq!(slip["expected"], serde_json::json!({"legal": true}));
    let game = of_type(&records, "game")[0];
    assert_eq!(
        (&game["result"], &game["end"]),
        (&"0-1".into(), &"resigned".into())
    );
    assert_eq!(
        (&game["slips"], &game["unseen"]),
        (&2.into(), &false.into())
    );
    let progress = desk.run(&["progress"], "");
    for words in [
        "Slips in 100 moves: 50.0 in the opening.",
        "Slips most of all: ",
    ] {
        assert!(
            progress.out.contains(words),
            "{words:?} is missing: {progress:?}"
        );
    }
    let data = desk.run(&["progress", "--format", "json"], "");
    assert!(
        data.out
            .contains(r#""phases":[{"moves":2,"phase":"opening","slips":2}]"#),
        "{data:?}"
    );
    let checked = desk.run(&["games", "--check", out], "");
    checked.ends(0, &[]);
    let replayed = desk.run(&["replay", out, "--every", "2"], "stop\n");
    replayed.ends(0, &[]);
}

#[test]
fn a_game_is_kept_in_the_journal_where_the_file_cannot_be_written() {
    let desk = Desk::new();
    let folder = desk.path("lent");
    std::fs::create_dir(&folder).unwrap();
    let out = folder.join("own.pgn");
    let play = ["play", "--side", "white", "--out", out.to_str().unwrap()];
    let mut command = desk.program(&play);
    let command = command.stdin(Stdio::piped()).stdout(Stdio::piped());
    let mut game = command.stderr(Stdio::piped()).spawn().unwrap();
    let mut output = BufReader::new(game.stdout.take().unwrap()).lines();
    let prompt = output
        .by_ref()
        .map_while(Result::ok)
        .find(|line| line.starts_with("Your move"));
    assert!(prompt.is_some());
    std::fs::remove_dir(&folder).unwrap();
    game.stdin
        .take()
        .unwrap()
        .write_all(b"e4\nresign\n")
        .unwrap();
    let rest = output.map_while(Result::ok).count();
    let said = game.wait_with_output().unwrap();
    let err = String::from_utf8(said.stderr).unwrap();
    assert!(
        err.contains("it is in your journal: sansvoir play --resume"),
        "{rest}: {err}"
    );
    let out = desk.path("own.pgn");
    let again = desk.run(&["play", "--resume", "--out", out.to_str().unwrap()], "");
    again.ends(0, &[]);
    let text = std::fs::read_to_string(&out).unwrap();
    assert!(text.contains("1. e4"), "{text}");
    assert_eq!(of_type(&desk.records(), "game").len(), 1);
}

#[test]
fn a_game_that_was_resumed_counts_among_ones_own_and_is_not_kept_twice() {
    let desk = Desk::new();
    let out = desk.path("own.pgn");
    let play = ["play", "--side", "white", "--out", out.to_str().unwrap()];
    desk.run(&play, "e4\nstop\n").ends(0, &[]);
    assert!(!out.exists());
    let resumed = desk.run(&["play", "--resume"], "resign\nyes\n");
    resumed.ends(0, &[]);
    assert!(out.exists());
    let own = desk.run(&["games"], "");
    assert!(own.out.contains("learner - sansvoir"), "{own:?}");
}

#[cfg(unix)]
#[test]
fn what_is_no_file_for_games_is_refused_before_the_first_move() {
    let desk = Desk::new();
    let pipe = desk.path("pipe");
    let made = std::process::Command::new("mkfifo").arg(&pipe).status();
    assert!(made.unwrap().success());
    for (out, words) in [
        (pipe.to_str().unwrap(), "no file: name a PGN file"),
        ("/dev/full", "no file: name a PGN file"),
        ("tests", "this is a folder"),
        ("/nonexist/x.pgn", "check the name and the folder"),
    ] {
        let said = desk.run(&["play", "--out", out], "e4\nresign\nyes\n");
        said.ends(1, &[words]);
        assert!(said.out.is_empty() && desk.records().is_empty(), "{said:?}");
    }
    let journal = desk.path("data").join("learner.jsonl");
    assert!(!journal.exists());
}

/// The program while it is played against, killed where it stands at its end.
struct Game(Child);

impl Drop for Game {
    fn drop(&mut self) {
        self.0.kill().unwrap();
        self.0.wait().unwrap();
    }
}

#[test]
fn a_game_that_is_killed_at_any_moment_goes_on_at_the_very_move() {
    let desk = Desk::new();
    let mut dice = Dice::new(90_210, 0);
    let mut arguments = vec!["play", "--side", "black", "--rating", "500", "--seed", "5"];
    for sitting in 0..25 {
        let mut command = desk.program(&arguments);
        let command = command.stdin(Stdio::piped()).stdout(Stdio::piped());
        let mut game = Game(command.stderr(Stdio::null()).spawn().unwrap());
        let mut input = game.0.stdin.take().unwrap();
        let mut output = BufReader::new(game.0.stdout.take().unwrap()).lines();
        for _ in 0..=dice.below(4) {
            // Every sentence before the prompt is on the disk when it stands.
            let prompt = output.by_ref().map_while(Result::ok).find(|line| {
                line.starts_with("Your move") || line.starts_with("Look back at the game")
            });
            let line = line_of(&desk.records());
            if prompt.is_none_or(|prompt| !prompt.starts_with("Your move")) {
                // Some moves of its learner, who plays by chance, lose soon.
                assert!(line.end().is_game_over(), "{} plies", line.len());
                return;
            }
            assert_eq!(line.end().turn(), Color::Black, "sitting {sitting}");
            let legal = line.end().legal_moves();
            let mv = *dice.pick(&legal).unwrap();
            writeln!(input, "{}", San::from_move(line.end(), mv)).unwrap();
        }
        std::thread::sleep(Duration::from_micros(dice.below(6_000) as u64));
        drop(game);
        arguments = vec!["play", "--resume"];
    }
    let records = desk.records();
    assert!(line_of(&records).len() > 20);
    assert_eq!(of_type(&records, "start").len(), 1);
}

#[test]
fn the_rating_follows_whole_games_alone() {
    let desk = Desk::new();
    let told = |arguments: &[&str]| {
        let said = desk.run(&[&["play"], arguments].concat(), "resign\n");
        let mut lines = said.out.lines();
        let rating = lines
            .find(|line| line.starts_with("Your opponent"))
            .unwrap();
        let follows = said.out.contains("That follows your results");
        (
            rating.split_whitespace().nth(5).unwrap().to_owned(),
            follows,
        )
    };
    assert_eq!(told(&[]), ("720,".to_owned(), true));
    assert_eq!(told(&["--pieces", "3"]), ("610,".to_owned(), false));
    let queen_up = "4k3/8/8/8/8/8/8/3QK3 w - - 0 1";
    assert_eq!(told(&["--start", queen_up]), ("610,".to_owned(), false));
    assert_eq!(told(&[]), ("610,".to_owned(), true));
    assert_eq!(told(&[]), ("500,".to_owned(), true));
}

#[test]
fn what_cannot_be_played_is_told() {
    let desk = Desk::new();
    for (arguments, words) in [
        (
            vec!["--start", "8/8/8/8/8/8/8/8 w - - 0 1"],
            "no game can start from",
        ),
        (vec!["--start", "rubbish"], "is no FEN"),
        (
            vec!["--start", "7k/5Q2/6K1/8/8/8/8/8 b - - 0 1"],
            "the game is over there",
        ),
        (
            vec!["--rating", "499"],
            "--rating 499: your opponent plays from 500 to 1900",
        ),
        (
            vec!["--rating", "2500"],
            "--rating 2500: your opponent plays from 500 to 1900",
        ),
        (vec!["--pieces", "12"], "12"),
        (
            vec!["--board", "some"],
            "always, a number of moves, empty or never",
        ),
        (vec!["--from", "3"], "FILE"),
        (
            vec!["games-demo/club-evening.pgn", "--from", "300"],
            "the game has no move 300",
        ),
    ] {
        let said = desk.run(&[vec!["play"], arguments].concat(), "");
        assert!(matches!(said.code, Some(1 | 2)), "{said:?}");
        assert!(said.err.contains(words), "{words:?} is missing: {said:?}");
    }
    let said = desk.run(&["play", "--opponent", "/no/such/engine"], "");
    said.ends(1, &["cannot be run"]);
    assert!(said.out.is_empty() && desk.records().is_empty(), "{said:?}");
    let said = desk.run(&["play", "--rating", "800"], "stop\n");
    said.ends(0, &[]);
    assert!(
        said.out.contains("Your opponent plays at about 830"),
        "{said:?}"
    );
    let said = desk.run(&["sheet", "play"], "");
    said.ends(2, &["paper does not answer"]);
}
