//! What is true, and how it reads after a verdict.

use super::*;
use crate::question::{Question, Why};
use crate::session::{Answered, Output};
use crate::voice::{Announce, Voice};

const TABLE: [(&str, &str, &str, &str); 21] = [
    (
        "name",
        r#""square":"c6","view":"black""#,
        "c6",
        "The marked square is c6.",
    ),
    (
        "place",
        r#""square":"c6","view":"black""#,
        "6 3",
        "From Black's side c6 lies on file 6 from the left and row 3 from the bottom.",
    ),
    (
        "place",
        r#""square":"c6","view":"white""#,
        "3 6",
        "From White's side c6 lies on file 3 from the left and row 6 from the bottom.",
    ),
    ("color", r#""square":"g6""#, "light", "g6 is light."),
    ("color", r#""square":"a1""#, "dark", "a1 is dark."),
    (
        "aligned",
        r#""squares":["c1","h6"]"#,
        "diagonal",
        "c1 and h6 share a diagonal.",
    ),
    (
        "aligned",
        r#""squares":["c1","c7"]"#,
        "file",
        "c1 and c7 share a file.",
    ),
    (
        "aligned",
        r#""squares":["h5","b5"]"#,
        "rank",
        "h5 and b5 share a rank.",
    ),
    (
        "aligned",
        r#""squares":["c1","h7"]"#,
        "none",
        "c1 and h7 share no file, rank or diagonal.",
    ),
    (
        "between",
        r#""squares":["g5","c1"]"#,
        "d2 e3 f4",
        "f4, e3 and d2 lie between g5 and c1.",
    ),
    (
        "between",
        r#""squares":["c1","e3"]"#,
        "d2",
        "d2 lies between c1 and e3.",
    ),
    (
        "between",
        r#""squares":["c1","d2"]"#,
        "none",
        "No square lies between c1 and d2.",
    ),
    (
        "crossing",
        r#""men":["Bc1","Rh6"]"#,
        "h6",
        "",
    ),
    (
        "crossing",
        r#""men":["Bc1","Re8"]"#,
        "e3",
        "A bishop on c1 and a rook on e8 both attack e3.",
    ),
    (
        "crossing",
        r#""men":["Ba1","Ba2"]"#,
        "none",
        "A bishop on a1 and a bishop on a2 attack no square together.",
    ),
    (
        "span",
        r#""man":"Nb3""#,
        "a1 c1 d2 d4 a5 c5",
        "A knight on b3 attacks a1, c1, d2, d4, a5 and c5.",
    ),
    (
        "span",
        r#""man":"pe4""#,
        "d3 f3",
        "A black pawn on e4 attacks d3 and f3.",
    ),
    (
        "distance",
        r#""man":"Na1","to":"h8","blockers":[]"#,
        "6",
        "A knight takes 6 moves from a1 to h8.",
    ),
    (
        "distance",
        r#""man":"Na1","to":"h8","blockers":["b3","c2"]"#,
        "never",
        "With men on c2 and b3, a knight never gets from a1 to h8.",
    ),
    (
        "distance",
        r#""man":"Ra1","to":"a8","blockers":[]"#,
        "1",
        "A rook takes 1 move from a1 to a8.",
    ),
    (
        "route",
        r#""man":"Nd4","to":"e5","blockers":["f3"]"#,
        "c6 e5",
        "",
    ),
];

#[test]
fn every_truth_names_its_subject() {
    for (kind, subject, right, said) in TABLE {
        let question = asked(kind, subject);
        assert_eq!(truth(&question, &question.truth()), said);
        assert_eq!(marked(&question, right).0, Verdict::Right, "{said}");
    }
}
