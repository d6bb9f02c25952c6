//! PGN text from end to end: splitting, strict reading, faults with their places.

mod dialects;
mod faults;
mod hostile;
mod published;
mod random;
mod splitting;
mod trees;

use crate::passages::only;
use sansvoir::pgn::{Collection, Passage, Reading, Reason, read, read_twice};

/// Reads a text that holds one game.
fn game(text: impl Into<Vec<u8>>) -> Reading {
    witnessed(&only(text))
}

/// Reads a game, in which the second witness must find nothing that the strict pass does not find.
fn witnessed(passage: &Passage) -> Reading {
    let reading = read(passage);
    let twice = read_twice(passage);
    assert_eq!(
        (said(&twice), twice.game.ids().count()),
        (said(&reading), reading.game.ids().count()),
        "{}",
        String::from_utf8_lossy(&passage.text)
    );
    reading
}

/// Tells whether nothing is to be remarked but another spelling than the standard's.
fn is_understood(reading: &Reading) -> bool {
    let mut faults = reading.faults.iter();
    faults.all(|fault| matches!(fault.reason, Reason::Respelled(_)))
}

/// Splits and reads a whole file.
fn games(text: impl AsRef<[u8]>) -> Vec<Reading> {
    passages(text).iter().map(witnessed).collect()
}

fn passages(text: impl AsRef<[u8]>) -> Vec<Passage> {
    let text = text.as_ref();
    Collection::new(text)
        .collect::<Result<_, _>>()
        .expect("the text can be split")
}

/// Writes the main line in UCI form.
fn uci(reading: &Reading) -> String {
    let line = reading.game.main_line();
    let moves: Vec<String> = line.uci(line.len()).map(|mv| mv.to_string()).collect();
    moves.join(" ")
}

/// Writes every fault as text.
fn said(reading: &Reading) -> Vec<String> {
    reading.faults.iter().map(ToString::to_string).collect()
}
