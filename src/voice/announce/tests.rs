use super::*;
use crate::voice::score::{FIDE_SAMPLE, PGN_SAMPLE, from_fen, usual};

/// Announces the n-th half move (0 is White's first) in every style.
fn styles(score: &str, ply: usize) -> [String; 4] {
    let line = usual(score);
    Announce::ALL.map(|style| style.ply(&line.plies()[ply]))
}

#[test]
fn a_style_is_read_back_by_its_name() {
    for style in Announce::ALL {
        assert_eq!(style.to_string().parse(), Ok(style));
    }
    assert_eq!(
        "loud".parse::<Announce>().unwrap_err().to_string(),
        "\"loud\" is no way to announce moves: choose words, san, long or spelled"
    );
}

/// Moves of the PGN standard's sample game (1994.03.12, section 2.3).
#[test]
fn the_moves_of_the_standards_sample_game_are_announced_in_every_style() {
    let table = [
        (
            0,
            [
                "Move 1, White: pawn to e4.",
                "1. e4",
                "1. e2-e4",
                "Move 1, White: Bauer to Eva vier.",
            ],
        ),
        (
            8,
            [
                "Move 5, White: castles short.",
                "5. O-O",
                "5. O-O",
                "Move 5, White: Kurze Rochade.",
            ],
        ),
        (
            19,
            [
                "Move 10, Black: knight from b8 to d7.",
                "10... Nbd7",
                "10... Nb8-d7",
                "Move 10, Black: Springer from Bella acht to David sieben.",
            ],
        ),
        (
            22,
            [
                "Move 12, White: pawn from c4 takes on b5.",
                "12. cxb5",
                "12. c4xb5",
                "Move 12, White: Bauer from Cesar vier takes on Bella fuenf.",
            ],
        ),
        (
            46,
            [
                "Move 24, White: bishop takes on f7, check.",
                "24. Bxf7+",
                "24. Bc4xf7+",
                "Move 24, White: Laeufer takes on Felix sieben, check.",
            ],
        ),
        (
            70,
            [
                "Move 36, White: rook to a6, check.",
                "36. Ra6+",
                "36. Ra7-a6+",
                "Move 36, White: Turm to Anna sechs, check.",
            ],
        ),
    ];
    for (ply, said) in table {
        assert_eq!(styles(PGN_SAMPLE, ply), said);
    }
}

/// Moves of the sample score of the FIDE Laws' Appendix C.
#[test]
fn en_passant_and_both_castlings_are_announced_in_every_style() {
    assert_eq!(
        styles(FIDE_SAMPLE, 10),
        [
            "Move 6, White: pawn from e5 takes on d6, en passant.",
            "6. exd6",
            "6. e5xd6 e.p.",
            "Move 6, White: Bauer from Eva fuenf takes on David sechs, en passant.",
        ]
    );
    assert_eq!(
        styles(FIDE_SAMPLE, 17),
        [
            "Move 9, Black: castles short.",
            "9... O-O",
            "9... O-O",
            "Move 9, Black: Kurze Rochade.",
        ]
    );
    assert_eq!(
        styles(FIDE_SAMPLE, 18),
        [
            "Move 10, White: castles long.",
            "10. O-O-O",
            "10. O-O-O",
            "Move 10, White: Lange Rochade.",
        ]
    );
}

/// Gundersen - Faul, Melbourne 1928/29 (quoted in Winter, Chess Facts and Fables, p. 99).
#[test]
fn mate_by_en_passant_is_announced_in_every_style() {
    let score = "1. e4 e6 2. d4 d5 3. e5 c5 4. c3 cxd4 5. cxd4 Bb4+ 6. Nc3 Nc6 7. Nf3 Nge7 8. Bd3 O-O \
        9. Bxh7+ Kxh7 10. Ng5+ Kg6 11. h4 Nxd4 12. Qg4 f5 13. h5+ Kh6 14. Nxe6+ g5 15. hxg6#";
    assert_eq!(
        styles(score, 28),
        [
            "Move 15, White: pawn from h5 takes on g6, en passant, checkmate.",
            "15. hxg6#",
            "15. h5xg6# e.p.",
            "Move 15, White: Bauer from Hector fuenf takes on Gustav sechs, en passant, checkmate.",
        ]
    );
}

/// Bogoljubov - Alekhine, Hastings 1922 (Alekhine, My Best Games of Chess): 33...c1=Q+.
#[test]
fn promotion_with_check_is_announced_in_every_style() {
    let score = "1. d4 f5 2. c4 Nf6 3. g3 e6 4. Bg2 Bb4+ 5. Bd2 Bxd2+ 6. Nxd2 Nc6 7. Ngf3 O-O 8. O-O d6 \
        9. Qb3 Kh8 10. Qc3 e5 11. e3 a5 12. b3 Qe8 13. a3 Qh5 14. h4 Ng4 15. Ng5 Bd7 16. f3 Nf6 17. f4 \
        e4 18. Rfd1 h6 19. Nh3 d5 20. Nf1 Ne7 21. a4 Nc6 22. Rd2 Nb4 23. Bh1 Qe8 24. Rg2 dxc4 25. bxc4 \
        Bxa4 26. Nf2 Bd7 27. Nd2 b5 28. Nd1 Nd3 29. Rxa5 b4 30. Rxa8 bxc3 31. Rxe8 c2 32. Rxf8+ Kh7 \
        33. Nf2 c1=Q+";
    assert_eq!(
        styles(score, 65),
        [
            "Move 33, Black: pawn to c1, becomes a queen, check.",
            "33... c1=Q+",
            "33... c2-c1=Q+",
            "Move 33, Black: Bauer to Cesar eins, becomes a Dame, check.",
        ]
    );
}

/// A pawn that takes on the last rank becomes a knight and gives check.
#[test]
fn underpromotion_by_capture_is_announced_in_every_style() {
    let score = "1. d4 d5 2. c4 e5 3. dxe5 d4 4. e3 Bb4+ 5. Bd2 dxe3 6. Bxb4 exf2+ 7. Ke2 fxg1=N+";
    assert_eq!(
        styles(score, 13),
        [
            "Move 7, Black: pawn from f2 takes on g1, becomes a knight, check.",
            "7... fxg1=N+",
            "7... f2xg1=N+",
            "Move 7, Black: Bauer from Felix zwei takes on Gustav eins, becomes a Springer, check.",
        ]
    );
}

/// Barbier and Saavedra, Glasgow Weekly Citizen, 1895: the study's 6.c8=R.
#[test]
fn underpromotion_to_a_rook_is_announced_without_check() {
    let line = from_fen(
        "8/8/1KP5/3r4/8/8/8/k7 w - - 0 1",
        "1. c7 Rd6+ 2. Kb5 Rd5+ 3. Kb4 Rd4+ 4. Kb3 Rd3+ 5. Kc2 Rd4 6. c8=R",
    );
    let last = line.plies().last().unwrap();
    assert_eq!(
        Announce::Words.ply(last),
        "Move 6, White: pawn to c8, becomes a rook."
    );
    assert_eq!(Announce::Long.ply(last), "6. c7-c8=R");
}

/// PGN standard 8.2.3.4: a pinned knight does not count. The three queens are of our own making.
#[test]
fn the_square_left_is_said_only_where_the_score_tells_like_pieces_apart() {
    let say = |fen: &str, san: &str| Announce::Words.ply(&from_fen(fen, san).plies()[0]);
    assert_eq!(
        say("4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1", "Nge2"),
        "Move 1, White: knight from g1 to e2."
    );
    assert_eq!(
        say("4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1", "Ne2"),
        "Move 1, White: knight to e2."
    );
    assert_eq!(
        say("5k2/8/8/8/Q6Q/8/8/K6Q w - - 0 1", "Qh4e4"),
        "Move 1, White: queen from h4 to e4."
    );
}

#[test]
fn both_plies_of_a_move_make_one_line() {
    let line = usual(FIDE_SAMPLE);
    let lines = |style: Announce| style.plies(&line.plies()[15..20]);
    assert_eq!(
        lines(Announce::Words),
        [
            "Move 8, Black: bishop to e7.",
            "Move 9, White: knight from b1 to d2. Black: castles short.",
            "Move 10, White: castles long. Black: rook to e8.",
        ]
    );
    assert_eq!(
        lines(Announce::San),
        ["8... Be7", "9. Nbd2 O-O", "10. O-O-O Re8"]
    );
    assert_eq!(
        lines(Announce::Long),
        ["8... Bf8-e7", "9. Nb1-d2 O-O", "10. O-O-O Rf8-e8"]
    );
}

#[test]
fn a_ply_is_named_inside_a_sentence() {
    let line = usual(FIDE_SAMPLE);
    let named = Announce::ALL.map(|style| style.named(&line.plies()[14]));
    assert_eq!(
        named,
        [
            "White's move 8, queen to e3, check",
            "8. Qe3+",
            "8. Qd4-e3+",
            "White's move 8, Dame to Eva drei, check",
        ]
    );
}
