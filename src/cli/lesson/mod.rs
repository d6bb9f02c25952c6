//! `lesson`: exercises one after the other, chosen by the journal or written by a coach.

mod arguments;
mod coach;
mod keys;
mod outline;
mod today;
mod written;

use super::aloud::Crier;
use super::failure::{Failure, shown};
use super::shared::{Shared, records};
use crate::learner::course::{Course, Step};
use crate::learner::{EndRecord, Journal, Record, Stamp, StartRecord, Tail, unfinished};
use crate::question::Verdict;
use crate::terminal::{Tone, now, session_name};
use crate::voice::{self, asides};
use outline::{Outline, Stage};

pub(super) use arguments::Arguments;

/// The exercise's name in the journal.
const EXERCISE: &str = "lesson";
/// How long a chosen lesson is, in minutes, where nothing else is wished for.
const MINUTES: u32 = 10;

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    if let (Some(file), true) = (&arguments.file, arguments.check) {
        let outline = coach::outline(file, shared.seed()?, &[], shared)?;
        let sentence = voice::lesson::checked(&shown(file), outline.parts.len());
        return Ok(shared.screen().say(Tone::Plain, &sentence)?);
    }
    let journal = shared.journal()?;
    let before = records(&journal)?;
    let lesson = if arguments.resume {
        resume(&before)?
    } else {
        let outline = match &arguments.file {
            Some(file) => coach::outline(file, shared.seed()?, &before, shared)?,
            None => today::outline(arguments.minutes.unwrap_or(MINUTES), &before, shared)?,
        };
        begin(outline, shared)?
    };
    lesson.hold(&journal, before, shared)
}

/// A lesson that can begin or go on.
struct Lesson {
    /// The name of its session in the journal.
    name: String,
    outline: Outline,
    /// Where the chance of all its parts comes from.
    seed: u64,
    /// How it begins; `None` where it goes on.
    start: Option<StartRecord>,
}

fn begin(outline: Outline, shared: &Shared) -> Result<Lesson, Failure> {
    let name = session_name().map_err(Failure::unusable)?;
    let start = StartRecord {
        stamp: Stamp::new(now(), name.clone()),
        exercise: EXERCISE.to_owned(),
        played: None,
        game: None,
        seed: shared.seed()?,
        setup: serde_json::to_value(&outline).map_err(Failure::unusable)?,
    };
    Ok(Lesson {
        name,
        outline,
        seed: start.seed,
        start: Some(start),
    })
}

fn resume(records: &[Record]) -> Result<Lesson, Failure> {
    let earlier = unfinished(records, EXERCISE).ok_or_else(|| {
        Failure::Unusable(
            "there is no unfinished lesson to go on with: leave out --resume".to_owned(),
        )
    })?;
    Ok(Lesson {
        name: earlier.start.stamp.session.clone(),
        outline: Failure::setup(EXERCISE, &earlier.start.setup)?,
        seed: earlier.start.seed,
        start: None,
    })
}

impl Lesson {
    fn hold(self, journal: &Journal, before: Vec<Record>, shared: &Shared) -> Result<(), Failure> {
        let mut crier = shared.crier();
        let outline = &self.outline;
        let headings: Vec<&str> = outline.parts.iter().map(|part| &*part.heading).collect();
        let resumed = self.start.is_none();
        if let Some(start) = self.start.clone() {
            keep(journal, &Record::Start(start), &mut crier)?;
        }
        for line in voice::lesson::opening(outline.title.as_deref(), &headings, resumed) {
            crier.say(Tone::Heading, &line)?;
        }
        if !resumed {
            say_notes(outline.notes.as_deref(), &mut crier)?;
        }
        let mut records = before;
        let stood = Standings::of(&records, &self.name);
        for (part, number) in outline.parts.iter().zip(1..) {
            let seed = seed_of_part(self.seed, number);
            let session = format!("{}-{number}", self.name);
            let stage = Stage::of(&records, &session);
            if stage == Stage::Over {
                continue;
            }
            let heading = voice::lesson::part(number, outline.parts.len(), &part.heading);
            crier.say(Tone::Heading, &heading)?;
            say_notes(part.notes.as_deref(), &mut crier)?;
            part.hold(session.clone(), seed, stage == Stage::Begun, shared)?;
            records = journal.read().map_err(Failure::unusable)?.records;
            if Stage::of(&records, &session) != Stage::Over {
                crier.say(Tone::Aside, voice::lesson::STOPPED)?;
                return self.end(journal, false, &mut crier);
            }
            if let Some(mark) = part.pass {
                let (right, of) = replies(&records, |answered| answered == session);
                crier.say(Tone::Plain, &voice::lesson::pass_mark(right, of, mark))?;
            }
        }
        self.end(journal, true, &mut crier)?;
        self.close(&records, &stood, &mut crier)
    }

    fn end(&self, journal: &Journal, finished: bool, crier: &mut Crier) -> Result<(), Failure> {
        let end = Record::End(EndRecord {
            stamp: Stamp::new(now(), self.name.clone()),
            finished,
            heard: 0,
            looks: 0,
        });
        keep(journal, &end, crier)
    }

    fn close(
        &self,
        records: &[Record],
        stood: &Standings,
        crier: &mut Crier,
    ) -> Result<(), Failure> {
        let (right, of) = replies(records, |session| belongs(session, &self.name));
        let course = Standings::of(records, "").0;
        let passed = |step: &Step| {
            course.standing(*step).is_passed() && !stood.0.standing(*step).is_passed()
        };
        let passed: Vec<Step> = Step::ALL.into_iter().filter(passed).collect();
        for line in voice::lesson::closing(right, of, &passed, &course) {
            crier.say(Tone::Plain, &line)?;
        }
        Ok(())
    }
}

/// Where the chance of a part comes from, the parts counted from 1.
const fn seed_of_part(lesson: u64, number: usize) -> u64 {
    lesson.wrapping_add(number as u64)
}

/// How the learner stood before a lesson.
struct Standings(Course);

impl Standings {
    /// Gathers all answers but those of one lesson.
    fn of(records: &[Record], lesson: &str) -> Standings {
        let mut course = Course::default();
        for record in records {
            if let Record::Answer(answer) = record
                && !belongs(&answer.stamp.session, lesson)
            {
                course.take_answer(answer);
            }
        }
        Standings(course)
    }
}

/// Tells whether a session is a part of a lesson.
fn belongs(session: &str, lesson: &str) -> bool {
    !lesson.is_empty()
        && session
            .strip_prefix(lesson)
            .is_some_and(|part| part.starts_with('-'))
}

/// Counts the right replies, and all, of some sessions.
fn replies(records: &[Record], counts: impl Fn(&str) -> bool) -> (usize, usize) {
    let mut right = 0;
    let mut of = 0;
    for record in records {
        if let Record::Answer(answer) = record
            && counts(&answer.stamp.session)
        {
            of += 1;
            right += usize::from(answer.verdict == Verdict::Right);
        }
    }
    (right, of)
}

fn say_notes(notes: Option<&str>, crier: &mut Crier) -> Result<(), Failure> {
    for line in notes.map(voice::lesson::notes).unwrap_or_default() {
        crier.say(Tone::Plain, &line)?;
    }
    Ok(())
}

fn keep(journal: &Journal, record: &Record, crier: &mut Crier) -> Result<(), Failure> {
    match journal.append(record).map_err(Failure::unusable)? {
        Tail::Whole => Ok(()),
        Tail::Sealed => crier.say(Tone::Aside, asides::TORN_LINE),
    }
}
