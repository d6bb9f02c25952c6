//! The command `ahead` as a process of its own.

use crate::program::{CLUB, Desk, Said};
use sansvoir::exercise::Hardness;
use sansvoir::game::{Line, Start, fen_of};
use sansvoir::pgn::{Collection, read};
use sansvoir::question::{LineQuestion, Scene};
use serde_json::Value;
use shakmaty::CastlingMode;
use shakmaty::uci::UciMove;

fn ahead(desk: &Desk, arguments: &[&str], input: &str) -> Said {
    desk.run(&[&["ahead"], arguments].concat(), input)
}

/// The questions of an output, without their numbers.
fn questions(said: &Said) -> Vec<String> {
    said.out
        .lines()
        .filter(|line| line.starts_with("Question "))
        .filter_map(|line| Some(line.split_once(". ")?.1.to_owned()))
        .collect()
}

fn answers(desk: &Desk) -> Vec<Value> {
    let records = desk.records().into_iter();
    records
        .filter(|record| record["type"] == "answer")
        .collect()
}

/// Plays the line of a record from its start, as a stranger would who trusts none of the other fields.
fn replayed(answer: &Value) -> Line {
    let start = answer["start"].as_str().unwrap();
    let mut line = Line::new(Start::from_fen(start, CastlingMode::Standard).unwrap());
    for uci in answer["moves"].as_array().unwrap() {
        let uci: UciMove = uci.as_str().unwrap().parse().unwrap();
        line.push(uci.to_move(line.end()).unwrap()).unwrap();
    }
    line
}

#[test]
fn a_session_gives_positions_asks_and_says_what_is_lacking_for_a_reach() {
    let desk = Desk::new();
    let said = ahead(
        &desk,
        &[CLUB, "--count", "3", "--seed", "2"],
        &"pass\n".repeat(6),
    );
    said.ends(0, &[]);
    assert_eq!(questions(&said).len(), 6);
    for words in [
        "Round 1 of 3.\n8 ",
        " to move; 3 plies to follow.",
        " to move; 1 ply to follow.",
        "The next round would have 1 ply.",
        "How far ahead: not measured yet: 6 of the 30 answers",
    ] {
        assert!(said.out.contains(words), "{words:?} is missing: {said:?}");
    }
    let records = desk.records();
    assert_eq!(records[0]["exercise"], "ahead");
    assert_eq!(records[0]["game"]["number"], 1);
    assert_eq!(records[7]["finished"], Value::Bool(true));
}

#[test]
fn every_answer_can_be_rechecked_by_a_stranger() {
    for show in ["diagram", "list", "none"] {
        let desk = Desk::new();
        let options = [
            CLUB,
            "--show",
            show,
            "--ask",
            "all",
            "--questions",
            "3",
            "--seed",
            "5",
        ];
        ahead(&desk, &options, &"pass\n".repeat(15)).ends(0, &[]);
        let answers = answers(&desk);
        assert!(answers.len() >= 10, "{}", answers.len());
        for answer in answers {
            let line = replayed(&answer);
            assert_eq!(fen_of(line.end()), answer["position"].as_str().unwrap());
            let question =
                serde_json::json!({"kind": answer["kind"], "subject": answer["subject"]});
            let question: LineQuestion = serde_json::from_value(question).unwrap();
            let scene = Scene::new(&line, line.len());
            let truth = serde_json::to_value(question.truth(scene)).unwrap();
            assert_eq!(truth, answer["expected"]);
            let hardness: Hardness = serde_json::from_value(answer["hardness"].clone()).unwrap();
            assert_eq!(hardness.plies as usize, line.len(), "the start was seen");
            assert_eq!(
                Hardness::new(question, scene, hardness.plies as usize),
                hardness
            );
        }
    }
}

#[test]
fn the_next_session_goes_on_at_the_plies_that_the_journal_speaks_for() {
    let desk = Desk::new();
    let first = ahead(
        &desk,
        &[CLUB, "--plies", "6", "--count", "2", "--seed", "2"],
        &"pass\n".repeat(4),
    );
    first.ends(0, &[]);
    assert!(first.out.contains("6 plies to follow."));
    // Four misses at 6 plies take the level no lower than 2.
    let second = ahead(&desk, &[CLUB, "--count", "1", "--seed", "2"], "");
    assert!(second.out.contains(" 2 plies to follow."), "{second:?}");
}

#[test]
fn a_stopped_session_goes_on_with_the_questions_that_were_left() {
    for show in ["diagram", "list", "none"] {
        let options = [CLUB, "--count", "3", "--seed", "9", "--show", show];
        let undisturbed = questions(&ahead(&Desk::new(), &options, &"pass\n".repeat(6)));
        assert_eq!(undisturbed.len(), 6);
        for stop_after in [0, 1, 2, 5] {
            let desk = Desk::new();
            let first = ahead(&desk, &options, &"pass\n".repeat(stop_after));
            let second = ahead(&desk, &["--resume"], &"pass\n".repeat(6 - stop_after));
            second.ends(0, &[]);
            let mut asked = questions(&first);
            asked.truncate(stop_after);
            asked.extend(questions(&second));
            assert_eq!(asked, undisturbed, "stopped after {stop_after}");
            ahead(&desk, &["--resume"], "").ends(1, &["no unfinished session of ahead"]);
        }
    }
}

#[test]
fn a_resumed_session_keeps_its_settings() {
    let desk = Desk::new();
    ahead(&desk, &[CLUB, "--seed", "9", "--plies", "4"], "pass\n").ends(0, &[]);
    for other in [
        ["--plies", "5"],
        ["--seed", "8"],
        ["--show", "list"],
        ["--count", "7"],
        ["--questions", "1"],
        ["--ask", "check"],
        ["--mate", "2"],
    ] {
        let said = ahead(&desk, &[&["--resume"], &other[..]].concat(), "");
        said.ends(2, &["leave out", other[0]]);
    }
    ahead(&desk, &["--resume", "--plies", "4"], "pass\n").ends(0, &[]);
}

#[test]
fn each_session_takes_the_next_game_and_several_games_are_named_answer_by_answer() {
    let desk = Desk::new();
    for number in 1..=2 {
        ahead(&desk, &[CLUB, "--count", "1"], "pass\npass\n").ends(0, &[]);
        let last = answers(&desk).pop().unwrap();
        assert_eq!(last["game"]["number"], number);
    }
    let desk = Desk::new();
    let options = [CLUB, "--game", "all", "--count", "6", "--seed", "4"];
    let first = ahead(&desk, &options, "pass\npass\npass\npass\n");
    first.ends(0, &[]);
    ahead(&desk, &["--resume"], &"pass\n".repeat(8)).ends(0, &[]);
    let mut games: Vec<u64> = answers(&desk)
        .iter()
        .map(|answer| answer["game"]["number"].as_u64().unwrap())
        .collect();
    games.dedup();
    assert_eq!(games.len(), 6, "a game for each round: {games:?}");
    assert!(desk.records()[0].get("game").is_none());
    let text = std::fs::read(CLUB).unwrap();
    let club: Vec<Line> = Collection::new(text.as_slice())
        .map(|passage| read(&passage.unwrap()).game.main_line())
        .collect();
    for answer in answers(&desk) {
        let number = usize::try_from(answer["game"]["number"].as_u64().unwrap()).unwrap();
        let game = &club[number - 1];
        let mut positions = (0..=game.len()).map(|plies| fen_of(game.position(plies)));
        let asked = answer["position"].as_str().unwrap();
        assert!(positions.any(|position| position == asked), "{answer}");
    }
}

#[test]
fn what_does_not_fit_is_told_with_what_to_do() {
    let desk = Desk::new();
    let short = desk.file("short.pgn", "1. e4 e5 2. Nf3 Nc6 *\n");
    let empty = desk.file("empty.pgn", "[Event \"None\"]\n\n*\n");
    let cases: &[(&[&str], i32, &[&str])] = &[
        (
            &[&short, "--plies", "9"],
            1,
            &[
                "game 1",
                "9 plies",
                "the longest line has 4",
                "--plies 4 or less",
            ],
        ),
        (
            &[&short, "--game", "all", "--plies", "9"],
            1,
            &["the longest line has 4"],
        ),
        (
            &[&short, "--sidelines"],
            1,
            &["game 1", "no sidelines", "leave out --sidelines"],
        ),
        (
            &[&short, "--sidelines", "--mate", "2"],
            1,
            &["sidelines", "leave out --sidelines"],
        ),
        (
            &[&short, "--sidelines", "--show", "none"],
            2,
            &["leave out --sidelines", "--show diagram"],
        ),
        (&[&empty], 1, &["game 1", "no moves"]),
        (
            &[&short, "--mate", "2"],
            1,
            &[
                "forced mate within 2 moves",
                "5 positions of 1 game",
                "depth of 2 moves",
            ],
        ),
        (&[&short, "--mate", "1", "--plies", "3"], 2, &["--plies"]),
        (&[&short, "--mate", "5"], 2, &["5"]),
        (&[&short, "--questions", "4"], 2, &["4"]),
        (
            &[&short, "--show", "board"],
            2,
            &["diagram", "list", "none"],
        ),
        (&["missing.pgn"], 1, &["no such file"]),
    ];
    for (options, code, words) in cases {
        ahead(&desk, options, "").ends(*code, words);
    }
}

#[test]
fn a_mate_is_led_to_its_end_and_not_asked_again() {
    let desk = Desk::new();
    // P. Morphy, New York Clipper, 28 June 1856: 1. Ra6.
    let text = "[SetUp \"1\"]\n[FEN \"kbK5/pp6/1P6/8/8/8/8/R7 w - - 0 1\"]\n\n1. Ra2 Ba2 *\n";
    let file = desk.file("two.pgn", text);
    let options = [&file, "--mate", "2", "--count", "1", "--plain"];
    let said = ahead(&desk, &options, "R1\nwhat\nRa6\nstop\n");
    said.ends(0, &[]);
    for words in [
        "White: king c8, rook a1, pawn b6.",
        "White to move: which move forces mate within 2 moves? Name one.",
        "Nothing was marked.",
        "Move 1, White: rook to a6.",
        "White to move: which move mates at once? Name one, or none.",
    ] {
        assert!(said.out.contains(words), "{words:?} is missing: {said:?}");
    }
    let resumed = ahead(&desk, &["--resume", "--plain"], "b7\n");
    resumed.ends(0, &[]);
    assert!(resumed.out.contains("checkmate"), "{resumed:?}");
    assert!(resumed.out.contains("Led to the mate: 1 of 1 position."));
    let answers = answers(&desk);
    assert_eq!(answers[0]["subject"]["in"], 2);
    assert_eq!(answers[0]["expected"]["moves"], serde_json::json!(["a1a6"]));
    assert_eq!(answers[1]["subject"], serde_json::json!({}));
    assert_eq!(answers[1]["moves"].as_array().unwrap().len(), 2);
    ahead(&desk, &options, "").ends(1, &["no mate is left", "have not found"]);
}

#[test]
fn a_move_that_could_be_two_is_asked_back_and_no_square_given_away() {
    let desk = Desk::new();
    let text = "[SetUp \"1\"]\n[FEN \"k7/8/1K6/8/8/8/8/3R3R w - - 0 1\"]\n\n1. Rd8# *\n";
    let file = desk.file("rooks.pgn", text);
    let said = ahead(&desk, &[&file, "--mate", "1"], "Re1\nRd8\n");
    said.ends(0, &[]);
    assert!(
        said.out.contains(
            "could be the move of more than one piece: say the square that it leaves too"
        ),
        "{said:?}"
    );
    assert!(said.out.contains("Led to the mate: 1 of 1 position."));
}

#[test]
fn a_mate_in_a_sideline_is_found_where_sidelines_are_asked_for() {
    let desk = Desk::new();
    let text = "1. e4 e5 2. Qh5 Nc6 3. Bc4 Qe7 (3... Nf6 4. Qxf7#) 4. Nf3 *\n";
    let file = desk.file("sideline.pgn", text);
    ahead(&desk, &[&file, "--mate", "1"], "").ends(1, &["no position has a forced mate"]);
    let said = ahead(&desk, &[&file, "--mate", "1", "--sidelines"], "Qxf7\n");
    said.ends(0, &[]);
    assert!(
        said.out.contains("Led to the mate: 1 of 1 position."),
        "{said:?}"
    );
}

#[test]
fn nothing_is_drawn_for_a_screen_reader() {
    let desk = Desk::new();
    let said = ahead(
        &desk,
        &[CLUB, "--count", "2", "--seed", "2", "--plain"],
        &"pass\n".repeat(4),
    );
    said.ends(0, &[]);
    for line in said.out.lines() {
        assert!(line.ends_with(['.', '?']), "{line}");
    }
}
