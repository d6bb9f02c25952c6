//! A journal's bytes, read, counted and appended to.

use std::fs;

use sansvoir::learner::account::Account;
use sansvoir::learner::{
    BrokenLines, EndRecord, Journal, JournalError, JournalProblem, Record, Stamp, finished_games,
    unfinished, weak,
};
use sansvoir::question::Kind;
use sansvoir::voice::clean;
use tempfile::TempDir;

/// What means something in a journal, in our own selection.
pub(crate) const WORDS: &[&str] = &[
    "\n",
    "{",
    "}",
    "[",
    "]",
    "\"",
    ",",
    ":",
    "\\u0000",
    "\\u001b[2J",
    "\\ud800",
    "\u{1b}[2J",
    "\u{0}",
    "\u{202e}",
    "null",
    "true",
    "-1",
    "1e999",
    "18446744073709551616",
    "\"v\":1,",
    "\"v\":2,",
    "\"type\":\"seal\"",
    "\"type\":\"end\"",
    "\"type\":\"answer\"",
    "\"kind\":\"route\"",
    "\"subject\":{}",
    "\"expected\":{\"moves\":2}",
    "\"variant\":\"chess960\"",
    "e1g1",
    "\"a9\"",
    "[[[[[[[[",
];

pub(crate) fn seeds() -> Vec<Vec<u8>> {
    let all = include_str!("../journal/ilse.jsonl");
    let mut seeds: Vec<Vec<u8>> = all
        .split_inclusive('\n')
        .map(|line| line.as_bytes().to_vec())
        .collect();
    seeds.push(all.as_bytes().to_vec());
    seeds
}

/// Reading and counting find the same lines; what is said of a broken one steers no terminal; a record is
/// appended behind the bytes that were there, and read back; a journal of a later version is left alone.
pub(crate) fn target(text: &[u8]) {
    let folder = TempDir::new().expect("a folder");
    let learner = "Ilse Marek".parse().expect("a name");
    let opened = Journal::open(folder.path(), &learner).expect("no journal is an empty one");
    let path = opened.path().to_owned();
    fs::write(&path, text).expect("the journal is written");

    let before = match opened.read() {
        Ok(contents) => contents,
        Err(error) => return refused(&error),
    };
    let (_, broken) = Account::of(&opened).expect("what is read is counted");
    assert_eq!(broken, before.broken);
    for broken in &before.broken.first {
        let said = broken.to_string();
        assert_eq!(clean(&said), said);
    }
    look_back(&before.records);

    let Ok(journal) = Journal::open(folder.path(), &learner) else {
        panic!("what is read is opened");
    };
    let end = Record::End(EndRecord {
        stamp: Stamp::new("2026-03-01T18:20:04Z".parse().expect("a time"), "last"),
        finished: true,
        plies: 3,
        looks: 0,
        helped: false,
    });
    let _ = journal.append(&end).expect("a record can be kept");
    assert!(
        fs::read(&path).expect("a journal").starts_with(text),
        "nothing kept is changed"
    );
    let after = journal.read().expect("a journal");
    assert_eq!(after.records.last(), Some(&end));
    assert!(after.records.len() > before.records.len());
    assert_eq!(after.records[..before.records.len()], before.records);
    let sealed = BrokenLines {
        cut: false,
        ..before.broken
    };
    assert_eq!(after.broken, sealed);
}

fn refused(error: &JournalError) {
    assert!(
        matches!(error.problem, JournalProblem::Newer { .. }),
        "{error}"
    );
}

/// All that the program asks of a journal.
fn look_back(records: &[Record]) {
    for record in records {
        if let Record::Answer(answer) = record {
            let _ = answer.question();
        }
    }
    let kinds: Vec<Kind> = Kind::ALL.to_vec();
    let _ = weak(records, &kinds);
    for exercise in ["replay", "drill", "recite", "few"] {
        let _ = finished_games(records, |other| other == exercise);
        let _ = unfinished(records, exercise);
    }
}
