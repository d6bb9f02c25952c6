//! `sansvoir` and Enter: the first five minutes, and every later start.

use super::stage::in_sight;
use super::*;
use crate::program::Desk;

const BEGIN: &str = "Enter begins: ";
const CHOOSE: &str = "Your choice: ";
const ASKED: &str = "mates now. Which move?";

/// Reads a miniature of so many moves up to its question.
fn reads(learner: &mut Learner, moves: usize) -> &mut Learner {
    for number in 1..=moves {
        let read = format!("Move {number}, ");
        learner.sees(GO_ON).types("").sees(&read);
    }
    if learner.seen.contains(WIPED) {
        learner.sees(GO_ON).types("");
    }
    learner.sees(ASKED).sees(REPLY)
}

fn starts(desk: &Desk, options: &[&str]) -> Learner {
    Learner::sits(desk.program(options))
}

#[test]
fn a_first_start_ends_with_a_move_of_ones_own_and_the_next_thing_begins_with_a_key() {
    let desk = Desk::new();
    let mut learner = starts(&desk, &[]);
    learner.sees("Try it").sees(BEGIN).types("");
    learner.sees("White: Brindlecombe, Odette.");
    reads(&mut learner, 6);
    assert!(!in_sight(&learner).contains("Move "), "{}", learner.seen);
    learner.types("Nd5").sees("Right").sees(GO_ON).types("");
    learner.sees("knight to d5, checkmate.").sees(READ);
    learner
        .types("")
        .sees("The board at the end")
        .sees("a  b  c  d");
    learner.sees("found the mate, all without a board");
    learner.sees("first lesson").sees(CHOOSE);
    learner.types("what").sees("first lesson").sees(CHOOSE);
    learner.types("g").sees("my-games.pgn").sees(CHOOSE);
    // The next one.
    learner.types("m").sees("White: Karadenli, Yusuf.");
    reads(&mut learner, 5)
        .types("Nf6")
        .sees("Right")
        .sees(GO_ON)
        .types("")
        .sees(READ)
        .types("")
        .sees(CHOOSE);
    learner.types("stop").leaves();
    let records = desk.records();
    let games: Vec<&Value> = records
        .iter()
        .map(|record| &record["game"]["number"])
        .collect();
    let games: Vec<&Value> = games
        .into_iter()
        .filter(|number| !number.is_null())
        .collect();
    assert_eq!(games, [1, 1, 2, 2]);
    // What came first does not come again, and its successor is there at a key.
    let mut learner = starts(&desk, &[]);
    learner.sees("first lesson").sees(CHOOSE).types("m");
    learner.sees("White: Quadrosa, Ines.").sees(GO_ON);
    learner.control('d').leaves();
    // What was stopped last goes on with Enter.
    let mut learner = starts(&desk, &[]);
    learner.sees("where you stopped").sees(CHOOSE).types("");
    learner
        .sees("The session goes on")
        .sees("White: Quadrosa, Ines.");
    reads(&mut learner, 6).types("Bg6").sees("Right");
    learner.sees(GO_ON).types("").sees(READ).types("");
    learner
        .sees("found the mate")
        .sees(CHOOSE)
        .control('d')
        .leaves();
    let mut learner = starts(&desk, &[]);
    learner
        .sees("first lesson")
        .sees(CHOOSE)
        .types("")
        .sees(BEGIN)
        .types("");
    learner.sees(REPLY).types("stop").leaves();
    let mut learner = starts(&desk, &[]);
    learner
        .sees("goes on with the lesson")
        .sees(CHOOSE)
        .types("l");
    learner.sees(BEGIN).control('d').leaves();
}

#[test]
fn who_does_not_find_the_mate_is_told_so_kindly_and_goes_on() {
    for plain in [&[] as &[&str], &["--plain"]] {
        let desk = Desk::new();
        let mut learner = starts(&desk, plain);
        learner.sees("Try it");
        if plain.is_empty() {
            learner.sees(BEGIN).types("");
        }
        reads(&mut learner, 6).types("pass").sees("Passed.");
        learner.sees(TRUTH).types("").sees(GO_ON).types("");
        if plain.is_empty() {
            learner.sees(READ).types("");
        }
        learner.sees("comes with practice").sees(CHOOSE);
        let seen = learner.control('d').leaves();
        assert!(plain.is_empty() || !seen.contains('\x1b'), "{seen:?}");
    }
}

#[test]
fn a_first_start_is_left_well_wherever_it_stands() {
    for leave in ["stop", "Ctrl-D", "Ctrl-C"] {
        for read in [false, true] {
            let desk = Desk::new();
            let mut learner = starts(&desk, &[]);
            learner
                .sees(BEGIN)
                .types("")
                .sees("White: Brindlecombe, Odette.");
            if read {
                reads(&mut learner, 6);
            } else {
                learner.sees(GO_ON);
            }
            let prompt = if read { REPLY } else { GO_ON };
            match leave {
                "Ctrl-D" => learner.control('d'),
                "Ctrl-C" => learner
                    .control('c')
                    .sees("once more stops")
                    .sees(prompt)
                    .control('c'),
                word => learner.types(word),
            };
            learner.sees("Stopped.");
            let seen = learner.leaves();
            assert!(!seen.contains(CHOOSE), "{leave}: {seen}");
        }
    }
    let desk = Desk::new();
    desk.run(&["drill", "color", "--count", "1"], "pass\n")
        .ends(0, &[]);
    let mut learner = starts(&desk, &[]);
    learner
        .sees(CHOOSE)
        .control('c')
        .sees("once more ends")
        .sees(CHOOSE);
    learner.control('c').leaves();
}

#[test]
fn through_a_pipe_the_screenful_stays() {
    let desk = Desk::new();
    let said = desk.run(&[], "\n");
    said.ends(0, &[]);
    assert!(
        said.out.contains("Begin with a game that comes along; "),
        "{said:?}"
    );
    assert!(desk.records().is_empty());
}

#[test]
fn a_file_of_miniatures_of_ones_own_may_hold_games_without_a_last_move_to_find() {
    let desk = Desk::new();
    std::fs::create_dir(desk.path("games-demo")).unwrap();
    let short = "[White \"Quadrosa, Ines\"]\n\n1. e4 *\n\n";
    desk.file("games-demo/miniatures.pgn", short);
    let begin = || {
        let mut program = desk.program(&[]);
        program.current_dir(desk.path(""));
        Learner::sits(program)
    };
    begin().sees("there is no ply to read ahead");
    let mate = "1. f3 e5 2. g4 Qh4# 0-1\n";
    desk.file(
        "games-demo/miniatures.pgn",
        format!("{short}[White \"Karadenli, Yusuf\"]\n\n{mate}"),
    );
    let mut learner = begin();
    learner.sees(BEGIN).types("");
    learner.sees("White: Karadenli, Yusuf.").sees(GO_ON);
}

#[test]
fn the_lesson_behind_the_placement_begins_with_enter_where_all_is_plain_too() {
    for (typed, begins) in [("stop", false), ("", true)] {
        let desk = Desk::new();
        let lesson = ["lesson", "--minutes", "1", "--plain"];
        let mut learner = Learner::sits(desk.program(&lesson));
        for _ in 0..4 {
            learner.sees(REPLY).types("pass");
        }
        learner.sees("The lesson is over").sees(BEGIN).types(typed);
        if begins {
            learner.sees("A lesson of").sees(REPLY).control('d');
        }
        learner.leaves();
    }
}
