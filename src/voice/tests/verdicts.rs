//! Verdicts and truths.

use shakmaty::Square;

use super::*;

fn verdict_of(line: &Line, question: &str, reply: &str) -> Vec<String> {
    PLAIN.say(&Output::Answered(Box::new(answered(line, question, reply))))
}

#[test]
fn a_right_reply_is_told_in_one_line_with_the_truth() {
    let line = usual(FIDE_SAMPLE);
    let said: Vec<String> = QUESTIONS
        .iter()
        .flat_map(|(_, question, right, _)| verdict_of(&line, question, right))
        .collect();
    assert_eq!(
        said,
        [
            "Right, in 4.2 seconds. The piece stands on f3.",
            "Right, in 4.2 seconds. Black's knight stands on d6.",
            "Right, in 4.2 seconds. White has rooks on d1 and h1.",
            "Right, in 4.2 seconds. The piece on g5 attacks f4, h4, f6, h6 and e7. It guards its own side's \
             piece on e3, which may be named or left out.",
            "Right, in 4.2 seconds. Black's pieces that attack or guard e5 stand on c6.",
            "Right, in 4.2 seconds. The piece on h7 can go to h5 and h6.",
            "Right, in 4.2 seconds. The move is not legal.",
            "Right, in 4.2 seconds. There is no check.",
            "Right, in 4.2 seconds. No move gives check.",
            "Right, in 4.2 seconds. The only legal capture is e7 to g5.",
            "Right, in 4.2 seconds. No piece of White is hanging.",
            "Right, in 4.2 seconds. No move mates.",
            "Right, in 4.2 seconds. Taking on g5 wins nothing and loses nothing.",
            "Right, in 4.2 seconds. Material is even: 0 points.",
            "Right, in 4.2 seconds. Black has no right to castle any more.",
            "Right, in 4.2 seconds. White has lost 2 pawns.",
            "Right, in 4.2 seconds. Black's move 9 was e8 to g8.",
            "Right, in 4.2 seconds. White has 14 pieces, Black has 14 pieces.",
        ]
    );
}

#[test]
fn a_late_right_reply_stays_right() {
    let line = usual(FIDE_SAMPLE);
    let mut late = answered(&line, QUESTIONS[0].1, "f3");
    late.late = true;
    late.millis = Some(12_000);
    assert_eq!(
        PLAIN.say(&Output::Answered(Box::new(late))),
        ["Right, and late: it took 12 seconds. The piece stands on f3."]
    );
    let mut late = answered(&line, QUESTIONS[0].1, "g5");
    late.late = true;
    assert_eq!(
        PLAIN.say(&Output::Answered(Box::new(late)))[0],
        "Not right, and late: it took 4.2 seconds."
    );
}

#[test]
fn a_reply_that_is_right_in_part_is_told_square_by_square() {
    let line = usual(FIDE_SAMPLE);
    assert_eq!(
        verdict_of(&line, QUESTIONS[2].1, "a1 h1"),
        [
            "Right in part.",
            "Named rightly: h1.",
            "Missed: d1.",
            "Named wrongly: a1.",
            "White has rooks on d1 and h1.",
            "White's rook went from a1 to d1 on move 10 by castling.",
            "Nothing stands on a1: White's rook left it for d1 on move 10.",
        ]
    );
}

#[test]
fn a_question_given_up_is_told_apart_from_a_wrong_reply() {
    let line = usual(FIDE_SAMPLE);
    assert_eq!(
        verdict_of(&line, QUESTIONS[0].1, "pass"),
        [
            "Passed.",
            "The piece stands on f3.",
            "White's knight went from g1 to f3 on move 2.",
        ]
    );
    assert_eq!(
        verdict_of(&line, QUESTIONS[0].1, "gone"),
        [
            "Not right.",
            "The piece stands on f3.",
            "White's knight went from g1 to f3 on move 2.",
        ]
    );
}

#[test]
fn truths_of_every_form_have_a_sentence_where_nothing_is_there() {
    let table = [
        (
            r#"{"kind":"whereabouts","subject":{"man":"d7"}}"#,
            "The piece is gone: it was taken.",
        ),
        (
            r#"{"kind":"occupant","subject":{"square":"e4"}}"#,
            "No piece stands on e4.",
        ),
        (
            r#"{"kind":"attackers","subject":{"color":"black","square":"a1"}}"#,
            "None of Black's pieces attacks or guards a1.",
        ),
        (
            r#"{"kind":"moves","subject":{"square":"a8"}}"#,
            "The piece on a8 can go to b8.",
        ),
        (
            r#"{"kind":"moves","subject":{"square":"h1"}}"#,
            "The piece on h1 has no legal move.",
        ),
        (
            r#"{"kind":"attacks","subject":{"square":"h1"}}"#,
            "The piece on h1 attacks g1. It guards its own side's pieces on f1 and h2, which may be named \
             or left out.",
        ),
        (
            r#"{"kind":"standing","subject":{"color":"black","role":"queen"}}"#,
            "Black has a queen on d8.",
        ),
    ];
    let line = usual(FIDE_SAMPLE);
    for (question, said) in table {
        let answered = answered(&line, question, "pass");
        assert_eq!(truth(&answered.question, &answered.truth), said);
    }
    let table = [
        (
            r#"{"kind":"checks","subject":{}}"#,
            "The move that gives check is c4 to f7.",
        ),
        (
            r#"{"kind":"captures","subject":{}}"#,
            "The legal captures are b3 to b7, c4 to d3 and c4 to f7.",
        ),
        (
            r#"{"kind":"exchange","subject":{"square":"d3"}}"#,
            "Taking on d3 loses 2 points.",
        ),
        (
            r#"{"kind":"balance","subject":{}}"#,
            "Black is 2 points ahead, so the answer is -2.",
        ),
        (
            r#"{"kind":"rights","subject":{"color":"black"}}"#,
            "Black may still castle short and long.",
        ),
        (
            r#"{"kind":"taken","subject":{"color":"black"}}"#,
            "Black has lost no pieces.",
        ),
    ];
    // Anderssen - Dufresne, Berlin 1852, to White's move 11.
    let line = usual(
        "1. e4 e5 2. Nf3 Nc6 3. Bc4 Bc5 4. b4 Bxb4 5. c3 Ba5 6. d4 exd4 7. O-O d3 8. Qb3 Qf6 9. e5 \
         Qg6 10. Re1 Nge7",
    );
    for (question, said) in table {
        let answered = answered(&line, question, "pass");
        assert_eq!(truth(&answered.question, &answered.truth), said);
    }
    let queens = r#"{"kind":"standing","subject":{"color":"black","role":"queen"}}"#;
    let answered = answered(&usual(PGN_SAMPLE), queens, "pass");
    assert_eq!(
        truth(&answered.question, &answered.truth),
        "Black has no queens."
    );
}

#[test]
fn every_kind_is_among_the_questions_here_and_graded_as_meant() {
    let line = usual(FIDE_SAMPLE);
    assert_eq!(QUESTIONS.map(|(kind, ..)| kind), Kind::LINE);
    for (kind, question, right, wrong) in QUESTIONS {
        let verdict = |reply| answered(&line, question, reply).mark.verdict;
        assert_eq!(verdict(right), Verdict::Right, "{kind}");
        assert!(
            matches!(verdict(wrong), Verdict::Part | Verdict::Wrong),
            "{kind}"
        );
        assert_eq!(verdict("pass"), Verdict::Pass, "{kind}");
    }
}

#[test]
fn a_truth_of_squares_is_told_whatever_they_are() {
    let question: Question =
        serde_json::from_str(r#"{"kind":"check","subject":{}}"#).expect("a question");
    assert_eq!(
        truth(&question, &Truth::squares(Square::B4.into())),
        "Check comes from b4."
    );
}
