//! Texts damaged at random, from a seed: whatever a file, a journal or a keyboard brings does no harm.
//!
//! Each target runs for a fixed number of cases, or for `SANSVOIR_FUZZ_SECONDS` where that is set;
//! `SANSVOIR_FUZZ_SEED` starts another stream of damage. The text at hand lies in a file while it is tried,
//! so that even an abort leaves it behind; `SANSVOIR_FUZZ_INPUT` names such a file to be tried alone.

#[cfg(unix)]
mod commands;
mod damage;
#[path = "../shared/held.rs"]
mod held;
mod journal;
mod lessons;
#[path = "../shared/passages.rs"]
mod passages;
#[path = "../shared/program.rs"]
mod program;
mod reader;
mod replies;
#[cfg(unix)]
#[path = "../shared/terminal.rs"]
mod screen;
#[path = "../shared/unharmed.rs"]
mod unharmed;
#[cfg(unix)]
mod walk;
#[cfg(unix)]
mod watched;

use std::path::{Path, PathBuf};
use std::sync::mpsc;
use std::time::{Duration, Instant};
use std::{env, fs, thread};

use damage::Damage;

/// What a target does with a text: it panics where something does not hold.
type Target = fn(&[u8]);

/// How much of a target is tried.
#[derive(Clone, Copy)]
struct Bounds {
    /// So many texts are tried where no time is given.
    cases: usize,
    /// So long a text may take.
    longest: Duration,
}

/// No text here is longer than some 100 kB, and such a text takes far less than a second, unoptimized.
const WITHIN: Bounds = Bounds {
    cases: 400,
    longest: Duration::from_secs(20),
};

/// A text that the program is started for a dozen times; each start has a limit of its own.
#[cfg(unix)]
const STARTED: Bounds = Bounds {
    cases: 24,
    longest: Duration::from_mins(5),
};

/// Tries the seeds as they are, then damaged.
fn run(name: &str, target: Target, bounds: Bounds, seeds: &[Vec<u8>], words: &[&str]) {
    let kept = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("fuzz-{name}"));
    if let Some(file) = env::var_os("SANSVOIR_FUZZ_INPUT") {
        return try_one(
            &PathBuf::from(&file),
            fs::read(file).expect("the input can be read"),
            target,
            bounds.longest,
        );
    }
    let number = |key: &str| {
        let text = env::var(key).ok()?;
        Some(
            text.parse()
                .unwrap_or_else(|_| panic!("{key} is a whole number, not {text:?}")),
        )
    };
    let end = number("SANSVOIR_FUZZ_SECONDS")
        .map(|seconds| Instant::now() + Duration::from_secs(seconds));
    let mut damage = Damage::new(number("SANSVOIR_FUZZ_SEED").unwrap_or(1), seeds, words);
    let mut cases = 0;
    while end.map_or(cases < bounds.cases, |end| Instant::now() < end) || cases < seeds.len() {
        let text = seeds.get(cases).cloned().unwrap_or_else(|| damage.text());
        fs::write(&kept, &text).expect("the text can be kept");
        try_one(&kept, text, target, bounds.longest);
        cases += 1;
    }
    fs::remove_file(&kept).expect("the text was kept");
    println!("{name}: {cases} texts tried");
}

/// Tries one text on a thread of its own, so that one which takes for ever is noticed.
fn try_one(kept: &Path, text: Vec<u8>, target: Target, longest: Duration) {
    let (done, heard) = mpsc::channel();
    let trial = thread::spawn(move || {
        target(&text);
        let _ = done.send(());
    });
    match heard.recv_timeout(longest) {
        Ok(()) => {}
        Err(mpsc::RecvTimeoutError::Timeout) => panic!("{} takes too long", kept.display()),
        Err(mpsc::RecvTimeoutError::Disconnected) => panic!("{} does harm", kept.display()),
    }
    trial.join().expect("it has told that it is done");
}

#[test]
fn no_damaged_pgn_does_harm() {
    run(
        "reader",
        reader::target,
        WITHIN,
        &reader::seeds(),
        reader::WORDS,
    );
}

#[test]
fn no_damaged_reply_does_harm() {
    run(
        "replies",
        replies::target,
        WITHIN,
        &replies::seeds(),
        replies::WORDS,
    );
}

#[test]
fn no_damaged_journal_does_harm() {
    run(
        "journal",
        journal::target,
        WITHIN,
        &journal::seeds(),
        journal::WORDS,
    );
}

#[test]
fn no_damaged_lesson_file_does_harm() {
    run(
        "lesson",
        lessons::lesson,
        WITHIN,
        &lessons::lesson_seeds(),
        &lessons::lesson_words(),
    );
}

#[test]
fn no_damaged_config_file_does_harm() {
    run(
        "config",
        lessons::config,
        WITHIN,
        &lessons::config_seeds(),
        &lessons::config_words(),
    );
}

#[test]
#[cfg(unix)]
fn no_command_comes_to_harm_over_damaged_games() {
    run(
        "commands",
        commands::target,
        STARTED,
        &commands::seeds(),
        reader::WORDS,
    );
}

#[test]
#[should_panic(expected = "does harm")]
fn a_target_that_fails_is_noticed() {
    let text = b"e4".to_vec();
    try_one(
        Path::new("the text"),
        text,
        |text| assert!(text.is_empty()),
        WITHIN.longest,
    );
}
