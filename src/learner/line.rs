//! A record as one line of JSON, and back.

use std::borrow::Cow;

use jiff::Timestamp;
use serde::{Deserialize, Deserializer, Serialize};
use serde_json::value::{RawValue, to_raw_value};

use super::case::{CaseFields, CaseText};
use super::fault::{NO_OBJECT, reason};
use super::{
    AnswerRecord, EndRecord, GameRef, Glance, LearnerName, LearnerNameError, Played, Record,
    SealRecord, Stamp, StartRecord,
};
use crate::exercise::{Hardness, Tries};
use crate::question::{Kind, ParseKindError, Verdict};

/// The version of the records that this build writes and reads.
///
/// It rises when a record gets a meaning that an older build would get wrong. New fields, new types
/// of record and new kinds of question do not raise it: an older build passes over them.
pub const VERSION: u64 = 1;

/// What a line turned out to be.
#[derive(Debug)]
#[expect(clippy::large_enum_variant, reason = "there is one at a time")]
pub(super) enum Reading {
    /// A record.
    Record(Record),
    /// A record of a type, or an answer of a kind, that this build does not know.
    Unknown,
    /// A record of a later version.
    Newer(u64),
    /// No record, and why not.
    Broken(String),
}

/// What a line turned out to be that was only glanced at.
#[derive(Debug)]
pub(super) enum Passing {
    /// A record that is no seal; an answer was shown to the one who looks.
    Other,
    /// The start of a session, and whose it is.
    Start(LearnerName),
    /// The seal of the line before.
    Seal,
    /// As [`Reading::Unknown`].
    Unknown,
    /// As [`Reading::Newer`].
    Newer(u64),
    /// As [`Reading::Broken`].
    Broken(String),
}

/// The fields of every type of record, in the order in which they are written.
///
/// One flat shape instead of an enum with a tag: such an enum would be read in two passes.
#[derive(Default, Serialize, Deserialize)]
struct Fields<'a> {
    v: u64,
    #[serde(rename = "type", borrow)]
    tag: Cow<'a, str>,
    time: Timestamp,
    #[serde(borrow)]
    session: Cow<'a, str>,
    #[serde(borrow, skip_serializing_if = "Option::is_none")]
    learner: Option<Cow<'a, str>>,
    #[serde(borrow, skip_serializing_if = "Option::is_none")]
    exercise: Option<Cow<'a, str>>,
    #[serde(borrow, skip_serializing_if = "Option::is_none")]
    kind: Option<&'a str>,
    #[serde(borrow, skip_serializing_if = "Option::is_none")]
    variant: Option<&'a RawValue>,
    #[serde(borrow, skip_serializing_if = "Option::is_none")]
    start: Option<&'a RawValue>,
    #[serde(borrow, skip_serializing_if = "Option::is_none")]
    moves: Option<&'a RawValue>,
    #[serde(borrow, skip_serializing_if = "Option::is_none")]
    position: Option<&'a RawValue>,
    #[serde(borrow, skip_serializing_if = "Option::is_none")]
    subject: Option<&'a RawValue>,
    #[serde(borrow, skip_serializing_if = "Option::is_none")]
    expected: Option<&'a RawValue>,
    #[serde(borrow, skip_serializing_if = "Option::is_none")]
    reply: Option<Cow<'a, str>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    verdict: Option<Verdict>,
    #[serde(skip_serializing_if = "Option::is_none")]
    score: Option<f64>,
    /// It may be missing, and it may be null, which is not the same.
    #[expect(clippy::option_option)]
    #[serde(default, deserialize_with = "nullable")]
    #[serde(skip_serializing_if = "Option::is_none")]
    millis: Option<Option<u64>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    late: Option<bool>,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    repeat: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    finished: Option<bool>,
    #[serde(skip_serializing_if = "Option::is_none")]
    heard: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    looks: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    hardness: Option<Hardness>,
    #[serde(skip_serializing_if = "Option::is_none")]
    tries: Option<Tries>,
    #[serde(skip_serializing_if = "Option::is_none")]
    game: Option<GameRef>,
    #[serde(skip_serializing_if = "Option::is_none")]
    seed: Option<u64>,
    #[serde(borrow, skip_serializing_if = "Option::is_none")]
    setup: Option<&'a RawValue>,
}

/// Reads a field that is there: null has a meaning of its own.
#[expect(clippy::option_option)]
fn nullable<'de, D: Deserializer<'de>>(field: D) -> Result<Option<Option<u64>>, D::Error> {
    Option::deserialize(field).map(Some)
}

/// As much of a line as tells whether this build can be expected to read the rest.
#[derive(Deserialize)]
struct Head<'a> {
    v: u64,
    #[serde(rename = "type", borrow, default)]
    tag: Cow<'a, str>,
    #[serde(borrow)]
    kind: Option<Cow<'a, str>>,
}

impl<'a> Fields<'a> {
    fn new(tag: &'a str, stamp: &'a Stamp) -> Fields<'a> {
        Fields {
            v: VERSION,
            tag: Cow::Borrowed(tag),
            time: stamp.time,
            session: Cow::Borrowed(&stamp.session),
            ..Fields::default()
        }
    }

    fn write(&self) -> String {
        serde_json::to_string(self).expect("every field has a form in JSON")
    }
}

/// Writes a record as one line of JSON, the newline left out.
pub(super) fn write(record: &Record) -> String {
    match record {
        Record::Start(start) => write_start(start),
        Record::Answer(answer) => write_answer(answer),
        Record::End(end) => Fields {
            finished: Some(end.finished),
            heard: Some(end.heard),
            looks: Some(end.looks),
            ..Fields::new("end", &end.stamp)
        }
        .write(),
        Record::Seal(seal) => Fields::new("seal", &seal.stamp).write(),
    }
}

fn write_start(start: &StartRecord) -> String {
    let setup = raw(&start.setup);
    let played = start.played.as_ref();
    let from = played.map(|played| raw(&played.start));
    let moves = played.map(|played| raw(&played.moves));
    Fields {
        learner: Some(Cow::Owned(start.learner.to_string())),
        exercise: Some(Cow::Borrowed(&start.exercise)),
        start: from.as_deref(),
        moves: moves.as_deref(),
        game: start.game.clone(),
        seed: Some(start.seed),
        setup: Some(&setup),
        ..Fields::new("start", &start.stamp)
    }
    .write()
}

fn write_answer(answer: &AnswerRecord) -> String {
    let case = answer.case.fields();
    Fields {
        exercise: Some(Cow::Borrowed(&answer.exercise)),
        kind: Some(case.kind),
        variant: case.variant,
        start: case.start,
        moves: case.moves,
        position: case.position,
        subject: Some(case.subject),
        expected: Some(case.expected),
        reply: Some(Cow::Borrowed(&answer.reply)),
        verdict: Some(answer.verdict),
        score: Some(answer.score),
        millis: Some(answer.millis),
        late: Some(answer.late),
        repeat: answer.repeat,
        looks: Some(answer.looks),
        hardness: answer.hardness,
        tries: answer.tries.clone(),
        game: answer.game.clone(),
        ..Fields::new("answer", &answer.stamp)
    }
    .write()
}

fn raw<T: Serialize + ?Sized>(value: &T) -> Box<RawValue> {
    to_raw_value(value).expect("every value of ours has a form in JSON")
}

/// Reads one line.
pub(super) fn read(line: &[u8]) -> Reading {
    // Lists are kept away from the reader, which would take them for fields without names.
    if line.trim_ascii_start().first() != Some(&b'{') {
        return Reading::Broken(NO_OBJECT.to_owned());
    }
    match serde_json::from_slice::<Fields<'_>>(line) {
        Ok(fields) if fields.v > VERSION => Reading::Newer(fields.v),
        Ok(fields) => read_fields(fields),
        // A later version may have given a field another shape: that alone makes no broken line.
        Err(error) => match serde_json::from_slice::<Head<'_>>(line) {
            Ok(head) if head.v > VERSION => Reading::Newer(head.v),
            Ok(head) if head.is_unknown() => Reading::Unknown,
            Ok(_) | Err(_) => Reading::Broken(reason(&error)),
        },
    }
}

/// Reads one line and shows the answer that it holds, if it does, without keeping anything.
pub(super) fn glance(line: &[u8], look: &mut impl FnMut(&Glance<'_>)) -> Passing {
    if line.trim_ascii_start().first() == Some(&b'{')
        && let Ok(fields) = serde_json::from_slice::<Fields<'_>>(line)
        && fields.v == VERSION
        && &*fields.tag == "answer"
        && let Some(glance) = fields.glance()
    {
        look(&glance);
        return Passing::Other;
    }
    // Whatever is no plain answer is rare, and read with all due care.
    match read(line) {
        Reading::Record(Record::Seal(_)) => Passing::Seal,
        Reading::Record(Record::Start(start)) => Passing::Start(start.learner),
        Reading::Record(_) => Passing::Other,
        Reading::Unknown => Passing::Unknown,
        Reading::Newer(version) => Passing::Newer(version),
        Reading::Broken(reason) => Passing::Broken(reason),
    }
}

impl Head<'_> {
    fn is_unknown(&self) -> bool {
        match &*self.tag {
            "answer" => self.kind.as_deref().is_some_and(is_unknown_kind),
            "start" | "end" | "seal" | "" => false,
            _ => true,
        }
    }
}

fn is_unknown_kind(kind: &str) -> bool {
    Kind::ALL.iter().all(|known| known.name() != kind)
}

fn read_fields(fields: Fields<'_>) -> Reading {
    if fields.v != VERSION {
        return Reading::Broken(format!("no record has the version {}", fields.v));
    }
    let record = match &*fields.tag {
        "answer" if fields.kind.is_some_and(is_unknown_kind) => {
            return Reading::Unknown;
        }
        "answer" => fields
            .answer()
            .map(|answer| Record::Answer(Box::new(answer))),
        "start" => fields.start().map(Record::Start),
        "end" => fields.end().map(Record::End),
        "seal" => Ok(Record::Seal(SealRecord {
            stamp: fields.stamp(),
        })),
        _ => return Reading::Unknown,
    };
    record.map_or_else(Reading::Broken, Reading::Record)
}

impl Fields<'_> {
    fn stamp(&self) -> Stamp {
        Stamp {
            time: self.time,
            session: self.session.as_ref().to_owned(),
        }
    }

    fn start(self) -> Result<StartRecord, String> {
        Ok(StartRecord {
            stamp: self.stamp(),
            learner: text(self.learner, "learner")?
                .parse()
                .map_err(|error: LearnerNameError| error.to_string())?,
            exercise: text(self.exercise, "exercise")?,
            played: match (self.start, self.moves) {
                (Some(start), Some(moves)) => Some(Played {
                    start: parsed(Some(start), "start")?,
                    moves: parsed(Some(moves), "moves")?,
                }),
                (None, None) => None,
                (None, Some(_)) => return Err(missing("start")),
                (Some(_), None) => return Err(missing("moves")),
            },
            game: self.game,
            seed: self.seed.ok_or_else(|| missing("seed"))?,
            setup: parsed(self.setup, "setup")?,
        })
    }

    fn answer(self) -> Result<AnswerRecord, String> {
        let kind = self.kind.ok_or_else(|| missing("kind"))?;
        let case = CaseText::of(CaseFields {
            kind,
            subject: self.subject.ok_or_else(|| missing("subject"))?,
            expected: self.expected.ok_or_else(|| missing("expected"))?,
            variant: self.variant,
            start: self.start,
            moves: self.moves,
            position: self.position,
        });
        Ok(AnswerRecord {
            stamp: self.stamp(),
            kind: kind
                .parse()
                .map_err(|error: ParseKindError| error.to_string())?,
            exercise: text(self.exercise, "exercise")?,
            case,
            reply: text(self.reply, "reply")?,
            verdict: self.verdict.ok_or_else(|| missing("verdict"))?,
            score: self.score.ok_or_else(|| missing("score"))?,
            millis: self.millis.ok_or_else(|| missing("millis"))?,
            late: self.late.ok_or_else(|| missing("late"))?,
            repeat: self.repeat,
            looks: self.looks.ok_or_else(|| missing("looks"))?,
            hardness: self.hardness,
            tries: self.tries,
            game: self.game,
        })
    }

    /// Returns what the answer shows in passing; `None` where a field is missing that
    /// [`Fields::answer`] would not do without.
    fn glance(&self) -> Option<Glance<'_>> {
        self.score?;
        self.looks?;
        Some(Glance {
            time: self.time,
            exercise: self.exercise.as_deref()?,
            kind: self.kind?.parse().ok()?,
            subject: self.subject?.get(),
            expected: self.expected?.get(),
            reply: self.reply.as_deref()?,
            verdict: self.verdict?,
            millis: self.millis?,
            late: self.late?,
            repeat: self.repeat,
            plies: self.hardness.map(|hardness| hardness.plies),
        })
    }

    fn end(self) -> Result<EndRecord, String> {
        Ok(EndRecord {
            stamp: self.stamp(),
            finished: self.finished.ok_or_else(|| missing("finished"))?,
            heard: self.heard.ok_or_else(|| missing("heard"))?,
            looks: self.looks.ok_or_else(|| missing("looks"))?,
        })
    }
}

fn parsed<'a, T: Deserialize<'a>>(raw: Option<&'a RawValue>, name: &str) -> Result<T, String> {
    let raw = raw.ok_or_else(|| missing(name))?;
    serde_json::from_str(raw.get()).map_err(|error| format!("{name}: {}", reason(&error)))
}

fn text(field: Option<Cow<'_, str>>, name: &str) -> Result<String, String> {
    field.map(Cow::into_owned).ok_or_else(|| missing(name))
}

fn missing(name: &str) -> String {
    format!("the field {name} is missing")
}
