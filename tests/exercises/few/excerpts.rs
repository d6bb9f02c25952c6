//! Lines out of a game.

use sansvoir::exercise::bound::Within;
use sansvoir::exercise::{FewSettings, PlanError, excerpts};
use shakmaty::Position;

use super::sessions::{play, settings};
use crate::published::{ANDERSSEN_DUFRESNE, BOGOLJUBOV_ALEKHINE, GUNDERSEN_FAUL, line};

#[test]
fn lines_from_a_game_are_those_that_were_played() {
    let game = line(BOGOLJUBOV_ALEKHINE);
    let from = excerpts(&game, 10, 4).unwrap();
    assert!(from.len() >= 2, "{}", from.len());
    let mut free = 0;
    for script in &from {
        let cut = script.line(0).unwrap();
        assert_eq!(cut.len(), 4);
        assert!(cut.start().position().board().occupied().count() <= 10);
        let at = (free..=game.len())
            .find(|at| game.position(*at) == cut.start().position())
            .expect("a position of the game");
        let played = game.plies()[at..at + 4].iter().map(|ply| ply.san);
        assert!(cut.plies().iter().map(|ply| ply.san).eq(played));
        assert!(!cut.end().is_game_over());
        free = at + 4;
    }
    let log = play(
        &FewSettings {
            pieces: Within::nearest(10),
            from: Some(from.clone()),
            ..settings(2)
        },
        None,
    );
    assert_eq!(log.answered.len(), 10);
    for (n, (_, fen, _)) in log.pieces.iter().enumerate() {
        assert_eq!(*fen, from[n % from.len()].start().unwrap().fen());
    }
}

#[test]
fn no_line_from_a_game_ends_with_mate() {
    let game = line(GUNDERSEN_FAUL);
    assert!(game.end().is_checkmate());
    for plies in 0..=6 {
        for script in excerpts(&game, 32, plies).unwrap() {
            let cut = script.line(0).unwrap();
            assert_eq!(cut.len(), plies);
            assert!(!cut.end().legal_moves().is_empty());
        }
    }
}

#[test]
fn a_game_with_too_many_pieces_says_how_few_it_gets_down_to() {
    let game = line(ANDERSSEN_DUFRESNE);
    let fewest = game.end().board().occupied().count();
    assert_eq!(
        excerpts(&game, 5, 4).unwrap_err(),
        PlanError::TooManyPieces { asked: 5, fewest }
    );
    let late = line("e4 d5 exd5");
    assert_eq!(
        excerpts(&late, 31, 4).unwrap_err(),
        PlanError::NothingPlayedOn { pieces: 31 }
    );
    assert_eq!(excerpts(&late, 31, 0).unwrap().len(), 1);
}

#[test]
fn settings_read_back_from_json() {
    let from = excerpts(&line(BOGOLJUBOV_ALEKHINE), 10, 4).unwrap();
    let settings = FewSettings {
        from: Some(from),
        ..settings(1)
    };
    let json = serde_json::to_string(&settings).unwrap();
    assert_eq!(
        serde_json::from_str::<FewSettings>(&json).unwrap(),
        settings
    );
}
