use sansvoir::pgn::Reason;
use sansvoir::rules::{MoveFault, resolve_move};
use shakmaty::{CastlingMode, Chess};

use super::{game, is_understood, uci};

/// Reads moves after a FEN and returns them in UCI form.
fn after(fen: &str, moves: &str) -> String {
    let reading = game(format!("[SetUp \"1\"]\n[FEN \"{fen}\"]\n\n{moves} *"));
    assert!(reading.is_whole(), "{moves}: {:?}", reading.faults);
    uci(&reading)
}

#[test]
fn one_game_in_many_spellings_is_one_game() {
    let moves = uci(&game(
        "1. e4 e5 2. Nf3 d5 3. exd5 e4 4. Ng5 f5 5. d4 exd3 6. Bxd3 Nf6 7. O-O Bd6 *",
    ));
    assert_eq!(moves.split(' ').count(), 14);
    for text in [
        "e4 e5 Nf3 d5 exd5 e4 Ng5 f5 d4 exd3 Bxd3 Nf6 O-O Bd6",
        "1.e4 e5 2.Nf3 d5 3.exd5 e4 4.Ng5 f5 5.d4 exd3 6.Bxd3 Nf6 7.0-0 Bd6",
        "1e4 e5 2Nf3 d5 3ed5 e4 4Ng5 f5 5d4 ed3 6Bd3 Nf6 7o-o Bd6",
        "1 e4 1... e5 2 Nf3 2 ... d5 3 e4:d5 e5-e4 4 N-g5 f5 5 d4 e4:d3 e.p. 6 B:d3 Nf6 7 0-0 Bd6",
        "1. e2-e4 e7-e5 2. Ng1-f3 d7-d5 3. e4xd5 e5-e4 4. Nf3-g5 f7-f5 5. d2-d4 e4xd3ep 6. Bf1xd3 \
         Ng8-f6 7. O-O Bf8-d6",
        "1. e2e4 e7e5 2. g1f3 d7d5 3. e4d5 e5e4 4. f3g5 f7f5 5. d2d4 e4d3 6. f1d3 g8f6 7. e1g1 f8d6",
        "1.♙e4 ♟e5 2.♘f3 ♟d5 3.exd5 e4 4.♘g5 f5 5.d4 exd3e.p. 6.♗xd3 ♞f6 7.0–0 ♝d6",
        "1. e4! e5?! 2. Nf3$1 d5?? 3. exd5± e4 4. Ng5+/- f5∞ 5. d4 = exd3 6. Bxd3+= Nf6 7. O-O!! Bd6=",
        "1.Pe4 Pe5 2.Nxf3 d5 3.exd5 e4 4.Nf3g5 f5 5.d4 exd3 6.Bfxd3+ N8f6# 7.O-O Bf8d6",
        "1... e4 1... e5 2... nf3 d5 eXd5 e4 ng5 f5 d4 exd3 6...Bxd3 nf6 o-o Bd6",
    ] {
        let text = text.replace("N-g5", "Ng5");
        let reading = game(format!("{text} *"));
        assert!(reading.is_whole(), "{text}: {:?}", reading.faults);
        assert_eq!(uci(&reading), moves, "{text}");
        assert!(reading.letters.is_none());
    }
}

#[test]
fn promotions_are_read_in_every_spelling() {
    let fen = "5n2/4P1k1/8/8/8/8/8/4K3 w - - 0 1";
    for text in [
        "e8=Q", "e8Q", "e8(Q)", "e8=(Q)", "e8/Q", "e7e8q", "e7-e8Q+", "e8=q", "e8♕", "e8=♕",
    ] {
        assert_eq!(after(fen, text), "e7e8q", "{text}");
    }
    for text in ["exf8=N", "exf8N", "ef8(N)", "e7xf8/N", "e7:f8N", "e7f8n"] {
        assert_eq!(after(fen, text), "e7f8n", "{text}");
    }
}

#[test]
fn marks_of_check_and_capture_may_lack_and_may_be_too_many() {
    let fen = "4k3/8/8/3p4/8/1B6/8/Q3K3 w - - 0 1";
    for text in ["Qa8+", "Qa8", "Qa8#", "Qa8++", "Qxa8", "Qa1a8", "Qa1-a8 +"] {
        assert_eq!(after(fen, text), "a1a8", "{text}");
    }
    for text in [
        "Bxd5", "Bd5", "B:d5", "Bd5:", "Bbxd5", "B3xd5", "Bb3d5", "B×d5", "bxd5", "bd5",
    ] {
        assert_eq!(after(fen, text), "b3d5", "{text}");
    }
}

#[test]
fn a_mate_that_is_none_is_told() {
    let reading = game("1. e4 e5 2. Qh5# Nc6 3. Bc4 Nf6 4. Qxf7# *");
    let told: Vec<&str> = reading.faults.iter().map(|fault| &*fault.token).collect();
    assert_eq!((told, reading.plies), (vec!["Qh5#"], 7));
}

#[test]
fn a_small_b_is_the_pawn_first_and_the_bishop_only_where_no_pawn_can() {
    let both = "4k3/8/8/8/8/2p5/1P1B4/4K3 w - - 0 1";
    assert_eq!(after(both, "bxc3"), "b2c3");
    assert_eq!(after(both, "Bxc3"), "d2c3");
    let reading = game("1. e4 e5 2. bc4 *");
    assert_eq!(uci(&reading), "e2e4 e7e5 f1c4");
    assert_eq!(reading.faults[0].reason, Reason::BishopInLowerCase);
    assert!(reading.is_whole());
}

#[test]
fn castling_in_chess960_is_read_in_every_spelling() {
    let tags = "[Variant \"Fischer Random\"]\n[SetUp \"1\"]\n[FEN \"1r2k1r1/1p4p1/8/8/8/8/1P4P1/1R2K1R1 w GBgb - 0 1\"]\n\n";
    for (text, moves) in [
        ("O-O O-O-O", "e1g1 e8b8"),
        ("0-0-0 0-0", "e1b1 e8g8"),
        ("e1g1 e8c8", "e1g1 e8b8"),
        ("e1b1 e8g8", "e1b1 e8g8"),
        ("Ke1g1 Ke8c8", "e1g1 e8b8"),
    ] {
        let reading = game(format!("{tags}{text} *"));
        assert!(is_understood(&reading), "{text}: {:?}", reading.faults);
        assert_eq!(uci(&reading), moves, "{text}");
    }
}

#[test]
fn pieces_of_other_languages_are_recognized_and_reported() {
    // Letters: PGN standard 1994.03.12, 8.2.3.2; the last six are common knowledge.
    for (language, letters) in [
        ("Czech", "JSVDK"),
        ("Danish", "SLTDK"),
        ("Dutch", "PLTDK"),
        ("Estonian", "ROVLK"),
        ("Finnish", "RLTDK"),
        ("French", "CFTDR"),
        ("German", "SLTDK"),
        ("Hungarian", "HFBVK"),
        ("Icelandic", "RBHDK"),
        ("Italian", "CATDR"),
        ("Norwegian", "SLTDK"),
        ("Polish", "SGWHK"),
        ("Portuguese", "CBTDR"),
        ("Romanian", "CNTDR"),
        ("Spanish", "CATDR"),
        ("Swedish", "SLTDK"),
        ("Turkish", "AFKVŞ"),
        ("Russian", "КСЛФк"),
        ("Ukrainian", "КСЛФк"),
        ("Bulgarian", "КОТДЦ"),
        ("Serbian", "СЛТДК"),
        ("Greek", "ΙΑΠΒΡ"),
    ] {
        let english = "1. e4 d5 2. exd5 Qxd5 3. Nc3 Qa5 4. Nf3 Nf6 5. Bc4 Bg4 6. h3 Bxf3 7. Qxf3 c6 \
                       8. O-O Kd7 9. Re1 b5 10. a4 bxc4 11. Kf1";
        let text: String = english
            .chars()
            .map(|char| match "NBRQK".find(char) {
                Some(at) => letters.chars().nth(at).unwrap(),
                None => char,
            })
            .collect();
        // The Russian king has two letters, and castling can be typed in Cyrillic too.
        let text = text.replace('к', "Кр");
        let text = if letters.is_ascii() {
            text
        } else {
            text.replace("O-O", "О-О")
        };
        let reading = game(format!("{text} *"));
        assert!(is_understood(&reading), "{language}: {:?}", reading.faults);
        assert_eq!(
            uci(&reading),
            uci(&game(format!("{english} *"))),
            "{language}"
        );
        let found = reading.letters.expect(language);
        assert!(found.languages.contains(&language), "{language}: {found:?}");
    }
}

#[test]
fn letters_that_could_mean_two_games_stay_a_fault() {
    // R is the knight in Estonian, Finnish and Icelandic, the king in Romance languages.
    let fen = "k7/8/8/8/8/8/4N3/4K3 w - - 0 1";
    let reading = game(format!("[SetUp \"1\"]\n[FEN \"{fen}\"]\n\n1. Rd4 *"));
    assert!(reading.letters.is_some(), "only a knight gets to d4");
    let fen = "k7/8/8/8/8/8/3N4/4K3 w - - 0 1";
    let reading = game(format!("[SetUp \"1\"]\n[FEN \"{fen}\"]\n\n1. Rf1 *"));
    assert!(reading.letters.is_none(), "knight and king both get to f1");
    assert!(!reading.is_whole());
}

#[test]
fn one_illegal_move_is_no_reason_to_change_the_language() {
    let reading = game("1. e4 e5 2. Nf3 Nc6 3. Bb5 a6 4. Bxb7 Nf6 *");
    assert!(reading.letters.is_none());
    assert_eq!(reading.game.main_line().len(), 6);
}

#[test]
fn one_move_is_resolved_as_people_type_it() {
    let start = Chess::new();
    let resolve = |text: &str| resolve_move(text, &start);
    for text in [
        "Nf3", " nf3 ", "Ng1f3", "g1f3", "Ng1-f3", "♘f3", "Nf3!", "N1f3",
    ] {
        let text = text.trim_end_matches('!');
        assert_eq!(
            resolve(text)
                .unwrap()
                .to_uci(CastlingMode::Standard)
                .to_string(),
            "g1f3",
            "{text}"
        );
    }
    assert_eq!(resolve("hello"), Err(MoveFault::Unreadable));
    assert_eq!(resolve(""), Err(MoveFault::Unreadable));
    assert_eq!(resolve("--"), Err(MoveFault::Unreadable));
    assert!(matches!(
        resolve("0-0"),
        Err(MoveFault::CannotCastle { .. })
    ));
    assert!(matches!(resolve("Nf4"), Err(MoveFault::CannotGo { .. })));
}
