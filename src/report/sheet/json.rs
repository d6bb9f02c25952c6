//! A sheet as data: what the journal would keep of each answer, the answer itself left out.

use serde::Serialize;
use shakmaty::uci::UciMove;

use super::{Item, Part};
use crate::exercise::{Hardness, Setting};
use crate::learner::{GameRef, VERSION};
use crate::question::{Question, Truth};
use crate::voice;

/// One question, with the names and in the order of the journal.
#[derive(Serialize)]
struct Entry<'a> {
    v: u64,
    #[serde(rename = "type")]
    tag: &'a str,
    exercise: &'a str,
    #[serde(flatten)]
    question: Question,
    expected: &'a Truth,
    #[serde(skip_serializing_if = "Option::is_none")]
    variant: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    start: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    moves: Option<&'a [UciMove]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    position: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hardness: Option<Hardness>,
    #[serde(skip_serializing_if = "Option::is_none")]
    game: Option<&'a GameRef>,
    text: String,
}

/// Writes the questions as an array of the journal's answer objects, one a line, without what only a
/// learner can give, and each with its sentence in `text`.
///
/// # Panics
///
/// Never: every field has a form in JSON.
#[must_use]
pub fn json(exercise: &str, game: Option<&GameRef>, parts: &[Part]) -> String {
    let lines: Vec<String> = parts
        .iter()
        .filter_map(|part| match part {
            Part::Asked(item) => Some(entry(exercise, game, item)),
            Part::Told(_) => None,
        })
        .map(|entry| serde_json::to_string(&entry).expect("every field has a form in JSON"))
        .collect();
    format!("[\n{}\n]\n", lines.join(",\n"))
}

fn entry<'a>(exercise: &'a str, game: Option<&'a GameRef>, item: &'a Item) -> Entry<'a> {
    let setting: Option<&Setting> = item.answered.setting.as_ref();
    Entry {
        v: VERSION,
        tag: "answer",
        exercise,
        question: item.answered.question,
        hardness: item.answered.hardness,
        expected: &item.answered.truth,
        variant: setting
            .filter(|setting| setting.chess960)
            .map(|_| "chess960"),
        start: setting.map(|setting| setting.start.as_str()),
        moves: setting.map(|setting| setting.moves.as_slice()),
        position: setting.map(|setting| setting.position.as_str()),
        game,
        text: voice::question(&item.ask),
    }
}
