//! Questions over the bare board: their JSON, the reading and grading of replies, and the reasons.

use proptest::prelude::*;
use sansvoir::board::{
    Alignment, Edge, Misstep, Pair, Parity, PieceAt, Seen, Span, SquareColor, Travel, Unreachable,
};
use sansvoir::question::bare::{Instead, Outside};
use sansvoir::question::{BareQuestion, BareWhy, Form, Kind, Mark, Reply, Sight, Truth, Verdict};
use sansvoir::reply::Unread;
use serde_json::{Value, json};
use shakmaty::{Bitboard, Board, Color, Role, Square};

/// Every kind with a subject and its truth, as the journal keeps them.
fn catalog() -> [(&'static str, Value, Value); 12] {
    [
        (
            "name",
            json!({"square": "c6", "view": "black"}),
            json!({"square": "c6"}),
        ),
        (
            "place",
            json!({"square": "c6", "view": "black"}),
            json!({"from_left": 6, "from_bottom": 3}),
        ),
        ("color", json!({"square": "g6"}), json!({"color": "light"})),
        (
            "aligned",
            json!({"squares": ["c1", "h6"]}),
            json!({"line": "diagonal"}),
        ),
        (
            "aligned",
            json!({"squares": ["c1", "h5"]}),
            json!({"line": "none"}),
        ),
        (
            "between",
            json!({"squares": ["c1", "g5"]}),
            json!({"squares": ["d2", "e3", "f4"]}),
        ),
        (
            "crossing",
            json!({"men": ["Bc1", "Rh5"]}),
            json!({"squares": ["g5", "h6"]}),
        ),
        (
            "span",
            json!({"man": "Nb3"}),
            json!({"squares": ["a1", "c1", "d2", "d4", "a5", "c5"]}),
        ),
        ("span", json!({"man": "pa7"}), json!({"squares": ["b6"]})),
        (
            "distance",
            json!({"man": "Na1", "to": "h8", "blockers": []}),
            json!({"moves": 6}),
        ),
        (
            "distance",
            json!({"man": "Na1", "to": "h8", "blockers": ["c2", "b3"]}),
            json!({"moves": null}),
        ),
        (
            "route",
            json!({"man": "Na1", "to": "h8", "blockers": ["e5"]}),
            json!({"moves": 6}),
        ),
    ]
}

fn ask(kind: &str, subject: &Value) -> BareQuestion {
    serde_json::from_value(json!({"kind": kind, "subject": subject})).unwrap()
}

fn answer(question: &BareQuestion, text: &str) -> (Mark, BareWhy) {
    let reply = question.form().read(text).unwrap();
    let mark = question.mark(&reply);
    let why = question.why(&mark, Some(&reply));
    (mark, why)
}

fn verdict(question: &BareQuestion, text: &str) -> Verdict {
    answer(question, text).0.verdict
}

fn set(names: &str) -> Bitboard {
    list(names).into_iter().collect()
}

fn list(names: &str) -> Vec<Square> {
    names
        .split_whitespace()
        .map(|name| name.parse().unwrap())
        .collect()
}

#[test]
fn every_kind_has_a_subject_and_a_truth_that_come_back_from_json() {
    let mut seen = Vec::new();
    for (kind, subject, expected) in catalog() {
        let question = ask(kind, &subject);
        assert_eq!(question.kind().name(), kind);
        // Blockers come back in the order of the squares.
        let again = serde_json::to_value(question).unwrap();
        assert_eq!(again["kind"], kind);
        assert_eq!(
            serde_json::from_value::<BareQuestion>(again).unwrap(),
            question
        );
        let truth = question.truth();
        assert_eq!(serde_json::to_value(&truth).unwrap(), expected, "{kind}");
        assert_eq!(serde_json::from_value::<Truth>(expected).unwrap(), truth);
        seen.push(question.kind());
    }
    assert!(Kind::BARE.iter().all(|kind| seen.contains(kind)));
}

#[test]
fn a_subject_comes_back_as_it_was_given() {
    for (kind, subject, _) in catalog() {
        if subject["blockers"] != json!(["c2", "b3"]) {
            let again = serde_json::to_value(ask(kind, &subject)).unwrap();
            assert_eq!(again["subject"], subject);
        }
    }
}

#[test]
fn truths_of_one_form_are_never_read_as_another() {
    let texts = [
        r#"{"square":"e5"}"#,
        r#"{"gone":true}"#,
        r#"{"piece":"N"}"#,
        r#"{"piece":null}"#,
        r#"{"squares":["a1"]}"#,
        r#"{"squares":["a1"],"optional":["h8"]}"#,
        r#"{"legal":true}"#,
        r#"{"legal":false,"reason":"pinned","by":"e8"}"#,
        r#"{"placement":"8/8/8/8/8/8/8/K1k5"}"#,
        r#"{"from_left":6,"from_bottom":3}"#,
        r#"{"color":"light"}"#,
        r#"{"color":"dark"}"#,
        r#"{"line":"file"}"#,
        r#"{"line":"rank"}"#,
        r#"{"line":"diagonal"}"#,
        r#"{"line":"none"}"#,
        r#"{"moves":6}"#,
        r#"{"moves":null}"#,
        r#"{"moves":["e2e4","a7a8q"]}"#,
        r#"{"moves":[]}"#,
        r#"{"points":-2}"#,
        r#"{"wings":["short","long"]}"#,
        r#"{"pieces":"NPP"}"#,
        r#"{"move":"d2d4"}"#,
    ];
    for text in texts {
        let truth: Truth = serde_json::from_str(text).unwrap();
        assert_eq!(serde_json::to_string(&truth).unwrap(), text);
    }
    for text in [
        "{}",
        r#"{"from_left":9,"from_bottom":3}"#,
        r#"{"color":"white"}"#,
        r#"{"line":"column"}"#,
        r#"{"moves":["e2"]}"#,
        r#"{"move":"d2"}"#,
        r#"{"wings":["king"]}"#,
    ] {
        assert!(serde_json::from_str::<Truth>(text).is_err(), "{text}");
    }
}

#[test]
fn subjects_that_make_no_question_are_refused() {
    for (kind, subject) in [
        ("aligned", json!({"squares": ["c1", "c1"]})),
        ("aligned", json!({"squares": ["c1"]})),
        ("between", json!({"squares": ["c1", "d3"]})),
        ("crossing", json!({"men": ["Bc1", "Rc1"]})),
        ("span", json!({"man": "Pa8"})),
        (
            "distance",
            json!({"man": "Pa2", "to": "a3", "blockers": []}),
        ),
        (
            "distance",
            json!({"man": "Na2", "to": "a2", "blockers": []}),
        ),
        (
            "route",
            json!({"man": "Na2", "to": "a3", "blockers": ["a2"]}),
        ),
        ("name", json!({"square": "c6", "view": "left"})),
    ] {
        let json = json!({"kind": kind, "subject": subject});
        assert!(
            serde_json::from_value::<BareQuestion>(json).is_err(),
            "{kind} {subject}"
        );
    }
}

#[test]
fn the_kinds_climb_from_the_bare_board_to_the_line() {
    let all = Kind::BARE.into_iter().chain(Kind::LINE);
    let all: Vec<Kind> = all.chain([Kind::Turn]).collect();
    assert_eq!(Kind::ALL.to_vec(), all);
    assert!(Kind::ALL.is_sorted());
    for kind in Kind::ALL {
        assert_eq!(kind.name().parse(), Ok(kind));
        assert_eq!(serde_json::to_value(kind).unwrap(), kind.name());
    }
}

#[test]
fn every_accepted_form_of_a_reply_reads_the_same() {
    let place = Reply::Place(Seen::at(6, 3).unwrap());
    let route = Reply::Route(list("a1 b3 c5"));
    let table: [(Form, &[&str], Reply); 12] = [
        (
            Form::Square,
            &["e4", "E4", " e4. ", "Ne4"],
            Reply::Square(Square::E4),
        ),
        (
            Form::Place,
            &[
                "6 3", "6,3", "6, 3", "6/3", "6-3", "63", "6 and 3", "6:3", " 6;3 ", "(6, 3)",
            ],
            place,
        ),
        (
            Form::Color,
            &["light", "l", "L", "white", "W", " Light "],
            Reply::Color(SquareColor::Light),
        ),
        (
            Form::Color,
            &["dark", "d", "D", "black", "b", "BLACK"],
            Reply::Color(SquareColor::Dark),
        ),
        (
            Form::Line,
            &["file", "f", "File", "column"],
            Reply::Line(Alignment::File),
        ),
        (
            Form::Line,
            &["rank", "R", "row"],
            Reply::Line(Alignment::Rank),
        ),
        (
            Form::Line,
            &["diagonal", "d", "DIAGONAL"],
            Reply::Line(Alignment::Diagonal),
        ),
        (
            Form::Line,
            &["none", "n", "-", "no", "No line"],
            Reply::Line(Alignment::None),
        ),
        (
            Form::Distance,
            &["6", "+6", " 6 ", "6.", "6 moves"],
            Reply::Distance(6),
        ),
        (
            Form::Distance,
            &["never", "Never", "none", "-", "impossible"],
            Reply::Never,
        ),
        (
            Form::Route,
            &[
                "a1 b3 c5",
                "a1,b3,c5",
                "A1-B3-C5",
                "Na1-b3-c5",
                "a1 -> b3 -> c5",
                "a1b3c5",
                "a1b3 c5",
            ],
            route,
        ),
        (
            Form::Route,
            &["never", "NEVER", "no way", "-"],
            Reply::Never,
        ),
    ];
    for (form, texts, expected) in table {
        for text in texts {
            assert_eq!(form.read(text).as_ref(), Ok(&expected), "{form:?} {text:?}");
        }
    }
}

#[test]
fn what_cannot_be_read_is_told_and_costs_nothing() {
    let nothing = [
        Form::Square,
        Form::Place,
        Form::Color,
        Form::Line,
        Form::Distance,
        Form::Route,
    ];
    for form in nothing {
        assert_eq!(form.read("  "), Err(Unread::Nothing), "{form:?}");
    }
    let said = |text: &str| text.to_owned();
    let table = [
        (Form::Square, "e9", Unread::NoSquare(said("e9"))),
        (Form::Square, "none", Unread::NoSquare(said("none"))),
        (Form::Square, "e4 e5", Unread::OneSquareWanted(2)),
        (Form::Place, "6", Unread::NoPlace(said("6"))),
        (Form::Place, "6 9", Unread::NoPlace(said("6 9"))),
        (Form::Place, "0 3", Unread::NoPlace(said("0 3"))),
        (Form::Place, "6 3 1", Unread::NoPlace(said("6 3 1"))),
        (Form::Place, "c6 3", Unread::NoPlace(said("c6 3"))),
        (
            Form::Color,
            "green",
            Unread::NeitherLightNorDark(said("green")),
        ),
        (Form::Line, "edge", Unread::NoLine(said("edge"))),
        (
            Form::Distance,
            "several",
            Unread::NoDistance(said("several")),
        ),
        (Form::Distance, "6 5", Unread::NoDistance(said("6 5"))),
        (Form::Distance, "-6", Unread::NoDistance(said("-6"))),
        (Form::Route, "b3 c9", Unread::NoSquare(said("c9"))),
        (Form::Route, "b3 c", Unread::NoSquare(said("c"))),
        (Form::Route, " > ", Unread::Nothing),
    ];
    for (form, text, unread) in table {
        assert_eq!(form.read(text), Err(unread), "{form:?} {text:?}");
    }
}

#[test]
fn single_answers_are_right_or_wrong_and_sets_may_be_right_in_part() {
    let wrong = [
        "c3", "3 6", "dark", "file", "diagonal", "c3", "c3", "e4", "a6", "5", "6", "b3 h8",
    ];
    let right = [
        "c6",
        "6 3",
        "light",
        "diagonal",
        "none",
        "f4 e3 d2",
        "g5 h6",
        "a1 c1 d2 d4 a5 c5",
        "b6",
        "6",
        "never",
        "b3 d4 e6 g5 f7 h8",
    ];
    for (n, (kind, subject, _)) in catalog().iter().enumerate() {
        let question = ask(kind, subject);
        assert_eq!(
            verdict(&question, right[n]),
            Verdict::Right,
            "{kind} {subject}"
        );
        assert_eq!(
            verdict(&question, wrong[n]),
            Verdict::Wrong,
            "{kind} {subject}"
        );
        assert_eq!(Mark::pass(&question.truth()).verdict, Verdict::Pass);
    }
    let span = ask("span", &json!({"man": "Nb3"}));
    let (mark, _) = answer(&span, "a1 c1 d2 e5");
    // Three hit, three missed, one extra.
    assert!((mark.score - 3.0 / 7.0).abs() < 1e-12, "{}", mark.score);
    assert_eq!(mark.verdict, Verdict::Part);
}

#[test]
fn nothing_between_neighbors_is_rightly_answered_none() {
    let question = ask("between", &json!({"squares": ["a1", "b2"]}));
    assert_eq!(verdict(&question, "none"), Verdict::Right);
    assert_eq!(verdict(&question, "a1"), Verdict::Wrong);
}

#[test]
fn the_other_of_two_pieces_ends_a_line() {
    // Only the two pieces stand on the board, and each stops the other's line (FIDE 3.5).
    let crossing = |one, other| ask("crossing", &json!({"men": [one, other]})).truth();
    assert_eq!(crossing("Ra1", "Rc1"), Truth::squares(set("b1")));
    assert_eq!(crossing("Bc1", "Qf4"), Truth::squares(set("d2 e3")));
    assert_eq!(crossing("Bc1", "Rh6"), Truth::squares(Bitboard::EMPTY));
    let file = set("d2 d3 d4 d5 d6 d7");
    assert_eq!(crossing("Qd1", "Qd8"), Truth::squares(file));
}

#[test]
fn a_route_may_begin_with_the_mans_own_square_and_any_shortest_is_right() {
    let question = ask("route", &json!({"man": "Na1", "to": "h8", "blockers": []}));
    for text in ["c2 e3 g4 e5 f7", "c2 e3 f5 g7 e8 g7 h8", "h8"] {
        assert_eq!(verdict(&question, text), Verdict::Wrong, "{text}");
    }
    for text in [
        "b3 d4 e6 g5 f7 h8",
        "a1 b3 d4 e6 g5 f7 h8",
        "Na1-c2-d4-f5-e7-g6-h8",
    ] {
        assert_eq!(verdict(&question, text), Verdict::Right, "{text}");
    }
    assert_eq!(verdict(&question, "never"), Verdict::Wrong);
    let shut = ask("route", &json!({"man": "Bc1", "to": "c2", "blockers": []}));
    assert_eq!(verdict(&shut, "never"), Verdict::Right);
    assert_eq!(verdict(&shut, "b2 c2"), Verdict::Wrong);
}

#[test]
fn exactly_108_routes_of_the_knight_from_a1_to_h8_are_accepted() {
    // Counted by brute force and by matrix powers outside this project.
    let travel = Travel::new("Na1".parse().unwrap(), Square::H8, Bitboard::EMPTY).unwrap();
    let mut walks = vec![vec![]];
    let mut accepted = 0;
    for _ in 0..7 {
        walks = walks
            .iter()
            .flat_map(|walk: &Vec<Square>| {
                let at = walk.last().copied().unwrap_or(Square::A1);
                let next = shakmaty::attacks::knight_attacks(at).into_iter();
                next.map(|to| [walk.as_slice(), &[to]].concat())
                    .collect::<Vec<_>>()
            })
            .collect();
        accepted += walks
            .iter()
            .filter(|walk| travel.misstep(walk).is_none())
            .count();
    }
    assert_eq!(accepted, 108);
}

#[test]
fn a_name_or_place_taken_from_the_other_side_is_told() {
    let name = ask("name", &json!({"square": "c6", "view": "black"}));
    let BareQuestion::Name(asked) = name else {
        panic!("a name")
    };
    let seen = Seen::of(asked.square, asked.view);
    assert_eq!((seen.from_left(), seen.from_bottom()), (6, 3));
    let instead = Instead {
        square: Square::F3,
        counted: Seen::at(3, 6).unwrap(),
        right_from_other_side: true,
        exchanged: true,
    };
    let said = answer(&name, "f3").1.reply;
    assert_eq!(asked.instead(said.as_ref()), Some(instead));
    let place = ask("place", &json!({"square": "c6", "view": "black"}));
    let BareQuestion::Place(asked) = place else {
        panic!("a place")
    };
    for (text, instead) in [("3 6", Some(instead)), ("6 3", None)] {
        let said = answer(&place, text).1.reply;
        assert_eq!(asked.instead(said.as_ref()), instead);
    }
}

#[test]
fn colors_and_lines_are_explained_by_numbers() {
    let BareQuestion::Color(asked) = ask("color", &json!({"square": "g6"})) else {
        panic!("a color")
    };
    let parity = Parity::of(asked.square);
    assert_eq!((parity.sum(), parity.color()), (13, SquareColor::Light));
    let BareQuestion::Aligned(asked) = ask("aligned", &json!({"squares": ["c2", "e4"]})) else {
        panic!("a line")
    };
    let squares = asked.squares;
    assert_eq!((squares.files_apart(), squares.ranks_apart()), (2, 2));
    assert_eq!(squares.line_ends(), Some([Square::B1, Square::H7]));
    assert_eq!(squares.between().collect::<Vec<_>>(), list("d3"));
    assert_eq!(
        squares.squares().map(SquareColor::of),
        [SquareColor::Light; 2]
    );
    let between = ask("between", &json!({"squares": ["g5", "e3"]}));
    let BareQuestion::Between(asked) = between else {
        panic!("what lies between")
    };
    let tally = answer(&between, "e3 d2 e4").1.tally;
    let line = asked.squares().alignment();
    assert_eq!((line, tally.missed), (Alignment::Diagonal, set("f4")));
    assert_eq!(tally.extra, set("d2 e3 e4"));
    let extra = [Outside::Beyond, Outside::End, Outside::OffLine];
    assert!(
        tally
            .extra
            .into_iter()
            .map(|at| asked.outside(at))
            .eq(extra)
    );
    assert_eq!(asked.squares(), Pair::new(Square::G5, Square::E3).unwrap());
}

#[test]
fn spans_and_crossings_are_explained_by_what_the_pieces_see() {
    let span = ask("span", &json!({"man": "Bb3"}));
    let BareQuestion::Span(asked) = span else {
        panic!("a span")
    };
    let measured = Span::of(asked.piece);
    assert_eq!((measured.ring, measured.lost), (1, 4));
    assert_eq!(measured.cut_by, [Edge::AFile]);
    assert_eq!(asked.rays().len(), 4);
    let tally = answer(&span, "a2 a3").1.tally;
    assert_eq!((tally.missed.count(), tally.extra), (8, set("a3")));
    let crossing = ask("crossing", &json!({"men": ["Ra1", "Rc1"]}));
    let BareQuestion::Crossing(asked) = crossing else {
        panic!("a crossing")
    };
    let tally = answer(&crossing, "d1").1.tally;
    let open = || Sight::Open { over: vec![] };
    assert_eq!((tally.missed, tally.extra), (set("b1"), set("d1")));
    assert_eq!(asked.sights(Square::B1), [open(), open()]);
    let (by, on) = (Role::Rook.of(Color::White), Square::C1);
    let blocked = Sight::Blocked { by, on };
    assert_eq!(asked.sights(Square::D1), [blocked, open()]);
}

#[test]
fn journeys_are_explained_by_a_route_and_the_first_fault() {
    let travel = |kind, piece, to| {
        let question = ask(kind, &json!({"man": piece, "to": to, "blockers": []}));
        match question {
            BareQuestion::Distance(asked) => (question, asked.travel),
            BareQuestion::Route(asked) => (question, asked.travel),
            other => panic!("{other:?}"),
        }
    };
    let (_, knight) = travel("distance", "Na1", "b2");
    assert_eq!((knight.fewest(), knight.routes()), (Some(4), 10));
    assert_eq!(knight.route().len(), 5);
    assert_eq!(knight.misstep(&knight.route()), None);
    let (_, shut) = travel("distance", "Bc1", "c2");
    assert_eq!(shut.unreachable(), Some(Unreachable::OtherColor));
    let (route, way) = travel("route", "Ng1", "g2");
    let Some(Reply::Route(said)) = answer(&route, "f3 g2").1.reply else {
        panic!("a route")
    };
    let (from, to) = (Square::F3, Square::G2);
    assert_eq!(way.misstep(&said), Some(Misstep::NotItsWay { from, to }));
    assert_eq!((way.fewest(), way.routes()), (Some(3), 4));
    let passed = route.why(&Mark::pass(&route.truth()), None);
    assert_eq!(passed.reply, None);
}

fn any_square() -> impl Strategy<Value = Square> {
    (0u32..64).prop_map(Square::new)
}

fn any_travel() -> impl Strategy<Value = Travel> {
    let role = prop::sample::select(vec![
        Role::King,
        Role::Queen,
        Role::Rook,
        Role::Bishop,
        Role::Knight,
    ]);
    let held = prop::collection::vec(any_square(), 0..30);
    (role, any_square(), any_square(), held).prop_filter_map(
        "a journey",
        |(role, from, to, held)| {
            let piece = PieceAt::new(role.of(Color::White), from)?;
            let blockers: Bitboard = held.into_iter().collect();
            Travel::new(piece, to, blockers.without(from)).ok()
        },
    )
}

/// What a piece set on a board of its own may do, apart from the code under test.
fn may_step(travel: Travel, from: Square, to: Square) -> bool {
    let mut board = Board::empty();
    for held in travel.blockers() {
        board.set_piece_at(held, Role::Pawn.of(Color::White));
    }
    board.set_piece_at(from, travel.piece().piece());
    board.attacks_from(from).contains(to) && !travel.blockers().contains(to)
}

fn grade(travel: Travel, route: &[Square]) -> Verdict {
    let names: Vec<String> = route.iter().map(Square::to_string).collect();
    let blockers: Vec<String> = travel
        .blockers()
        .into_iter()
        .map(|at| at.to_string())
        .collect();
    let piece = travel.piece().to_string();
    let to = travel.to().to_string();
    let subject = json!({"man": piece, "to": to, "blockers": blockers});
    verdict(&ask("route", &subject), &names.join(" "))
}

proptest! {
    #[test]
    fn any_shortest_route_is_accepted(travel in any_travel(), turns in prop::collection::vec(0usize..28, 64)) {
        prop_assume!(travel.fewest().is_some());
        let mut route = vec![travel.piece().square()];
        for turn in turns {
            let at = *route.last().unwrap();
            if at == travel.to() {
                break;
            }
            let left = |from| {
                let piece = PieceAt::new(travel.piece().piece(), from)?;
                if from == travel.to() { Some(0) } else { Travel::new(piece, travel.to(), travel.blockers()).ok()?.fewest() }
            };
            let nearer: Vec<Square> = Square::ALL
                .into_iter()
                .filter(|to| may_step(travel, at, *to) && left(*to).map(|moves| moves + 1) == left(at))
                .collect();
            route.push(nearer[turn % nearer.len()]);
        }
        prop_assert_eq!(grade(travel, &route), Verdict::Right);
        prop_assert_eq!(grade(travel, &route[1..]), Verdict::Right);
    }

    #[test]
    fn no_other_route_is_accepted(travel in any_travel(), change in any::<prop::sample::Index>(), to in any_square(), longer in any::<bool>()) {
        prop_assume!(travel.fewest().is_some());
        let fewest = travel.fewest().unwrap() as usize;
        let mut route = travel.route()[1..].to_vec();
        let at = change.index(route.len());
        if longer {
            route.insert(at, to);
        } else {
            route[at] = to;
        }
        // The own square at the head is no move.
        let moves = if route[0] == travel.piece().square() { &route[1..] } else { &route[..] };
        let mut from = travel.piece().square();
        let legal = moves.iter().all(|to| may_step(travel, std::mem::replace(&mut from, *to), *to));
        let right = legal && from == travel.to() && moves.len() == fewest;
        let expected = if right { Verdict::Right } else { Verdict::Wrong };
        prop_assert_eq!(grade(travel, &route), expected);
    }

    #[test]
    fn a_set_of_squares_reads_the_same_in_any_order_and_form(
        names in prop::collection::vec(any_square(), 1..12).prop_shuffle(),
        separator in prop::sample::select(vec![" ", ",", ", ", "; ", " and ", ""]),
        upper in any::<bool>(),
    ) {
        let said: Vec<String> = names.iter().map(Square::to_string).collect();
        let said = said.join(separator);
        let said = if upper { said.to_uppercase() } else { said };
        let expected = Reply::Squares(names.into_iter().collect());
        prop_assert_eq!(Form::Squares.read(&said), Ok(expected));
    }

    #[test]
    fn a_route_reads_the_same_in_any_form(
        names in prop::collection::vec(any_square(), 1..12),
        separator in prop::sample::select(vec![" ", ",", "-", " - ", "->", " → ", "; ", ""]),
        upper in any::<bool>(),
    ) {
        let said: Vec<String> = names.iter().map(Square::to_string).collect();
        let said = said.join(separator);
        let said = if upper { said.to_uppercase() } else { said };
        prop_assert_eq!(Form::Route.read(&said), Ok(Reply::Route(names)));
    }

    #[test]
    fn two_numbers_read_the_same_in_any_separator(
        counts in (1u32..=8, 1u32..=8),
        separator in prop::sample::select(vec![" ", ",", "/", "-", ":", " | ", ".", ""]),
    ) {
        let said = format!("{}{separator}{}", counts.0, counts.1);
        let expected = Reply::Place(Seen::at(counts.0, counts.1).unwrap());
        prop_assert_eq!(Form::Place.read(&said), Ok(expected));
    }

    #[test]
    fn no_text_makes_the_reading_fail(text in "\\PC{0,12}") {
        for form in [Form::Square, Form::Place, Form::Color, Form::Line, Form::Distance, Form::Route] {
            let _ = form.read(&text);
        }
    }
}
