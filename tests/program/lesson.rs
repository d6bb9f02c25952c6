//! Lessons: chosen by the journal, written by a coach, stopped and resumed.

use crate::program::{Desk, Said};
use serde_json::Value;

/// So many times the same line.
fn lines(line: &str, count: usize) -> String {
    format!("{line}\n").repeat(count)
}

fn of_type<'a>(records: &'a [Value], name: &str) -> Vec<&'a Value> {
    records
        .iter()
        .filter(|record| record["type"] == name)
        .collect()
}

/// A lesson that begins with the first step, whose place need not be found.
const CHOSEN: [&str; 5] = ["lesson", "--seed", "3", "--start", "white-squares"];

#[test]
fn a_learner_who_begins_at_the_beginning_is_taught_and_hears_a_game() {
    let desk = Desk::new();
    let said = desk.run(&CHOSEN, lines("pass", 100));
    said.ends(0, &[]);
    for words in [
        "A lesson of 2 parts.",
        "1. Squares from White's side, from the beginning: 24 questions with clues",
        "2. A game, with the board hidden: ",
        "Part 1 of 2. Squares from White's side, from the beginning.",
        "A square is named by its file and its rank.",
        "For example: ",
        "They count for no step.",
        "Part 2 of 2. A game, with the board hidden.",
        "The lesson is over: 0 of ",
        "Next: sansvoir lesson goes on with \"Squares from White's side\", which is passed with",
    ] {
        assert!(said.out.contains(words), "{words:?} is missing: {said:?}");
    }
    let records = desk.records();
    let starts = of_type(&records, "start");
    let lesson = starts[0]["session"].as_str().unwrap();
    let exercises: Vec<&Value> = starts.iter().map(|start| &start["exercise"]).collect();
    assert_eq!(exercises, ["lesson", "drill", "replay"]);
    assert_eq!(starts[1]["session"], format!("{lesson}-1"));
    assert_eq!(starts[2]["session"], format!("{lesson}-2"));
    assert_eq!(starts[0]["plan"]["parts"].as_array().unwrap().len(), 2);
    assert!(
        of_type(&records, "end")
            .iter()
            .all(|end| end["finished"] == true)
    );
}

#[test]
fn a_first_lesson_finds_the_level_and_then_begins() {
    let desk = Desk::new();
    let said = desk.run(&["lesson", "--seed", "3"], lines("pass", 100));
    said.ends(0, &[]);
    for words in [
        "A few questions find where your course begins",
        "Part 1 of 1. Your level.",
        "Right answers: Squares from Black's side 0 of 2; A piece's lines 0 of 2.",
        "Your course begins with \"Squares from White's side\"",
        "A lesson of 2 parts.",
    ] {
        assert!(said.out.contains(words), "{words:?} is missing: {said:?}");
    }
    let again = desk.run(&["lesson", "--seed", "3"], lines("pass", 100));
    assert!(!again.out.contains("Your level"), "{again:?}");
    // One that is stopped goes on with the next lesson, and begins no course by itself.
    let desk = Desk::new();
    let stopped = desk.run(
        &["lesson", "--seed", "3", "--learner", "ben"],
        "pass\nstop\n",
    );
    let told = "sansvoir lesson --learner ben --resume goes on with it";
    assert!(stopped.out.contains(told), "{stopped:?}");
    let next = desk.run(&["lesson", "--learner", "ben"], lines("pass", 100));
    for words in [
        "Your level.",
        "Your course begins with",
        "A lesson of 2 parts.",
    ] {
        assert!(next.out.contains(words), "{words:?} is missing: {next:?}");
    }
    // It can be stopped and gone on with, and asked for at any time.
    let first = desk.run(&["lesson", "--place", "--seed", "3"], "pass\nstop\n");
    assert!(first.out.contains("sansvoir lesson --resume"), "{first:?}");
    let rest = desk.run(&["lesson", "--resume"], lines("pass", 3));
    assert!(rest.out.contains("Your course begins with"), "{rest:?}");
    assert!(!rest.out.contains("A lesson of 2 parts."), "{rest:?}");
}

#[test]
fn think_times_and_checkpoints_follow_the_learner_in_a_lesson_alone() {
    let follows = |arguments: &[&str]| {
        let desk = Desk::new();
        desk.run(arguments, lines("pass", 100)).ends(0, &[]);
        let records = desk.records();
        let starts = of_type(&records, "start");
        let settings = |start: &&Value| {
            let plan = &start["plan"]["plan"];
            let told = [
                &plan["replay"]["settings"]["follow"],
                &plan["drill"]["follow"],
            ];
            told.into_iter().find_map(Value::as_bool)
        };
        starts.iter().filter_map(settings).collect::<Vec<bool>>()
    };
    assert_eq!(follows(&["replay", "--seed", "3"]), [false]);
    assert_eq!(follows(&["drill", "color", "--seed", "3"]), [false]);
    assert_eq!(follows(&CHOSEN), [true, true]);
}

#[test]
fn a_learner_says_where_to_begin_and_what_is_below_counts_as_known() {
    let desk = Desk::new();
    let arguments = ["lesson", "--start", "four-plies", "--seed", "3"];
    let said = desk.run(&arguments, lines("pass", 100));
    said.ends(0, &[]);
    assert!(said.out.contains("2. Four plies ahead: "), "{said:?}");
    let progress = desk.run(&["progress", "--plain"], "");
    let stand = "You stand at step 16 of 29, Four plies ahead: 0 of ";
    assert!(progress.out.contains(stand), "{progress:?}");
    assert!(
        progress
            .out
            .contains("Squares from White's side: taken as known"),
        "{progress:?}"
    );
    let next = desk.run(&["lesson", "--seed", "3"], "");
    assert!(next.out.contains(". Four plies ahead: "), "{next:?}");
    let unknown = desk.run(&["lesson", "--start", "five-plies"], "");
    unknown.ends(2, &["no step of the course", "four-plies"]);
}

#[test]
fn the_first_screen_of_progress_has_24_lines_at_most() {
    let desk = Desk::new();
    desk.run(&CHOSEN, lines("pass", 100));
    let said = desk.run(&["progress"], "");
    let lines: Vec<&str> = said.out.lines().collect();
    let last = lines
        .iter()
        .position(|line| line.contains("+ passed"))
        .unwrap();
    // Each line in as many as a terminal of 80 columns needs.
    let height: usize = lines[..=last]
        .iter()
        .map(|line| line.len().div_ceil(79).max(1))
        .sum();
    assert!(height <= 24, "{height}: {said:?}");
    for words in [
        "You stand at step 1 of 29",
        "After it comes",
        "sansvoir lesson",
    ] {
        assert!(
            lines[..last].iter().any(|line| line.contains(words)),
            "{words}: {said:?}"
        );
    }
}

#[test]
fn every_demo_game_has_its_turn_and_then_the_one_least_lately_read() {
    let desk = Desk::new();
    let replay = [
        "replay",
        "--every",
        "1000",
        "--questions",
        "1",
        "--seed",
        "1",
    ];
    let mut read = Vec::new();
    for _ in 0..20 {
        let said = desk.run(&replay, lines("pass", 9));
        let white = said.out.lines().find(|line| line.starts_with("White: "));
        read.push(white.unwrap().to_owned());
    }
    let (first, again) = read.split_at(16);
    assert_eq!(again, &first[..4]);
    assert_eq!(
        first.iter().collect::<std::collections::HashSet<_>>().len(),
        16
    );
}

#[test]
fn the_same_seed_plans_the_same_lesson() {
    let said = || Desk::new().run(&CHOSEN, lines("pass", 100)).out;
    assert_eq!(said(), said());
}

#[test]
fn a_game_heard_in_a_lesson_is_finished_and_the_next_lesson_has_another() {
    let desk = Desk::new();
    let white = |said: &Said| {
        let white = said.out.lines().find(|line| line.starts_with("White: "));
        white.unwrap().to_owned()
    };
    let first = desk.run(&CHOSEN, lines("pass", 100));
    let second = desk.run(&CHOSEN, lines("pass", 100));
    assert_ne!(white(&first), white(&second));
}

#[test]
fn what_was_missed_comes_back_in_a_later_lesson() {
    let desk = Desk::new();
    desk.run(
        &["drill", "color", "--count", "6", "--seed", "1"],
        lines("pass", 6),
    );
    let aged = std::fs::read_to_string(desk.journal()).unwrap();
    // As if it had been ten days ago.
    let day = |text: &str| {
        let now: jiff::Timestamp = text.parse().unwrap();
        (now - jiff::SignedDuration::from_hours(240)).to_string()
    };
    let aged: Vec<String> = aged
        .lines()
        .map(|line| {
            let mut record: Value = serde_json::from_str(line).unwrap();
            record["time"] = Value::from(day(record["time"].as_str().unwrap()));
            format!("{record}\n")
        })
        .collect();
    std::fs::write(desk.journal(), aged.concat()).unwrap();
    let said = desk.run(&CHOSEN, "");
    said.ends(0, &[]);
    assert!(said.out.contains("Part 1 of 3. To warm up."), "{said:?}");
    let records = desk.records();
    let starts = of_type(&records, "start");
    let lesson = starts.iter().find(|start| start["exercise"] == "lesson");
    let lesson = lesson.unwrap();
    let chosen = lesson["plan"]["parts"][0]["chosen"].as_array().unwrap();
    let squares = |records: &[&Value]| {
        let mut squares: Vec<String> = records
            .iter()
            .map(|record| record["subject"]["square"].to_string())
            .collect();
        squares.sort();
        squares.dedup();
        squares
    };
    let answered: Vec<&Value> = of_type(&records, "answer");
    assert_eq!(
        squares(&chosen.iter().collect::<Vec<_>>()),
        squares(&answered)
    );
}

#[test]
fn a_lesson_stops_anywhere_and_goes_on_there() {
    let desk = Desk::new();
    let whole = Desk::new().run(&CHOSEN, lines("pass", 100)).out;
    let first = desk.run(&CHOSEN, lines("pass", 3) + "stop\n");
    first.ends(0, &[]);
    assert!(first.out.contains("sansvoir lesson --resume"), "{first:?}");
    let second = desk.run(&["lesson", "--resume"], lines("pass", 23));
    assert!(
        second.out.contains("The lesson of 2 parts goes on."),
        "{second:?}"
    );
    assert!(second.out.contains("Question 4 of "), "{second:?}");
    let third = desk.run(&["lesson", "--resume"], lines("pass", 100));
    assert!(!third.out.contains("Part 1 of 2."), "{third:?}");
    assert!(third.out.contains("Part 2 of 2."), "{third:?}");
    assert!(third.out.contains("The lesson is over"), "{third:?}");
    let asked = |said: &str| -> Vec<String> {
        let questions = said.lines().filter(|line| line.starts_with("Question "));
        questions.map(str::to_owned).collect()
    };
    let mut all = asked(&first.out);
    // The question that stood when the lesson was stopped is asked again.
    for said in [&second, &third] {
        let more = asked(&said.out);
        if all.last() == more.first() {
            all.pop();
        }
        all.extend(more);
    }
    assert_eq!(all, asked(&whole));
    desk.run(&["lesson", "--resume"], "")
        .ends(1, &["there is no unfinished lesson"]);
}

#[test]
fn the_games_of_the_config_file_are_the_lessons_games() {
    let desk = Desk::new();
    std::fs::create_dir_all(desk.path("config/sansvoir")).unwrap();
    std::fs::create_dir(desk.path("mine")).unwrap();
    let game = "[White \"Velandia, Ruth\"]\n[Black \"Oyarbide, Jon\"]\n\n1. d4 d5 2. c4 e6 *\n";
    desk.file("mine/a.pgn", game);
    desk.file("mine/notes.txt", "no games");
    let config = |text: &str| desk.file("config/sansvoir/config.toml", text);
    config("games = [\"../../mine\"]");
    let said = desk.run(&CHOSEN, lines("pass", 100));
    said.ends(0, &[]);
    assert!(said.out.contains("White: Velandia, Ruth."), "{said:?}");
    config("games = \"../../nowhere.pgn\"");
    // What is not there, or holds no game, is left out, and demo games take its place.
    let said = desk.run(&CHOSEN, lines("pass", 100));
    said.ends(0, &["nowhere.pgn: there is no such file", "is left out"]);
    assert!(said.out.contains("Ferryhouse"), "{said:?}");
    std::fs::create_dir(desk.path("empty")).unwrap();
    config("games = \"../../empty\"");
    desk.run(&CHOSEN, "")
        .ends(0, &["no PGN file lies in this folder", "is left out"]);
}

#[test]
fn without_any_game_on_the_disk_the_demo_games_are_at_hand() {
    let desk = Desk::new();
    let mut command = desk.program(&CHOSEN);
    command.current_dir(desk.path(""));
    let said = Said::of(command, lines("pass", 100).as_bytes());
    said.ends(0, &[]);
    assert!(said.out.contains("Ferryhouse Club Evening"), "{said:?}");
}

#[test]
fn a_journal_from_the_future_breaks_nothing() {
    let desk = Desk::new();
    desk.run(
        &["drill", "color", "--count", "2", "--seed", "1"],
        lines("pass", 2),
    );
    let text = std::fs::read_to_string(desk.journal()).unwrap();
    let year = &text[text.find("\"time\":\"").unwrap() + 8..][..4];
    std::fs::write(
        desk.journal(),
        text.replace(&format!("\"time\":\"{year}"), "\"time\":\"9000"),
    )
    .unwrap();
    let said = desk.run(&CHOSEN, lines("pass", 100));
    said.ends(0, &[]);
    assert!(!said.out.contains("To warm up"), "{said:?}");
}

#[test]
fn a_coach_heads_the_parts_and_sets_pass_marks() {
    let desk = Desk::new();
    let file = desk.file(
        "week.toml",
        "title = \"Week 3\"\nnotes = \"Put the board away.\"\n\
         [[part]]\nheading = \"Light or dark\"\nnotes = \"\"\"\nThink of a1.\nIt is dark.\"\"\"\n\
         exercise = \"drill\"\nkinds = [\"color\"]\ncount = 2\npass = 1\nseed = 1\n\
         [[part]]\nexercise = \"drill\"\nkinds = \"aligned\"\ncount = 1\npass = 1\n",
    );
    let said = desk.run(&["lesson", &file], "light\nlight\npass\n");
    said.ends(0, &[]);
    let told: Vec<&str> = said.out.lines().collect();
    let begin = [
        "Lesson: Week 3.",
        "A lesson of 2 parts.",
        "Put the board away.",
        "Part 1 of 2. Light or dark.",
        "Think of a1.",
        "It is dark.",
        "2 questions on the empty board: color.",
    ];
    assert_eq!(told[..begin.len()], begin);
    assert!(said.out.contains("Part 2 of 2. drill."), "{said:?}");
    assert!(
        said.out.contains("of 2 replies right, 1 was asked for."),
        "{said:?}"
    );
    assert!(
        said.out
            .contains("Pass mark not reached: 0 of 1 reply right, 1 was asked for."),
        "{said:?}"
    );
}

#[test]
fn keys_that_are_no_options_are_heeded() {
    let desk = Desk::new();
    let keys = [
        "exercise = \"replay\"",
        "files = \"club-evening.pgn\"",
        "game = 1",
        "from = 3",
        "to = \"12...\"",
        "at = [\"4...\", 9, \"end\"]",
        "ask = \"occupant,check\"",
        "by = \"checkpoint\"",
        "trail = 5",
        "looks = 1",
        "think = 2.5",
        "since = 2020",
        "until = \"2030.01\"",
    ];
    let file = desk.file("week.toml", format!("[[part]]\n{}\n", keys.join("\n")));
    let said = desk.run(
        &["lesson", &file, "--seed", "3"],
        "look\n".to_owned() + &lines("pass", 30),
    );
    said.ends(0, &[]);
    assert!(said.out.contains("with 3 checkpoints"), "{said:?}");
    assert!(said.out.contains("Move 12, White"), "{said:?}");
    let records = desk.records();
    let start = of_type(&records, "start")[1];
    let settings = &start["plan"]["plan"]["replay"]["settings"];
    assert_eq!(settings["by"], "checkpoint");
    assert_eq!(settings["trail"], 5);
    assert_eq!(settings["looks"], 1);
    assert_eq!(settings["think_millis"], 2500);
    assert_eq!(settings["checkpoints"]["at"].as_array().unwrap().len(), 3);
    let options = &start["plan"]["options"];
    assert_eq!(options["at"], serde_json::json!(["4...", "9.", "end"]));
    assert_eq!(options["ask"], serde_json::json!(["occupant", "check"]));
    let part = "[[part]]\nexercise = \"recite\"\nfiles = \"first-steps.pgn\"\nhint = true\n";
    let file = desk.file("week.toml", part);
    let said = desk.run(&["lesson", &file], lines("a6", 2) + &lines("pass", 99));
    said.ends(0, &[]);
    let records = desk.records();
    let start = of_type(&records, "start").pop().unwrap();
    assert_eq!(start["plan"]["plan"]["recite"]["settings"]["hint"], true);
}

#[test]
fn the_sample_lessons_can_be_held() {
    for file in ["games-demo/first-lesson.toml", "games-demo/club-group.toml"] {
        let desk = Desk::new();
        desk.run(&["lesson", file, "--check"], "").ends(0, &[]);
        let said = desk.run(&["lesson", file, "--seed", "2"], lines("pass", 300));
        said.ends(0, &[]);
        assert!(said.out.contains("The lesson is over"), "{said:?}");
        assert!(desk.records().iter().all(|record| record["type"] != "seal"));
    }
}

/// Sees to it that a lesson is refused in the words of its keys before anything of it begins.
fn refused(desk: &Desk, lesson: &str, words: &str) {
    let file = desk.file("week.toml", lesson);
    for check in [&["--check"][..], &[]] {
        let said = desk.run(&[&["lesson", &file], check].concat(), lines("pass", 9));
        said.ends(1, &[words]);
        assert!(said.out.is_empty(), "{said:?}");
        assert!(!said.err.contains("--"), "keys, not options: {said:?}");
    }
    assert!(desk.records().is_empty(), "nothing begins");
}

#[test]
fn a_fault_in_a_lesson_file_tells_its_line_and_what_to_do() {
    let desk = Desk::new();
    for (lesson, words) in [
        ("", "week.toml:1:1: this lesson has no part"),
        (
            "titel = 1",
            "week.toml:1:1: there is no key \"titel\" here: take one of title, notes, shuffle, part",
        ),
        (
            "part = 3",
            "week.toml:1:8: write each part below a line [[part]]",
        ),
        (
            "[[part]]\nkinds = \"color\"",
            "week.toml:1:1: this part names no exercise",
        ),
        (
            "[[part]]\nexercise = \"games\"",
            "week.toml:2:12: \"games\" is no exercise",
        ),
        (
            "[[part]]\nexercise = \"drill\"",
            "week.toml:2:12: this part lacks the key kinds",
        ),
        (
            "[[part]]\nexercise = \"drill\"\nkinds = \"colour\"",
            "week.toml:3:9: kinds: \"colour\" is unknown: take one of name, place, color",
        ),
        (
            "[[part]]\nexercise = \"drill\"\nkinds = \"color\"\ncuont = 3",
            "week.toml:4:1: drill has no key cuont: is count meant?",
        ),
        (
            "[[part]]\nexercise = \"drill\"\nkinds = \"color\"\ncount = 0",
            "week.toml:4:9: count: 0 is no whole number from 1 to 1000",
        ),
        (
            "[[part]]\nexercise = \"drill\"\nkinds = \"color\"\npiece = [\"knight\"]",
            "week.toml:4:9: piece is for span",
        ),
        (
            "[[part]]\nexercise = \"drill\"\nkinds = \"color\"\nlearner = \"Ana\"",
            "week.toml:4:1: learner is the learner's to say",
        ),
        (
            "[[part]]\nexercise = \"drill\"\nkinds = \"color\"\nspeech = \"touch harm\"",
            "week.toml:4:1: speech is the learner's to say",
        ),
        (
            "[[part]]\nexercise = \"drill\"\nkinds = \"color\"\npass = \"all\"",
            "week.toml:4:8: pass: all is no whole number from 1 to",
        ),
        (
            "[[part]]\nexercise = \"drill\"\nkinds = \"color\"\npass = 0",
            "week.toml:4:8: pass: 0 is no whole number from 1 to",
        ),
        (
            "[[part]]\nexercise = \"drill\"\nkinds = \"color\"\nseed = 99999999999999999999",
            "week.toml:4:8: this is a number: write a whole number from 0 to 18446744073709551615",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nline = \"1. e4\"\nquestion = 3",
            "week.toml:4:12: write each question below a line [[part.question]]",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nfiles = \"club-evening.pgn\"\nline = \"1. e4\"",
            "week.toml:4:8: line and files do not go together: leave one of them out",
        ),
        (
            "[[part]]\nexercise = \"ahead\"\nfiles = \"club-evening.pgn\"\nfen = \"8/8/8/8/8/2k5/8/K1q5 w - - 0 1\"",
            "week.toml:4:7: fen and files do not go together: leave one of them out",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nline = \"1. e4\"\n[[part.question]]\nsay = \"\"\nanswer = \" \"",
            "week.toml:6:10: a question has either ask",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nline = \"1. e4 e5 2. Ke3\"",
            "week.toml:3:8: the lesson's own line, White's move 2, \"Ke3\": ",
        ),
        ("[[part]]\nexercise = ", "week.toml:2:1"),
    ] {
        refused(&desk, lesson, words);
    }
}

#[test]
fn a_part_that_could_not_be_held_is_told_at_its_key() {
    let desk = Desk::new();
    desk.file("game.pgn", "1. e4 e5 *\n");
    desk.file("mate.pgn", "1. f3 e5 2. g4 Qh4# 0-1\n");
    for (lesson, words) in [
        (
            "[[part]]\nexercise = \"drill\"\nkinds = \"color\"\ncount = 3\npass = 20",
            "week.toml:5:8: 20 right replies are too many to ask for: this part has 3 questions",
        ),
        (
            "[[part]]\nexercise = \"recite\"\nfiles = \"game.pgn\"\npass = 3",
            "week.toml:4:8: 3 right replies are too many to ask for: this part has 2 questions",
        ),
        (
            "[[part]]\nexercise = \"ahead\"\nfiles = \"game.pgn\"\nmate = 2",
            "week.toml:4:8: no position has a forced mate within 2 moves",
        ),
        (
            "[[part]]\nexercise = \"ahead\"\nfiles = \"mate.pgn\"\nmate = 1\npass = 2",
            "week.toml:5:8: 2 right replies are too many to ask for: this part has 1 question",
        ),
        (
            "[[part]]\nexercise = \"ahead\"\nfiles = \"game.pgn\"\nplies = 60",
            "week.toml:",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nfiles = \"game.pgn\"\nevery = 4\nat = \"1.\"",
            " do not go together: leave one of them out",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nfiles = \"game.pgn\"\nat = \"40.\"",
            ": game 1: at 40.: that move is not among those that are read",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nfiles = \"club-evening.pgn\"\ngame = 1\nfrom = 5\nat = [\"10\", \"4...\"]",
            ": game 1: at 4...: that move is not among those that are read",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nfiles = \"game.pgn\"\nat = \"10,,end\"",
            "week.toml:4:6: at: \"\" is no move number: write 14 or 14. for White's fourteenth move, 14... for Black's; end is the end of the game",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nfiles = \"game.pgn\"\nby = \"plly\"",
            "week.toml:4:6: by: \"plly\" is unknown: take one of ply, move, checkpoint",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nfiles = \"game.pgn\"\nask = []",
            "week.toml:4:7: ask: this list is empty",
        ),
        (
            "[[part]]\nexercise = \"ahead\"\nfiles = \"game.pgn\"\nmate = 2\nplies = 3",
            "mate and plies do not go together: leave one of them out",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nfiles = \"game.pgn\"\nsidelines = 3",
            "week.toml:4:13: this is a number: write true or false",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nfiles = \"game.pgn\"\nevery = true",
            "week.toml:4:9: this is true or false: write a whole number from 1 to 1000",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nfiles = \"none.pgn\"",
            "week.toml:3:9: ",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nfiles = \"game.pgn\"\ngame = 2",
            "there is no game 2: the file holds 1 game",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nfiles = \"game.pgn\"\nto = \"9.\"",
            "week.toml:3:9: ",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nfiles = \"-\"",
            "week.toml:3:9: a lesson's replies come through",
        ),
        (
            "[[part]]\nexercise = \"drill\"\nkinds = [\"few\", \"color\"]",
            "week.toml:3:9: few stands alone",
        ),
        (
            "[[part]]\nexercise = \"replay\"\nfiles = \"game.pgn\"\ngame = 2\nevry = 3",
            "there is no game 2",
        ),
        (
            "[[part]]\nexercise = \"recite\"\nfiles = \"none.pgn\"",
            "week.toml:3:9: ",
        ),
    ] {
        refused(&desk, lesson, words);
    }
}

#[test]
fn every_fault_of_every_part_is_told_in_the_order_of_the_file() {
    let desk = Desk::new();
    let part = "[[part]]\nexercise = \"drill\"\nkinds = \"color\"\n";
    let file = desk.file(
        "week.toml",
        format!(
            "{part}count = 0\nview = \"left\"\ncuont = 3\npass = 0\n{part}\
             [[part]]\nexercise = \"drill\"\nkinds = \"colour\"\ncount = 0\n{part}piece = 3\n"
        ),
    );
    let said = desk.run(&["lesson", &file, "--check"], "");
    said.ends(1, &[]);
    let places = said.err.lines().filter_map(|line| {
        let told = line.strip_prefix("sansvoir: ")?;
        let mut parts = told.split("week.toml:").nth(1)?.split(':');
        Some(format!("{}:{}", parts.next()?, parts.next()?))
    });
    let places: Vec<String> = places.collect();
    assert_eq!(
        places,
        ["4:9", "5:8", "6:1", "7:8", "13:9", "14:9", "18:9"],
        "{said:?}"
    );
}

#[test]
fn as_many_questions_are_told_as_a_part_has_and_what_is_said_in_chunks_takes_its_time() {
    let desk = Desk::new();
    let positions =
        "fen = \"\"\"\n8/8/8/4k3/8/4K3/4P3/8 w - - 0 1\n6k1/5ppp/8/8/8/8/8/R6K w - - 0 1\n\"\"\"";
    for (part, count) in [
        (
            "\"ahead\"\nfiles = \"club-evening.pgn\"\nmate = 2\ncount = 3\npass = 1".to_owned(),
            "3 questions",
        ),
        (
            "\"recite\"\nfiles = \"club-evening.pgn\"\ngame = 3\nto = \"10...\"\nchunk = 4"
                .to_owned(),
            "20 questions, about 12 minutes",
        ),
        (format!("\"ahead\"\nplies = 2\n{positions}"), "4 questions"),
    ] {
        let file = desk.file("week.toml", format!("[[part]]\nexercise = {part}\n"));
        let said = desk.run(&["lesson", &file, "--check", "--seed", "1"], "");
        said.ends(0, &[]);
        assert!(
            said.out.contains(&format!("1 part, {count}")),
            "{part}: {said:?}"
        );
    }
    let file = desk.file(
        "two.epd",
        "8/8/8/4k3/8/4K3/4P3/8 w - - 0 1\n6k1/5ppp/8/8/8/8/8/R6K w - - 0 1\n",
    );
    let said = desk.run(&["ahead", &file, "--plies", "2"], "");
    assert!(
        said.out.contains("2 rounds") && !said.out.contains("5 rounds"),
        "{said:?}"
    );
}

#[test]
fn all_that_is_wrong_with_a_line_its_questions_and_its_pass_mark_is_told_at_once() {
    let desk = Desk::new();
    let line =
        "[[part]]\nexercise = \"replay\"\npass = 99\nline = \"1. e4 e5 2. Nf3 Nc6 3. Bc4 Bc5 4.";
    let asked = "[[part.question]]\nmove = \"2.\"\nask = \"attacs f3\"\n[[part.question]]\nsay = \"Why?\"\n";
    let unread = "[[part.question]]\nmove = \"0.\"\nask = \"attacks f3\"\n";
    let told = |lesson: String| {
        let file = desk.file("week.toml", lesson);
        let said = desk.run(&["lesson", &file, "--check"], "");
        said.ends(1, &[]);
        let line = |line: &str| {
            Some(
                line.split_once("week.toml:")?
                    .1
                    .split(':')
                    .next()?
                    .to_owned(),
            )
        };
        said.err.lines().filter_map(line).collect::<Vec<_>>()
    };
    assert_eq!(
        told(format!("{line} d3\"\n{asked}{unread}")),
        ["3", "7", "9", "11"]
    );
    assert_eq!(
        told(format!("{line} Kg2\"\n{asked}{unread}")),
        ["3", "4", "7", "9", "11"]
    );
    assert_eq!(
        told(format!("{line} d3\"\nevery = 0\n{asked}")),
        ["5", "8", "10"]
    );
}

#[test]
fn of_a_great_many_faults_the_first_hundred_are_told_and_the_others_counted() {
    let desk = Desk::new();
    let keys: Vec<String> = (0..100_000).map(|n| format!("wrong{n} = 1\n")).collect();
    let keys = keys.concat();
    for (lesson, more) in [
        (keys.clone(), 99_900),
        (
            format!("[[part]]\nexercise = \"drill\"\nkinds = \"color\"\n{keys}"),
            99_900,
        ),
    ] {
        let file = desk.file("week.toml", lesson);
        let said = desk.run(&["lesson", &file, "--check"], "");
        said.ends(
            1,
            &[
                "wrong0",
                &format!("week.toml: there are {more} more faults"),
            ],
        );
        assert_eq!(said.err.matches("sansvoir: ").count(), 101, "{said:?}");
    }
    let file = desk.file("week.toml", "[[part]]\n".repeat(101));
    desk.run(&["lesson", &file, "--check"], "").ends(
        1,
        &["week.toml:101:1: this file has 101 parts, and 100 are the most"],
    );
}

#[cfg(unix)]
#[test]
fn what_is_no_file_or_never_ends_is_refused_at_once() {
    let desk = Desk::new();
    let pipe = desk.path("pipe");
    let made = std::process::Command::new("mkfifo").arg(&pipe).status();
    assert!(made.unwrap().success());
    let pipe = pipe.to_str().unwrap();
    for place in ["/dev/zero", pipe] {
        let refused = ["this is a pipe or a device and no file"];
        desk.run(&["lesson", place, "--check"], "")
            .ends(1, &refused);
        let mut command = desk.program(&["drill", "color"]);
        command.env("SANSVOIR_CONFIG", place);
        Said::of(command, b"").ends(1, &refused);
        let part = format!("[[part]]\nexercise = \"replay\"\nfiles = \"{place}\"\n");
        let file = desk.file("week.toml", part);
        desk.run(&["lesson", &file], "")
            .ends(1, &["week.toml:3:9: ", refused[0]]);
        let mut command = desk.program(&["replay"]);
        let config = desk.file("wishes.toml", format!("games = \"{place}\"\n"));
        command.env("SANSVOIR_CONFIG", config);
        Said::of(command, b"").ends(0, &[refused[0], "is left out"]);
    }
    let long = desk.file("long.toml", vec![b'#'; (4 << 20) + 1]);
    desk.run(&["lesson", &long], "")
        .ends(1, &["long.toml: this file is far too long"]);
}

#[test]
fn a_file_of_games_given_as_a_lesson_is_told_what_a_lesson_is() {
    let desk = Desk::new();
    let words = [
        "this is a file of games and no lesson",
        "[[part]]",
        "sansvoir replay ",
    ];
    let game = "[Event \"Club\"]\n\n1. e4 e5 *\n";
    for file in [
        desk.file("mine.pgn", game),
        desk.file("mine.txt", game),
        "games-demo/club-evening.pgn".to_owned(),
    ] {
        desk.run(&["lesson", &file], "").ends(1, &words);
    }
    desk.run(&["lesson", "nowhere.pgn"], "")
        .ends(1, &["there is no such file"]);
}

#[test]
fn a_seed_asks_the_same_in_every_part_and_another_seed_something_else() {
    let lesson = "[[part]]\nexercise = \"drill\"\nkinds = \"color\"\ncount = 9\n\
                  [[part]]\nexercise = \"drill\"\nkinds = \"aligned\"\ncount = 9\nseed = 4\n";
    let asked = |seed: &str| -> Vec<String> {
        let desk = Desk::new();
        let file = desk.file("week.toml", lesson);
        // It stops and goes on, and still asks the same.
        let first = desk.run(&["lesson", &file, "--seed", seed], lines("d", 3) + "stop\n");
        let rest = desk.run(&["lesson", "--resume"], lines("pass", 60));
        rest.ends(0, &[]);
        let records = desk.records();
        let squares = of_type(&records, "answer");
        assert!(!first.out.is_empty() && squares.len() >= 18, "{rest:?}");
        let square =
            |answer: &&Value| (answer["session"].to_string(), answer["subject"].to_string());
        let squares = squares.iter().map(square);
        squares
            .map(|(session, square)| format!("{} {square}", session.ends_with("-1\"")))
            .collect()
    };
    let (one, same, other) = (asked("77"), asked("77"), asked("78"));
    assert_eq!(one, same);
    let part = |asked: &[String], first: &str| -> Vec<String> {
        let of_part = asked.iter().filter(|asked| asked.starts_with(first));
        of_part.cloned().collect()
    };
    assert_ne!(part(&one, "true"), part(&other, "true"));
    assert_eq!(part(&one, "false"), part(&other, "false"), "its own seed");
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_ends_the_lesson_with_a_word_on_what_to_do() {
    let desk = Desk::new();
    std::fs::create_dir(desk.path("data")).unwrap();
    std::fs::write(desk.journal(), "").unwrap();
    let mut command = std::process::Command::new("sh");
    // No file may grow beyond nothing; the signal that comes with it is left alone.
    let program = env!("CARGO_BIN_EXE_sansvoir");
    command.args([
        "-c",
        "trap '' XFSZ; ulimit -f 0; exec \"$0\" lesson --seed 3",
        program,
    ]);
    desk.place(&mut command);
    let said = Said::of(command, lines("pass", 9).as_bytes());
    said.ends(
        1,
        &["there is no space left for this journal", "learner.jsonl"],
    );
}
