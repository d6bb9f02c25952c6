//! Games of a made-up collection against what python-chess read in them (`tests/outside/made_up.txt`, one
//! game a line; `tests/outside/README.md` says how it was made). `.ci/run` does the same with thousands.

#[allow(dead_code, reason = "the bench writes whole collections")]
#[path = "../../benches/collections/generator.rs"]
mod generator;

use sansvoir::game::fen_of;
use sansvoir::pgn::{Fault, Field, Reason, read};

use crate::passages::each_game;

const TOLD: &str = include_str!("../outside/made_up.txt");

#[test]
fn made_up_games_are_read_as_a_library_from_outside_reads_them() {
    let text: String = (1..=300).map(generator::game).collect();
    let mut told = TOLD.lines();
    each_game(text.as_bytes(), |heading, passage| {
        let told = told.next().unwrap();
        let reading = read(&passage);
        // The results are made up too.
        let is_result = |fault: &Fault| matches!(fault.reason, Reason::ResultAgainstBoard { .. });
        assert!(
            reading.faults.iter().all(is_result),
            "game {}",
            passage.number
        );
        let line = reading.game.main_line();
        let numbers = [line.len(), reading.game.sideline_count()].map(|number| number.to_string());
        let fields = [Field::White, Field::Black, Field::Date, Field::Result];
        let ours: Vec<String> = fields
            .map(|field| heading.get(field).unwrap_or_default().into_owned())
            .into_iter()
            .chain(numbers)
            .chain([fen_of(line.end())])
            .collect();
        assert_eq!(ours.join("\t"), told, "game {}", passage.number);
    })
    .unwrap();
    assert_eq!((TOLD.lines().count(), told.next()), (300, None));
}
