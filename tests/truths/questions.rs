//! What every question kind means: subjects, truths, grades, and the whys behind a miss.

use crate::published::{self, ANDERSSEN_DUFRESNE, BOGOLJUBOV_ALEKHINE, GUNDERSEN_FAUL};
use sansvoir::game::{Line, Start};
use sansvoir::question::{
    Found, Journey, Kind, LineQuestion, LineWhy, Mark, OccupantWhy, Reason, Reply, Scene, Sight,
    Verdict, WhereaboutsWhy,
};
use sansvoir::reply::Unread;
use sansvoir::rules::{pin, resolve_move};
use serde_json::{Value, json};
use shakmaty::{CastlingMode, Position, Square};

fn question(kind: &str, subject: &Value) -> LineQuestion {
    serde_json::from_value(json!({"kind": kind, "subject": subject})).unwrap()
}

fn truth(scene: Scene<'_>, kind: &str, subject: &Value) -> Value {
    serde_json::to_value(question(kind, subject).truth(scene)).unwrap()
}

fn at(fen: &str) -> Line {
    Line::new(Start::from_fen(fen, CastlingMode::Standard).unwrap())
}

/// Grades a reply; the verdict, the score and the why.
fn answer(scene: Scene<'_>, kind: &str, subject: &Value, reply: &str) -> (Mark, Option<LineWhy>) {
    let question = question(kind, subject);
    let truth = question.truth(scene);
    let reply = question.read(scene, reply).unwrap();
    let mark = Mark::new(&truth, &reply);
    let why = (mark.verdict != Verdict::Right).then(|| question.why(scene, &mark, Some(&reply)));
    (mark, why)
}

#[test]
fn every_kind_stands_in_json_as_the_journal_promises() {
    let line = published::line(ANDERSSEN_DUFRESNE);
    let cases = [
        ("whereabouts", json!({"man": "b1"}), json!({"square": "b1"})),
        ("whereabouts", json!({"man": "b2"}), json!({"gone": true})),
        ("occupant", json!({"square": "g6"}), json!({"piece": "q"})),
        ("occupant", json!({"square": "e2"}), json!({"piece": null})),
        (
            "standing",
            json!({"color": "white", "role": "rook"}),
            json!({"squares": ["a1", "e1"]}),
        ),
        (
            "attacks",
            json!({"square": "c4"}),
            json!({
                "squares": ["d3", "b5", "d5", "a6", "e6", "f7"],
                "optional": ["b3"],
            }),
        ),
        (
            "attackers",
            json!({"color": "white", "square": "e5"}),
            json!({"squares": ["e1", "f3"]}),
        ),
        (
            "moves",
            json!({"square": "e8"}),
            json!({"squares": ["d8", "f8", "g8"]}),
        ),
        ("legality", json!({"move": "e8g8"}), json!({"legal": true})),
        (
            "legality",
            json!({"move": "e8c8"}),
            json!({"legal": false, "reason": "blocked", "by": "c8"}),
        ),
        (
            "legality",
            json!({"move": "e8e6"}),
            json!({"legal": false, "reason": "not-its-way"}),
        ),
        ("check", json!({}), json!({"squares": []})),
        ("checks", json!({}), json!({"moves": ["c4f7"]})),
        (
            "captures",
            json!({}),
            json!({"moves": ["b3b7", "c4d3", "c4f7"]}),
        ),
        ("hanging", json!({"color": "white"}), json!({"squares": []})),
        ("mate", json!({}), json!({"moves": []})),
        ("exchange", json!({"square": "d3"}), json!({"points": -2})),
        ("balance", json!({}), json!({"points": -2})),
        ("rights", json!({"color": "white"}), json!({"wings": []})),
        (
            "rights",
            json!({"color": "black"}),
            json!({"wings": ["short", "long"]}),
        ),
        ("taken", json!({"color": "white"}), json!({"pieces": "PP"})),
        ("taken", json!({"color": "black"}), json!({"pieces": ""})),
        (
            "played",
            json!({"color": "white", "number": 7}),
            json!({"move": "e1g1"}),
        ),
        (
            "rebuild",
            json!({}),
            json!({"placement": "r1b1k2r/ppppnppp/2n3q1/b3P3/2B5/1QPp1N2/P4PPP/RNB1R1K1"}),
        ),
    ];
    for kind in Kind::LINE {
        assert!(
            cases.iter().any(|(name, ..)| *name == kind.name()),
            "{kind} has no case"
        );
    }
    for (kind, subject, expected) in cases {
        // White is to move after 20 plies, Black after 21.
        let of_mover = matches!(kind, "moves" | "legality");
        let scene = Scene::new(&line, if of_mover { 21 } else { 20 });
        assert_eq!(truth(scene, kind, &subject), expected, "{kind} {subject}");
        let back = serde_json::to_value(question(kind, &subject)).unwrap();
        assert_eq!(back, json!({"kind": kind, "subject": subject}));
        let value: sansvoir::question::Truth = serde_json::from_value(expected.clone()).unwrap();
        assert_eq!(serde_json::to_value(value).unwrap(), expected);
    }
}

/// FIDE 3.1.3: a pinned piece attacks all the same; FIDE 3.9.2: it may not move.
#[test]
fn a_pinned_piece_attacks_and_may_not_go() {
    let line = at("4k3/8/8/8/1b6/2N5/8/4K1N1 w - - 0 1");
    let scene = Scene::new(&line, 0);
    let attackers = truth(
        scene,
        "attackers",
        &json!({"color": "white", "square": "e2"}),
    );
    assert_eq!(attackers, json!({"squares": ["e1", "g1", "c3"]}));
    assert_eq!(
        truth(scene, "moves", &json!({"square": "c3"})),
        json!({"squares": []})
    );
    let (_, why) = answer(scene, "moves", &json!({"square": "c3"}), "e2 e4");
    let Some(LineWhy::Moves(why)) = why else {
        panic!("{why:?}")
    };
    let pinner = pin(&why.position, why.from).map(|(square, _)| square.to_string());
    assert_eq!(pinner, Some("b4".to_owned()));
    assert!(
        why.extra
            .iter()
            .all(|closed| closed.reason() == Some(Reason::Pinned))
    );
}

#[test]
fn a_piece_is_followed_through_castling_promotion_and_en_passant() {
    let line = published::line(BOGOLJUBOV_ALEKHINE);
    let end = Scene::new(&line, line.len());
    let castled = Scene::new(&line, 16);
    assert_eq!(
        truth(castled, "whereabouts", &json!({"man": "h1"})),
        json!({"square": "f1"})
    );
    assert_eq!(
        truth(castled, "whereabouts", &json!({"man": "h8"})),
        json!({"square": "f8"})
    );
    // The b-pawn went b5-b4xc3-c2-c1 and is a queen since 33...c1=Q+.
    let promoted = Scene::new(&line, 66);
    assert_eq!(
        truth(promoted, "whereabouts", &json!({"man": "b7"})),
        json!({"square": "c1"})
    );
    assert_eq!(
        truth(end, "whereabouts", &json!({"man": "b7"})),
        json!({"gone": true})
    );
    let line = published::line(GUNDERSEN_FAUL);
    let end = Scene::new(&line, line.len());
    assert_eq!(
        truth(end, "whereabouts", &json!({"man": "g7"})),
        json!({"gone": true})
    );
    let (_, why) = answer(end, "whereabouts", &json!({"man": "g7"}), "g5");
    let Some(LineWhy::Whereabouts(WhereaboutsWhy {
        journey: Some(journey),
        ..
    })) = why
    else {
        panic!("{why:?}")
    };
    let end = journey.end.unwrap();
    assert!(end.mv.is_en_passant());
    assert_eq!(
        (end.taken_on().unwrap().to_string(), end.number.to_string()),
        ("g5".into(), "15.".into())
    );
}

#[test]
fn check_names_every_checker() {
    // 22.Bf5+ is a double check, by the bishop and the rook behind it.
    let line = published::line(ANDERSSEN_DUFRESNE);
    let scene = Scene::new(&line, 43);
    assert_eq!(line.plies()[42].san.to_string(), "Bf5+");
    assert_eq!(
        truth(scene, "check", &json!({})),
        json!({"squares": ["d1", "f5"]})
    );
    assert_eq!(scene.position().checkers().count(), 2);
    let (mark, why) = answer(scene, "check", &json!({}), "f5, e7");
    assert_eq!(mark.verdict, Verdict::Part);
    let Some(LineWhy::Check(why)) = why else {
        panic!("{why:?}")
    };
    let (king, checker) = (why.asked.square, why.tally.missed.single_square().unwrap());
    let sight = Sight::new(&why.board, checker, king);
    assert!(matches!(sight, Sight::Open { .. }), "{why:?}");
    let extra = why.tally.extra.single_square().unwrap();
    assert!(why.board.piece_at(extra).is_some(), "{why:?}");
}

#[test]
fn a_set_scores_its_share_and_optional_squares_never_count() {
    let line = published::line(ANDERSSEN_DUFRESNE);
    let scene = Scene::new(&line, 20);
    let subject = json!({"square": "c4"});
    let score = |reply| answer(scene, "attacks", &subject, reply).0;
    assert_eq!(score("d3 b5 d5 a6 e6 f7").verdict, Verdict::Right);
    assert_eq!(score("D3,B5;d5 a6 and e6 f7 b3").verdict, Verdict::Right);
    let part = score("d5 e6 f7 g8 b3");
    assert_eq!(part.verdict, Verdict::Part);
    assert!((part.score - 3.0 / 7.0).abs() < 1e-12, "{part:?}");
    assert_eq!(score("h1").verdict, Verdict::Wrong);
    assert_eq!(score("none").verdict, Verdict::Wrong);
}

#[test]
fn an_empty_set_is_answered_by_none() {
    let line = Line::new(Start::standard());
    let scene = Scene::new(&line, 0);
    let (mark, _) = answer(scene, "check", &json!({}), "none");
    assert_eq!(
        (mark.verdict, mark.score.to_bits()),
        (Verdict::Right, 1.0_f64.to_bits())
    );
    assert_eq!(
        answer(scene, "check", &json!({}), "-").0.verdict,
        Verdict::Right
    );
    assert_eq!(
        answer(scene, "check", &json!({}), "e5").0.verdict,
        Verdict::Wrong
    );
}

#[test]
fn a_placement_is_graded_piece_by_piece() {
    let line = at("4k3/8/8/8/8/8/PP6/R3K3 w Q - 0 1");
    let scene = Scene::new(&line, 0);
    let right = "Ke1 Ra1 a2 b2 / Ke8";
    assert_eq!(
        answer(scene, "rebuild", &json!({}), right).0.verdict,
        Verdict::Right
    );
    let fen = "4k3/8/8/8/8/8/PP6/R3K3";
    assert_eq!(
        answer(scene, "rebuild", &json!({}), fen).0.verdict,
        Verdict::Right
    );
    // Ke8 and a2 are right; Ra1, b2 and Ke1 are missing; Qa1 and Nd4 are extra.
    let (mark, why) = answer(scene, "rebuild", &json!({}), "Qa1 a2 Nd4 / Ke8");
    assert!((mark.score - 2.0 / 6.0).abs() < 1e-12, "{mark:?}");
    let Some(LineWhy::Rebuild(why)) = why else {
        panic!("{why:?}")
    };
    assert_eq!(why.right, 2);
    let squares = |count: usize, expected| assert_eq!(count, expected, "{why:?}");
    squares(why.missing.len(), 3);
    squares(why.misplaced.len(), 0);
    squares(why.extra.len(), 2);
    let knight = &why.extra[0];
    assert_eq!(knight.at.to_string(), "d4");
    assert!(knight.left.is_none() && matches!(knight.found, Found::NeverHeld));
    // A rook on b1 is the one of a1, misplaced.
    let (_, why) = answer(scene, "rebuild", &json!({}), "Ke1 Rb1 a2 b2 / Ke8");
    let Some(LineWhy::Rebuild(why)) = why else {
        panic!("{why:?}")
    };
    assert_eq!(
        (why.misplaced.len(), why.misplaced[0].0.to_string()),
        (1, "b1".into())
    );
}

#[test]
fn a_piece_that_was_put_elsewhere_is_the_one_that_left_there_or_one_that_may_be_meant() {
    use Square::{B1, C1, C3, D3, D4, E4, F6, G5, H2};
    // 1. e4 d5 2. exd5 Nf6 3. Nf3
    let mut line = Line::new(Start::standard());
    for san in ["e4", "d5", "exd5", "Nf6", "Nf3", "Nxd5"] {
        let mv = resolve_move(san, line.end()).unwrap();
        line.push(mv).unwrap();
    }
    let scene = Scene::new(&line, 6);
    let truth = "Ke1 Qd1 Ra1 Rh1 Bc1 Bf1 Nb1 Nf3 a2 b2 c2 d2 f2 g2 h2 / \
                 Ke8 Qd8 Ra8 Rh8 Bc8 Bf8 Nb8 Nd5 a7 b7 c7 e7 f7 g7 h7";
    let placed = |was: &str, is: &str| {
        let reply = truth.replace(was, is);
        match answer(scene, "rebuild", &json!({}), &reply).1 {
            Some(LineWhy::Rebuild(why)) => {
                let at = |(at, way): &(Square, Journey)| (*at, way.last_square());
                let extra = why.extra.iter().map(|extra| extra.at);
                let missing = why.missing.iter().map(|(at, _)| *at);
                (
                    why.misplaced.iter().map(at).collect::<Vec<_>>(),
                    extra.collect::<Vec<_>>(),
                    missing.collect::<Vec<_>>(),
                )
            }
            why => panic!("{why:?}"),
        }
    };
    // The pawn that stood on e4 was taken: it is not the one of h2.
    assert_eq!(placed("h2", "e4"), (vec![], vec![E4], vec![H2]));
    // Black's knight went from f6 to d5, where it is.
    assert_eq!(
        placed("Nd5", "Nf6"),
        (vec![(F6, Square::D5)], vec![], vec![])
    );
    // A pawn goes on its file, a bishop on its color, and a knight anywhere.
    assert_eq!(placed("d2", "d3"), (vec![(D3, Square::D2)], vec![], vec![]));
    assert_eq!(placed("h2", "d4"), (vec![], vec![D4], vec![H2]));
    assert_eq!(placed("Bc1", "Bg5"), (vec![(G5, C1)], vec![], vec![]));
    assert_eq!(placed("Bc1", "Bd3"), (vec![], vec![D3], vec![C1]));
    assert_eq!(placed("Nb1", "Nc3"), (vec![(C3, B1)], vec![], vec![]));
}

#[test]
fn a_piece_may_be_named_in_many_ways() {
    let line = Line::new(Start::standard());
    let scene = Scene::new(&line, 0);
    let verdict = |square: &str, reply| {
        answer(scene, "occupant", &json!({"square": square}), reply)
            .0
            .verdict
    };
    for reply in [
        "knight",
        "N",
        "white knight",
        "wN",
        "White's Knight",
        "wn",
        "white n",
    ] {
        assert_eq!(verdict("g1", reply), Verdict::Right, "{reply}");
    }
    for reply in ["n", "black knight", "bN", "bn", "knight", "black's N"] {
        assert_eq!(verdict("g8", reply), Verdict::Right, "{reply}");
    }
    for reply in ["N", "wN", "b", "bishop", "empty", "none", "white knight"] {
        assert_eq!(verdict("g8", reply), Verdict::Wrong, "{reply}");
    }
    for reply in ["empty", "none", "-", "Empty", "empty square"] {
        assert_eq!(verdict("e4", reply), Verdict::Right, "{reply}");
    }
}

#[test]
fn a_verdict_on_a_move_may_have_its_reason_behind_it_and_says_one_thing() {
    let line = Line::new(Start::standard());
    let asked = question("legality", &json!({"move": "e2e5"}));
    let read = |reply| asked.read(Scene::new(&line, 0), reply).ok();
    for reply in [
        "illegal, pinned",
        "I think it's illegal",
        "no, a pawn of its own",
    ] {
        assert_eq!(read(reply), Some(Reply::Legal(false)), "{reply}");
    }
    assert_eq!(read("legal, it takes"), Some(Reply::Legal(true)));
    for reply in ["legal, no", "I don't think it is legal", "I think"] {
        assert_eq!(read(reply), None, "{reply}");
    }
}

#[test]
fn what_cannot_be_read_says_which_word_is_to_blame() {
    let line = Line::new(Start::standard());
    let scene = Scene::new(&line, 0);
    let unread = |kind: &str, subject: Value, reply: &str| {
        question(kind, &subject).read(scene, reply).unwrap_err()
    };
    let c4 = || json!({"square": "c4"});
    assert_eq!(
        unread("attacks", c4(), "d5 i9"),
        Unread::NoSquare("i9".into())
    );
    assert_eq!(unread("attacks", c4(), " ,; "), Unread::Nothing);
    assert_eq!(
        unread("attacks", c4(), "d5 none"),
        Unread::NoSquare("none".into())
    );
    assert_eq!(
        unread("occupant", c4(), "horse"),
        Unread::NoPiece("horse".into())
    );
    assert_eq!(
        unread("occupant", c4(), "white"),
        Unread::NoPiece("white".into())
    );
    let piece = json!({"man": "a1"});
    assert_eq!(
        unread("whereabouts", piece, "a1 a2"),
        Unread::OneSquareWanted(2)
    );
    let perhaps = unread("legality", json!({"move": "e2e4"}), "perhaps");
    assert_eq!(perhaps, Unread::NeitherLegalNorIllegal("perhaps".into()));
    assert_eq!(unread("rebuild", json!({}), "Kg1 Ke8"), Unread::NoSides);
    assert_eq!(
        unread("rebuild", json!({}), "Kg1 g1 / Ke8"),
        Unread::SquareTwice("g1".parse().unwrap())
    );
    assert_eq!(
        unread("rebuild", json!({}), "Kg1 / 88"),
        Unread::NoPlacement("88".into())
    );
    assert_eq!(
        unread("rebuild", json!({}), "8/8/8/8/8/8/8/9"),
        Unread::NoPlacement("8/8/8/8/8/8/8/9".into())
    );
}

#[test]
fn a_placement_is_read_whichever_side_comes_first() {
    let line = at("r3k3/p7/8/8/8/8/PP6/3Q2K1 w - - 0 1");
    let scene = Scene::new(&line, 0);
    for reply in [
        "Kg1 Qd1 a2 b2 / Ke8 Ra8 a7",
        "White: Kg1 Qd1 a2 b2 / Black: Ke8 Ra8 a7",
        "Black: Ke8 Ra8 a7 / White: Kg1 Qd1 a2 b2",
        "Black: Ke8 Ra8 a7. White: Kg1 Qd1 a2 b2.",
        "black Ke8, Ra8, a7; white Kg1, Qd1, a2, b2",
        "Black Ke8 Ra8 a7 / Kg1 Qd1 a2 b2",
        "Ke8 Ra8 a7 / White:Kg1 Qd1 a2 b2 /",
        "Schwarz: Ke8 Ra8 a7 / Weiss: Kg1 Qd1 a2 b2",
        "Schwarz Ke8 Ra8 a7 Wei\u{df} Kg1 Qd1 a2 b2",
        "Black's: king e8, rook a8, pawn a7. White's: king g1, queen d1, pawns a2 b2.",
        "Black: king e8 rook a8 pawn a7 / White: king g1 queen d1 pawns a2 b2",
        "White Kg1 Qd1 and Black Ke8 Ra8 a7 and White a2 b2",
    ] {
        let (mark, _) = answer(scene, "rebuild", &json!({}), reply);
        assert_eq!(mark.verdict, Verdict::Right, "{reply}");
    }
    for reply in [
        "Black: Ke8 Ra8 a7",
        "White Kg1 / White Ke8",
        "Kg1 / Ke8 / Ra8",
    ] {
        let unread = question("rebuild", &json!({})).read(scene, reply);
        assert_eq!(unread, Err(Unread::NoSides), "{reply}");
    }
}

#[test]
fn replies_are_read_as_people_type_them() {
    let line = at("r3k2r/8/6p1/8/8/6Q1/8/R3K2R w KQkq - 0 1");
    let scene = Scene::new(&line, 0);
    let (none, a1, f1) = (json!({}), json!({"man": "a1"}), json!({"square": "a1"}));
    let white = json!({"color": "white", "role": "rook"});
    let (king, queen) = (json!({"square": "e1"}), json!({"square": "g3"}));
    let legal = json!({"move": "e1g1"});
    let table: [(&str, &Value, &str, &str); 37] = [
        ("legality", &legal, "Yes.", "yes"),
        ("legality", &legal, "ja", "yes"),
        ("legality", &legal, "Yes!", "yes"),
        ("legality", &legal, "nope", "no"),
        ("legality", &legal, "Nein.", "no"),
        ("legality", &legal, "it is legal", "yes"),
        ("legality", &legal, "It's not legal.", "no"),
        ("check", &none, "None.", "none"),
        ("check", &none, "no check", "none"),
        ("check", &none, "not in check", "none"),
        ("check", &none, "Nope.", "none"),
        ("check", &none, "\u{2013}", "none"),
        ("checks", &none, "no checks", "none"),
        ("captures", &none, "no captures.", "none"),
        ("mate", &none, "No mate.", "none"),
        ("whereabouts", &a1, "still there", "a1"),
        ("whereabouts", &a1, "It is still there.", "a1"),
        ("whereabouts", &a1, "it has not moved", "a1"),
        ("whereabouts", &a1, "the same square", "a1"),
        ("whereabouts", &a1, "it is on e5", "e5"),
        ("whereabouts", &a1, "It's still on a1.", "a1"),
        ("whereabouts", &a1, "it was taken", "gone"),
        ("whereabouts", &a1, "It is gone.", "gone"),
        ("occupant", &f1, "a white rook", "white rook"),
        ("occupant", &f1, "A black knight.", "black knight"),
        ("occupant", &f1, "it is a rook", "rook"),
        ("occupant", &f1, "it is empty", "empty"),
        ("standing", &white, "a1/f1", "a1 f1"),
        ("standing", &white, "a1 and f1.", "a1 f1"),
        ("moves", &king, "O-O d1 0-0-0", "g1 d1 c1"),
        ("moves", &king, "Kf1, Kd1", "f1 d1"),
        ("moves", &queen, "Qxg6 Qg3-b8 g3e5", "g6 b8 e5"),
        ("moves", &queen, "Qxg6+", "g6"),
        ("balance", &none, "\u{2013}3", "-3"),
        ("balance", &none, "3 points.", "3"),
        ("rights", &json!({"color": "white"}), "Both.", "both"),
        ("taken", &json!({"color": "white"}), "None.", "none"),
    ];
    for (kind, subject, said, plain) in table {
        let read = |text: &str| question(kind, subject).read(scene, text);
        assert!(read(plain).is_ok(), "{kind} {plain}");
        assert_eq!(read(said), read(plain), "{kind} {said}");
    }
    // That it is no square costs nothing; nor does the move of another piece.
    for (kind, subject, said) in [
        ("whereabouts", &a1, "no"),
        ("whereabouts", &a1, "Nope."),
        ("moves", &queen, "Rxg6"),
        ("moves", &queen, "O-O"),
    ] {
        let unread = question(kind, subject).read(scene, said);
        assert!(matches!(unread, Err(Unread::NoSquare(_))), "{said}");
    }
    for said in ["?", "idk", "IDK.", "I don't know"] {
        for (kind, subject) in [("moves", &king), ("captures", &none), ("legality", &legal)] {
            let unread = question(kind, subject).read(scene, said);
            assert_eq!(unread, Err(Unread::GivesUp), "{kind} {said}");
        }
    }
    for said in ["quit", "Exit", "exit."] {
        let unread = question("mate", &none).read(scene, said);
        assert_eq!(unread, Err(Unread::Leaves), "{said}");
    }
}

#[test]
fn a_lost_castling_right_is_traced_to_the_move_that_lost_it() {
    // 18...Rg8 and 6...Qf6 aside, Black's king first moves with 21...Kxd7.
    let line = published::line(ANDERSSEN_DUFRESNE);
    let scene = Scene::new(&line, 43);
    let (_, why) = answer(scene, "legality", &json!({"move": "d7b7"}), "legal");
    assert!(matches!(why, Some(LineWhy::Legality(_))));
    let mut moved = Line::new(Start::standard());
    for uci in ["e2e4", "e7e5", "e1e2", "a7a6", "e2e1", "a6a5"] {
        let uci: shakmaty::uci::UciMove = uci.parse().unwrap();
        moved.push(uci.to_move(moved.end()).unwrap()).unwrap();
    }
    let scene = Scene::new(&moved, 6);
    let (_, why) = answer(scene, "legality", &json!({"move": "e1g1"}), "legal");
    let Some(LineWhy::Legality(why)) = why else {
        panic!("{why:?}")
    };
    let blame = why.blame.unwrap();
    assert_eq!(blame.illegal.reason, Reason::CastlingRightLost);
    let ply = blame.since.unwrap();
    assert_eq!(
        (ply.number.to_string(), ply.san.to_string()),
        ("2.".into(), "Ke2".into())
    );
}

#[test]
fn a_square_remembers_who_left_it_and_when() {
    let line = published::line(ANDERSSEN_DUFRESNE);
    let scene = Scene::new(&line, 20);
    let (_, why) = answer(scene, "occupant", &json!({"square": "e2"}), "queen");
    let Some(LineWhy::Occupant(OccupantWhy {
        found: Found::Left(left),
        ..
    })) = why
    else {
        panic!("{why:?}")
    };
    assert_eq!(left.number.to_string(), "1.");
    assert_eq!(left.to.map(|square| square.to_string()), Some("e4".into()));
    let (_, why) = answer(scene, "occupant", &json!({"square": "h4"}), "queen");
    assert!(
        matches!(
            why,
            Some(LineWhy::Occupant(OccupantWhy {
                found: Found::NeverHeld,
                ..
            }))
        ),
        "{why:?}"
    );
}
