//! What the questions about moves as a whole, material, rights and the score mean, beside what
//! `questions.rs` says of every kind.

use crate::published::{self, ANDERSSEN_DUFRESNE, BOGOLJUBOV_ALEKHINE, GUNDERSEN_FAUL};
use sansvoir::game::{Line, Start};
use sansvoir::question::{LineQuestion, Mark, Scene, Verdict};
use sansvoir::reply::Unread;
use sansvoir::rules::MoveFault;
use serde_json::{Value, json};
use shakmaty::uci::UciMove;
use shakmaty::{CastlingMode, Square};

fn question(kind: &str, subject: &Value) -> LineQuestion {
    serde_json::from_value(json!({"kind": kind, "subject": subject})).unwrap()
}

fn truth(scene: Scene<'_>, kind: &str, subject: &Value) -> Value {
    serde_json::to_value(question(kind, subject).truth(scene)).unwrap()
}

fn at(fen: &str) -> Line {
    Line::new(Start::from_fen(fen, CastlingMode::Standard).unwrap())
}

fn mark(scene: Scene<'_>, kind: &str, subject: &Value, reply: &str) -> Mark {
    let question = question(kind, subject);
    let reply = question
        .read(scene, reply)
        .unwrap_or_else(|unread| panic!("{reply}: {unread:?}"));
    Mark::new(&question.truth(scene), &reply)
}

fn unread(scene: Scene<'_>, kind: &str, subject: &Value, reply: &str) -> Unread {
    question(kind, subject).read(scene, reply).unwrap_err()
}

/// The balance after each capture and promotion, by python-chess 1.11.2 from the published moves; the
/// values of the pieces are common practice, no source.
#[test]
fn material_is_right_after_each_capture_of_published_games() {
    let games: [(&str, &[(usize, i32)]); 3] = [
        (
            ANDERSSEN_DUFRESNE,
            &[
                (8, -1),
                (12, -2),
                (23, -1),
                (31, 0),
                (34, -3),
                (35, -2),
                (38, -5),
                (39, -2),
                (40, -7),
                (41, -6),
                (42, -15),
                (47, -12),
            ],
        ),
        (
            BOGOLJUBOV_ALEKHINE,
            &[
                (10, -3),
                (11, 0),
                (48, -1),
                (49, 0),
                (50, -1),
                (57, 0),
                (59, 5),
                (60, -4),
                (61, 5),
                (63, 10),
                (66, 2),
                (70, 1),
                (73, 4),
                (74, -1),
                (77, 2),
                (78, -1),
                (79, 0),
                (86, -1),
                (87, 2),
                (88, -1),
                (90, -2),
                (92, -3),
                (95, 6),
                (96, 1),
                (98, -10),
                (99, -1),
            ],
        ),
        (
            GUNDERSEN_FAUL,
            &[
                (8, -1),
                (9, 0),
                (17, 1),
                (18, -2),
                (22, -3),
                (27, -2),
                (29, -1),
            ],
        ),
    ];
    for (moves, balances) in games {
        let line = published::line(moves);
        let changes = line.plies().iter().enumerate();
        let changes: Vec<usize> = changes
            .filter(|(_, ply)| ply.mv.is_capture() || ply.mv.is_promotion())
            .map(|(n, _)| n + 1)
            .collect();
        let told: Vec<usize> = balances.iter().map(|(plies, _)| *plies).collect();
        assert_eq!(changes, told);
        for (plies, points) in balances {
            let scene = Scene::new(&line, *plies);
            assert_eq!(
                truth(scene, "balance", &json!({})),
                json!({"points": points}),
                "after {plies} plies"
            );
        }
    }
}

/// The rights to castle after each move of a king or rook, as the FEN letters that python-chess 1.11.2
/// gives from the published moves, from that ply on.
#[test]
fn rights_are_right_after_each_king_or_rook_move_of_published_games() {
    let games: [(&str, &[(usize, &str)]); 3] = [
        (
            ANDERSSEN_DUFRESNE,
            &[
                (13, "kq"),
                (19, "kq"),
                (24, "k"),
                (36, ""),
                (42, ""),
                (46, ""),
            ],
        ),
        (
            BOGOLJUBOV_ALEKHINE,
            &[(14, "KQ"), (15, ""), (18, ""), (105, "")],
        ),
        (
            GUNDERSEN_FAUL,
            &[(16, "KQ"), (18, "KQ"), (20, "KQ"), (26, "KQ")],
        ),
    ];
    for (moves, rights) in games {
        let line = published::line(moves);
        for (plies, letters) in rights {
            let scene = Scene::new(&line, *plies);
            for (color, wings) in [("white", ['K', 'Q']), ("black", ['k', 'q'])] {
                let named: Vec<&str> = wings
                    .into_iter()
                    .zip(["short", "long"])
                    .filter_map(|(letter, name)| letters.contains(letter).then_some(name))
                    .collect();
                assert_eq!(
                    truth(scene, "rights", &json!({"color": color})),
                    json!({"wings": named}),
                    "{color} after {plies} plies"
                );
            }
        }
    }
}

#[test]
fn an_exchange_is_legal_takes_promotions_into_account_and_forces_only_its_first_capture() {
    let table = [
        // A guarded pawn: the rook is lost for it.
        ("4k3/8/2p5/3p4/8/8/8/3RK3 w - - 0 1", "d5", -4),
        // The guard is pinned to its king (FIDE 3.9.2) and cannot take back.
        ("4k3/4n3/8/3p4/8/8/8/3RRK2 w - - 0 1", "d5", 1),
        // Whatever the pawn becomes, the king takes it: 5 and what it has become, less that.
        ("3rk3/2P5/8/8/8/8/8/4K3 w - - 0 1", "d8", 4),
        // The king may not take back where another rook stands behind.
        ("3rk3/2P5/8/8/8/8/8/3RK3 w - - 0 1", "d8", 13),
        // A battery: the second rook takes after the first.
        ("3rk3/8/8/3p4/8/8/3R4/3RK3 w - - 0 1", "d5", 1),
    ];
    for (fen, square, points) in table {
        let line = at(fen);
        assert_eq!(
            truth(Scene::new(&line, 0), "exchange", &json!({"square": square})),
            json!({"points": points}),
            "{square} in {fen}"
        );
    }
}

#[test]
fn sets_of_moves_score_like_squares_and_any_one_mate_is_right() {
    let line = published::line(ANDERSSEN_DUFRESNE);
    let none = json!({});
    // The legal captures are Qxb7, Bxd3 and Bxf7+.
    let scene = Scene::new(&line, 20);
    let score = |reply| mark(scene, "captures", &none, reply).score;
    for reply in ["Bxf7 Bxd3 Qxb7", "Bf7+, c4d3 Qb3xb7"] {
        assert!((score(reply) - 1.0).abs() < 1e-12, "{reply}");
    }
    assert!((score("Bxf7 and Qc2") - 1.0 / 4.0).abs() < 1e-12);
    assert!(score("none").abs() < 1e-12);
    // 24.Bxe7# is the only mate; with two mates, each is right alone.
    let verdict = |scene, reply| mark(scene, "mate", &none, reply).verdict;
    let last = Scene::new(&line, 46);
    assert_eq!(verdict(last, "24. Bxe7#"), Verdict::Right);
    assert_eq!(verdict(last, "fxe7"), Verdict::Wrong);
    assert_eq!(verdict(last, "none"), Verdict::Wrong);
    let two = at("6k1/5ppp/8/8/8/8/8/RR4K1 w - - 0 1");
    let two = Scene::new(&two, 0);
    for reply in ["Ra8", "b1b8", "Rb1-b8#"] {
        assert_eq!(verdict(two, reply), Verdict::Right, "{reply}");
    }
    assert_eq!(
        unread(two, "mate", &none, "Ra8 Rb8"),
        Unread::OneMoveWanted(2)
    );
    let start = Line::new(Start::standard());
    assert_eq!(verdict(Scene::new(&start, 0), "none"), Verdict::Right);
}

#[test]
fn a_move_that_is_ambiguous_or_none_is_not_read_and_an_illegal_one_is_an_answer() {
    let line = at("4k3/8/8/8/8/5N2/8/1N2K3 w - - 0 1");
    let scene = Scene::new(&line, 0);
    let refused = |reply: &str| match unread(scene, "checks", &json!({}), reply) {
        Unread::NoMove(word, fault) => (word, fault),
        other => panic!("{other:?}"),
    };
    let (word, fault) = refused("Ng5, Nd2");
    assert_eq!(word, "Nd2");
    assert!(
        matches!(
            fault,
            MoveFault::Ambiguous { one, other }
                if [one, other] == [Square::B1, Square::F3] || [one, other] == [Square::F3, Square::B1]
        ),
        "{fault:?}"
    );
    assert!(matches!(refused("perhaps").1, MoveFault::Unreadable));
    assert!(matches!(refused("--").1, MoveFault::Unreadable));
    // No check is there: each illegal move is named too many.
    for reply in [
        "Na1",
        "Qd4",
        "O-O",
        "e2e4",
        "Nf3-f5",
        "Ng1 Qd4 Qd4 Ra1",
        "e4=Q",
    ] {
        for kind in ["checks", "captures"] {
            assert_eq!(
                mark(scene, kind, &json!({}), reply).verdict,
                Verdict::Wrong,
                "{kind} {reply}"
            );
        }
    }
    for reply in ["Na1", "Qd4", "O-O", "e2e4", "Nf3-f5", "knight f3 f5"] {
        assert_eq!(
            mark(scene, "mate", &json!({}), reply).verdict,
            Verdict::Wrong,
            "{reply}"
        );
    }
    assert_eq!(
        mark(scene, "mate", &json!({}), "none").verdict,
        Verdict::Right
    );
}

/// The score counts an illegal move as one named too many, each once.
#[test]
fn an_illegal_move_lowers_the_score_of_a_set() {
    let line = at("4k3/8/8/3p4/4P3/8/8/R3K3 w Q - 0 1");
    let scene = Scene::new(&line, 0);
    let score = |kind, reply| mark(scene, kind, &json!({}), reply).score.to_bits();
    assert_eq!(score("captures", "exd5"), 1.0_f64.to_bits());
    assert_eq!(score("captures", "exd5 exf5"), 0.5_f64.to_bits());
    assert_eq!(
        score("captures", "exd5 exf5 e4f5 Qxd5 Qxd5"),
        (1.0_f64 / 3.0).to_bits()
    );
    assert_eq!(score("checks", "Ra8"), 1.0_f64.to_bits());
    assert_eq!(score("checks", "Ra8 Rb8"), 0.5_f64.to_bits());
}

#[test]
fn an_illegal_move_is_wrong_for_the_move_that_was_played() {
    let line = published::line(ANDERSSEN_DUFRESNE);
    let scene = Scene::new(&line, 20);
    let second = json!({"color": "white", "number": 2});
    for reply in ["Nf6", "Qh5xe8", "Rd4", "O-O-O", "e5"] {
        assert_eq!(
            mark(scene, "played", &second, reply).verdict,
            Verdict::Wrong,
            "{reply}"
        );
    }
    assert_eq!(
        mark(scene, "played", &second, "Nf3").verdict,
        Verdict::Right
    );
    assert!(matches!(
        unread(scene, "played", &second, "hm"),
        Unread::NoMove(_, MoveFault::Unreadable)
    ));
}

#[test]
fn several_pieces_without_a_number_are_asked_back() {
    let line = published::line(ANDERSSEN_DUFRESNE);
    let scene = Scene::new(&line, 20);
    let white = json!({"color": "white"});
    for (reply, word) in [
        ("knight and pawns", "pawns"),
        ("pawns", "pawns"),
        ("Knights", "Knights"),
        ("Springer und Bauern", "pawns"),
        ("the pawns", "pawns"),
    ] {
        assert_eq!(
            unread(scene, "taken", &white, reply),
            Unread::HowMany(word.to_owned()),
            "{reply}"
        );
    }
    for reply in ["2 pawns", "both pawns", "zwei Bauern", "two pawns."] {
        assert_eq!(
            mark(scene, "taken", &white, reply).verdict,
            Verdict::Right,
            "{reply}"
        );
    }
}

/// A pawn's step is no capture, and no king is to blame for it.
#[test]
fn a_pawns_step_onto_an_enemy_piece_takes_nothing() {
    let line = at("rnbqkbnr/ppp1pppp/8/3p4/4P3/8/PPPP1PPP/RNBQKBNR w KQkq - 0 2");
    let scene = Scene::new(&line, 0);
    let step = mark(scene, "captures", &json!({}), "d5");
    assert_eq!(step.verdict, Verdict::Wrong);
    for capture in ["exd5", "ed5", "e4xd5", "pawn takes d5"] {
        let mark = mark(scene, "captures", &json!({}), capture);
        assert_eq!(mark.verdict, Verdict::Right, "{capture}");
    }
}

#[test]
fn points_wings_and_pieces_are_read_as_people_say_them() {
    let line = published::line(ANDERSSEN_DUFRESNE);
    let scene = Scene::new(&line, 20);
    let none = json!({});
    for reply in [
        "-2",
        "\u{2212}2",
        "\u{2013}2",
        "-2.",
        "minus 2",
        "- 2",
        "-2 points",
        "loses 2",
        "black +2",
        "Black is 2 ahead",
        "black 2 points ahead",
    ] {
        assert_eq!(
            mark(scene, "balance", &none, reply).verdict,
            Verdict::Right,
            "{reply}"
        );
    }
    for reply in [
        "2",
        "+2",
        "plus 2",
        "even",
        "0",
        "wins 2",
        "white +2",
        "White is 2 ahead",
    ] {
        assert_eq!(
            mark(scene, "balance", &none, reply).verdict,
            Verdict::Wrong,
            "{reply}"
        );
    }
    assert_eq!(
        unread(scene, "balance", &none, "some"),
        Unread::NoPoints("some".to_owned())
    );
    let black = json!({"color": "black"});
    for reply in [
        "both",
        "short long",
        "O-O, O-O-O",
        "0-0 and 0-0-0",
        "KQ",
        "k q",
    ] {
        assert_eq!(
            mark(scene, "rights", &black, reply).verdict,
            Verdict::Right,
            "{reply}"
        );
    }
    let half = mark(scene, "rights", &black, "long");
    assert_eq!(
        (half.verdict, half.score.to_bits()),
        (Verdict::Part, 0.5_f64.to_bits())
    );
    assert_eq!(
        unread(scene, "rights", &black, "left"),
        Unread::NoWing("left".to_owned())
    );
    assert_eq!(mark(scene, "rights", &black, "neither").score.to_bits(), 0);
    // The move of another piece is no square of this one.
    assert_eq!(
        unread(scene, "moves", &json!({"square": "c4"}), "Kg1"),
        Unread::NoSquare("Kg1".to_owned())
    );
    let gone = json!({"man": "e2"});
    let read = |reply| mark(scene, "whereabouts", &gone, reply);
    assert_eq!(read("the piece is on g2"), read("g2"));
    let white = json!({"color": "white"});
    for reply in [
        "PP",
        "p p",
        "two pawns",
        "pawn, pawn",
        "2 P",
        "2P",
        "white pawn, white pawn",
        "a pawn and a pawn",
    ] {
        assert_eq!(
            mark(scene, "taken", &white, reply).verdict,
            Verdict::Right,
            "{reply}"
        );
    }
    let part = mark(scene, "taken", &white, "NP");
    assert!((part.score - 1.0 / 3.0).abs() < 1e-12, "{part:?}");
    for reply in ["king", "two", "PX", "two NP"] {
        assert!(
            matches!(unread(scene, "taken", &white, reply), Unread::NoPiece(_)),
            "{reply}"
        );
    }
}

#[test]
fn a_piece_that_was_taken_keeps_the_role_of_the_start() {
    let mut line = at("1n2k3/P7/8/8/8/8/8/4K3 w - - 0 30");
    for uci in ["a7b8q", "e8e7", "b8c7", "e7e6", "c7e5", "e6e5"] {
        let uci: UciMove = uci.parse().unwrap();
        line.push(uci.to_move(line.end()).unwrap()).unwrap();
    }
    let scene = Scene::new(&line, 6);
    let of = |color: &str| truth(scene, "taken", &json!({"color": color}));
    assert_eq!(of("white"), json!({"pieces": "P"}));
    assert_eq!(of("black"), json!({"pieces": "N"}));
    // A move of the score is read where it was played, promotion and number included.
    let subject = json!({"color": "white", "number": 30});
    for reply in ["axb8=Q+", "a7xb8Q", "30. ab8Q", "a7b8q"] {
        assert_eq!(
            mark(scene, "played", &subject, reply).verdict,
            Verdict::Right,
            "{reply}"
        );
    }
    assert_eq!(
        mark(scene, "played", &subject, "a8=Q").verdict,
        Verdict::Wrong
    );
    assert_eq!(
        unread(scene, "played", &subject, "none"),
        Unread::OneMoveWanted(0)
    );
}
