//! A journal that was written once and must stay readable for good, with the same results.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;

use sansvoir::exercise::{Hardness, Tries};
use sansvoir::game::{Line, Start, fen_of};
use sansvoir::learner::{AnswerRecord, Journal, Record};
use sansvoir::question::{Mark, Question, Scene, Truth, Verdict};
use serde_json::Value;
use shakmaty::CastlingMode;
use shakmaty::uci::UciMove;

use crate::program::Desk;

const KEPT: &str = include_str!("../journal/ilse.jsonl");
const LEARNER: &str = "Ilse Marek";

/// Every field of every type of record.
const FIELDS: [(&str, &str); 4] = [
    (
        "start",
        "v type time session learner exercise variant start moves game seed plan",
    ),
    (
        "answer",
        "v type time session exercise kind variant start moves position subject expected reply verdict score \
         millis think late repeat looks hardness tries game",
    ),
    ("end", "v type time session finished plies looks"),
    ("seal", "v type time session"),
];

/// A desk with the journal in its data folder.
fn desk() -> Desk {
    let desk = Desk::new();
    fs::create_dir(desk.path("data")).unwrap();
    fs::write(desk.path("data/ilse marek.jsonl"), KEPT).unwrap();
    desk
}

fn records() -> Vec<Record> {
    let desk = desk();
    let journal = Journal::open(&desk.path("data"), &LEARNER.parse().unwrap()).unwrap();
    let contents = journal.read().unwrap();
    assert_eq!(contents.broken.count, 0, "{:?}", contents.broken);
    contents.records
}

fn answers() -> Vec<AnswerRecord> {
    let answers = records().into_iter().filter_map(|record| match record {
        Record::Answer(answer) => Some(*answer),
        Record::Start(_) | Record::End(_) | Record::Said(_) | Record::Game(_) | Record::Seal(_) => {
            None
        }
    });
    answers.collect()
}

#[test]
fn every_record_is_read_and_written_as_it_was() {
    let desk = Desk::new();
    let journal = Journal::open(&desk.path("data"), &LEARNER.parse().unwrap()).unwrap();
    let _ = journal.append_all(&records()).unwrap();
    let is_whole = |line: &&str| serde_json::from_str::<Value>(line).is_ok();
    let whole: Vec<&str> = KEPT.lines().filter(is_whole).collect();
    let written = fs::read_to_string(journal.path()).unwrap();
    assert_eq!(written.lines().collect::<Vec<_>>(), whole);
    assert_eq!(whole.len() + 1, KEPT.lines().count(), "one line is cut off");
}

#[test]
fn the_journal_has_every_field_and_the_handbook_names_each() {
    let mut found: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for line in KEPT.lines() {
        if let Ok(Value::Object(record)) = serde_json::from_str(line) {
            let tag = record["type"].as_str().unwrap().to_owned();
            found
                .entry(tag)
                .or_default()
                .extend(record.into_iter().map(|(field, _)| field));
        }
    }
    let page = include_str!("../../src/voice/handbook/journal.md");
    for (tag, fields) in FIELDS {
        let fields: BTreeSet<String> = fields.split(' ').map(str::to_owned).collect();
        assert_eq!(found[tag], fields, "{tag}");
        for field in fields {
            let is_told = [format!("`{field}`"), format!("\"{field}\":")]
                .iter()
                .any(|name| page.contains(name));
            assert!(is_told, "{field}");
        }
    }
    assert_eq!(found.len(), FIELDS.len());
}

#[test]
fn every_verdict_is_what_it_was() {
    for answer in answers() {
        let said = format!("{answer:?}");
        let question = answer.question().expect(&said);
        let expected: Truth = serde_json::from_str(answer.expected.get()).unwrap();
        let mark = match question {
            Question::Bare(question) => {
                assert_eq!(question.truth(), expected, "{said}");
                (!answer.reply.is_empty())
                    .then(|| question.mark(&question.form().read(&answer.reply).unwrap()))
            }
            Question::Line(question) => {
                let line = line(&answer);
                let scene = Scene::new(&line, line.len());
                assert_eq!(answer.position, Some(fen_of(scene.position())), "{said}");
                assert_eq!(question.truth(scene), expected, "{said}");
                let kept = answer.hardness.unwrap();
                let seen_ago = kept.plies as usize;
                assert_eq!(Hardness::new(question, scene, seen_ago), kept, "{said}");
                (!answer.reply.is_empty())
                    .then(|| Mark::new(&expected, &question.read(scene, &answer.reply).unwrap()))
            }
        };
        let mark = mark.unwrap_or_else(|| Mark::pass(&expected));
        // The second try counts half, and so does a move that is said after a hint.
        let is_helped = |tries: &Tries| tries.hint || tries.said.len() > 1;
        let (verdict, score) = match mark.verdict {
            Verdict::Right if answer.tries.as_ref().is_some_and(is_helped) => (Verdict::Part, 0.5),
            verdict => (verdict, mark.score),
        };
        assert_eq!(answer.verdict, verdict, "{said}");
        assert!((answer.score - score).abs() < 1e-12, "{said}");
        let is_late = answer
            .think
            .is_some_and(|think| answer.millis > Some(think));
        assert_eq!(answer.late, is_late, "{said}");
    }
}

fn line(answer: &AnswerRecord) -> Line {
    let mode = match answer.variant.as_deref() {
        None => CastlingMode::Standard,
        Some("chess960") => CastlingMode::Chess960,
        Some(other) => panic!("{other}"),
    };
    let start = Start::from_fen(answer.start.as_ref().unwrap(), mode).unwrap();
    let moves: Vec<UciMove> = serde_json::from_str(answer.moves.as_ref().unwrap().get()).unwrap();
    let mut line = Line::new(start);
    for uci in moves {
        line.push(uci.to_move(line.end()).unwrap()).unwrap();
    }
    line
}

#[test]
fn all_answers_come_to_what_they_came_to() {
    let said = desk().run(&["progress", "--learner", LEARNER, "--format", "json"], "");
    said.ends(0, &[]);
    let mut found: Value = serde_json::from_str(&said.out).unwrap();
    let found = found.as_object_mut().unwrap();
    // What is passed and how far ahead is seen are estimates, and lately is another time later on.
    for estimate in ["steps", "reach", "months", "lately", "weakest"] {
        assert!(found.remove(estimate).is_some());
    }
    for kind in found["kinds"].as_array_mut().unwrap() {
        kind.as_object_mut()
            .unwrap()
            .retain(|part, _| part == "kind" || part == "all");
    }
    let kept: Value = serde_json::from_str(include_str!("../journal/progress.json")).unwrap();
    assert_eq!(*found, *kept.as_object().unwrap());
}
