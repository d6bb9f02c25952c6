//! The command `drill` as a process of its own.

use crate::program::{CLUB, Desk, Said};
use serde_json::Value;
use std::collections::HashSet;

fn drill(desk: &Desk, arguments: &[&str], input: &str) -> Said {
    desk.run(&[&["drill"], arguments].concat(), input)
}

/// The questions of an output, without their numbers.
fn questions(said: &Said) -> Vec<String> {
    said.out
        .lines()
        .filter(|line| line.starts_with("Question "))
        .filter_map(|line| Some(line.split_once(". ")?.1.to_owned()))
        .collect()
}

#[test]
fn a_drill_ends_with_accuracy_map_and_advice() {
    let desk = Desk::new();
    let said = drill(
        &desk,
        &["color", "--count", "40", "--seed", "2"],
        &"dark\n".repeat(40),
    );
    said.ends(0, &[]);
    assert_eq!(questions(&said).len(), 40);
    for words in [
        "Right at the first try: ",
        "Median time of right replies: ",
        "Numbers count first tries",
        "Slowest when right: ",
        "Drill color again and take more time",
    ] {
        assert!(said.out.contains(words), "{words:?} is missing: {said:?}");
    }
    let records = desk.records();
    assert_eq!(records.len(), 42);
    assert_eq!(records[41]["finished"], Value::Bool(true));
    for answer in &records[1..41] {
        assert_eq!(answer["exercise"], "drill");
        assert_eq!(answer["kind"], "color");
        for absent in ["start", "moves", "position", "game"] {
            assert!(answer.get(absent).is_none(), "{answer}");
        }
    }
}

#[test]
fn without_a_seed_every_drill_asks_otherwise() {
    let desk = Desk::new();
    let asked = || {
        let drill = desk.program_by_chance(&["drill", "distance", "--count", "12"]);
        questions(&Said::of(drill, "pass\n".repeat(24).as_bytes()))
    };
    assert_ne!(asked(), asked());
}

#[test]
fn only_first_tries_count_in_the_journal_the_summary_and_the_progress() {
    let desk = Desk::new();
    // Four are given up, and come again.
    let said = drill(&desk, &["color", "--count", "8", "--seed", "2"], &{
        "pass\n".repeat(4) + &"light\n".repeat(4)
    });
    said.ends(0, &[]);
    let repeats = |records: &[Value]| -> Vec<bool> {
        let answers = records.iter().filter(|record| record["type"] == "answer");
        answers.map(|answer| answer["repeat"] == true).collect()
    };
    let mut kept = desk.records();
    let marked = repeats(&kept);
    let asked = questions(&said);
    for (n, question) in asked.iter().enumerate() {
        assert_eq!(marked[n], asked[..n].contains(question), "{asked:?}");
    }
    let count = marked.iter().filter(|repeat| **repeat).count();
    assert!(count >= 3, "{marked:?}");
    kept.retain(|record| record["repeat"] != true);
    let first_tries = 8 - count;
    let right = kept.iter().filter(|record| record["verdict"] == "right");
    let right = right.count();
    let told = format!("Right at the first try: {right} of {first_tries}, ");
    assert!(said.out.contains(&told), "{told}: {}", said.out);
    let progress = desk.run(&["progress"], "").out;
    let told = format!("Square colors: {right} of {first_tries} right so far");
    assert!(progress.contains(&told), "{told}: {progress}");
    // A resumed drill marks the same.
    let desk = Desk::new();
    drill(
        &desk,
        &["color", "--count", "8", "--seed", "2"],
        &"pass\n".repeat(4),
    )
    .ends(0, &[]);
    drill(&desk, &["--resume"], &"light\n".repeat(4)).ends(0, &[]);
    assert_eq!(repeats(&desk.records()), marked);
}

#[test]
fn a_stopped_drill_goes_on_with_the_questions_that_were_left() {
    let kinds = ["name,span,route", "--count", "10", "--seed", "9"];
    let undisturbed = questions(&drill(&Desk::new(), &kinds, &"pass\n".repeat(10)));
    assert_eq!(undisturbed.len(), 10);
    for stop_after in [0, 1, 4, 9] {
        let desk = Desk::new();
        let first = drill(&desk, &kinds, &"pass\n".repeat(stop_after));
        let second = drill(&desk, &["--resume"], &"pass\n".repeat(10 - stop_after));
        second.ends(0, &[]);
        let mut asked = questions(&first);
        // The question that stood is put again.
        asked.truncate(stop_after);
        asked.extend(questions(&second));
        assert_eq!(asked, undisturbed, "stopped after {stop_after}");
        drill(&desk, &["--resume"], "").ends(1, &["no unfinished drill"]);
    }
}

#[test]
fn a_stopped_drill_of_few_pieces_goes_on_too() {
    let few = [
        "few",
        "--count",
        "6",
        "--questions",
        "2",
        "--plies",
        "3",
        "--seed",
        "5",
    ];
    let undisturbed = questions(&drill(&Desk::new(), &few, &"pass\n".repeat(6)));
    assert_eq!(undisturbed.len(), 6);
    for stop_after in [0, 1, 2, 5] {
        let desk = Desk::new();
        let first = drill(&desk, &few, &"pass\n".repeat(stop_after));
        let second = drill(&desk, &["--resume"], &"pass\n".repeat(6 - stop_after));
        drill(&desk, &["--resume"], "").ends(1, &["no unfinished drill"]);
        let mut asked = questions(&first);
        asked.truncate(stop_after);
        asked.extend(questions(&second));
        assert_eq!(asked, undisturbed, "stopped after {stop_after}");
    }
}

#[test]
fn what_was_missed_comes_more_often_in_the_next_drill() {
    let asks = |desk: &Desk, square: &str| {
        let said = drill(
            desk,
            &["color", "--count", "120", "--seed", "4"],
            &"pass\n".repeat(120),
        );
        let wanted = format!("Is {square} light or dark?");
        questions(&said)
            .iter()
            .filter(|question| **question == wanted)
            .count()
    };
    let fresh = asks(&Desk::new(), "a1");
    let desk = Desk::new();
    // Whatever this short drill asks is missed.
    let said = drill(
        &desk,
        &["color", "--count", "2", "--seed", "77"],
        "pass\npass\n",
    );
    let missed = questions(&said)[0][3..5].to_owned();
    let weak = asks(&desk, &missed);
    assert!(
        weak > 3 * fresh.max(2),
        "{missed}: {weak}, against {fresh} for a fresh square"
    );
}

#[test]
fn plain_draws_nothing_and_says_it_all() {
    let desk = Desk::new();
    let said = drill(
        &desk,
        &["name", "--count", "3", "--seed", "1", "--plain"],
        "pass\npass\npass\n",
    );
    said.ends(0, &[]);
    assert!(
        said.out.contains("The marked square lies on the "),
        "{said:?}"
    );
    assert!(
        !said.out.contains("[*]") && !said.out.contains('|') && !said.out.contains(": :"),
        "{said:?}"
    );
    let drawn = drill(&desk, &["name", "--count", "1", "--seed", "1"], "pass\n");
    assert!(drawn.out.contains("[*]"), "{drawn:?}");
}

#[test]
fn for_the_color_of_a_square_nothing_is_drawn_and_five_seconds_are_given() {
    let desk = Desk::new();
    let said = drill(&desk, &["color", "--count", "1", "--seed", "1"], "light\n");
    let before = said.out.split("Question 1").next().unwrap();
    assert!(!before.contains(": :"), "{said:?}");
    assert_eq!(sansvoir::question::Kind::Color.think_millis(), 5_000);
}

#[test]
fn a_piece_that_never_arrives_is_a_question_with_a_right_answer() {
    let desk = Desk::new();
    let arguments = [
        "distance", "--piece", "bishop", "--count", "40", "--seed", "3",
    ];
    let said = drill(&desk, &arguments, &"never\n".repeat(40));
    let right = desk
        .records()
        .iter()
        .filter(|record| record["verdict"] == "right")
        .inspect(|record| assert_eq!(record["expected"], serde_json::json!({"moves": null})))
        .count();
    assert!(right > 2, "{said:?}");
}

#[test]
fn few_pieces_can_come_from_a_game() {
    let desk = Desk::new();
    let arguments = [
        "few", "--from", CLUB, "--pieces", "8", "--count", "4", "--seed", "1",
    ];
    let said = drill(&desk, &arguments, "pass\npass\npass\npass\n");
    said.ends(0, &[]);
    assert_eq!(questions(&said).len(), 4);
    let first = drill(
        &desk,
        &["few", "--from", CLUB, "--game", "1", "--pieces", "3"],
        "",
    );
    let words = [
        "game 1",
        "never gets down to 3 pieces",
        "choose another game",
    ];
    first.ends(1, &words);
    assert!(first.err.contains("--pieces 22"), "{first:?}");
    let short = desk.file("short.pgn", "1. e4 e5 *");
    drill(&desk, &["few", "--from", &short], "").ends(1, &["never gets down to 5 pieces"]);
}

#[test]
fn each_round_over_a_position_of_ones_own_is_played_on_otherwise_and_asks_something_new() {
    let desk = Desk::new();
    let fen = "r1bq1rk1/pp2bppp/2n1pn2/3p4/3P4/2NB1N2/PP3PPP/R1BQ1RK1 w - - 0 9\n";
    let file = desk.file("own.fen", fen);
    for seed in ["4", "5", "6"] {
        let arguments = ["few", "--from", &file, "--plies", "2", "--count", "8"];
        let said = drill(
            &desk,
            &[&arguments[..], &["--seed", seed]].concat(),
            &"pass\n".repeat(8),
        );
        said.ends(0, &[]);
        let played = said.out.lines().filter(|line| line.starts_with("Move 9"));
        assert!(played.collect::<HashSet<_>>().len() >= 3, "{said:?}");
        let asked = desk.records();
        let asked = asked
            .iter()
            .filter(|record| record["type"] == "answer")
            .rev()
            .take(8);
        let asked = asked.map(|record| format!("{} {}", record["subject"], record["expected"]));
        assert_eq!(asked.collect::<HashSet<_>>().len(), 8, "{said:?}");
    }
}

#[test]
fn a_fault_of_the_game_that_few_pieces_come_from_is_told() {
    let desk = Desk::new();
    let fen = "[FEN \"4k3/8/8/8/8/8/4P3/4K3 w - - 0 1\"]\n\n";
    let file = desk.file("cut.pgn", format!("{fen}1. e4 Kd7 2. e5 Ke6 3. Qh9 *"));
    let said = drill(
        &desk,
        &["few", "--from", &file, "--pieces", "3", "--plies", "2"],
        "stop\n",
    );
    said.ends(0, &[]);
    for words in ["(4 plies)", "cut.pgn --game 1 --check tells why."] {
        assert!(said.err.contains(words), "{said:?}");
    }
}

#[test]
fn looks_at_few_pieces_are_counted() {
    let desk = Desk::new();
    let part = "[[part]]\nexercise = \"drill\"\nkinds = \"few\"\ncount = 1\nseed = 2\nlooks = 1\n";
    let file = desk.file("few.toml", part);
    let said = desk.run(&["lesson", &file], "look\nlook\npass\n");
    assert!(said.out.contains("No look is left."), "{said:?}");
    assert!(said.out.contains("Looks at the board: 1."), "{said:?}");
    let records = desk.records();
    let answer = records.iter().find(|record| record["type"] == "answer");
    assert_eq!(answer.unwrap()["looks"], 1);
}

#[test]
fn replies_that_cannot_be_read_are_asked_again() {
    let desk = Desk::new();
    let said = drill(
        &desk,
        &["name", "--count", "1", "--seed", "1"],
        "z9\n\nperhaps\nlook\nhelp\npass\n",
    );
    said.ends(0, &[]);
    assert_eq!(desk.records().len(), 3, "start, one answer, end");
    assert!(said.out.contains("\"z9\" is no square"), "{said:?}");
}

#[test]
fn a_drill_that_makes_no_sense_is_refused_with_what_to_do() {
    let table: [(&[&str], &[&str]); 12] = [
        (&[], &["name what to drill"]),
        (&["colour"], &["'color'"]),
        (&["color", "--count", "0"], &["--count"]),
        (&["route", "--piece", "knigth"], &["'knight'"]),
        (&["route", "--piece", "pawn"], &["a pawn does not travel"]),
        (&["color", "--piece", "knight"], &["--piece is for span"]),
        (
            &["span", "--side", "black"],
            &["--side is for name or place"],
        ),
        (&["color", "--pieces", "5"], &["--pieces is for few"]),
        (&["few", "--pieces", "2"], &["--pieces"]),
        (&["few,color"], &["few stands alone"]),
        (
            &["few", "--side", "white"],
            &["--side is for questions on the empty board"],
        ),
        (&["few", "--ask", "whereabout"], &["'whereabouts'"]),
    ];
    for (arguments, words) in table {
        let desk = Desk::new();
        drill(&desk, arguments, "").ends(2, words);
        assert!(desk.records().is_empty(), "{arguments:?}");
    }
    let desk = Desk::new();
    drill(&desk, &["color", "--count", "5"], "pass\n").ends(0, &[]);
    drill(&desk, &["--resume", "--count", "6"], "").ends(2, &["leave out --count"]);
    drill(&desk, &["name", "--resume"], "").ends(2, &["leave out the kinds"]);
}
