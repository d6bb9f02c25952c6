//! The questions of a sheet: held, named, and written as data.

use jiff::Timestamp;
use serde_json::json;

use crate::exercise::{Awaits, Input, Output, Said, Session};
use crate::learner::{AnswerRecord, Record, SaidRecord, Stamp, VERSION};
use crate::question::Form;
use crate::voice;

use super::part::{SheetItem, SheetPart, SheetQuestion, questions};

/// Holds a session from its beginning to its end; `number` is that of the last question before it, and becomes that
/// of its own last one. `reply` gives the written reply to the question of this number and form, or `None` where it
/// is given up; so is a question whose reply cannot be read: its number, and what the session says of the reply, are
/// told beside the items. Where a second try comes, it is the same.
pub(crate) fn hold(
    session: &mut Session,
    number: &mut usize,
    reply: impl Fn(usize, Form) -> Option<String>,
) -> (Vec<SheetItem>, Vec<(usize, Output)>) {
    let mut items = Vec::new();
    let mut unread: Vec<(usize, Output)> = Vec::new();
    let mut standing = None;
    let mut outputs = session.begin();
    loop {
        for output in outputs {
            match output {
                Output::Ask(ask) => {
                    *number += 1;
                    standing = Some(ask);
                }
                Output::Answered(answered) => {
                    let Some(ask) = standing.take() else { continue };
                    let mut answered = *answered;
                    // Nobody knows how long an answer took on paper.
                    (answered.millis, answered.think) = (None, None);
                    items.push(SheetItem::Question(Box::new(SheetQuestion {
                        number: *number,
                        ask,
                        answered,
                    })));
                }
                // The key says it in its own place.
                Output::Explained(_) => {}
                Output::Unread {
                    unread: what, form, ..
                } => {
                    let kept = false;
                    unread.push((
                        *number,
                        Output::Unread {
                            unread: what,
                            form,
                            kept,
                        },
                    ));
                }
                told => items.push(SheetItem::Told(told)),
            }
        }
        let was_unread = unread.last().is_some_and(|(last, _)| last == number);
        let written = standing.as_ref().and_then(|ask| reply(*number, ask.form));
        let written = written.filter(|_| !was_unread);
        outputs = session.hear(match (session.awaits(), written) {
            (Awaits::Nothing, _) => return (items, unread),
            (Awaits::GoOn | Awaits::Truth, _) => Input::GoOn,
            // No game is played on paper.
            (Awaits::Opponent, _) => Input::Stop,
            (Awaits::Reply, None) => Input::Pass { millis: 0 },
            (Awaits::Reply, Some(text)) => Input::Reply { text, millis: 0 },
        });
    }
}

/// Names a sheet after its questions and where they stand, neither their wording nor the file that a game
/// is from, so that two sheets are known to be the same: 8 hexadecimal digits, short enough to be typed from
/// paper. Two sheets with other questions have another name, but for chance.
///
/// # Panics
///
/// Never: every question has a form in JSON.
pub(crate) fn name(parts: &[SheetPart]) -> String {
    let mut text = String::new();
    for item in questions(parts) {
        let question = serde_json::to_string(&item.answered.question);
        text.push_str(&question.expect("every question has a form in JSON"));
        if let Some(setting) = &item.answered.setting {
            text.push_str(&setting.start);
            text.extend(setting.moves.iter().map(|mv| format!(" {mv}")));
        }
        text.push('\n');
    }
    let long = digest(text.as_bytes());
    format!("{:08x}", (long >> 32) ^ (long & 0xffff_ffff))
}

/// Names the session that a sheet's written replies become in the journal: the same replies to the same
/// sheet have the same name, so that they are known again.
pub(crate) fn session_name<'a>(sheet: &'a str, replies: impl Iterator<Item = &'a str>) -> String {
    let lines: Vec<&str> = [sheet].into_iter().chain(replies).collect();
    format!("{:016x}", digest(lines.join("\n").as_bytes()))
}

/// The prime of the Fowler-Noll-Vo hashes of 64 bits.
const PRIME: u64 = (1 << 40) + (1 << 8) + 0xb3;
/// Where their hash 1a begins.
const BASIS: u64 = 0xcbf2_9ce4_8422_2325;

/// The Fowler-Noll-Vo hash 1a of 64 bits.
fn digest(bytes: &[u8]) -> u64 {
    bytes.iter().fold(BASIS, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(PRIME)
    })
}

/// What of the journal's answer objects only a learner can give.
const OF_A_LEARNER: [&str; 11] = [
    "time", "session", "reply", "verdict", "score", "millis", "late", "looks", "tries", "by",
    "said",
];

/// Writes the questions as an array of the journal's answer objects, one a line, without what only a
/// learner can give, and each with its sentence in `text`; one in a coach's words is an object of type `said`.
///
/// # Panics
///
/// Never: every field has a form in JSON.
pub(crate) fn json(parts: &[SheetPart]) -> String {
    let mut lines = Vec::new();
    for (part, number) in parts.iter().zip(1..) {
        lines.extend(part.items.iter().filter_map(|item| {
            let stamp = Stamp::new(Timestamp::UNIX_EPOCH, "");
            let (record, text) = match item {
                SheetItem::Question(item) => {
                    let game = part.game.clone();
                    let answer = AnswerRecord::new(stamp, part.exercise, game, &item.answered);
                    let record = Record::Answer(Box::new(answer));
                    (record, voice::question(&item.ask))
                }
                SheetItem::Told(Output::AskOpen(question)) => {
                    let text = voice::open(question);
                    let (question, reply) = (question.clone(), String::new());
                    let said = SaidRecord::new(stamp, &Said::Open { question, reply });
                    (Record::Said(said), text)
                }
                SheetItem::Told(_) => return None,
            };
            let mut data = json!(record);
            data["v"] = VERSION.into();
            data["text"] = text.into();
            if let Some(fields) = data.as_object_mut() {
                fields.retain(|name, _| !OF_A_LEARNER.contains(&name.as_str()));
                if part.heading.is_some() {
                    fields.insert("part".to_owned(), json!(number));
                }
            }
            Some(data.to_string())
        }));
    }
    format!("[\n{}\n]\n", lines.join(",\n"))
}

#[cfg(test)]
mod tests {
    use crate::exercise::bound;

    use super::*;
    use crate::exercise::{Drill, DrillSettings, Exercise, Session, Views};
    use crate::question::Kind;

    /// Its makers began with zero, multiplied first, and took what became of this signature for the
    /// beginning of all later hashes.
    #[test]
    fn the_digest_begins_with_the_hash_of_its_makers_signature() {
        let signature = br"chongo <Landon Curt Noll> /\../\";
        let hash = signature.iter().fold(0_u64, |hash, byte| {
            hash.wrapping_mul(PRIME) ^ u64::from(*byte)
        });
        assert_eq!(hash, BASIS);
    }

    #[test]
    fn other_questions_have_another_name_and_the_same_ones_the_same() {
        let named = |seed| {
            let drill = Drill::new(DrillSettings {
                kinds: vec![Kind::Color],
                count: bound::Count::nearest(3),
                view: Views::Both,
                think_millis: None,
                pieces: Vec::new(),
                blockers: bound::Blockers::nearest(0),
                seed,
                weak: Vec::new(),
                chosen: Vec::new(),
                teach: false,
                follow: false,
            });
            let mut session = Session::new(drill.unwrap()).on_paper();
            let (items, _) = hold(&mut session, &mut 0, |_, _| None);
            let voice = voice::Voice {
                announce: voice::Announce::Words,
                view: shakmaty::Color::White,
                plain: false,
                list: voice::List::Piece,
                empty_board: false,
                occasion: voice::Occasion::Itself,
            };
            name(&[SheetPart {
                heading: None,
                exercise: "drill",
                game: None,
                voice,
                think: None,
                pace: None,
                plies: 0,
                items,
            }])
        };
        assert_eq!(named(1).len(), 8);
        assert_eq!(named(1), named(1));
        assert_ne!(named(1), named(2));
    }

    #[test]
    fn other_replies_make_another_session() {
        let session = |replies: [&'static str; 2]| session_name("93f1b4c2", replies.into_iter());
        assert_eq!(session(["e5", ""]), session(["e5", ""]));
        assert_ne!(session(["e5", ""]), session(["", "e5"]));
    }
}
