//! What a whole voice says.

mod closing;
mod everything;
mod prompts;
mod verdicts;

use shakmaty::Position;

use super::score::{FIDE_SAMPLE, PGN_SAMPLE, from_fen, usual};
use super::*;
use crate::exercise::{
    Answered, Ask, Asked, Ending, KindCount, OwnSummary, Setting, Stand, Summary,
};
use crate::game::{GameResult, Line, Start, Tags};
use crate::question::{Form, Kind, LineQuestion, Mark, Question, Scene, Truth, Verdict, Why};
use crate::reply::Unread;

const PLAIN: Voice = Voice {
    announce: Announce::Words,
    view: Color::White,
    plain: true,
    list: List::Piece,
};

const DRAWN: Voice = Voice {
    plain: false,
    ..PLAIN
};

/// Asks at the end of the line and reads the reply; `pass` gives the question up.
fn answered(line: &Line, question: &str, reply: &str) -> Answered {
    let question: LineQuestion = serde_json::from_str(question).expect("a question");
    let scene = Scene::new(line, line.len());
    let truth = question.truth(scene);
    let read = (reply != "pass").then(|| question.read(scene, reply).expect("a reply"));
    let mark = read
        .as_ref()
        .map_or_else(|| Mark::pass(&truth), |read| Mark::new(&truth, read));
    let wrong = mark.verdict != Verdict::Right;
    Answered {
        question: Question::Line(question),
        setting: Some(Setting::of(scene)),
        why: wrong.then(|| Why::Line(question.why(scene, &mark, read.as_ref()))),
        text: if reply == "pass" { "" } else { reply }.to_owned(),
        reply: read,
        truth,
        mark,
        millis: Some(4_210),
        late: false,
        repeat: false,
        looks: 0,
        hardness: None,
        tries: None,
    }
}

/// A question of every kind, with a reply that is right, one that is wrong or right in part.
const QUESTIONS: [(Kind, &str, &str, &str); 18] = [
    (
        Kind::Whereabouts,
        r#"{"kind":"whereabouts","subject":{"man":"g1"}}"#,
        "f3",
        "gone",
    ),
    (
        Kind::Occupant,
        r#"{"kind":"occupant","subject":{"square":"d6"}}"#,
        "black knight",
        "empty",
    ),
    (
        Kind::Standing,
        r#"{"kind":"standing","subject":{"color":"white","role":"rook"}}"#,
        "d1 h1",
        "a1 h1",
    ),
    (
        Kind::Attacks,
        r#"{"kind":"attacks","subject":{"square":"g5"}}"#,
        "e7 f6 h4 h6 f4",
        "d8 f6",
    ),
    (
        Kind::Attackers,
        r#"{"kind":"attackers","subject":{"color":"black","square":"e5"}}"#,
        "c6",
        "none",
    ),
    (
        Kind::Moves,
        r#"{"kind":"moves","subject":{"square":"h7"}}"#,
        "h6 h5",
        "h6 g6",
    ),
    (
        Kind::Legality,
        r#"{"kind":"legality","subject":{"move":"e8e3"}}"#,
        "illegal",
        "legal",
    ),
    (
        Kind::Check,
        r#"{"kind":"check","subject":{}}"#,
        "none",
        "g5",
    ),
    (
        Kind::Checks,
        r#"{"kind":"checks","subject":{}}"#,
        "none",
        "Nc4",
    ),
    (
        Kind::Captures,
        r#"{"kind":"captures","subject":{}}"#,
        "Bxg5",
        "Nc4",
    ),
    (
        Kind::Hanging,
        r#"{"kind":"hanging","subject":{"color":"white"}}"#,
        "none",
        "e3",
    ),
    (Kind::Mate, r#"{"kind":"mate","subject":{}}"#, "none", "Nc4"),
    (
        Kind::Exchange,
        r#"{"kind":"exchange","subject":{"square":"g5"}}"#,
        "0",
        "3",
    ),
    (
        Kind::Balance,
        r#"{"kind":"balance","subject":{}}"#,
        "even",
        "-1",
    ),
    (
        Kind::Rights,
        r#"{"kind":"rights","subject":{"color":"black"}}"#,
        "none",
        "both",
    ),
    (
        Kind::Taken,
        r#"{"kind":"taken","subject":{"color":"white"}}"#,
        "two pawns",
        "NP",
    ),
    (
        Kind::Played,
        r#"{"kind":"played","subject":{"color":"black","number":9}}"#,
        "O-O",
        "a6",
    ),
    (
        Kind::Rebuild,
        r#"{"kind":"rebuild","subject":{}}"#,
        "r1bqr1k1/ppp1bppp/2nn4/6B1/8/4QN2/PPPN1PPP/1K1R1B1R",
        "Kb1 Qe3 / Kg8 Qd7",
    ),
];

fn summary() -> Summary {
    let count = |kind, [right, part, passed]: [usize; 3], median_millis| KindCount {
        kind,
        right,
        part,
        wrong: 0,
        passed,
        median_millis,
    };
    Summary {
        kinds: vec![
            count(Kind::Whereabouts, [2, 1, 0], Some(4_200)),
            count(Kind::Legality, [0, 0, 1], None),
        ],
        heard: 21,
        looks: 2,
        late: 1,
        board: Some((usual(FIDE_SAMPLE).end().board().clone(), Color::Black)),
        own: OwnSummary::Replay {
            first_miss: Some("8...".parse().unwrap()),
            longest_run: 16,
        },
    }
}

fn ask(answered: &Answered, number: usize) -> Ask {
    let Question::Line(question) = answered.question else {
        panic!("a question over a line: {answered:?}");
    };
    let stand = Stand {
        checkpoint: Some((2, 5)),
        turn: Color::Black,
        piece: None,
        chess960: true,
    };
    Ask {
        asked: Asked::Line(question, stand),
        number,
        of: 9,
        form: question.form(),
    }
}
