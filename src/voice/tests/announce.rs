//! How moves are announced.

use super::scores::{FIDE_SAMPLE, PGN_SAMPLE, from_fen, usual};
use super::*;

/// Every style.
pub(super) const STYLES: [Announce; 4] = [
    Announce::Words,
    Announce::San,
    Announce::Long,
    Announce::Spelled,
];

/// Gundersen - Faul, Melbourne 1928/29 (quoted in Winter, Chess Facts and Fables, p. 99).
const MATE_BY_EN_PASSANT: &str = "1. e4 e6 2. d4 d5 3. e5 c5 4. c3 cxd4 5. cxd4 Bb4+ 6. Nc3 Nc6 7. Nf3 Nge7 8. Bd3 O-O \
        9. Bxh7+ Kxh7 10. Ng5+ Kg6 11. h4 Nxd4 12. Qg4 f5 13. h5+ Kh6 14. Nxe6+ g5 15. hxg6#";

/// Bogoljubov - Alekhine, Hastings 1922 (Alekhine, My Best Games of Chess): 33...c1=Q+.
const PROMOTION_WITH_CHECK: &str = "1. d4 f5 2. c4 Nf6 3. g3 e6 4. Bg2 Bb4+ 5. Bd2 Bxd2+ 6. Nxd2 Nc6 7. Ngf3 O-O 8. O-O d6 \
        9. Qb3 Kh8 10. Qc3 e5 11. e3 a5 12. b3 Qe8 13. a3 Qh5 14. h4 Ng4 15. Ng5 Bd7 16. f3 Nf6 17. f4 \
        e4 18. Rfd1 h6 19. Nh3 d5 20. Nf1 Ne7 21. a4 Nc6 22. Rd2 Nb4 23. Bh1 Qe8 24. Rg2 dxc4 25. bxc4 \
        Bxa4 26. Nf2 Bd7 27. Nd2 b5 28. Nd1 Nd3 29. Rxa5 b4 30. Rxa8 bxc3 31. Rxe8 c2 32. Rxf8+ Kh7 \
        33. Nf2 c1=Q+";

/// A pawn that takes on the last rank becomes a knight and gives check.
const UNDERPROMOTION: &str =
    "1. d4 d5 2. c4 e5 3. dxe5 d4 4. e3 Bb4+ 5. Bd2 dxe3 6. Bxb4 exf2+ 7. Ke2 fxg1=N+";

/// Barbier and Saavedra, Glasgow Weekly Citizen, 1895: the study's 6.c8=R.
const TO_A_ROOK: [&str; 2] = [
    "8/8/1KP5/3r4/8/8/8/k7 w - - 0 1",
    "1. c7 Rd6+ 2. Kb5 Rd5+ 3. Kb4 Rd4+ 4. Kb3 Rd3+ 5. Kc2 Rd4 6. c8=R",
];

#[test]
fn every_style_tells_as_much_as_the_score_does() {
    let mut page = Page::default();
    let mut tell = |heading: &str, line: &Line, plies: &[usize]| {
        page.head(heading);
        for ply in plies {
            let ply = &line.plies()[*ply];
            page.lead(&ply.san.to_string());
            page.say(STYLES.map(|style| style.ply(ply)));
        }
    };
    // PGN standard 1994.03.12, section 2.3.
    let plies = [0, 8, 19, 22, 46, 70];
    tell(
        "The sample game of the PGN standard",
        &usual(PGN_SAMPLE),
        &plies,
    );
    let fide = usual(FIDE_SAMPLE);
    tell("The sample score of the FIDE Laws", &fide, &[10, 17, 18]);
    tell("Mate by en passant", &usual(MATE_BY_EN_PASSANT), &[28]);
    tell("Promotion with check", &usual(PROMOTION_WITH_CHECK), &[65]);
    tell("Underpromotion by capture", &usual(UNDERPROMOTION), &[13]);
    let [fen, score] = TO_A_ROOK;
    tell("Underpromotion to a rook", &from_fen(fen, score), &[10]);
    // PGN standard 8.2.3.4: a pinned knight does not count. The three queens are of our own making.
    for (heading, fen, san) in [
        ("Two knights", "4k3/8/8/8/8/2N5/8/4K1N1 w - - 0 1", "Nge2"),
        (
            "One of them pinned",
            "4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1",
            "Ne2",
        ),
        ("Three queens", "5k2/8/8/8/Q6Q/8/8/K6Q w - - 0 1", "Qh4e4"),
    ] {
        tell(heading, &from_fen(fen, san), &[0]);
    }
    page.head("Several plies: both of a move make one line");
    for style in STYLES {
        page.lead(&format!("{style:?}"));
        page.say(style.plies(&fide.plies()[15..20]));
    }
    page.head("Named inside a sentence");
    page.say(STYLES.map(|style| style.named(&fide.plies()[14])));
    page.hold("announcements");
}
