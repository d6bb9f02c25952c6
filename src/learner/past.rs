//! What a journal says of earlier sessions.

use std::collections::{HashMap, HashSet};

use super::{AnswerRecord, Played, Record, StartRecord};

/// A session that did not come to its end, whether the learner stopped it or the power failed.
#[derive(Clone, Debug, PartialEq)]
pub struct Unfinished<'a> {
    /// How it began.
    pub start: &'a StartRecord,
    /// Its answers, oldest first.
    pub answers: Vec<&'a AnswerRecord>,
    /// How many plies were heard. Where the session was killed, as many as its last answer knows of:
    /// the moves from the start of the line up to that question.
    pub heard: usize,
    /// How many looks at the board were taken.
    pub looks: u32,
}

/// Returns the lines of all games that were finished in one exercise.
///
/// A game is known by its start and its moves, whatever file it is in and under whatever number.
#[must_use]
pub fn finished_games<'a>(records: &'a [Record], exercise: &str) -> HashSet<&'a Played> {
    let ends = last_ends(records);
    starts(records, exercise)
        .filter(|start| ends.get(start.stamp.session.as_str()) == Some(&true))
        .filter_map(|start| start.played.as_ref())
        .collect()
}

/// Returns the session of one exercise that was left unfinished last.
///
/// A resumed session goes on under its own name, so that its last end counts.
#[must_use]
pub fn unfinished<'a>(records: &'a [Record], exercise: &str) -> Option<Unfinished<'a>> {
    let ends = last_ends(records);
    let mut open = HashMap::new();
    for start in starts(records, exercise) {
        let session = start.stamp.session.as_str();
        if ends.get(session) != Some(&true) {
            open.entry(session).or_insert(start);
        }
    }
    records
        .iter()
        .rev()
        .find_map(|record| open.get(record.stamp().session.as_str()))
        .map(|start| Unfinished::new(start, records))
}

fn starts<'a>(records: &'a [Record], exercise: &str) -> impl Iterator<Item = &'a StartRecord> {
    records.iter().filter_map(move |record| match record {
        Record::Start(start) if start.exercise == exercise => Some(start),
        Record::Start(_) | Record::Answer(_) | Record::End(_) | Record::Seal(_) => None,
    })
}

/// Tells for every session that ended whether it was finished at its last end.
fn last_ends(records: &[Record]) -> HashMap<&str, bool> {
    let ends = records.iter().filter_map(|record| match record {
        Record::End(end) => Some((end.stamp.session.as_str(), end.finished)),
        Record::Start(_) | Record::Answer(_) | Record::Seal(_) => None,
    });
    ends.collect()
}

impl<'a> Unfinished<'a> {
    fn new(start: &'a StartRecord, records: &'a [Record]) -> Unfinished<'a> {
        let mut session = Unfinished {
            start,
            answers: Vec::new(),
            heard: 0,
            looks: 0,
        };
        let of_session = |record: &&Record| record.stamp().session == start.stamp.session;
        for record in records.iter().filter(of_session) {
            match record {
                Record::Answer(answer) => {
                    let setting = answer.setting.as_ref();
                    let known = setting.map_or(0, |setting| setting.moves.len());
                    session.heard = session.heard.max(known);
                    session.looks += answer.looks;
                    session.answers.push(answer);
                }
                Record::End(end) => {
                    session.heard = end.heard;
                    session.looks = end.looks;
                }
                Record::Start(_) | Record::Seal(_) => {}
            }
        }
        session
    }
}
