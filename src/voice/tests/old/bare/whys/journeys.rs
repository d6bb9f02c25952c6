//! In how few moves, by which route, or why never.

use super::{Row, hold};

const FROM_A1: &str = "One of 108 shortest routes goes from a1 over c2, e1, g2, f4 and g6 to h8.";

#[test]
fn a_distance_is_told_by_its_rule_and_a_shortest_route() {
    let table: &[Row] = &[
        (
            "distance",
            r#""man":"Na1","to":"h8""#,
            "5",
            &[
                "A knight changes color with every move, and a1 and h8 are both dark: the number of \
                 moves has to be even.",
                FROM_A1,
            ],
        ),
        (
            "distance",
            r#""man":"Na1","to":"b3""#,
            "never",
            &["One move leads from a1 to b3."],
        ),
        (
            "distance",
            r#""man":"Ng1","to":"g2""#,
            "2",
            &[
                "A knight changes color with every move, and g1 is dark and g2 is light: the number \
                 of moves has to be odd.",
                "One of 4 shortest routes goes from g1 over e2 and f4 to g2.",
            ],
        ),
        (
            "distance",
            r#""man":"Ke1","to":"a8""#,
            "4",
            &[
                "a8 is 4 files and 7 ranks away, and a king needs the larger of the two numbers.",
                "One of 70 shortest routes goes from e1 over d2, c3, b4, a5, a6 and a7 to a8.",
            ],
        ),
        (
            "distance",
            r#""man":"Ke1","to":"e3","blockers":["d2","e2","f2"]"#,
            "2",
            &[
                "On the empty board it takes 2 moves; the pieces in the way make it 4.",
                "One of 2 shortest routes goes from e1 over d1, c2 and d3 to e3.",
            ],
        ),
        (
            "distance",
            r#""man":"Bc1","to":"h4""#,
            "1",
            &[
                "No diagonal joins c1 and h4, so the bishop needs one stop.",
                "The only shortest route goes from c1 over g5 to h4.",
            ],
        ),
        (
            "distance",
            r#""man":"Bc1","to":"h4","blockers":["e3"]"#,
            "2",
            &[
                "No diagonal joins c1 and h4, and every way with one stop is blocked.",
                "One of 3 shortest routes goes from c1 over b2 and f6 to h4.",
            ],
        ),
        (
            "distance",
            r#""man":"Ra1","to":"a8","blockers":["a4"]"#,
            "1",
            &[
                "A piece on a4 closes the straight way, so the rook goes round.",
                "One of 7 shortest routes goes from a1 over b1 and b8 to a8.",
            ],
        ),
    ];
    hold(table);
}

#[test]
fn a_piece_that_never_gets_there_is_told_what_keeps_it_away() {
    let table: &[Row] = &[
        (
            "distance",
            r#""man":"Bc1","to":"c2""#,
            "2",
            &["A bishop stays on the color of its square: c1 is dark, c2 is light."],
        ),
        (
            "distance",
            r#""man":"Bc1","to":"h6","blockers":["h6"]"#,
            "1",
            &["A piece stands on h6 itself, and the bishop may not take it."],
        ),
        (
            "distance",
            r#""man":"Na1","to":"h8","blockers":["b3","c2"]"#,
            "6",
            &["The knight on a1 has no move: pieces stand on c2 and b3."],
        ),
        (
            "distance",
            r#""man":"Na1","to":"h8","blockers":["g6","f7","d4"]"#,
            "6",
            &["No move of a knight leads to h8: pieces stand on g6 and f7."],
        ),
        (
            "distance",
            r#""man":"Ka1","to":"h8","blockers":["c1","c2","c3","b3","a3"]"#,
            "pass",
            &["The pieces on c1, c2, a3, b3 and c3 leave no route from a1 to h8."],
        ),
    ];
    hold(table);
}

#[test]
fn the_first_fault_of_a_route_is_told() {
    const KNIGHT: &str = r#""man":"Nd4","to":"e5","blockers":["f3"]"#;
    const EVEN: &str = "A knight changes color with every move, and d4 and e5 are both dark: the \
        number of moves has to be even.";
    let table: &[Row] = &[
        ("route", KNIGHT, "pass", &[EVEN]),
        ("route", KNIGHT, "never", &[EVEN]),
        (
            "route",
            KNIGHT,
            "f3 e5",
            &["From d4 the knight cannot go to f3: a piece stands there that it may not take."],
        ),
        (
            "route",
            KNIGHT,
            "d4 d4 c6 e5",
            &["The route names d4 twice in a row, and every move leads to another square."],
        ),
        ("route", KNIGHT, "c6", &["The route ends on c6, not on e5."]),
        (
            "route",
            KNIGHT,
            "e5",
            &["No knight's jump leads from d4 to e5."],
        ),
        (
            "route",
            KNIGHT,
            "b5 c7 e6 g5 f7 e5",
            &["The route gets there in 6 moves, but 2 would do.", EVEN],
        ),
        (
            "route",
            r#""man":"Bc1","to":"h3","blockers":["e3"]"#,
            "f4 h3",
            &[
                "From c1 the bishop cannot go to f4: the piece on e3 stands in the way.",
                "A bishop stays on the color of its square: c1 is dark, h3 is light.",
            ],
        ),
    ];
    hold(table);
}
