//! The way back from a miss, on a terminal.

use super::stage::in_sight;
use super::*;

/// Reads one ply more on the way back, and to the question behind it where one comes.
fn follows(learner: &mut Learner, ply: &str) {
    learner.sees(GO_ON).types("").sees(ply);
}

const KNIGHT: &str = "White's knight from g1: where does it stand now?";
const NEXT: &str = "Question 2 of 3. White to move: is the move a2 to a4 legal now?";

/// A learner who has read five moves and misses where a piece stands that has moved three times.
fn misses(desk: &Desk) -> Learner {
    let replay = ["replay", CLUB, "--every", "10", "--seed", "4"];
    let mut learner = Learner::sits(desk.program(&replay));
    for number in 1..=5 {
        learner
            .sees(GO_ON)
            .types("")
            .sees(&format!("Move {number}, "));
    }
    learner.sees(GO_ON).types("").sees(KNIGHT).sees(REPLY);
    learner.types("h5").sees("Not right.");
    learner
}

#[test]
fn the_way_back_names_the_ply_at_which_the_picture_broke_and_goes_on_where_it_was() {
    let desk = Desk::new();
    let mut learner = misses(&desk);
    learner.sees("back goes with you").sees(TRUTH);
    assert!(!in_sight(&learner).contains("stands on"), "the truth waits");
    learner.types("back").sees("Back to the start: 10 plies");
    follows(&mut learner, "Move 1, White: pawn to e4.");
    follows(&mut learner, "Move 1, Black: pawn to e5.");
    follows(&mut learner, "Move 2, White: knight to f3.");
    learner.sees(GO_ON).types("").sees(KNIGHT).sees(REPLY);
    let screen = in_sight(&learner);
    assert!(
        !screen.contains("knight to f3"),
        "no move is in sight: {screen}"
    );
    learner.types("f3").sees("Right, in ");
    follows(&mut learner, "Move 2, Black: knight to f6.");
    follows(&mut learner, "Move 3, White: knight takes on e5.");
    learner.sees(GO_ON).types("");
    learner.sees(KNIGHT);
    // A look on the way is help like all the rest.
    learner.sees(REPLY).types("look").sees(WIPE).types("");
    learner.sees(REPLY).types("f3").sees("Not right.");
    learner.sees("You lost it at White's move 3: White's knight went from f3 to e5.");
    learner.sees("The piece stands on f3.").sees(READ).types("");
    learner.sees(NEXT).sees(REPLY);
    let screen = in_sight(&learner);
    assert!(!screen.contains("You lost it"), "{screen}");
    learner.types("legal").sees("Question 3 of 3.").sees(REPLY);
    learner.control('d').sees("Stopped.");
    learner.leaves();
    let helped: Vec<_> = (desk.records().into_iter())
        .filter(|record| record["type"] == "answer")
        .map(|record| {
            [
                &record["dialogue"],
                &record["helped"],
                &record["verdict"],
                &record["looks"],
            ]
            .map(Clone::clone)
        })
        .collect();
    let of = |dialogue: Value, helped: Value, verdict: &str| {
        [dialogue, helped, verdict.into(), 0.into()]
    };
    assert_eq!(
        helped,
        [
            of(Value::Null, Value::Null, "wrong"),
            of("back".into(), true.into(), "right"),
            of("back".into(), true.into(), "wrong"),
            of(Value::Null, Value::Null, "right"),
        ]
    );
}

#[test]
fn a_way_back_that_was_left_is_gone_when_the_session_goes_on() {
    let desk = Desk::new();
    let mut learner = misses(&desk);
    learner.sees(TRUTH).types("back");
    for ply in ["pawn to e4", "pawn to e5", "knight to f3"] {
        follows(&mut learner, ply);
    }
    learner.sees(GO_ON).types("").sees(KNIGHT).sees(REPLY);
    learner.types("f3").sees("Right, in ").sees(GO_ON);
    learner
        .control('c')
        .sees("Ctrl-C once more stops.")
        .sees(GO_ON);
    learner.control('c').sees("Stopped.");
    learner.leaves();
    let mut learner = Learner::sits(desk.program(&["replay", "--resume"]));
    learner.sees("Move 5, ").sees(WIPE).types("").sees(NEXT);
    learner
        .sees(REPLY)
        .types("legal")
        .sees("Question 3 of 3.")
        .sees(REPLY);
    learner.control('d').sees("Stopped.");
    assert!(!learner.leaves().contains(KNIGHT));
}

#[test]
fn a_whole_board_is_found_piece_by_piece() {
    for plain in [&[] as &[&str], &["--plain"]] {
        let desk = Desk::new();
        let game = desk.file("short.pgn", "1. e4 e5 2. Nf3 Nc6 *");
        let replay = ["replay", &game, "--ask", "rebuild", "--every", "4"];
        let mut learner = Learner::sits(desk.program(&[&replay, plain].concat()));
        for number in 1..=2 {
            learner
                .sees(GO_ON)
                .types("")
                .sees(&format!("Move {number}, "));
        }
        if plain.is_empty() {
            learner.sees(GO_ON).types("");
        }
        learner.sees("Where does every piece stand?").sees(REPLY);
        let pawns =
            "a2 b2 c2 d2 e4 f2 g2 h2 / Ke8 Qd8 Ra8 Rh8 Bc8 Bf8 Nc6 Ng8 a7 b7 c7 d7 e5 f7 g7 h7";
        learner.types(&format!("Ke1 Qd1 Ra1 Rh1 Bc1 Bf1 Nb1 Nf33 {pawns}"));
        learner
            .sees("\"Nf33\" is neither")
            .sees("The rest is kept")
            .sees(REPLY);
        learner
            .types("Nf4")
            .sees("31 of 32 pieces right, one misplaced.");
        learner
            .sees("back lets you find the rest")
            .sees(TRUTH)
            .types("back");
        learner.sees("31 pieces are right and stay.");
        learner.sees("Not there: White's knight on f4.");
        learner.sees("White's knights: where do they stand? You have b1. One is missing.");
        learner
            .sees(REPLY)
            .types("f3")
            .sees("Now every piece is found.");
        if plain.is_empty() {
            learner.sees(READ).types("");
        }
        learner.sees("That is the end.");
        learner.leaves();
    }
}
