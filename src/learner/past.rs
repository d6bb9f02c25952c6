//! What a journal says of earlier sessions.

use std::collections::{HashMap, HashSet};
use std::hash::Hash;

use super::record::question;
use super::{AnswerRecord, Played, RawJson, Record, StartRecord};
use crate::exercise::{Earlier, EarlierAnswer};
use crate::question::{BareQuestion, Kind, Verdict};

/// A session that did not come to its end, whether the learner stopped it or the power failed.
#[derive(Clone, Debug, PartialEq)]
pub struct Unfinished<'a> {
    /// How it began.
    pub start: &'a StartRecord,
    /// What it hears again in order to go on: its answers, oldest first (where a question over a line was
    /// answered twice, the first answer); and the plies and looks, as far as they were written down: no
    /// plies where every sitting was killed.
    pub earlier: Earlier,
}

/// Returns the lines of all games that were finished in exercises that `counts` names, each with how many
/// such games had been begun before it, the last time.
///
/// A game is known by its start and its moves, whatever file it is in and under whatever number.
pub fn finished_games(
    records: &[Record],
    counts: impl Fn(&str) -> bool,
) -> HashMap<&Played, usize> {
    let ends = last_ends(records);
    let finished = records
        .iter()
        .filter_map(Record::start)
        .filter(|start| counts(&start.exercise))
        .filter(|start| ends.get(start.stamp.session.as_str()) == Some(&true))
        .filter_map(|start| start.played.as_ref());
    finished.zip(0..).collect()
}

/// Returns the session of one exercise that was left unfinished last.
///
/// A resumed session goes on under its own name, so that its last end counts.
pub fn unfinished<'a>(records: &'a [Record], exercise: &str) -> Option<Unfinished<'a>> {
    let ends = last_ends(records);
    let mut open = HashMap::new();
    for start in records.iter().filter_map(Record::start) {
        let session = start.stamp.session.as_str();
        if start.exercise == exercise && ends.get(session) != Some(&true) {
            open.entry(session).or_insert(start);
        }
    }
    records
        .iter()
        .rev()
        .find_map(|record| open.get(record.stamp().session.as_str()))
        .map(|start| Unfinished::new(start, records))
}

/// Returns the session of this name, if it has begun and was left unfinished.
pub fn unfinished_session<'a>(records: &'a [Record], session: &str) -> Option<Unfinished<'a>> {
    let mut starts = records.iter().filter_map(Record::start);
    let start = starts.find(|start| start.stamp.session == session)?;
    let is_over = last_ends(records).get(session) == Some(&true);
    (!is_over).then(|| Unfinished::new(start, records))
}

/// Tells for every session that ended whether it was finished at its last end.
fn last_ends(records: &[Record]) -> HashMap<&str, bool> {
    let ends = records.iter().filter_map(Record::end);
    ends.map(|end| (end.stamp.session.as_str(), end.finished))
        .collect()
}

impl<'a> Unfinished<'a> {
    fn new(start: &'a StartRecord, records: &'a [Record]) -> Unfinished<'a> {
        let mut earlier = Earlier::default();
        let of_session = |record: &&Record| record.stamp().session == start.stamp.session;
        let mut told = 0;
        let mut known = HashSet::new();
        for record in records.iter().filter(of_session) {
            match record {
                // A dialogue is not gone on with.
                Record::Answer(answer) if answer.dialogue.is_some() => {}
                // Two sittings that resumed one session at once both asked this.
                Record::Answer(answer)
                    if answer.position.is_some()
                        && answer.counts()
                        && answer.kind != Kind::Turn
                        && !known.insert(asked(answer)) => {}
                Record::Answer(answer) => {
                    told = u32::saturating_add(told, answer.looks);
                    earlier.helped = false;
                    earlier.answers.push(EarlierAnswer {
                        text: answer.reply.clone(),
                        // Only on paper is no time known, and a paper is not gone on with.
                        millis: answer.millis.unwrap_or_default(),
                        looks: answer.looks,
                        seen_ago: answer.hardness.map_or(0, |hardness| hardness.plies),
                        helped: answer.helped,
                        tries: answer.tries.clone().unwrap_or_default(),
                    });
                }
                Record::End(end) => {
                    earlier.heard = end.plies;
                    earlier.looks = end.looks;
                    earlier.helped = end.helped;
                }
                Record::Said(said) => {
                    let said = said.said().map(|said| (earlier.answers.len(), said));
                    earlier.said.extend(said);
                }
                Record::Start(_) | Record::Game(_) | Record::Seal(_) => {}
            }
        }
        // An end tells the looks after the last answer too; a killed sitting has none.
        earlier.looks = earlier.looks.max(told);
        Unfinished { start, earlier }
    }
}

/// What was asked, and where.
fn asked(answer: &AnswerRecord) -> impl Hash + Eq {
    let moves = answer.moves.as_ref().map(RawJson::get);
    let setting = (&answer.start, moves, &answer.position);
    (answer.kind, answer.subject.get(), setting)
}

/// Returns the questions over the bare board, of some kinds, whose last answer was missed or slow,
/// the latest first and no more than a hundred. What was right only when it came again in the same drill
/// is weak still.
pub fn weak(records: &[Record], kinds: &[Kind]) -> Vec<BareQuestion> {
    let mut seen = Vec::new();
    let mut weak = Vec::new();
    for record in records.iter().rev() {
        if weak.len() == MOST_WEAK || seen.len() == MOST_SEEN {
            break;
        }
        if let Some(answer) = record.answer()
            && kinds.contains(&answer.kind)
            && answer.counts()
            && let Some(question) = question(answer.kind, answer.subject.get())
            && !seen.contains(&question)
        {
            seen.push(question);
            if answer.verdict != Verdict::Right || answer.late {
                weak.push(question);
            }
        }
    }
    weak
}

/// So many weak questions are remembered at most, and so many answers looked through for them.
const MOST_WEAK: usize = 100;
const MOST_SEEN: usize = 2_000;

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::super::{EndRecord, Played, Stamp};
    use super::*;
    use crate::exercise::Answered;
    use crate::question::{
        BalanceWhy, Check, LineQuestion, LineWhy, Mark, Question, Tally, Truth, Verdict, Why,
    };

    fn stamp(session: &str) -> Stamp {
        Stamp::new("2026-03-01T18:20:04Z".parse().unwrap(), session)
    }

    fn start(session: &str, exercise: &str, moves: &str) -> Record {
        Record::Start(StartRecord {
            stamp: stamp(session),
            learner: "Ana".parse().unwrap(),
            exercise: exercise.to_owned(),
            played: Some(played(moves)),
            game: None,
            seed: 1,
            plan: json!({}),
        })
    }

    fn played(moves: &str) -> Played {
        Played {
            variant: None,
            start: "8/8/8/8/8/8/8/8 w - - 0 1".to_owned(),
            moves: moves.split(' ').map(|mv| mv.parse().unwrap()).collect(),
        }
    }

    fn answer(session: &str, looks: u32) -> Record {
        let check = Question::Line(LineQuestion::Check(Check {}));
        let answered = Answered {
            question: check,
            setting: None,
            truth: Truth::squares(shakmaty::Bitboard::EMPTY),
            text: "none".to_owned(),
            reply: None,
            mark: Mark {
                verdict: Verdict::Right,
                score: 1.0,
                tally: Tally::default(),
            },
            why: Why::Line(LineWhy::Balance(BalanceWhy::default())),
            millis: Some(900),
            think: None,
            late: false,
            repeat: false,
            helped: false,
            dialogue: None,
            looks,
            hardness: None,
            tries: None,
        };
        let answer = AnswerRecord::new(stamp(session), "replay", None, &answered);
        Record::Answer(Box::new(answer))
    }

    fn end(session: &str, finished: bool, plies: usize, looks: u32) -> Record {
        Record::End(EndRecord {
            stamp: stamp(session),
            finished,
            plies,
            looks,
            helped: false,
        })
    }

    #[test]
    fn a_game_is_finished_only_where_its_last_end_says_so() {
        let records = [
            start("a", "replay", "e2e4"),
            end("a", false, 0, 0),
            start("b", "replay", "d2d4"),
            start("c", "recite", "c2c4"),
            end("c", true, 1, 0),
        ];
        let replays = |exercise: &str| exercise == "replay";
        assert!(finished_games(&records, replays).is_empty());
        let resumed = [records.as_slice(), &[end("a", true, 1, 0)]].concat();
        let finished = finished_games(&resumed, replays);
        assert_eq!(finished, HashMap::from([(&played("e2e4"), 0)]));
        let all = finished_games(&resumed, |_| true);
        assert_eq!(all[&played("c2c4")], 1);
    }

    #[test]
    fn the_session_that_was_left_last_is_resumed_first() {
        let mut records = vec![
            start("a", "replay", "e2e4"),
            start("b", "replay", "d2d4"),
            end("b", false, 1, 0),
            start("c", "recite", "c2c4"),
            answer("a", 0),
            start("d", "replay", "e2e4"),
            end("d", true, 1, 0),
        ];
        let session = |records: &[Record]| {
            unfinished(records, "replay").map(|left| left.start.stamp.session.clone())
        };
        assert_eq!(session(&records).as_deref(), Some("a"));
        records.push(end("a", true, 1, 0));
        assert_eq!(session(&records).as_deref(), Some("b"));
        records.push(end("b", true, 1, 0));
        assert_eq!(session(&records), None);
    }

    #[test]
    fn a_session_put_down_knows_its_answers_plies_and_looks() {
        let records = [
            start("a", "replay", "e2e4"),
            answer("a", 1),
            end("a", false, 8, 3),
            answer("b", 5),
        ];
        let left = unfinished(&records, "replay").unwrap();
        assert_eq!(
            (
                left.earlier.answers.len(),
                left.earlier.heard,
                left.earlier.looks
            ),
            (1, 8, 3)
        );
    }

    #[test]
    fn a_session_that_was_killed_after_it_was_resumed_keeps_what_its_answers_tell() {
        let records = [
            start("a", "replay", "e2e4"),
            answer("a", 1),
            end("a", false, 8, 3),
            answer("a", 2),
            answer("a", 4),
        ];
        let left = unfinished(&records, "replay").unwrap();
        assert_eq!(
            (
                left.earlier.answers.len(),
                left.earlier.heard,
                left.earlier.looks
            ),
            (3, 8, 7)
        );
    }
}
