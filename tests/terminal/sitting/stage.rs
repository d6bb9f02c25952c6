//! What stands before the learner's eyes, and what is left of it.

use std::process::Command;

use super::*;
use crate::program::{CLUB, Desk};

const ENTER: &str = "\x1b[?1049h";
const LEAVE: &str = "\x1b[?1049l";
/// The lowest row of every board that is drawn with coordinates.
const FILES: &str = "    a  b  c  d  e  f  g  h";

/// What stands on the screen now.
pub(super) fn in_sight(learner: &Learner) -> String {
    let screen = learner.seen.rsplit(WIPED).next().unwrap();
    anstream::adapter::strip_str(screen).to_string()
}

#[test]
fn no_earlier_answer_is_in_sight_while_a_question_stands() {
    let desk = Desk::new();
    let drill = ["drill", "color", "--count", "9", "--seed", "5"];
    let mut learner = Learner::sits(desk.program(&drill));
    let mut asked = Vec::new();
    for number in 1..=9 {
        learner
            .sees(&format!("Question {number} of 9. Is "))
            .sees(REPLY);
        let screen = in_sight(&learner);
        assert_eq!(screen.matches("Question ").count(), 1, "{screen}");
        for answer in ["Passed.", " is light.", " is dark.", "parity", READ] {
            assert!(!screen.contains(answer), "{answer}: {screen}");
        }
        let square = screen.split("Is ").nth(1).unwrap()[..2].to_owned();
        // The verdict and why stay until Enter.
        learner.types("pass").sees("Passed.").sees(READ);
        assert!(in_sight(&learner).contains(&format!("{square} is ")));
        learner.types("");
        asked.push(square);
    }
    learner.sees("That was the last question.");
    learner.leaves();
    asked.sort_unstable();
    asked.dedup();
    assert!(asked.len() < 9, "squares that were missed came again");
}

#[test]
fn a_right_answer_needs_no_enter_and_leaves_nothing_but_that_it_was_right() {
    let desk = Desk::new();
    let mut learner = Learner::starts(&desk, &[]);
    learner.reads().types("d6").sees(PAWN).sees(REPLY);
    let screen = in_sight(&learner);
    assert!(screen.contains("Right, in "), "{screen}");
    assert!(!screen.contains("stands on"), "{screen}");
    learner.control('d').leaves();
}

#[test]
fn a_session_stands_on_the_alternate_screen_and_its_summary_on_the_normal_one() {
    let desk = Desk::new();
    let mut learner = Learner::starts(&desk, &[]);
    learner
        .reads()
        .types("look")
        .sees(WIPE)
        .types("")
        .sees(REPLY);
    learner.types("d6").sees(PAWN).sees(REPLY).control('d');
    let all = learner.leaves();
    let (before, rest) = all.split_once(ENTER).unwrap();
    let (during, after) = rest.split_once(LEAVE).unwrap();
    assert_eq!(before, "");
    assert!(during.contains(WHERE) && during.contains(FILES), "{during}");
    assert!(
        after.contains("Stopped.") && after.contains("Looks at the board: 1."),
        "{after}"
    );
    assert!(
        !after.contains("Move ") && !after.contains(ENTER),
        "{after}"
    );
}

#[test]
fn who_leaves_before_the_end_sees_no_board_and_who_comes_to_the_end_does() {
    for plain in [&[] as &[&str], &["--plain"]] {
        let desk = Desk::new();
        let board = |said: &str| said.contains("board at the end") || said.contains(FILES);
        // With a question open, and between two questions.
        for before in ["", "pass\npass\npass\n"] {
            let session = [&["replay", CLUB, "--seed", "208"], plain].concat();
            let said = desk.run(&session, before);
            assert!(
                said.out.contains("Stopped.") && !board(&said.out),
                "{said:?}"
            );
        }
        let said = desk.run(
            &[&["replay", "--resume"], plain].concat(),
            "pass\n".repeat(99),
        );
        assert!(
            said.out.contains("That is the end.") && board(&said.out),
            "{said:?}"
        );
    }
    let desk = Desk::new();
    for exercise in [
        &["drill", "few", "--seed", "3"] as &[&str],
        &["ahead", CLUB, "--seed", "3", "--show", "list"],
        &["recite", CLUB],
    ] {
        let said = desk.run(exercise, "pass\n");
        said.ends(0, &[]);
        assert!(said.out.contains("Stopped."), "{said:?}");
        assert!(!said.out.contains("The board at the end"), "{said:?}");
        assert!(!said.out.contains("The board of the last"), "{said:?}");
        assert!(!said.out.contains(FILES), "{said:?}");
    }
}

#[test]
fn what_was_read_out_is_wiped_before_the_question() {
    let desk = Desk::new();
    let few = [
        "drill", "few", "--plies", "0", "--seed", "3", "--count", "2",
    ];
    let mut learner = Learner::sits(desk.program(&few));
    learner
        .sees("Round 1")
        .sees("White: king ")
        .sees(WIPE)
        .types("");
    learner.sees("Question 1 of 2. ").sees(REPLY);
    assert!(!in_sight(&learner).contains("White: king "));
    learner.control('d').leaves();
}

#[test]
fn a_position_alone_is_wiped_before_it_is_asked_about_and_a_coachs_answer_stays_until_enter() {
    let desk = Desk::new();
    desk.file("own.fen", "8/8/8/4k3/8/4K3/4P3/8 w - - 0 1\n");
    let lesson = "[[part]]\nexercise = \"replay\"\nfiles = \"own.fen\"\n\
                  [[part.question]]\nask = \"occupant e2\"\n\
                  [[part.question]]\nsay = \"Who wins?\"\nanswer = \"Nobody\"\n";
    let lesson = desk.file("own.toml", lesson);
    let mut learner = Learner::sits(desk.program(&["lesson", &lesson]));
    learner.sees("Enter begins:").types("");
    learner
        .sees("White: king e3, pawn e2.")
        .sees(WIPE)
        .types("");
    learner.sees("What stands on e2?").sees(REPLY);
    let screen = in_sight(&learner);
    assert!(!screen.contains("e3"), "{screen}");
    learner.types("white pawn").sees("Who wins?").sees(REPLY);
    assert!(!in_sight(&learner).contains("Nobody"));
    learner.types("White").sees("Your coach's answer: Nobody.");
    learner.sees(READ).types("").leaves();
}

#[test]
fn nothing_leaves_a_low_screen_unread() {
    let desk = Desk::new();
    let program = env!("CARGO_BIN_EXE_sansvoir");
    let mut command = Command::new("sh");
    let session = format!("stty cols 90 rows 10; exec '{program}' replay {CLUB} --seed 208");
    command.args(["-c", &session]);
    desk.place(&mut command);
    let mut learner = Learner::sits(command);
    learner.reads().types("look");
    // Ten rows hold less than a board, who is to move and the prompt.
    learner
        .sees("Enter tells the rest: ")
        .types("")
        .sees("White to move.");
    learner.sees(WIPE).types("").sees(REPLY).control('d');
    learner.leaves();
}

#[test]
fn the_position_of_a_calculation_stays_while_its_questions_are_asked() {
    let desk = Desk::new();
    let ahead = ["ahead", CLUB, "--seed", "3", "--count", "2", "--plies", "1"];
    let mut learner = Learner::sits(desk.program(&ahead));
    learner
        .sees(FILES)
        .sees(GO_ON)
        .types("")
        .sees(GO_ON)
        .types("");
    learner.sees(REPLY);
    assert!(in_sight(&learner).contains(FILES));
    learner
        .types("pass")
        .sees("Passed.")
        .sees(READ)
        .types("")
        .sees(REPLY);
    learner.control('d');
    let all = learner.leaves();
    assert!(!all.split_once(LEAVE).unwrap().1.contains(FILES), "{all}");
}

/// Fails unless an empty board, and no other, is in sight.
fn sees_an_empty_board(learner: &Learner) {
    let screen = in_sight(learner);
    assert_eq!(screen.matches(FILES).count(), 1, "{screen}");
    for row in ["8     : :   : :   : :   : :", "1  : :   : :   : :   : :"] {
        assert!(
            screen.lines().any(|line| line.trim_end() == row),
            "{screen}"
        );
    }
}

#[test]
fn an_empty_board_stays_before_the_eyes_costs_no_look_and_is_kept_for_the_next_sitting() {
    let desk = Desk::new();
    let mut learner = Learner::starts(&desk, &["--board", "empty"]);
    learner.sees(GO_ON).types("").sees("Move 1, ").sees(GO_ON);
    sees_an_empty_board(&learner);
    for number in 2..=4 {
        learner
            .types("")
            .sees(&format!("Move {number}, "))
            .sees(GO_ON);
    }
    learner.types("").sees(WHERE).sees(REPLY);
    sees_an_empty_board(&learner);
    learner.types("d6").sees(PAWN).sees(REPLY);
    sees_an_empty_board(&learner);
    learner.control('d').leaves();
    let records = desk.records();
    assert_eq!(records[0]["plan"]["telling"]["board"], "empty");
    assert_eq!(records.last().unwrap()["looks"], 0);
    let mut learner = Learner::sits(desk.program(&["replay", "--resume"]));
    learner.sees(WIPE).types("").sees(PAWN).sees(REPLY);
    sees_an_empty_board(&learner);
    learner.control('d').leaves();
}

#[test]
fn a_position_that_was_seen_gives_way_to_an_empty_board() {
    let desk = Desk::new();
    let ahead = [
        "ahead", CLUB, "--seed", "3", "--plies", "1", "--board", "empty", "--ask", "attacks",
    ];
    let mut learner = Learner::sits(desk.program(&ahead));
    for _ in 0..2 {
        learner.sees("Round ").sees(FILES).sees(GO_ON);
        assert!(in_sight(&learner).contains('K'));
        learner.types("").sees("Move ").sees(GO_ON);
        sees_an_empty_board(&learner);
        learner.types("").sees(REPLY);
        sees_an_empty_board(&learner);
        learner.types("pass").sees(TRUTH).types("").sees(READ);
        learner.types("");
    }
    learner.sees(GO_ON).control('d').leaves();
}

#[test]
fn where_nothing_is_drawn_an_empty_board_is_left_out_and_that_is_said_once() {
    let desk = Desk::new();
    for plain in [&[] as &[&str], &["--plain"]] {
        let replay = ["replay", CLUB, "--seed", "208", "--board", "empty"];
        let said = desk.run(&[&replay, plain].concat(), "d6\n");
        said.ends(0, &[]);
        assert_eq!(said.out.matches("--board empty shows no board").count(), 1);
        assert!(!said.out.contains(FILES), "{said:?}");
    }
}

#[test]
fn each_part_of_a_lesson_begins_with_enter() {
    let desk = Desk::new();
    let lesson = desk.file(
        "lesson.toml",
        "notes = \"Take your time.\"\n\
         [[part]]\nexercise = \"drill\"\nkinds = [\"color\"]\ncount = 1\n\
         [[part]]\nexercise = \"drill\"\nkinds = [\"span\"]\ncount = 1\n",
    );
    let mut learner = Learner::sits(desk.program(&["lesson", &lesson]));
    learner
        .sees("Take your time.")
        .sees("Enter begins: ")
        .types("");
    learner.sees(ENTER).sees(REPLY).types("pass");
    learner.sees(READ).types("").sees(LEAVE);
    learner
        .sees("That was the last question.")
        .sees("Enter begins: ");
    learner
        .types("")
        .sees(ENTER)
        .sees("on the empty board?")
        .sees(REPLY);
    learner.control('d').sees(LEAVE).sees("Stopped.");
    learner.leaves();
}

#[test]
fn stop_is_heard_where_only_enter_is_waited_for() {
    for leave in ["stop", "Ctrl-D", "Ctrl-C"] {
        let desk = Desk::new();
        let mut learner = Learner::starts(&desk, &[]);
        learner.reads().types("a1").sees("Not right.").sees(TRUTH);
        learner.types("").sees(READ);
        learner.types("what?").sees("Press Enter first").sees(READ);
        match leave {
            "Ctrl-D" => learner.control('d'),
            "Ctrl-C" => {
                learner.control('c').sees("Ctrl-C once more stops.");
                learner.sees(READ).control('c')
            }
            word => learner.types(word),
        };
        learner.sees(LEAVE).sees("Stopped.");
        assert!(!learner.leaves().contains(PAWN));
        assert_eq!(desk.records().last().unwrap()["type"], "end");
    }
}

#[test]
fn what_is_said_of_enter_after_an_interrupt_holds() {
    let desk = Desk::new();
    let mut learner = Learner::starts(&desk, &[]);
    learner.sees(GO_ON).control('c');
    learner.sees("Enter alone goes on.");
    learner
        .reads()
        .control('c')
        .sees("the question still stands.");
    learner.sees(REPLY).control('d');
    let all = learner.leaves();
    assert_eq!(all.matches("Enter alone goes on").count(), 1, "{all}");
}

/// The program in a shell that tells its process, the terminal's state before and after, and its exit
/// code.
fn watched(desk: &Desk, options: &str) -> Command {
    let program = env!("CARGO_BIN_EXE_sansvoir");
    let mut command = Command::new("sh");
    command.args([
        "-c",
        &format!(
            "echo \"before=$(stty -g).\"; sh -c 'echo process=$$.; exec \"{program}\" replay {CLUB} \
             --seed 208 {options}'; echo \"code=$?.\"; echo \"after=$(stty -g).\""
        ),
    ]);
    desk.place(&mut command);
    command
}

fn told(seen: &str, what: &str) -> String {
    let (_, rest) = seen.split_once(&format!("{what}=")).unwrap();
    rest.split_once('.').unwrap().0.to_owned()
}

#[test]
fn a_signal_to_end_is_stop_and_leaves_the_terminal_as_it_was() {
    for signal in ["TERM", "HUP"] {
        for (options, awaited) in [
            ("", REPLY),
            ("--plain", REPLY),
            ("", GO_ON),
            ("", "The board stays hidden."),
            ("--plain", "The board stays hidden."),
        ] {
            let desk = Desk::new();
            if awaited.starts_with("The board") {
                desk.wishes("pace = 900\n");
            }
            let mut learner = Learner::sits(watched(&desk, options));
            if awaited == REPLY {
                learner.reads();
            } else {
                learner.sees(awaited);
            }
            let process = told(&learner.seen, "process");
            let killed = Command::new("kill").args(["-s", signal, &process]).status();
            assert!(killed.unwrap().success());
            learner
                .sees("Stopped. Everything")
                .sees("code=0.")
                .sees("after=");
            let all = learner.leaves();
            let case = format!("{signal} {options}: {all:?}");
            assert_eq!(told(&all, "before"), told(&all, "after"), "{case}");
            assert_eq!(
                all.matches(ENTER).count(),
                all.matches(LEAVE).count(),
                "{case}"
            );
            let end = desk.records().pop().unwrap();
            assert_eq!(
                (&end["type"], &end["finished"]),
                (&"end".into(), &false.into()),
                "{case}"
            );
        }
    }
}

#[test]
fn a_pipe_that_is_told_to_end_stops() {
    let desk = Desk::new();
    desk.wishes("pace = 900\n");
    let mut child = desk
        .program(&["replay", CLUB, "--seed", "208"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut out = std::io::BufReader::new(child.stdout.take().unwrap());
    let mut seen = String::new();
    while !seen.contains("The board stays hidden") {
        std::io::BufRead::read_line(&mut out, &mut seen).unwrap();
    }
    let killed = Command::new("kill").arg(child.id().to_string()).status();
    assert!(killed.unwrap().success());
    out.read_to_string(&mut seen).unwrap();
    assert_eq!(child.wait().unwrap().code(), Some(0));
    assert!(
        seen.contains("Stopped.") && !seen.contains('\x1b'),
        "{seen}"
    );
    assert_eq!(desk.records().pop().unwrap()["type"], "end");
}

#[test]
fn a_terminal_whose_window_is_closed_ends_the_session_as_stop_does() {
    for options in ["", "--plain"] {
        let desk = Desk::new();
        let mut learner = Learner::sits(watched(&desk, options));
        learner.reads();
        // Nobody holds the other end of the terminal any more.
        drop(learner);
        let is_over = || desk.records().pop().unwrap()["type"] == "end";
        let waited = (0..3000).any(|_| {
            thread::sleep(Duration::from_millis(20));
            is_over()
        });
        assert!(waited, "{options}: {:?}", desk.records());
    }
}
