//! The demo games hold what they promise, and are clean.

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

use sansvoir::game::{GameResult, Line, Ply};
use sansvoir::pgn::{Collection, Reading, Reason, read_twice};
use shakmaty::{CastlingSide, Color, Position, Role};

fn readings(file: &str) -> Vec<Reading> {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("games-demo")
        .join(file);
    let text = fs::read(path).unwrap();
    Collection::new(text.as_slice())
        .map(|passage| read_twice(&passage.unwrap()))
        .collect()
}

/// Everything worth training on that a game holds.
fn features(reading: &Reading) -> BTreeSet<String> {
    let game = &reading.game;
    let line: Line = game.main_line();
    let mut found = BTreeSet::new();
    let mut note = |feature: String| {
        found.insert(feature);
    };
    for (n, ply) in line.plies().iter().enumerate() {
        let after = line.position(n + 1);
        if let Some(wing) = ply.mv.castling_side() {
            note(castling(ply, wing));
        }
        if ply.mv.is_en_passant() {
            note("en passant".into());
        }
        match ply.mv.promotion() {
            Some(Role::Queen) => note("promotion".into()),
            Some(_) => note("underpromotion".into()),
            None => {}
        }
        if after.checkers().count() == 2 {
            note("double check".into());
        }
    }
    if line.end().is_checkmate() {
        note("mate".into());
    }
    if line.end().is_stalemate() {
        note("stalemate".into());
    }
    if game.start.mode().is_chess960() {
        note("Chess960".into());
    } else if !game.start.is_usual() {
        note("FEN start".into());
    }
    if game.sideline_count() > 0 {
        note("sidelines".into());
    }
    let clock = |id| {
        let comments = &game.node(id).comments;
        comments.iter().any(|comment| has_clock(comment))
    };
    if game.main_nodes().all(clock) {
        note("clocks".into());
    }
    found
}

/// Tells whether a comment holds the time that a side has left, as `[%clk h:mm:ss]`: common practice, no
/// source.
fn has_clock(comment: &str) -> bool {
    let time = comment
        .split_once("[%clk ")
        .and_then(|(_, rest)| rest.split_once(']'));
    time.is_some_and(|(time, _)| {
        let parts: Vec<&str> = time.split(':').collect();
        parts.len() == 3 && parts.iter().all(|part| part.parse::<f64>().is_ok())
    })
}

fn castling(ply: &Ply, wing: CastlingSide) -> String {
    let side = match ply.side() {
        Color::White => "White",
        Color::Black => "Black",
    };
    let wing = match wing {
        CastlingSide::KingSide => "short",
        CastlingSide::QueenSide => "long",
    };
    format!("{side} castles {wing}")
}

#[test]
fn the_demo_games_are_read_without_a_fault() {
    for (file, count) in [
        ("club-evening.pgn", 16),
        ("first-steps.pgn", 3),
        ("miniatures.pgn", 5),
        ("dialects.pgn", 5),
    ] {
        let readings = readings(file);
        assert_eq!(readings.len(), count, "{file}");
        for (at, reading) in readings.iter().enumerate() {
            let number = at + 1;
            // The dialects are what they are.
            let mut faults = reading.faults.iter();
            let is_dialect = faults.all(|fault| matches!(fault.reason, Reason::Respelled(_)));
            assert!(
                reading.is_clean() || (file == "dialects.pgn" && is_dialect),
                "{file}, game {number}: {:?}",
                reading.faults
            );
        }
    }
}

#[test]
fn the_club_evening_holds_everything_worth_training_on() {
    let readings = readings("club-evening.pgn");
    let together: BTreeSet<String> = readings.iter().flat_map(features).collect();
    for feature in [
        "White castles short",
        "White castles long",
        "Black castles short",
        "Black castles long",
        "en passant",
        "promotion",
        "underpromotion",
        "double check",
        "mate",
        "stalemate",
        "FEN start",
        "Chess960",
        "sidelines",
        "clocks",
    ] {
        assert!(
            together.contains(feature),
            "no game has {feature}: {together:?}"
        );
    }
    let lengths: Vec<usize> = readings
        .iter()
        .map(|reading| reading.game.main_nodes().count())
        .collect();
    assert!(
        lengths.iter().all(|plies| (20..=120).contains(plies)),
        "{lengths:?}"
    );
}

#[test]
fn a_demo_game_that_ends_in_mate_says_who_won() {
    for (at, reading) in readings("club-evening.pgn").iter().enumerate() {
        let line = reading.game.main_line();
        let expected = match line.end() {
            end if end.is_checkmate() => end
                .turn()
                .fold_wb(GameResult::BlackWins, GameResult::WhiteWins),
            end if end.is_stalemate() => GameResult::Draw,
            _ => continue,
        };
        assert_eq!(reading.game.result, Some(expected), "game {}", at + 1);
    }
}

#[test]
fn a_miniature_ends_with_the_one_mate_that_there_is() {
    for (at, reading) in readings("miniatures.pgn").iter().enumerate() {
        let line = reading.game.main_line();
        let before = line.position(line.len() - 1);
        let mates = before.legal_moves().into_iter().filter(|mv| {
            let after = before.clone().play(*mv);
            after.is_ok_and(|after| after.is_checkmate())
        });
        let mates: Vec<_> = mates.collect();
        assert_eq!(mates, [line.plies()[line.len() - 1].mv], "game {}", at + 1);
        let winner = line
            .end()
            .turn()
            .fold_wb(GameResult::BlackWins, GameResult::WhiteWins);
        assert_eq!(reading.game.result, Some(winner), "game {}", at + 1);
    }
}

#[test]
fn the_dialects_are_understood_and_the_foreign_letters_are_told() {
    let letters: Vec<Option<&str>> = readings("dialects.pgn")
        .iter()
        .map(|reading| reading.letters.as_ref().map(|letters| letters.letters))
        .collect();
    assert_eq!(letters, [None, Some("SLTDK"), None, None, None]);
}
