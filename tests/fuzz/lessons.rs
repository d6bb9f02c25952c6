//! Lesson files and config files, as the program reads them.

use std::ffi::OsStr;
use std::fs;

use sansvoir::voice::clean;

use crate::program::{Desk, Said};

/// What means something in a lesson file, in our own selection.
const LESSON: &[&str] = &[
    "[[part]]\n",
    "[part]\n",
    "exercise = \"replay\"\n",
    "exercise = \"games\"\n",
    "heading = ",
    "notes = \"\"\"\n",
    "kinds = ",
    "files = ",
    "ask = [",
    "\"first-steps.pgn\"",
    "\"nowhere.pgn\"",
    "pass = 0\n",
    "count = ",
    "every = 1.5\n",
    "at = [\"2.\", \"end\"]\n",
    "by = \"ply\"\n",
    "trail = 3\n",
    "hint = true\n",
    "looks = 1\n",
    "since = 2026-03\n",
    "game = 999999999999999999999\n",
    "seed = -1\n",
    "plain = true\n",
    "look = \"a\"\n",
    "9223372036854775807",
    "0x7f",
    "1e400",
    "nan",
    "2026-03-01",
    "true",
    "\"--help\"",
    ",",
    "'",
    "\\U0001F600",
    "\\",
    "\t",
];

/// The same for the config file.
const CONFIG: &[&str] = &[
    "games = ",
    "learner = ",
    "announce = \"san\"\n",
    "view = \"black\"\n",
    "plain = true\n",
    "color = \"always\"\n",
    "speech = [\"say\"]\n",
    "speech = []\n",
    "list = \"rank\"\n",
    "letters = \"german\"\n",
    "by = \"move\"\n",
    "trail = -1\n",
    "sheet_why = 1\n",
    "[think]\n",
    "whereabouts = 20\n",
    "recite = -1\n",
    "1e308",
    "0.0001",
    "\"~/\"",
    "\"../../x\"",
];

/// What means something in every TOML file, and what must not come out of one.
const TOML: &[&str] = &[
    "[",
    "]",
    "{",
    "}",
    "=",
    ".",
    "\"",
    "\\u001b",
    "#",
    "\n",
    "\r",
    "\u{1b}[2J",
    "\u{202e}",
    "\u{0}",
    "é",
];

pub(crate) fn lesson_words() -> Vec<&'static str> {
    [LESSON, TOML].concat()
}

pub(crate) fn config_words() -> Vec<&'static str> {
    [CONFIG, TOML].concat()
}

pub(crate) fn lesson_seeds() -> Vec<Vec<u8>> {
    vec![
        include_bytes!("../../games-demo/first-lesson.toml").to_vec(),
        include_bytes!("../../games-demo/club-group.toml").to_vec(),
    ]
}

/// Made up for these tests, with every key that there is.
pub(crate) fn config_seeds() -> Vec<Vec<u8>> {
    let text = "games = [\"~/chess/my-games.pgn\", \"club\"]\nlearner = \"Ana\"\nannounce = \"words\"\n\
        view = \"white\"\nplain = false\ncolor = \"auto\"\nspeech = [\"say\", \"-r\", \"150\"]\n\
        speech_file = [\"say\", \"FILE\"]\nlist = \"rank\"\n\
        letters = \"german\"\nby = \"ply\"\ntrail = 4\nsheet_why = true\n\n[think] # seconds\ncolor = 4\nwhereabouts = 20.5\n";
    vec![text.as_bytes().to_vec()]
}

/// A lesson file is in order or told what is wrong with it.
pub(crate) fn lesson(text: &[u8]) {
    let desk = Desk::new();
    for games in ["first-steps.pgn", "club-evening.pgn"] {
        let demo = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("games-demo");
        fs::copy(demo.join(games), desk.path(games)).expect("a copy");
    }
    let file = desk.file("lesson.toml", text);
    let said = desk.run(&["lesson", &file, "--check"], "");
    told(&said, "lesson.toml:");
}

/// A config file is heeded or told what is wrong with it.
pub(crate) fn config(text: &[u8]) {
    let desk = Desk::new();
    let file = desk.file("config.toml", text);
    let mut program = desk.program(&["games", crate::program::CLUB]);
    program.env("SANSVOIR_CONFIG", OsStr::new(&file));
    told(&Said::of(program, b""), "config.toml:");
}

/// The program ends by itself, says one thing or the other, names the file that is at fault, and says
/// nothing that steers a terminal.
fn told(said: &Said, file: &str) {
    match said.code {
        Some(0) => assert!(!said.out.is_empty() && said.err.is_empty(), "{said:?}"),
        Some(1) => assert!(said.err.contains(file) && said.out.is_empty(), "{said:?}"),
        _ => panic!("{said:?}"),
    }
    assert!(!said.err.contains("panicked"), "{said:?}");
    for shown in [&said.out, &said.err] {
        assert_eq!(&clean(shown), shown);
    }
}
