//! What is asked.

use super::*;

#[test]
fn every_kind_is_asked_in_a_sentence_of_its_own() {
    let table = [
        (
            "name",
            r#""square":"c6","view":"black""#,
            "The board is seen from Black's side: what is the marked square called?",
        ),
        (
            "place",
            r#""square":"c6","view":"black""#,
            "c6, seen from Black's side: how many files from the left, and how many rows from the \
             bottom?",
        ),
        ("color", r#""square":"g6""#, "Is g6 light or dark?"),
        (
            "aligned",
            r#""squares":["c1","h6"]"#,
            "Which line do c1 and h6 share: file, rank, diagonal or none?",
        ),
        (
            "between",
            r#""squares":["c1","g5"]"#,
            "Which squares lie between c1 and g5?",
        ),
        (
            "crossing",
            r#""men":["Bc1","ph6"]"#,
            "A bishop on c1 and a black pawn on h6 stand alone on the board: which squares do both \
             attack?",
        ),
        (
            "span",
            r#""man":"Nb3""#,
            "Which squares does a knight on b3 attack on the empty board?",
        ),
        (
            "span",
            r#""man":"Pb3""#,
            "Which squares does a white pawn on b3 attack on the empty board?",
        ),
        (
            "distance",
            r#""man":"Na1","to":"h8","blockers":[]"#,
            "A knight on a1, the board empty: in how few moves does it reach h8, if ever?",
        ),
        (
            "distance",
            r#""man":"Na1","to":"h8","blockers":["b3","c2"]"#,
            "A knight on a1, with pieces on c2 and b3 that it may not take: in how few moves does it \
             reach h8, if ever?",
        ),
        (
            "route",
            r#""man":"rf6","to":"a7","blockers":["c6"]"#,
            "A rook on f6, with a piece on c6 that it may neither take nor pass: name the squares of \
             one shortest route to a7, or say never.",
        ),
    ];
    for (kind, subject, said) in table {
        assert_eq!(question(&asked(kind, subject)), said);
    }
}
