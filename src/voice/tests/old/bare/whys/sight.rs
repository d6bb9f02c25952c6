//! What pieces attack.

use super::{Row, hold};

#[test]
fn a_span_is_told_by_what_the_edge_leaves_and_by_the_lines_that_were_missed() {
    let table: &[Row] = &[
        (
            "span",
            r#""man":"Nb3""#,
            "pass",
            &[
                "A knight jumps two squares along a file or rank and one to the side: the edge at the \
                 a-file leaves 6 of 8.",
            ],
        ),
        (
            "span",
            r#""man":"Nd4""#,
            "none",
            &[
                "A knight jumps two squares along a file or rank and one to the side: 8 squares, none \
                 cut off by the edge.",
            ],
        ),
        (
            "span",
            r#""man":"Ka1""#,
            "pass",
            &["A king goes one step: the edge at the a-file and the first rank leaves 3 of 8."],
        ),
        (
            "span",
            r#""man":"pe4""#,
            "d5 f5",
            &[
                "A black pawn attacks one step diagonally toward the first rank: 2 squares, none cut \
                 off by the edge.",
                "Not d5 or f5: no pawn's attack leads there.",
            ],
        ),
        (
            "span",
            r#""man":"Ph4""#,
            "pass",
            &[
                "A white pawn attacks one step diagonally toward the eighth rank: the edge at the \
                 h-file leaves 1 of 2.",
            ],
        ),
        (
            "span",
            r#""man":"Bb2""#,
            "a1 c3 d4 e5 f6 g7 h8",
            &[
                "A bishop attacks 7 squares from the edge and 2 more for each step inwards: here 9.",
                "Along the diagonal from c1 to a3 it attacks c1 and a3.",
            ],
        ),
        (
            "span",
            r#""man":"Bh1""#,
            "pass",
            &[
                "A bishop attacks 7 squares from the edge, fewer than from elsewhere.",
                "Along the diagonal from h1 to a8 it attacks g2, f3, e4, d5, c6, b7 and a8.",
            ],
        ),
        (
            "span",
            r#""man":"Qd4""#,
            "pass",
            &[
                "A queen attacks 21 squares from the edge and 2 more for each step inwards: here 27.",
                "Along the d-file it attacks d1, d2, d3, d5, d6, d7 and d8.",
                "Along rank 4 it attacks a4, b4, c4, e4, f4, g4 and h4.",
                "Along the diagonal from a1 to h8 it attacks a1, b2, c3, e5, f6, g7 and h8.",
                "Along the diagonal from g1 to a7 it attacks g1, f2, e3, c5, b6 and a7.",
            ],
        ),
        (
            "span",
            r#""man":"Ra1""#,
            "b1 c1 d1 e1 f1 g1 h1 a1 b2",
            &[
                "A rook attacks 14 squares from anywhere on the empty board.",
                "Along the a-file it attacks a2, a3, a4, a5, a6, a7 and a8.",
                "Not a1: a piece does not attack the square on which it stands.",
                "Not b2: no file or rank joins a1 and b2.",
            ],
        ),
        (
            "span",
            r#""man":"Nb3""#,
            "a1 c1 d2 d4 a5 c5 e4 e5",
            &["Not e4 or e5: no knight's jump leads there."],
        ),
    ];
    hold(table);
}

#[test]
fn a_crossing_is_told_piece_by_piece() {
    let table: &[Row] = &[
        (
            "crossing",
            r#""men":["Bc1","Re8"]"#,
            "h6",
            &[
                "The bishop on c1 attacks e3 over d2, and the rook on e8 attacks it over e7, e6, e5 \
                 and e4.",
                "Not h6: no file or rank joins e8 and h6.",
            ],
        ),
        (
            "crossing",
            r#""men":["Bc1","Re8"]"#,
            "e3 e4 d2 c1 a1",
            &[
                "Not a1: no diagonal joins c1 and a1.",
                "Not c1: the bishop stands there and does not attack its own square.",
                "Not d2: no file or rank joins e8 and d2.",
                "The other one that you named is not attacked by both either.",
            ],
        ),
        (
            "crossing",
            r#""men":["Nb3","pd6"]"#,
            "pass",
            &["The knight on b3 attacks c5, and the black pawn on d6 attacks it."],
        ),
        (
            "crossing",
            r#""men":["Ra1","Na4"]"#,
            "a5",
            &["Not a5: the knight on a4 stands in the way of the rook on a1."],
        ),
        (
            "crossing",
            r#""men":["Ba1","Ba2"]"#,
            "pass",
            &["Their lines and jumps do not meet."],
        ),
        (
            "crossing",
            r#""men":["Qd1","Qe8"]"#,
            "pass",
            &[
                "The queen on d1 attacks e1, and the queen on e8 attacks it over e7, e6, e5, e4, e3 \
                 and e2.",
                "The queen on d1 attacks e2, and the queen on e8 attacks it over e7, e6, e5, e4 and \
                 e3.",
                "The queen on d1 attacks a4 over c2 and b3, and the queen on e8 attacks it over d7, \
                 c6 and b5.",
                "The other 3 are found in the same way.",
            ],
        ),
    ];
    hold(table);
}
