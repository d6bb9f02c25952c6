//! Whole sessions of `sansvoir replay`: in a pseudo-terminal, through pipes, and killed.

mod alone;
mod back;
mod held;
mod playing;
mod resumed;
mod stage;
mod width;

use std::collections::HashMap;
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::{Command, Stdio};
use std::thread;
use std::time::Duration;

use crate::program::{CLUB, Desk, Said};
use crate::screen::Terminal;
use sansvoir::exercise::Dice;
use serde_json::Value;

const WIPED: &str = "\x1b[H\x1b[2J";
const GO_ON: &str = "Enter reads on: ";
const REPLY: &str = "Your reply: ";
const READ: &str = "Enter goes on: ";
const TRUTH: &str = "Enter tells why: ";
const WIPE: &str = "Enter wipes this: ";
const WHERE: &str = "Question 1 of 3. Black's pawn from d7: where does it stand now?";
const PAWN: &str = "Question 2 of 3. White to move: is the move d2 to d4 legal now?";

/// A learner at a terminal, and all that was written there so far.
struct Learner {
    terminal: Terminal,
    seen: String,
}

impl Learner {
    fn sits(command: Command) -> Learner {
        Learner {
            terminal: Terminal::start(command),
            seen: String::new(),
        }
    }

    /// Starts the README's session, whose questions are known.
    fn starts(desk: &Desk, options: &[&str]) -> Learner {
        Learner::sits(desk.program(&[&["replay", CLUB, "--seed", "208"], options].concat()))
    }

    fn sees(&mut self, words: &str) -> &mut Learner {
        self.seen += &self.terminal.sees(words);
        self
    }

    fn types(&mut self, line: &str) -> &mut Learner {
        self.terminal.types_line(line);
        self
    }

    fn control(&mut self, key: char) -> &mut Learner {
        self.terminal.control(key);
        self
    }

    /// Reads on to the first question.
    fn reads(&mut self) -> &mut Learner {
        for number in 1..=4 {
            self.sees(GO_ON).types("").sees(&format!("Move {number}, "));
        }
        // Where the screen is wiped, no move stands there while a question does.
        if self.seen.contains(WIPED) {
            self.sees(GO_ON).types("");
        }
        self.sees(WHERE).sees(REPLY)
    }

    /// Waits for the end, which is a good one, and returns all that was seen.
    fn leaves(&mut self) -> String {
        self.seen += &self.terminal.ends();
        let ended = self.terminal.child.wait().unwrap();
        assert!(ended.success(), "{ended:?} {:?}", self.seen);
        std::mem::take(&mut self.seen)
    }
}

/// What was asked, in the order of the answers.
fn asked(desk: &Desk) -> Vec<[Value; 4]> {
    let keys = ["kind", "subject", "position", "expected"];
    let mut records = desk.records();
    records.retain(|record| record["type"] == "answer");
    records
        .iter()
        .map(|record| keys.map(|key| record[key].clone()))
        .collect()
}

#[test]
fn a_learner_hears_answers_asks_stops_and_goes_on() {
    let desk = Desk::new();
    let mut learner = Learner::starts(&desk, &[]);
    learner.reads();
    learner
        .types("hm")
        .sees("\"hm\" is no square. Nothing was marked.")
        .sees("For example: ")
        .sees(REPLY);
    learner
        .types("look")
        .sees("1  :R: N :B: Q :K: B : :")
        .sees("Enter wipes this: ")
        .types("")
        .sees(WIPED)
        .sees(WHERE)
        .sees(REPLY);
    learner
        .types("again")
        .sees("Move 4, White: knight to f3. Black: knight takes on e4.")
        .sees(WIPE)
        .types("")
        .sees(WHERE)
        .sees(REPLY);
    learner.types("question").sees(WHERE).sees(REPLY);
    learner
        .types("help")
        .sees("Reply with one square")
        .sees("stop: ")
        .sees(REPLY);
    learner
        .types("")
        .sees("A question stands; type pass to give it up.")
        .sees(REPLY);
    learner
        .types("d6")
        .sees("Right, in ")
        .sees(PAWN)
        .sees(REPLY);
    learner
        .types("no")
        .sees("Not right.")
        .sees(TRUTH)
        .types("")
        .sees("The move is legal.")
        .sees(READ)
        .types("")
        .sees("Question 3 of 3. Which squares does the piece on d1 attack?")
        .sees(REPLY);
    learner
        .types("pass")
        .sees("Passed.")
        .sees(TRUTH)
        .types("")
        .sees("queen stands on d1")
        .sees(GO_ON);
    learner
        .types("what?")
        .sees("\"what?\"")
        .sees(GO_ON)
        .types("")
        .sees("Move 5, White: knight to c3. Black: knight takes on c3.")
        .sees(GO_ON);
    learner
        .types("stop")
        .sees("Stopped. Everything that you answered is kept.")
        .sees("Looks at the board: 1.");
    learner.leaves();
    let verdicts: Vec<_> = desk.records()[1..4]
        .iter()
        .map(|record| (record["verdict"].clone(), record["looks"].clone()))
        .collect();
    assert_eq!(
        verdicts,
        [("right", 1), ("wrong", 0), ("pass", 0)]
            .map(|(verdict, looks)| (verdict.into(), looks.into()))
    );

    let mut learner = Learner::starts(&desk, &["--resume"]);
    learner
        .sees("The session goes on where it stopped.")
        .sees("Move 5, White: knight to c3. Black: knight takes on c3.")
        .sees(GO_ON)
        .types("")
        .sees("Move 6, ")
        .sees(GO_ON)
        .control('d')
        .sees("Stopped.");
    learner.leaves();
}

#[test]
fn the_question_that_stood_is_asked_again_in_another_process() {
    let desk = Desk::new();
    let mut learner = Learner::starts(&desk, &[]);
    learner.reads();
    learner.types("d6").sees(PAWN).sees(REPLY).control('d');
    learner.sees("Stopped.");
    learner.leaves();
    let mut learner = Learner::sits(desk.program(&["replay", "--resume"]));
    learner
        .sees("The session goes on where it stopped.")
        .sees("Move 4, White: knight to f3.")
        .sees(WIPE)
        .types("")
        .sees(PAWN)
        .sees(REPLY)
        .types("legal")
        .sees("Right, in ")
        .sees("Question 3 of 3.")
        .sees(REPLY)
        .types("stop")
        .sees("Stopped.");
    let all = learner.leaves();
    assert!(!all.contains(WHERE), "what was answered is not asked again");
}

#[test]
fn one_interrupt_warns_and_two_in_a_row_stop() {
    for plain in [&[] as &[&str], &["--plain"]] {
        let desk = Desk::new();
        let mut learner = Learner::starts(&desk, plain);
        learner
            .sees(GO_ON)
            .control('c')
            .sees("Ctrl-C once more stops.")
            .sees(GO_ON)
            .types("")
            .sees("Move 1, ")
            .sees(GO_ON)
            .control('c')
            .sees("Ctrl-C once more stops.")
            .sees(GO_ON)
            .control('c')
            .sees("Stopped. Everything that you answered is kept.");
        learner.leaves();
        assert_eq!(desk.records().last().unwrap()["finished"], false);
    }
}

#[test]
fn a_pace_reads_on_by_itself() {
    for plain in [&[] as &[&str], &["--plain"]] {
        let desk = Desk::new();
        desk.wishes("pace = 0.1\n");
        let mut learner = Learner::starts(&desk, plain);
        learner
            .sees("Move 1, ")
            .sees("Move 4, ")
            .sees(WHERE)
            .sees(REPLY);
        learner.control('d').sees("Stopped.");
        assert!(!learner.leaves().contains(GO_ON));
    }
}

#[test]
fn moves_older_than_the_trail_are_wiped_and_none_stands_there_with_a_question() {
    let desk = Desk::new();
    let mut learner = Learner::starts(&desk, &[]);
    for number in 1..=4 {
        learner
            .sees(GO_ON)
            .types("")
            .sees(&format!("Move {number}, "));
    }
    learner.sees(GO_ON);
    let screen = learner.seen.rsplit(WIPED).next().unwrap();
    assert!(
        screen.contains("Move 4, ") && !screen.contains("Move 3, "),
        "{screen}"
    );
    learner.types("").sees(WHERE).sees(REPLY);
    let screen = learner.seen.rsplit(WIPED).next().unwrap();
    assert!(!screen.contains("Move "), "{screen}");
    // They can be heard again, and are wiped again.
    learner.types("again").sees("Move 4, ").sees(WIPE).types("");
    learner.sees(WHERE).sees(REPLY);
    let screen = learner.seen.rsplit(WIPED).next().unwrap();
    assert!(!screen.contains("Move "), "{screen}");
    learner.control('d').leaves();
}

#[test]
fn plain_and_dumb_terminals_never_see_an_escape() {
    for (options, term) in [(&["--plain"] as &[&str], "xterm"), (&[], "dumb")] {
        let desk = Desk::new();
        let arguments = [&["replay", CLUB, "--seed", "208"], options].concat();
        let mut command = desk.program(&arguments);
        command.env("TERM", term);
        let mut learner = Learner::sits(command);
        learner.reads().types("look").sees("White").sees(REPLY);
        learner.types("d6").sees("Right, in ").sees(REPLY);
        learner
            .types("\x1b[31m")
            .sees("is neither legal nor illegal")
            .sees(REPLY);
        learner.types("stop").sees("Stopped.");
        let all = learner.leaves();
        assert!(!all.contains('\x1b'), "{all:?}");
        assert!(!all.contains("Enter wipes this"));
    }
}

#[test]
fn a_terminal_without_color_is_wiped_all_the_same() {
    let desk = Desk::new();
    let mut command = desk.program(&["replay", CLUB, "--seed", "208"]);
    command.env("NO_COLOR", "1");
    let mut learner = Learner::sits(command);
    learner.reads().control('d').sees("Stopped.");
    let all = learner.leaves();
    assert!(all.contains(WIPED), "{all:?}");
    // The question is bold and verdicts are colored where color is wanted.
    assert!(
        !all.contains("\x1b[1m") && !all.contains("\x1b[36m"),
        "{all:?}"
    );
}

#[test]
fn a_pipe_gets_no_prompt_and_its_end_is_stop() {
    let desk = Desk::new();
    let arguments = ["replay", CLUB, "--seed", "208"];
    let said = desk.run(&arguments, "d6\nlook\n");
    said.ends(0, &[]);
    assert_eq!(said.err, "");
    assert!(said.out.contains("Right, in "), "{said:?}");
    assert!(said.out.contains("Stopped. Everything"), "{said:?}");
    for prompt in [GO_ON, REPLY, "Enter wipes", "\x1b"] {
        assert!(!said.out.contains(prompt), "{prompt:?} in {said:?}");
    }
    let styled = |color, no_color: bool| {
        let mut command = desk.program(&[&arguments as &[&str], &["--color", color]].concat());
        if no_color {
            command.env("NO_COLOR", "1");
        }
        Said::of(command, b"d6\n").out.contains("\x1b[1m")
    };
    assert!(
        styled("always", false),
        "what is asked for comes through a pipe"
    );
    assert!(
        styled("always", true),
        "the option stands above the environment"
    );
    assert!(!styled("never", false) && !styled("auto", false));
}

#[test]
fn a_reader_of_the_output_that_leaves_ends_the_program_quietly() {
    let desk = Desk::new();
    for arguments in [
        &["games", CLUB] as &[&str],
        &["games", CLUB, "--format", "json"],
        &["replay", CLUB],
        &["--help"],
    ] {
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        let output = desk
            .program(arguments)
            .stdin(Stdio::null())
            .stdout(writer)
            .stderr(Stdio::piped())
            .output()
            .unwrap();
        assert_eq!(String::from_utf8_lossy(&output.stderr), "", "{arguments:?}");
        assert_eq!(output.status.code(), Some(0), "{arguments:?}");
    }
    // The reader leaves in the midst of a session, as `head` does.
    let mut child = desk
        .program(&["replay", CLUB, "--seed", "208"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
    assert!(lines.any(|line| line.unwrap().contains(WHERE)));
    drop(lines);
    let before = desk.records().len();
    let mut stdin = child.stdin.take().unwrap();
    stdin.write_all(b"d6\nyes\n").unwrap();
    let output = child.wait_with_output().unwrap();
    assert_eq!(String::from_utf8_lossy(&output.stderr), "");
    assert_eq!(output.status.code(), Some(0));
    assert_eq!(
        desk.records().len(),
        before + 1,
        "the answer was kept first"
    );
}

#[test]
fn a_session_killed_at_any_moment_goes_on_with_the_same_questions() {
    const KILLS: usize = 24;
    let course = [
        "replay",
        CLUB,
        "--every",
        "2",
        "--questions",
        "6",
        "--ask",
        "all",
    ];
    let mut kills = 0;
    for seed in 1.. {
        if kills >= KILLS {
            break;
        }
        let seed_text = seed.to_string();
        let begin = [&course as &[&str], &["--seed", &seed_text]].concat();
        let undisturbed = Desk::new();
        undisturbed.run(&begin, "pass\n".repeat(400)).ends(0, &[]);

        let desk = Desk::new();
        let mut chance = Dice::new(seed, 0);
        let mut arguments = begin.clone();
        while kills < KILLS {
            let before = asked(&desk).len();
            if before + 12 > asked(&undisturbed).len() {
                break;
            }
            let fed = 1 + chance.below(8);
            let heard = chance.below(fed + 1);
            let mut child = desk
                .program(&arguments)
                .stdin(Stdio::piped())
                .stdout(Stdio::piped())
                .spawn()
                .unwrap();
            let mut stdin = child.stdin.take().unwrap();
            stdin.write_all("pass\n".repeat(fed).as_bytes()).unwrap();
            let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
            assert!(lines.any(|line| line.unwrap().starts_with("Question")));
            let verdicts = lines.filter(|line| line.as_ref().unwrap() == "Passed.");
            assert_eq!(verdicts.take(heard).count(), heard);
            thread::sleep(Duration::from_micros(chance.below(3000) as u64));
            child.kill().unwrap();
            child.wait().unwrap();
            kills += 1;
            let kept = asked(&desk).len();
            assert!(
                (before + heard..=before + fed).contains(&kept),
                "{heard} of {fed} verdicts were shown, {} kept",
                kept - before
            );
            arguments = [&course as &[&str], &["--resume"]].concat();
        }
        let said = desk.run(&arguments, "pass\n".repeat(400));
        said.ends(0, &[]);
        assert!(said.out.contains("That is the end."), "{said:?}");
        assert_eq!(asked(&desk), asked(&undisturbed));
    }
}

#[test]
fn two_sessions_at_once_lose_nothing_in_one_journal() {
    let desk = Desk::new();
    let alone = Desk::new();
    let course = [
        "replay", CLUB, "--game", "1", "--every", "4", "--ask", "all", "--seed",
    ];
    let arguments = |seed| [&course as &[&str], &[seed]].concat();
    thread::scope(|scope| {
        for seed in ["1", "2"] {
            let desk = &desk;
            scope.spawn(move || {
                desk.run(&arguments(seed), "pass\n".repeat(100))
                    .ends(0, &[]);
            });
        }
    });
    let mut sessions: HashMap<String, usize> = HashMap::new();
    let records = desk.records();
    for record in &records {
        let session = record["session"].as_str().unwrap().to_owned();
        *sessions.entry(session).or_default() += 1;
    }
    assert_eq!(sessions.len(), 2);
    let ends = records.iter().filter(|record| record["finished"] == true);
    assert_eq!(ends.count(), 2);
    alone
        .run(&arguments("1"), "pass\n".repeat(100))
        .ends(0, &[]);
    alone
        .run(&arguments("2"), "pass\n".repeat(100))
        .ends(0, &[]);
    assert_eq!(records.len(), alone.records().len());
}

/// A replay of a game that comes through standard input.
fn with_piped_game(desk: &Desk, before: &str) -> Command {
    with_piped_games(desk, &format!("{before} "), "replay - --seed 208")
}

/// The program with games that come through standard input.
fn with_piped_games(desk: &Desk, before: &str, words: &str) -> Command {
    let program = env!("CARGO_BIN_EXE_sansvoir");
    let mut command = Command::new("sh");
    command.args(["-c", &format!("{before}'{program}' {words} < {CLUB}")]);
    desk.place(&mut command);
    command
}

#[test]
fn a_game_from_standard_input_is_answered_at_the_terminal() {
    let desk = Desk::new();
    let mut learner = Learner::sits(with_piped_game(&desk, "exec"));
    learner
        .reads()
        .types("d6")
        .sees("Right, in ")
        .sees(PAWN)
        .sees(REPLY);
    learner
        .control('c')
        .sees("Ctrl-C once more stops.")
        .sees(REPLY);
    learner.control('d').sees("Stopped.");
    learner.leaves();
    assert_eq!(asked(&desk).len(), 1);

    let mut learner = Learner::sits(with_piped_game(&desk, "TERM=dumb exec"));
    learner.reads().types("d6").sees("Right, in ").sees(REPLY);
    learner.control('d').sees("Stopped.");
    learner.leaves();
}

#[test]
fn mates_of_games_from_standard_input_are_found_and_answered_at_the_terminal() {
    let desk = Desk::new();
    let words = "ahead - --game all --mate 1 --count 1";
    let mut learner = Learner::sits(with_piped_games(&desk, "exec ", words));
    learner
        .sees("which move mates at once")
        .sees(REPLY)
        .control('d');
    learner.sees("Stopped.").leaves();
}

#[test]
#[cfg(target_os = "linux")]
fn a_game_from_standard_input_stops_at_the_first_question_where_no_terminal_is() {
    let desk = Desk::new();
    let mut child = with_piped_game(&desk, "setsid --wait")
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let (mut out, mut err) = (String::new(), String::new());
    child
        .stdout
        .take()
        .unwrap()
        .read_to_string(&mut out)
        .unwrap();
    child
        .stderr
        .take()
        .unwrap()
        .read_to_string(&mut err)
        .unwrap();
    assert_eq!(child.wait().unwrap().code(), Some(0), "{err}");
    assert!(err.contains("no terminal to reply from"), "{err}");
    assert!(out.contains(WHERE) && out.contains("Stopped."), "{out}");
    assert!(
        !out.contains("Nothing was marked"),
        "the game is no reply: {out}"
    );
    // What was not asked yet can go on through a pipe.
    let said = desk.run(&["replay", "--resume"], "d6\n");
    assert!(said.out.contains("Right, in "), "{said:?}");
}

#[test]
fn a_key_that_is_no_utf8_costs_nothing_at_a_terminal() {
    for options in [&[] as &[&str], &["--plain"]] {
        let desk = Desk::new();
        let mut learner = Learner::starts(&desk, options);
        learner.reads();
        let mut keyboard = learner.terminal.keys.try_clone().unwrap();
        keyboard.write_all(b"\xe9\n").unwrap();
        learner.sees("Nothing was marked.").sees(REPLY);
        learner.types("d6").sees("Right, in ").sees(REPLY);
        learner.control('d').sees("Stopped.");
        learner.leaves();
    }
}

#[test]
fn a_window_of_any_size_will_do() {
    for (columns, rows) in [(1, 1), (7, 2), (1000, 500)] {
        let desk = Desk::new();
        desk.wishes("by = \"checkpoint\"");
        let program = env!("CARGO_BIN_EXE_sansvoir");
        let mut command = Command::new("sh");
        command.args([
            "-c",
            &format!("stty cols {columns} rows {rows}; exec '{program}' replay {CLUB} --seed 208"),
        ]);
        desk.place(&mut command);
        let mut learner = Learner::sits(command);
        learner.sees(GO_ON).types("").sees(GO_ON).types("");
        learner
            .sees(WHERE)
            .sees(REPLY)
            .types("d6")
            .sees("Right, in ");
        learner.sees(PAWN).sees(REPLY).control('d').sees("Stopped.");
        learner.leaves();
        assert_eq!(asked(&desk).len(), 1);
    }
}

#[test]
fn a_session_goes_on_when_its_file_has_vanished() {
    let desk = Desk::new();
    let text = fs::read(Path::new(env!("CARGO_MANIFEST_DIR")).join(CLUB)).unwrap();
    let file = desk.file("club.pgn", text);
    desk.run(&["replay", &file, "--seed", "208"], "d6\n")
        .ends(0, &[]);
    fs::remove_file(&file).unwrap();
    let said = desk.run(&["replay", &file, "--resume"], "yes\n");
    said.ends(0, &[]);
    assert!(
        said.out.contains(PAWN) && said.out.contains("Right, in "),
        "{said:?}"
    );
}

#[test]
fn a_game_comes_through_a_named_pipe_too() {
    let desk = Desk::new();
    let pipe = desk.path("games.pgn");
    assert!(
        Command::new("mkfifo")
            .arg(&pipe)
            .status()
            .unwrap()
            .success()
    );
    let writing = {
        let pipe = pipe.clone();
        thread::spawn(move || drop(fs::write(pipe, "1. e4 e5 2. Nf3 *\n")))
    };
    let said = desk.run(&["replay", pipe.to_str().unwrap()], "");
    writing.join().unwrap();
    said.ends(0, &[]);
    assert!(said.out.contains("3 plies will be read"), "{said:?}");
}

#[test]
fn a_reply_of_any_length_or_bytes_costs_nothing() {
    let desk = Desk::new();
    let mut input = vec![b'x'; 10_000_000];
    input.extend_from_slice(b"\nd\x006\n\x1b[2J\n\xff\xfe\n\xc2\x9b31m\n\xe2\x80\xaed6\nd6\n");
    let said = desk.run(&["replay", CLUB, "--seed", "208"], input);
    said.ends(0, &[]);
    assert!(said.out.contains("only its beginning was read"), "{said:?}");
    assert_eq!(
        said.out.matches("Nothing was marked.").count(),
        6,
        "{said:?}"
    );
    assert!(said.out.contains("Right, in "), "{said:?}");
    assert!(
        said.out.chars().all(|c| c == '\n' || !c.is_control()),
        "{said:?}"
    );
    assert!(fs::metadata(desk.journal()).unwrap().len() < 10_000);
}
