//! What is true, and how it reads after a verdict.

use super::*;
use crate::exercise::{Answered, Output};
use crate::question::{Kind, Question, Why};
use crate::voice::{Announce, Voice};
use shakmaty::Color;

const TABLE: [(&str, &str, &str, &str); 24] = [
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
        "none",
        "A bishop on c1 and a rook on h6 attack no square together.",
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
        "With pieces on c2 and b3, a knight never gets from a1 to h8.",
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
        "With a piece on f3, a knight takes 2 moves from d4 to e5. The only shortest route goes from d4 \
         over c6 to e5.",
    ),
    (
        "route",
        r#""man":"Na1","to":"h8""#,
        "b3 d4 e6 g5 f7 h8",
        "A knight takes 6 moves from a1 to h8. One of 108 shortest routes goes from a1 over c2, e1, g2, \
         f4 and g6 to h8.",
    ),
    (
        "route",
        r#""man":"Qa1","to":"a8""#,
        "a8",
        "A queen takes 1 move from a1 to a8. One move leads from a1 to a8.",
    ),
    (
        "route",
        r#""man":"Bc1","to":"c2""#,
        "never",
        "A bishop never gets from c1 to c2.",
    ),
];

#[test]
fn every_truth_names_its_subject() {
    for (kind, subject, right, said) in TABLE {
        let question = asked(kind, subject);
        assert_eq!(truth(&question), said);
        assert_eq!(marked(&question, right).0, Verdict::Right, "{said}");
    }
}

#[test]
fn every_kind_has_its_truth_here() {
    for kind in Kind::BARE {
        assert!(TABLE.iter().any(|row| row.0 == kind.name()), "{kind}");
    }
}

fn verdict(kind: &str, subject: &str, text: &str) -> Vec<String> {
    let question = asked(kind, subject);
    let reply = question.form().read(text).expect("a reply");
    let mark = question.mark(&reply);
    let wrong = mark.verdict != Verdict::Right;
    let voice = Voice {
        announce: Announce::Words,
        view: Color::White,
        plain: true,
        list: crate::voice::List::Piece,
    };
    voice.say(&Output::Answered(Box::new(Answered {
        question: Question::Bare(question),
        setting: None,
        truth: question.truth(),
        text: text.to_owned(),
        why: wrong.then(|| Why::Bare(question.why(&mark, Some(&reply)))),
        reply: Some(reply),
        mark,
        millis: Some(2_100),
        late: false,
        repeat: false,
        looks: 0,
        hardness: None,
        tries: None,
    })))
}

#[test]
fn a_right_reply_is_told_in_one_line_with_the_truth() {
    for (kind, subject, right, said) in TABLE {
        assert_eq!(
            verdict(kind, subject, right),
            [format!("Right, in 2.1 seconds. {said}")]
        );
    }
}

#[test]
fn a_wrong_reply_is_told_with_the_truth_and_the_reasons() {
    assert_eq!(
        verdict("color", r#""square":"g6""#, "dark"),
        [
            "Not right.",
            "g6 is light.",
            "The g-file is the seventh; 7 plus 6 is 13, and odd means light.",
        ]
    );
    assert_eq!(
        verdict("between", r#""squares":["c1","g5"]"#, "d2 e3 e4"),
        [
            "Right in part.",
            "Named rightly: d2 and e3.",
            "Missed: f4.",
            "Named wrongly: e4.",
            "d2, e3 and f4 lie between c1 and g5.",
            "e4 does not lie on that diagonal.",
            "Go along the diagonal from c1: at each step the letter goes one on and the number goes one up.",
        ]
    );
}
