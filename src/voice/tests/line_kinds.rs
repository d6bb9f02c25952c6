//! The kinds over a position reached by a line: questions, verdicts, truths and whys.

use super::*;
use crate::question::{Illegal, Reason, Truth};
use scores::{MORPHY, PGN_SAMPLE, chess960, from_fen};

/// A kind, the inside of its subject, and replies.
type Case = (&'static str, &'static str, &'static [&'static str]);

/// A question of every kind, with a reply that is right, one that is wrong or right in part, and others.
pub(super) const QUESTIONS: [Case; 18] = [
    ("whereabouts", r#""man":"g1""#, &["f3", "gone"]),
    ("occupant", r#""square":"d6""#, &["black knight", "empty"]),
    (
        "standing",
        r#""color":"white","role":"rook""#,
        &["d1 h1", "a1 h1", "a1 h1 g5 b5"],
    ),
    (
        "attacks",
        r#""square":"g5""#,
        &["e7 f6 h4 h6 f4", "d8 f6", "d8 e7 f4"],
    ),
    (
        "attackers",
        r#""color":"black","square":"e5""#,
        &["c6", "none", "e7 a3 g5 e8"],
    ),
    ("moves", r#""square":"h7""#, &["h6 h5", "h6 g6"]),
    ("legality", r#""move":"e8e3""#, &["illegal", "legal"]),
    ("check", "", &["none", "g5"]),
    ("checks", "", &["none", "Nc4"]),
    ("captures", "", &["Bxg5", "Nc4", "none"]),
    ("hanging", r#""color":"white""#, &["none", "e3"]),
    ("mate", "", &["none", "Nc4"]),
    ("exchange", r#""square":"g5""#, &["0", "3"]),
    ("balance", "", &["even", "-1"]),
    ("rights", r#""color":"black""#, &["none", "both", "long"]),
    ("taken", r#""color":"white""#, &["two pawns", "NP"]),
    ("played", r#""color":"black","number":9"#, &["O-O", "a6"]),
    (
        "rebuild",
        "",
        &[
            "r1bqr1k1/ppp1bppp/2nn4/6B1/8/4QN2/PPPN1PPP/1K1R1B1R",
            "Kb1 Qe3 / Kg8 Qd7",
            "Kc1 Qe3 Rd1 Ra1 Bg5 Nf3 Nd2 a2 b2 c2 f2 g2 h2 / Kg8 Qd8 Bd6 a7 b7 c7 f7 g7 h7 e5",
        ],
    ),
];

/// Prints what is asked at the end of a line, and what comes of each reply and of giving up.
fn tell(page: &mut Page, place: &str, line: &Line, cases: &[Case]) {
    page.head(place);
    for (kind, subject, replies) in cases {
        let asked = of_line(kind, subject);
        page.say([format!("({kind})"), question(&put(line, asked, 2))]);
        for reply in replies.iter().chain(&["pass"]) {
            page.lead(reply);
            let answered = answered(line, asked, reply);
            page.say(told(answered).iter().flat_map(|output| PLAIN.say(output)));
        }
    }
}

/// The sample score of the FIDE Laws' Appendix C.
#[test]
fn every_kind_is_asked_and_answered_in_its_own_words() {
    let mut page = Page::default();
    let line = usual(FIDE_SAMPLE);
    tell(
        &mut page,
        "The sample score of the FIDE Laws",
        &line,
        &QUESTIONS,
    );
    let more: &[Case] = &[
        ("whereabouts", r#""man":"d7""#, &["d5"]),
        ("occupant", r#""square":"e4""#, &["white pawn"]),
        (
            "occupant",
            r#""square":"d5""#,
            &["black pawn", "black rook"],
        ),
        ("occupant", r#""square":"d6""#, &["white queen"]),
        ("standing", r#""color":"white","role":"pawn""#, &["c2"]),
        ("standing", r#""color":"black","role":"queen""#, &["none"]),
        ("attacks", r#""square":"e8""#, &["d8 e6"]),
        ("attacks", r#""square":"h2""#, &["h3 f3"]),
        ("attacks", r#""square":"d2""#, &["d4"]),
        ("attacks", r#""square":"b1""#, &["b4", "b1 a1 c1"]),
        ("attacks", r#""square":"a3""#, &["b4"]),
        ("attacks", r#""square":"h1""#, &[]),
        ("attackers", r#""color":"white","square":"e7""#, &["none"]),
        ("attackers", r#""color":"black","square":"a1""#, &["a8"]),
        ("moves", r#""square":"a8""#, &[]),
        ("moves", r#""square":"h1""#, &["h2"]),
        ("taken", r#""color":"black""#, &["NP"]),
        (
            "played",
            r#""color":"white","number":8"#,
            &["Bb5", "Nb1a3", "Qxe7", "Qd1d4", "e5d6"],
        ),
        ("rebuild", "", &["Kb1 / Kg8"]),
        // A rook that stands where it was before castling too, a king of the other side.
        (
            "rebuild",
            "",
            &["r1bqr1K1/ppp1bppp/2nn4/6B1/8/4QN2/PPPN1PPP/RK1R1B1R"],
        ),
    ];
    tell(&mut page, "The same position", &line, more);
    page.hold("kinds_over_a_line");
    let kinds = QUESTIONS.map(|(kind, ..)| kind);
    assert_eq!(kinds, Kind::LINE.map(Kind::name));
}

#[test]
fn every_question_here_is_graded_as_meant() {
    let line = usual(FIDE_SAMPLE);
    for (kind, subject, replies) in QUESTIONS {
        let verdict = |reply| answered(&line, of_line(kind, subject), reply).mark.verdict;
        assert_eq!(verdict(replies[0]), Verdict::Right, "{kind}");
        assert!(
            matches!(verdict(replies[1]), Verdict::Part | Verdict::Wrong),
            "{kind}"
        );
        assert_eq!(verdict("pass"), Verdict::Pass, "{kind}");
    }
}

#[test]
fn ways_of_pieces_are_told_with_their_moves() {
    let mut page = Page::default();
    tell(
        &mut page,
        "The sample game of the PGN standard",
        &usual(PGN_SAMPLE),
        &[
            ("whereabouts", r#""man":"g1""#, &["f7"]),
            ("whereabouts", r#""man":"h1""#, &["still there"]),
            ("whereabouts", r#""man":"f8""#, &["e7"]),
            ("whereabouts", r#""man":"g7""#, &["gone"]),
            ("whereabouts", r#""man":"e4""#, &["e4"]),
            // Of a long way the last moves are told.
            ("whereabouts", r#""man":"e8""#, &["b5"]),
            ("occupant", r#""square":"d3""#, &["empty", "white bishop"]),
            ("occupant", r#""square":"e4""#, &["white pawn"]),
            ("occupant", r#""square":"a3""#, &["white pawn"]),
            ("standing", r#""color":"black","role":"queen""#, &["e7"]),
            ("taken", r#""color":"white""#, &["Q"]),
        ],
    );
    tell(
        &mut page,
        "Barbier and Saavedra, Glasgow Weekly Citizen, 1895",
        &from_fen(
            "8/8/1KP5/3r4/8/8/8/k7 w - - 0 1",
            "1. c7 Rd6+ 2. Kb5 Rd5+ 3. Kb4 Rd4+ 4. Kb3 Rd3+ 5. Kc2 Rd4 6. c8=R",
        ),
        &[
            ("whereabouts", r#""man":"c6""#, &["c7"]),
            ("whereabouts", r#""man":"a1""#, &["b1"]),
        ],
    );
    let castled = chess960("1rk5/3p4/8/8/8/8/8/3RK3 b Qq - 0 1", "1... O-O-O 2. O-O-O");
    tell(
        &mut page,
        "Chess960: both have castled, two pieces without leaving their squares",
        &castled,
        &[
            ("whereabouts", r#""man":"c8""#, &["gone"]),
            ("whereabouts", r#""man":"d1""#, &["c1"]),
            ("whereabouts", r#""man":"e1""#, &["e1"]),
        ],
    );
    tell(
        &mut page,
        "The usual array",
        &usual(""),
        &[
            ("occupant", r#""square":"e4""#, &["white pawn"]),
            ("occupant", r#""square":"a1""#, &["n"]),
        ],
    );
    page.hold("ways_of_pieces");
}

/// Positions of our own making, where no source is named.
#[test]
fn attacks_checks_captures_and_mates_are_told_by_what_pieces_do() {
    let mut page = Page::default();
    let mut at = |place: &str, fen: &str, score: &str, cases: &[Case]| {
        tell(&mut page, place, &from_fen(fen, score), cases);
    };
    at(
        "A line ends at an enemy piece",
        "4k3/8/8/8/8/2P2n2/5Q2/4K3 w - - 0 1",
        "",
        &[
            ("attacks", r#""square":"f2""#, &["none"]),
            ("check", "", &["f2", "none"]),
        ],
    );
    at(
        "A mate",
        scores::USUAL,
        "1. e4 e5 2. Bc4 Nc6 3. Qh5 Nf6 4. Qxf7#",
        &[("check", "", &["c4"])],
    );
    // The knight opens the rook's file wherever it goes, and gives check itself from c7 and f6.
    at(
        "A discovered check",
        "4k3/8/8/8/4N3/8/8/4RK2 w - - 0 1",
        "",
        &[("checks", "", &["Nc3 Nc5 Nd2 Nf2 Ng3 Ng5 Kf2"])],
    );
    at(
        "Castling gives check",
        "5k2/8/8/8/8/8/8/4K2R w K - 0 1",
        "",
        &[("checks", "", &["Rh8"])],
    );
    at(
        "Illegal moves in a reply",
        "4k3/8/8/8/1b6/2N5/8/R3K2R w KQ - 0 1",
        "",
        &[("checks", "", &["Nd5 Nc2 Rh8 Bb5 Ra1h1 Rd7"])],
    );
    at(
        "Castling that is illegal",
        "4kr2/8/8/8/8/8/8/R3K2R w KQ - 0 1",
        "",
        &[("mate", "", &["O-O"])],
    );
    at(
        "En passant",
        "4k3/8/8/8/3p4/8/4P1P1/4K3 w - - 0 1",
        "1. e4",
        &[("captures", "", &["d3", "e2d3"])],
    );
    at(
        "A mate on the back rank",
        "6k1/5ppp/8/8/8/8/8/R3K2R w K - 0 1",
        "",
        &[("mate", "", &["Ra8", "Rxh7"])],
    );
    at(
        "A check that is no mate",
        "7k/6p1/8/8/8/8/8/R3K3 w - - 0 1",
        "",
        &[("mate", "", &["Ra8"])],
    );
    // P. Morphy, New York Clipper, 28 June 1856.
    at(
        "A mate in two moves",
        MORPHY,
        "",
        &[("mate", r#""in":2"#, &["Ra6", "Ra2", "Rh1"])],
    );
    at(
        "A try that is stalemate",
        "7k/8/5K2/8/8/8/8/6Q1 w - - 0 1",
        "",
        &[("mate", r#""in":2"#, &["Kf7", "Qg6"])],
    );
    at(
        "Guarded and not attacked",
        "4k3/6b1/8/8/3N4/2P5/1P2K3/R7 w - - 0 1",
        "",
        &[("hanging", r#""color":"white""#, &["d4 a1 e2 g7 h8"])],
    );
    at(
        "Two pieces hang",
        "4k3/6b1/8/8/3N4/8/8/R3K3 w - - 0 1",
        "",
        &[("hanging", r#""color":"white""#, &["none"])],
    );
    // Anderssen - Dufresne, Berlin 1852, to White's move 11.
    at(
        "Anderssen - Dufresne, Berlin 1852",
        scores::USUAL,
        "1. e4 e5 2. Nf3 Nc6 3. Bc4 Bc5 4. b4 Bxb4 5. c3 Ba5 6. d4 exd4 7. O-O d3 8. Qb3 Qf6 9. e5 \
         Qg6 10. Re1 Nge7",
        &[
            ("checks", "", &["none"]),
            ("captures", "", &["none"]),
            ("exchange", r#""square":"d3""#, &["1"]),
            ("balance", "", &["2"]),
            ("rights", r#""color":"black""#, &["short"]),
            ("taken", r#""color":"black""#, &["P"]),
        ],
    );
    page.hold("what_pieces_do");
}

#[test]
fn points_and_rights_are_told_by_what_is_taken_and_lost() {
    let mut page = Page::default();
    let mut at = |place: &str, fen: &str, score: &str, cases: &[Case]| {
        tell(&mut page, place, &from_fen(fen, score), cases);
    };
    // Taking back would lose the pawn that takes.
    at(
        "Taking back would win nothing",
        "4k3/2p5/3n4/4P3/8/8/8/3RK3 w - - 0 1",
        "",
        &[
            ("exchange", r#""square":"d6""#, &["3", "2", "-3"]),
            ("balance", "", &["2", "1"]),
        ],
    );
    at(
        "A rook for a pawn",
        "4k3/8/2p5/3p4/8/8/8/3RK3 w - - 0 1",
        "",
        &[("exchange", r#""square":"d5""#, &["1"])],
    );
    at(
        "A queen behind a pawn",
        "3rk3/8/2p5/3p4/4P3/8/8/3QK3 w - - 0 1",
        "",
        &[("exchange", r#""square":"d5""#, &["3"])],
    );
    at(
        "A pawn that promotes",
        "3nk3/2P5/8/8/8/8/8/4K3 w - - 0 1",
        "",
        &[("exchange", r#""square":"d8""#, &["3"])],
    );
    at(
        "A rook against a king",
        "4k3/8/8/8/8/8/8/3RK3 w - - 0 1",
        "",
        &[("balance", "", &["5", "38"])],
    );
    at(
        "A rook that is taken, a rook that has left",
        "r3k2r/8/8/3B4/8/8/8/4K2R w Kkq - 0 1",
        "1. Bxa8 Rg8 2. Rh2",
        &[("rights", r#""color":"black""#, &["long"])],
    );
    at(
        "One right of two",
        "r3k2r/8/8/3B4/8/8/8/4K2R w Kkq - 0 1",
        "",
        &[("rights", r#""color":"white""#, &["short", "long"])],
    );
    at(
        "A promoted queen that is taken, a pawn that never moved",
        "4k3/1P5p/8/2p4p/8/1N3N2/8/4K2R w K - 0 1",
        "1. b8=Q+ Kf7 2. Kf2 Kg7 3. Kg2 Kf7 4. Kh2 Kg7 5. Qb7+ Kg6 6. Qxh7+ Kxh7",
        &[
            ("taken", r#""color":"white""#, &["Q", "white pawn"]),
            ("taken", r#""color":"black""#, &["none"]),
            ("whereabouts", r#""man":"h7""#, &["pass"]),
            ("whereabouts", r#""man":"b7""#, &["a1"]),
            ("standing", r#""color":"black","role":"king""#, &["h7"]),
            ("moves", r#""square":"h1""#, &["g1"]),
        ],
    );
    page.hold("points_and_rights");
}

#[test]
fn squares_closed_to_a_piece_are_told_with_what_binds_it() {
    let mut page = Page::default();
    let mut at = |place: &str, fen: &str, score: &str, cases: &[Case]| {
        tell(&mut page, place, &from_fen(fen, score), cases);
    };
    at(
        "A pinned knight",
        "4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1",
        "",
        &[("moves", r#""square":"c3""#, &["a4 e4 d2"])],
    );
    at(
        "A king in check",
        "4k3/4r3/8/8/8/8/8/N3K3 w - - 0 1",
        "",
        &[
            ("moves", r#""square":"a1""#, &["b3 c2"]),
            ("moves", r#""square":"e7""#, &["none"]),
        ],
    );
    // FIDE 3.8.2.2, position computed with an independent rules library: only long castling here.
    at(
        "Castling on one wing only",
        "4kr2/8/8/8/8/8/8/R3K2R w KQ - 0 1",
        "",
        &[("moves", r#""square":"e1""#, &["d1 d2 e2 f1 g1"])],
    );
    at(
        "The usual array",
        scores::USUAL,
        "",
        &[
            ("moves", r#""square":"e2""#, &["e3 d3 f3 e5"]),
            ("moves", r#""square":"d1""#, &["c1 d1 e1 d2 d3 a5"]),
            ("moves", r#""square":"e1""#, &["d1"]),
        ],
    );
    at(
        "A king attacked by a queen beside it",
        "4k3/8/8/8/8/8/2q5/4K3 w - - 0 1",
        "1. Kf1 Kd8 2. Ke1 Qe2+",
        &[("moves", r#""square":"e1""#, &["d1"])],
    );
    at(
        "A king that has moved and returned",
        scores::USUAL,
        "1. e4 e5 2. Ke2 Ke7 3. Ke1 Ke8 4. Nf3 Nf6 5. Be2 Be7",
        &[("moves", r#""square":"e1""#, &["f1 g1"])],
    );
    at(
        "En passant",
        "4k3/8/8/8/3p4/8/4P1P1/4K3 w - - 0 1",
        "1. e4",
        &[("moves", r#""square":"d4""#, &["d3"])],
    );
    at(
        "A knight and a pawn that are shut in",
        "8/8/8/7k/p7/P1P5/1K1P4/1N6 w - - 0 1",
        "",
        &[
            ("moves", r#""square":"b1""#, &[]),
            ("moves", r#""square":"a3""#, &["a5"]),
        ],
    );
    at(
        "A king that is shut in",
        "7k/8/8/8/6r1/P7/1r6/7K w - - 0 1",
        "",
        &[("moves", r#""square":"h1""#, &["none"])],
    );
    page.hold("where_pieces_can_go");
}

/// One case of every reason, and more where a reason has several faces: reason, start, score, move. Castling
/// cases after FIDE 3.8.2; the others are of our own making.
const ILLEGAL: [(Reason, &str, &str, &str); 29] = [
    (Reason::EmptySquare, scores::USUAL, "", "e4e5"),
    (Reason::WrongSide, scores::USUAL, "", "e7e5"),
    (
        Reason::CastlingRightLost,
        scores::USUAL,
        "1. e4 e5 2. Ke2 Ke7 3. Ke1 Ke8 4. Nf3 Nf6 5. Be2 Be7",
        "e1g1",
    ),
    (
        Reason::CastlingRightLost,
        scores::USUAL,
        "1. h4 h5 2. Rh3 Rh6 3. Rh1 Rh8 4. Nf3 Nf6 5. e3 e6 6. Be2 Be7",
        "e1g1",
    ),
    (
        Reason::CastlingRightLost,
        scores::USUAL,
        "1. e4 b6 2. Nf3 Bb7 3. Be2 Bxe4 4. d3 Bxf3 5. d4 Bxg2 6. d5 Bxh1 7. a3 a6",
        "e1g1",
    ),
    (
        Reason::CastlingRightLost,
        scores::USUAL,
        "1. Nf3 Nf6 2. g3 g6 3. Bg2 Bg7 4. O-O O-O 5. h3 h6 6. Kh2 Kh7 7. Rh1 Rh8 8. Kg1 Kg8 9. Kf1 Kf8 10. Ke1 Ke8",
        "e1g1",
    ),
    (
        Reason::CastlingRightLost,
        "4k3/8/8/8/8/8/8/R3K3 w - - 0 1",
        "",
        "e1c1",
    ),
    (Reason::Blocked, scores::USUAL, "", "c1e3"),
    (Reason::Blocked, scores::USUAL, "", "e1g1"),
    (Reason::Blocked, scores::USUAL, "1. e4 e5", "e4e5"),
    (
        Reason::CastlingInCheck,
        "4rk2/8/8/8/8/8/8/R3K2R w KQ - 0 1",
        "",
        "e1g1",
    ),
    (
        Reason::CastlingThroughAttack,
        "4kr2/8/8/8/8/8/8/R3K2R w KQ - 0 1",
        "",
        "e1g1",
    ),
    (
        Reason::CastlingThroughAttack,
        "4k1r1/8/8/8/8/8/8/R3K2R w KQ - 0 1",
        "",
        "e1g1",
    ),
    (
        Reason::CastlingThroughAttack,
        "4k3/8/8/8/8/8/5n2/R3K2R w KQ - 0 1",
        "",
        "e1c1",
    ),
    (Reason::OwnPieceThere, scores::USUAL, "", "g1e2"),
    (Reason::OwnPieceThere, scores::USUAL, "", "e2e2"),
    (Reason::OwnPieceThere, scores::USUAL, "", "h1g2"),
    (
        Reason::EnPassantExpired,
        scores::USUAL,
        "1. e4 a6 2. e5 d5 3. a3 a5",
        "e5d6",
    ),
    (Reason::NotItsWay, scores::USUAL, "", "b1b3"),
    (Reason::NotItsWay, scores::USUAL, "", "e2d3"),
    (Reason::NotItsWay, scores::USUAL, "1. e3 e6", "e3e5"),
    (Reason::NotItsWay, scores::USUAL, "1. e4 e6", "e4e3"),
    (Reason::NotItsWay, scores::USUAL, "", "e2e4q"),
    (
        Reason::NotItsWay,
        "7k/P7/8/8/8/8/8/4K3 w - - 0 1",
        "",
        "a7a8",
    ),
    (
        Reason::NotItsWay,
        "7k/P7/8/8/8/8/8/4K3 w - - 0 1",
        "",
        "a7a8k",
    ),
    (
        Reason::Pinned,
        "4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1",
        "",
        "c3e4",
    ),
    (
        Reason::UncoversCheck,
        "8/8/8/K2pP2r/8/8/8/4k3 w - d6 0 1",
        "",
        "e5d6",
    ),
    (
        Reason::StepsIntoCheck,
        "3rk3/8/8/8/8/8/8/4K3 w - - 0 1",
        "",
        "e1d2",
    ),
    (
        Reason::StaysInCheck,
        "4k3/4r3/8/8/8/8/8/N3K3 w - - 0 1",
        "",
        "a1b3",
    ),
];

#[test]
fn a_move_is_told_with_the_one_reason_that_it_is_illegal_or_with_what_makes_it_legal() {
    let mut page = Page::default();
    for (reason, fen, score, attempt) in ILLEGAL {
        let line = from_fen(fen, score);
        let place = if score.is_empty() { fen } else { score };
        assert_eq!(
            reason_of(&line, attempt),
            Some(reason),
            "{attempt} in {fen}"
        );
        page.head(&format!("{reason:?}: {place}"));
        legality(&mut page, &line, attempt, "legal");
    }
    for reason in Reason::ALL {
        assert!(
            ILLEGAL.iter().any(|(told, ..)| *told == reason),
            "{reason:?}"
        );
    }
    // FIDE 3.8.2.2: that b1 or the rook is attacked does not matter.
    let long = from_fen("1r2k3/8/8/8/8/8/8/R3K2R w KQ - 0 1", "");
    let shuffled = chess960("4k3/8/8/8/8/8/8/1R2KN1R w KQ - 0 1", "");
    let promotion = from_fen("7k/1P6/8/8/8/8/8/4K3 w - - 0 1", "");
    page.head("Legal moves");
    for (line, attempt) in [
        (usual(""), "b1c3"),
        (usual("1. e4 d5"), "e4d5"),
        (usual("1. e4 d5"), "f1b5"),
        (usual("1. e4 d5 2. a3 Bg4"), "d1g4"),
        (usual("1. e4 d5"), "h2h4"),
        (usual("1. e4 d5"), "e1e2"),
        (usual("1. e4 a6 2. e5 d5"), "e5d6"),
        (long, "e1c1"),
        (shuffled, "e1b1"),
        (promotion, "b7b8q"),
    ] {
        assert_eq!(reason_of(&line, attempt), None);
        legality(&mut page, &line, attempt, "illegal");
    }
    page.hold("legality");
}

fn legality(page: &mut Page, line: &Line, attempt: &str, reply: &str) {
    let asked = of_line("legality", &format!(r#""move":"{attempt}""#));
    page.say([question(&put(line, asked, 2))]);
    page.lead(reply);
    let answered = answered(line, asked, reply);
    page.say(told(answered).iter().flat_map(|output| PLAIN.say(output)));
}

fn reason_of(line: &Line, attempt: &str) -> Option<Reason> {
    let question = of_line("legality", &format!(r#""move":"{attempt}""#));
    match question.truth(Scene::new(line, line.len())) {
        Truth::Illegal {
            illegal: Illegal { reason, .. },
            ..
        } => Some(reason),
        _ => None,
    }
}

#[test]
fn only_whereabouts_and_standing_say_what_the_piece_is() {
    use crate::voice::naming::role;
    use shakmaty::Role;
    for (kind, subject) in [
        ("occupant", r#""square":"e5""#),
        ("attacks", r#""square":"e5""#),
        ("attackers", r#""color":"black","square":"e5""#),
        ("moves", r#""square":"e5""#),
        ("legality", r#""move":"e1g1""#),
        ("check", ""),
    ] {
        let said = question(&put(&usual("1. e4 e5"), of_line(kind, subject), 2));
        for kind in Role::ALL {
            assert!(!said.contains(role(kind)), "{said}");
        }
    }
}

#[test]
fn a_placement_that_is_far_off_never_becomes_a_wall_of_text() {
    let line = usual(FIDE_SAMPLE);
    let why = |reply| {
        let answered = answered(&line, of_line("rebuild", ""), reply);
        crate::voice::question::why(&answered.why)
    };
    let few = why("Kb1 / Kg8");
    assert!(few.len() <= 5, "{few:#?}");
    assert!(few[0].ends_with("and 18 more."), "{few:#?}");
    assert!(why("pass").is_empty());
}
