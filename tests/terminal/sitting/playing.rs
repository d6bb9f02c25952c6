//! A game against an opponent at a terminal: what stands in sight, and what is read before it goes.

use super::stage::in_sight;
use super::*;

const TURN: &str = "Your move 2, White.";

#[test]
fn a_move_wipes_what_was_before_and_the_end_is_read_before_its_screen_goes() {
    let desk = Desk::new();
    let play = ["play", "--side", "white", "--rating", "500", "--seed", "4"];
    let mut learner = Learner::sits(desk.program(&play));
    learner.sees("Your move 1, White.").sees(REPLY).types("e5");
    learner.sees("is not legal").sees(REPLY).types("e4");
    learner.sees(TURN).sees(REPLY);
    let screen = in_sight(&learner);
    for words in ["Move 1, White: pawn to e4.", "Move 1, Black: "] {
        assert!(screen.contains(words), "{screen}");
    }
    assert!(!screen.contains("not legal"), "{screen}");
    learner.types("look").sees(WIPE).types("").sees(TURN);
    assert!(!in_sight(&learner).contains("a  b  c  d"));
    learner
        .sees(REPLY)
        .types("resign")
        .sees("ou resign: you lose.")
        .sees(READ);
    learner.types("").sees("The final board:");
    learner.leaves();
    let other = desk.run(&["play", "--resume"], "");
    other.ends(1, &["there is no unfinished game to go on with"]);
}

#[test]
fn a_game_that_was_kept_is_heard_again_at_a_yes_and_anything_else_is_told() {
    let desk = Desk::new();
    let own = desk.file("own.pgn", "1. e4 e5 *\n");
    let play = ["play", "--side", "white", "--out", &own];
    for (reply, words) in [
        ("later", "It is left for another time"),
        ("yes", "will be read"),
    ] {
        let mut learner = Learner::sits(desk.program(&play));
        learner.sees("Your move 1, White.").sees(REPLY).types("e4");
        learner.sees(TURN).sees(REPLY).types("resign");
        learner
            .sees(READ)
            .types("")
            .sees("sansvoir replay")
            .sees("--game ");
        learner.sees("Enter begins").types(reply).sees(words);
        if reply == "yes" {
            learner.sees(GO_ON).control('d');
        }
        learner.leaves();
    }
}

#[test]
fn two_terminals_do_not_go_on_with_one_game() {
    let desk = Desk::new();
    let mut learner = Learner::sits(desk.program(&["play", "--side", "white"]));
    learner.sees("Your move 1, White.").sees(REPLY);
    let other = desk.run(&["play", "--resume"], "e4\n");
    assert_eq!(other.code, Some(1), "{other:?}");
    learner
        .types("e4")
        .sees(TURN)
        .sees(REPLY)
        .control('d')
        .leaves();
}

#[test]
fn a_list_of_games_says_how_one_of_them_is_heard() {
    let desk = Desk::new();
    let mut learner = Learner::sits(desk.program(&["games", CLUB]));
    learner
        .sees("Okwuosa")
        .sees(&format!("sansvoir replay {CLUB} reads the first to you"));
    learner.leaves();
}
