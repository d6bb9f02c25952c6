use sansvoir::pgn::check;
use shakmaty::fen::Fen;
use shakmaty::{Chess, EnPassantMode};

use super::{game, witnessed};
use crate::passages::{count_plies, only};

/// The standard's rule: the en passant square is given after every double step.
fn standard_fen(position: &Chess) -> String {
    Fen::from_position(position, EnPassantMode::Always).to_string()
}

#[test]
fn published_games_reach_their_published_positions() {
    let mut games = 0;
    for entry in include_str!("published.txt")
        .split("\n\n")
        .filter(|e| e.contains("\nmoves "))
    {
        let field = |key: &str| entry.lines().find_map(|line| line.strip_prefix(key));
        let name = field("game ").unwrap();
        let tags = field("start ").map_or(String::new(), |fen| {
            format!("[SetUp \"1\"]\n[FEN \"{fen}\"]\n\n")
        });
        let passage = only(format!("{tags}{}\n", field("moves ").unwrap()));
        let reading = witnessed(&passage);
        assert!(reading.is_clean(), "{name}: {:?}", reading.faults);
        let line = reading.game.main_line();
        for after in entry.lines().filter_map(|line| line.strip_prefix("after ")) {
            let (plies, fen) = after.split_once(' ').unwrap();
            let position = line.position(plies.parse().unwrap());
            assert_eq!(standard_fen(position), fen, "{name} after {plies}");
        }
        assert_eq!(standard_fen(line.end()), field("final ").unwrap(), "{name}");
        assert_eq!(count_plies(&passage).unwrap(), line.len(), "{name}");
        let checked = check(&passage);
        assert!(checked.faults.is_empty() && checked.is_whole(), "{name}");
        assert_eq!(checked.plies, line.len(), "{name}");
        games += 1;
    }
    assert_eq!(games, 10);
}

// PGN standard 1994.03.12, 2.3: the sample game as it is printed, tags included; final position
// computed with python-chess 1.11.2.
#[test]
fn the_standards_sample_game_is_read_whole() {
    let entry = include_str!("published.txt").split("\n\n").nth(1).unwrap();
    let moves = entry
        .lines()
        .find_map(|line| line.strip_prefix("moves "))
        .unwrap();
    let text = format!(
        "[Event \"F/S Return Match\"]\n[Site \"Belgrade, Serbia JUG\"]\n[Date \"1992.11.04\"]\n\
         [Round \"29\"]\n[White \"Fischer, Robert J.\"]\n[Black \"Spassky, Boris V.\"]\n\
         [Result \"1/2-1/2\"]\n\n{}\n",
        moves.replace(" 10.", "\n10.").replace(" 20.", "\n20.")
    );
    let reading = game(text);
    assert!(reading.is_clean(), "{:?}", reading.faults);
    assert_eq!(reading.game.main_line().len(), 85);
    assert_eq!(reading.game.tags.get("Round"), Some("29"));
    let end = "8/8/4R1p1/2k3p1/1p4P1/1P1b1P2/3K1n2/8 b - - 2 43";
    assert_eq!(sansvoir::game::fen_of(reading.game.main_line().end()), end);
}

// FIDE Laws of Chess 2023, Appendix C: the sample score in its three spellings. In the copy used the
// long form has 8.Qd4d3 where the others have 8.Qe3. Positions computed with python-chess 1.11.2.
#[test]
fn the_laws_sample_score_is_read_in_all_three_spellings() {
    let end = |text: &str| {
        let reading = game(format!("{text} *"));
        assert!(
            super::is_understood(&reading),
            "{text}: {:?}",
            reading.faults
        );
        assert_eq!(reading.game.main_line().len(), 21);
        sansvoir::game::fen_of(reading.game.main_line().end())
    };
    let end_on_e3 = "r1bqr1k1/ppp1bppp/2nn4/6B1/8/4QN2/PPPN1PPP/1K1R1B1R b - - 9 11";
    let d3_instead = "r1bqr1k1/ppp1bppp/2nn4/6B1/8/3Q1N2/PPPN1PPP/1K1R1B1R b - - 9 11";
    assert_eq!(
        end(
            "1.e4 e5 2.Nf3 Nf6 3.d4 exd4 4.e5 Ne4 5.Qxd4 d5 6.exd6 e.p. Nxd6 7.Bg5 Nc6 8.Qe3+ Be7 \
             9.Nbd2 0-0 10.0-0-0 Re8 11.Kb1 (=)"
        ),
        end_on_e3
    );
    assert_eq!(
        end(
            "1. e4 e5 2. Nf3 Nf6 3. d4 ed4 4. e5 Ne4 5. Qd4 d5 6. ed6 Nd6 7. Bg5 Nc6 8. Qe3 Be7 \
             9 Nbd2 0-0 10. 0-0-0 Re8 11. Kb1 (=)"
        ),
        end_on_e3
    );
    assert_eq!(
        end(
            "1. e2e4 e7e5 2. Ng1f3 Ng8f6 3. d2d4 e5xd4 4. e4e5 Nf6e4 5. Qd1xd4 d7d5 6. e5xd6 e.p. \
             Ne4xd6 7. Bc1g5 Nb8c6 8. Qd4d3 Bf8e7 9. Nb1d2 0-0 10. 0-0-0 Rf8e8 11. Kc1b1 (=)"
        ),
        d3_instead
    );
}

// PGN standard 1994.03.12, 8.2.3.4: only legal moves count for disambiguation.
#[test]
fn a_pinned_piece_needs_no_telling_apart() {
    let fen = |fen: &str, mv: &str| game(format!("[SetUp \"1\"]\n[FEN \"{fen}\"]\n\n{mv} *"));
    let free = "4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1";
    let pinned = "4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1";
    assert!(fen(free, "Nce2").is_clean());
    assert!(fen(free, "Nge2").is_clean());
    assert!(!fen(free, "Ne2").is_whole());
    assert!(fen(pinned, "Ne2").is_clean());
    assert!(fen(pinned, "Nge2").is_clean());
    assert!(!fen(pinned, "Nce2").is_whole());
    // The king stands on e6 here: on e8 it would be in check from a4 with White to move.
    let queens = "8/8/4k3/8/Q6Q/8/8/K6Q w - - 0 1";
    for mv in ["Qae4+", "Qh4e4+", "Q1e4+", "Q4e1+", "Q1e1+"] {
        assert!(fen(queens, mv).is_clean(), "{mv}");
    }
}

// PGN standard 1994.03.12, 16.1.3.1: the FENs after each of the first moves.
#[test]
fn the_standards_first_fens_are_reached() {
    let reading = game("1. e4 c5 2. Nf3 *");
    let line = reading.game.main_line();
    for (plies, fen) in [
        (
            0,
            "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
        ),
        (
            1,
            "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq e3 0 1",
        ),
        (
            2,
            "rnbqkbnr/pp1ppppp/8/2p5/4P3/8/PPPP1PPP/RNBQKBNR w KQkq c6 0 2",
        ),
        (
            3,
            "rnbqkbnr/pp1ppppp/8/2p5/4P3/5N2/PPPP1PPP/RNBQKB1R b KQkq - 1 2",
        ),
    ] {
        assert_eq!(standard_fen(line.position(plies)), fen);
    }
}
