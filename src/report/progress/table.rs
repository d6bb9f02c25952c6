//! Progress as tables of values: as CSV (RFC 4180), and a row an object as JSON.

use csv::Writer;
use jiff::Timestamp;
use serde_json::{Map, Value, json};

use super::html::Learner;
use crate::learner::pace::Reach;
use crate::learner::{LessonResults, Record};
use crate::voice::progress::step_title;

/// A table: the names of its columns, and its rows.
#[derive(Clone, Debug)]
pub(crate) struct Table {
    heads: &'static [&'static str],
    pub(crate) rows: Vec<Vec<Value>>,
}

impl Table {
    /// Writes it as CSV.
    ///
    /// # Panics
    ///
    /// Never: memory takes all that is written.
    pub(crate) fn csv(&self) -> String {
        let mut table = Writer::from_writer(Vec::new());
        table.write_record(self.heads).expect("memory takes it");
        for row in &self.rows {
            let cells: Vec<String> = row.iter().map(cell).collect();
            table.write_record(cells).expect("memory takes it");
        }
        let bytes = table.into_inner().expect("memory takes it");
        String::from_utf8(bytes).expect("only texts were written")
    }

    /// Writes it as JSON, an object a row.
    pub(crate) fn json(self) -> Vec<String> {
        let object = |row: Vec<Value>| -> Map<String, Value> {
            let heads = self.heads.iter().map(|head| (*head).to_owned());
            heads.zip(row).collect()
        };
        let objects = self.rows.into_iter().map(object);
        objects.map(|row| Value::Object(row).to_string()).collect()
    }
}

/// A cell that no program for tables takes for a formula (OWASP, CSV Injection): a number is none.
fn cell(value: &Value) -> String {
    match value {
        Value::Null => String::new(),
        Value::String(text)
            if text.starts_with(['=', '@', '+', '-', '\t', '\r'])
                && text.parse::<f64>().is_err() =>
        {
            format!("'{text}")
        }
        Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}

/// Returns a row for each pupil of a class.
pub(crate) fn pupils(learners: &[Learner], now: Timestamp) -> Table {
    let rows = learners.iter().map(|Learner { name, account }| {
        let step = account.course.current();
        let ahead = match account.reach() {
            Reach::Measured { plies, low, high } => [Some(plies), Some(low), high],
            Reach::NotMeasured { .. } => [None; 3],
        };
        let [plies, low, high] = ahead.map(|plies| json!(plies));
        let (answers, days) = account.lately(now);
        let last = account.from_to.map(|(_, last)| last);
        let (kind, score) = account.weakest(now).unzip();
        let right = score.as_ref().map(|score| score.right);
        let of = score.as_ref().map(crate::exercise::Score::answers);
        let number = step.map(|step| step as usize + 1);
        vec![
            json!(name),
            json!(number),
            json!(step.map(step_title)),
            plies,
            low,
            high,
            json!(answers),
            json!(days),
            json!(last),
            json!(kind),
            json!(right),
            json!(of),
        ]
    });
    Table {
        heads: &[
            "learner",
            "step",
            "step_title",
            "plies_ahead",
            "low",
            "high",
            "answers",
            "days",
            "last",
            "weakest",
            "weakest_right",
            "weakest_of",
        ],
        rows: rows.collect(),
    }
}

/// Returns a row for each learner and part of a lesson: what came of it the last time.
pub(crate) fn lesson(results: &LessonResults) -> Table {
    let mut rows = Vec::new();
    for (name, held) in &results.learners {
        let last = held.last();
        for (at, (heading, pass)) in results.parts.iter().enumerate() {
            let result = last
                .map(|held| &held.parts[at])
                .filter(|part| part.time > 0);
            let [right, of] = [0, 1].map(|figure| json!(result.map(|part| part.replies[figure])));
            let passed = result.zip(*pass).map(|(result, mark)| result.reaches(mark));
            rows.push(vec![
                json!(name),
                json!(last.map(|held| held.time)),
                json!(held.len()),
                json!(last.is_some_and(|held| held.finished)),
                json!(at + 1),
                json!(heading),
                right,
                of,
                json!(pass),
                json!(passed),
                json!(result.map(|part| part.time)),
            ]);
        }
    }
    Table {
        heads: &[
            "learner",
            "held",
            "times",
            "finished",
            "part",
            "heading",
            "right",
            "of",
            "pass",
            "passed",
            "part_times",
        ],
        rows,
    }
}

/// Puts rows of answers together.
pub(crate) fn answers(rows: Vec<Vec<Value>>) -> Table {
    Table {
        heads: FIELDS,
        rows,
    }
}

/// The fields of an answer that a table has behind the learner, as the journal names them.
const FIELDS: &[&str] = &[
    "learner", "time", "session", "exercise", "kind", "variant", "start", "position", "subject",
    "expected", "reply", "verdict", "score", "millis", "think", "late", "repeat", "helped",
    "looks",
];

/// Returns the row of an answer, or of a reply in words that nobody graded; of no other record.
pub(crate) fn answer(learner: &str, record: &Record) -> Option<Vec<Value>> {
    let is_open = matches!(record, Record::Said(said) if said.question.is_some());
    if record.answer().is_none() && !is_open {
        return None;
    }
    let mut data = json!(record);
    data["learner"] = json!(learner);
    if is_open {
        for (field, from) in [
            ("subject", "say"),
            ("expected", "answer"),
            ("reply", "said"),
        ] {
            data[field] = data[from].take();
        }
    }
    Some(FIELDS.iter().map(|field| data[field].take()).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reply_that_reads_like_a_formula_is_none_and_a_number_stays_one() {
        for (reply, told) in [
            ("=1+1", "'=1+1"),
            ("-2+3", "'-2+3"),
            ("+a1", "'+a1"),
            ("@a", "'@a"),
            ("-2", "-2"),
            ("+3", "+3"),
            ("e4", "e4"),
        ] {
            assert_eq!(cell(&json!(reply)), told);
        }
    }
}
