//! Every question's truth against the truths that an outside rules library computed, on positions
//! that nobody picked by hand: `tests/outside/positions.jsonl`, or the file that the environment
//! variable `SANSVOIR_OUTSIDE` names. `tests/outside/README.md` says how the files are made.

use std::collections::BTreeMap;
use std::fs::File;
use std::io::{BufRead, BufReader};

use sansvoir::game::{Line, Start, fen_of};
use sansvoir::question::{Attempt, Kind, Legality, LineQuestion, Reason, Scene};
use serde::Deserialize;
use serde_json::{Value, json};
use shakmaty::uci::UciMove;
use shakmaty::{CastlingMode, Square};

/// A line of play and what the outside library holds for true at its end.
#[derive(Deserialize)]
struct Row {
    variant: String,
    start: String,
    moves: Vec<UciMove>,
    position: String,
    truths: Vec<Outside>,
    /// Every legal move, and every illegal one but those that are not their piece's way.
    #[serde(default)]
    every: Vec<(String, Option<String>, String)>,
}

/// A question, and its truth according to the outside library.
#[derive(Deserialize)]
struct Outside {
    #[serde(flatten)]
    question: Value,
    expected: Value,
}

/// How often each kind, and each reason that a move is illegal, was compared, and what differed.
#[derive(Default)]
struct Comparison {
    kinds: BTreeMap<String, usize>,
    reasons: BTreeMap<String, usize>,
    differences: Vec<String>,
}

impl Comparison {
    fn hold(&mut self, question: LineQuestion, scene: Scene<'_>, expected: &Value) {
        let truth = json!(question.truth(scene));
        *self
            .kinds
            .entry(question.kind().name().to_owned())
            .or_default() += 1;
        if let Some(reason) = truth["reason"].as_str() {
            *self.reasons.entry(reason.to_owned()).or_default() += 1;
        }
        if truth != *expected {
            self.differences.push(format!(
                "{} in {}: {truth}, but outside {expected}",
                json!(question),
                fen_of(scene.position())
            ));
        }
    }
}

#[test]
fn every_truth_is_what_an_outside_library_holds_for_true() {
    let path = std::env::var("SANSVOIR_OUTSIDE")
        .unwrap_or_else(|_| "tests/outside/positions.jsonl".to_owned());
    let file = File::open(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
    let mut comparison = Comparison::default();
    let mut positions = 0;
    for (number, text) in BufReader::new(file).lines().enumerate() {
        let row: Row = serde_json::from_str(&text.expect("a line of text"))
            .unwrap_or_else(|error| panic!("{path}:{}: {error}", number + 1));
        compare(&row, &mut comparison);
        positions += 1;
    }
    assert!(
        comparison.differences.is_empty(),
        "{} truths differ, the first of them:\n{}",
        comparison.differences.len(),
        comparison.differences[..comparison.differences.len().min(20)].join("\n")
    );
    println!("{positions} positions");
    println!("{:#?}\n{:#?}", comparison.kinds, comparison.reasons);
    for kind in Kind::LINE {
        assert!(
            comparison.kinds.contains_key(kind.name()),
            "no truth of {kind}"
        );
    }
    for reason in Reason::ALL {
        let name = json!(reason).as_str().expect("a name").to_owned();
        let count = comparison.reasons.get(&name).copied().unwrap_or(0);
        assert!(count >= 20, "only {count} moves illegal as {name}");
    }
}

fn compare(row: &Row, comparison: &mut Comparison) {
    let line = play(row);
    assert_eq!(fen_of(line.end()), row.position, "after {:?}", row.moves);
    let scene = Scene::new(&line, line.len());
    for outside in &row.truths {
        let question = serde_json::from_value(outside.question.clone())
            .unwrap_or_else(|error| panic!("{}: {error}", outside.question));
        comparison.hold(question, scene, &outside.expected);
    }
    if !row.every.is_empty() {
        compare_every(row, scene, comparison);
    }
}

/// Holds every (from, to, promotion) that can be named against the row.
fn compare_every(row: &Row, scene: Scene<'_>, comparison: &mut Comparison) {
    let told = written_out(row);
    let not_its_way = json!({"legal": false, "reason": "not-its-way"});
    for from in Square::ALL {
        for to in Square::ALL {
            for promotion in ["", "q", "r", "b", "n"] {
                let name = format!("{from}{to}{promotion}");
                let attempt: Attempt = name.parse().expect("a move by its squares");
                let expected = told.get(&name).unwrap_or(&not_its_way);
                comparison.hold(
                    LineQuestion::Legality(Legality { attempt }),
                    scene,
                    expected,
                );
            }
        }
    }
}

/// Writes out the short forms: `e2e4*` is that move with each promotion piece and with none,
/// `e2e4+` with each, `e2*` every move from e2.
fn written_out(row: &Row) -> BTreeMap<String, Value> {
    let mut told = BTreeMap::new();
    for (reason, by, names) in &row.every {
        let mut expected = json!({"legal": reason == "legal"});
        if reason != "legal" {
            expected["reason"] = json!(reason);
        }
        if let Some(by) = by {
            expected["by"] = json!(by);
        }
        for name in names.split(' ') {
            let stem = name.trim_end_matches(['*', '+']);
            let whole = if stem.len() == 2 {
                Square::ALL.map(|to| format!("{stem}{to}")).to_vec()
            } else {
                vec![stem.to_owned()]
            };
            let promotions: &[&str] = match name.as_bytes().last() {
                Some(b'*') => &["", "q", "r", "b", "n"],
                Some(b'+') => &["q", "r", "b", "n"],
                _ => &[""],
            };
            for stem in &whole {
                for promotion in promotions {
                    let before = told.insert(format!("{stem}{promotion}"), expected.clone());
                    assert!(before.is_none(), "{stem}{promotion} is told once");
                }
            }
        }
    }
    told
}

fn play(row: &Row) -> Line {
    let mode = match row.variant.as_str() {
        "standard" => CastlingMode::Standard,
        "chess960" => CastlingMode::Chess960,
        other => panic!("unknown variant {other}"),
    };
    let start = Start::from_fen(&row.start, mode).expect("a start that a game can go on from");
    let mut line = Line::new(start);
    for uci in &row.moves {
        let mv = uci.to_move(line.end()).expect("a legal move");
        line.push(mv).expect("a legal move");
    }
    line
}
