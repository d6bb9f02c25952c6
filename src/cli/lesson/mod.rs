//! `lesson`: exercises one after the other, chosen by the journal or written by a coach.

mod coach;
#[cfg(test)]
mod tests;
mod today;

use std::collections::HashMap;
use std::path::PathBuf;

use clap::Args;

use super::aloud::Announcer;
use super::failure::{Failure, shown};
use super::request::{Outline, seed_of_part};
use super::shared::{Shared, records, tell_broken};
use crate::exercise::bound::Minutes;
use crate::learner::course::{Course, CourseEvent, CourseStep};
use crate::learner::{EndRecord, Journal, LearnerState, Record, SessionLock, Stamp, StartRecord};
use crate::question::Verdict;
use crate::terminal::{Tone, now};
use crate::voice::{self, asides};

/// The options of `lesson`; its page of the handbook says what it does.
#[derive(Args, Debug)]
pub(super) struct Arguments {
    /// A lesson file [default: a lesson chosen from your journal]
    #[arg(value_name = "FILE.toml")]
    file: Option<PathBuf>,
    /// About how many minutes a chosen lesson takes [default: 10]
    #[arg(long, value_name = "N", conflicts_with = "file")]
    minutes: Option<Minutes>,
    /// Find by a few questions where your course begins; a first lesson does so by itself
    #[arg(long, conflicts_with_all = ["file", "minutes", "start"])]
    place: bool,
    /// Begin the course with this step, as in colors or four-plies; the steps below are taken as known
    #[arg(long, value_name = "STEP", conflicts_with = "file", value_parser = voice::lesson::step)]
    start: Option<CourseStep>,
    /// Only check the lesson file: every key, every game, every pass mark
    #[arg(long, requires = "file")]
    check: bool,
    /// Go on with the lesson that was left unfinished last
    #[arg(long, conflicts_with_all = ["file", "minutes", "check", "place", "start"])]
    resume: bool,
}

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
    if arguments.resume {
        let left = shared.take_up(&journal, EXERCISE)?;
        return hold(left.held, &left.setup, left.start, true, shared).map(drop);
    }
    if let Some(file) = &arguments.file {
        let outline = coach::outline(file, shared.seed()?, &records(&journal)?, shared)?;
        return begin(&outline, &journal, shared).map(drop);
    }
    let (mut learner, broken) = LearnerState::of(&journal)?;
    tell_broken(journal.path(), &broken);
    let is_first = arguments.start.is_none()
        && !learner.had_lesson
        && learner.course.current() == Some(CourseStep::WhiteSquares);
    if arguments.place || is_first {
        let is_placed = begin(&today::placement(), &journal, shared)?;
        if arguments.place || !is_placed {
            return Ok(());
        }
        learner = LearnerState::of(&journal)?.0;
    }
    let minutes = arguments.minutes.map_or(MINUTES, Minutes::get);
    let outline = today::outline(minutes, arguments.start, learner, shared)?;
    begin(&outline, &journal, shared).map(drop)
}

/// Holds a lesson from its beginning; tells whether it came to its end.
fn begin(outline: &Outline, journal: &Journal, shared: &Shared) -> Result<bool, Failure> {
    let held = shared.hold_new(journal)?;
    let start = StartRecord {
        stamp: Stamp::new(now(), held.session()),
        learner: shared.learner()?,
        exercise: EXERCISE.to_owned(),
        played: None,
        game: None,
        seed: shared.seed()?,
        plan: serde_json::to_value(outline)?,
    };
    hold(held, outline, start, false, shared)
}

/// Holds a lesson from its beginning or from where it was left: its own session, and one for each part.
fn hold(
    mut held: SessionLock,
    outline: &Outline,
    start: StartRecord,
    resumed: bool,
    shared: &Shared,
) -> Result<bool, Failure> {
    let mut announcer = shared.announcer();
    let journal = held.journal().clone();
    let name = held.session().to_owned();
    let seed = start.seed;
    if !resumed {
        keep(&mut held, Record::Start(start), &mut announcer)?;
    }
    for line in voice::lesson::opening(outline.title.as_deref(), outline.parts.len(), resumed) {
        announcer.say(Tone::Heading, &line)?;
    }
    if !resumed {
        say_notes(outline.notes.as_deref(), &mut announcer)?;
    }
    let mut so_far = SoFar::of(&journal, &name)?;
    let stood = std::mem::take(&mut so_far.others);
    for (part, number) in outline.parts.iter().zip(1..) {
        let session = format!("{name}-{number}");
        let is_begun = match so_far.parts.get(&session) {
            Some(part) if part.is_over => continue,
            begun => begun.is_some(),
        };
        let heading = voice::lesson::part(number, outline.parts.len(), &part.heading);
        announcer.say(Tone::Heading, &heading)?;
        say_notes(part.notes.as_deref(), &mut announcer)?;
        let seed = seed_of_part(seed, number);
        part.hold(session.clone(), seed, is_begun, shared)?;
        so_far = SoFar::of(&journal, &name)?;
        let held_so_far = so_far.parts.get(&session).filter(|part| part.is_over);
        let Some(held_so_far) = held_so_far else {
            announcer.say(Tone::Aside, voice::lesson::STOPPED)?;
            end(&mut held, false, &mut announcer)?;
            return Ok(false);
        };
        if let Some(mark) = part.pass {
            let [right, of, all] = held_so_far.replies;
            let said = voice::lesson::pass_mark(right, of, mark, all);
            announcer.say(Tone::Plain, &said)?;
        }
    }
    end(&mut held, true, &mut announcer)?;
    close(&so_far, &stood, &mut announcer)?;
    Ok(true)
}

fn end(held: &mut SessionLock, finished: bool, announcer: &mut Announcer) -> Result<(), Failure> {
    let end = Record::End(EndRecord {
        stamp: Stamp::new(now(), held.session()),
        finished,
        plies: 0,
        looks: 0,
    });
    keep(held, end, announcer)
}

fn keep(held: &mut SessionLock, record: Record, announcer: &mut Announcer) -> Result<(), Failure> {
    let found = asides::appended(held.append(record)?);
    found.map_or(Ok(()), |said| announcer.say(Tone::Aside, said))
}
/// What the journal tells of a lesson so far.
#[derive(Default)]
struct SoFar {
    /// How the learner stands.
    course: Course,
    /// The same without the answers of this lesson.
    others: Course,
    /// The parts that were begun, by their sessions.
    parts: HashMap<String, PartSoFar>,
}

/// What came of a part so far.
#[derive(Default)]
struct PartSoFar {
    /// Whether all of it was read and asked.
    is_over: bool,
    /// Whether it finds where the course begins.
    is_placement: bool,
    /// The right first tries, all first tries, and all replies.
    replies: [usize; 3],
}

impl SoFar {
    fn of(journal: &Journal, lesson: &str) -> Result<SoFar, Failure> {
        let mut so_far = SoFar::default();
        journal.read_each(|_, record| {
            let Stamp { time, session } = record.stamp();
            let part = session.strip_prefix(lesson);
            let is_part = part.is_some_and(|part| part.starts_with('-'));
            if let Some(event) = CourseEvent::of(&record) {
                if !is_part {
                    so_far.others.hear(*time, event.clone());
                }
                so_far.course.hear(*time, event);
            }
            if is_part {
                let part = so_far.parts.entry(session.clone()).or_default();
                part.take(&record);
            }
        })?;
        Ok(so_far)
    }
}

impl PartSoFar {
    fn take(&mut self, record: &Record) {
        match record {
            Record::Start(start) => self.is_placement |= start.exercise == "placement",
            Record::End(end) => self.is_over |= end.finished,
            Record::Answer(answer) => {
                let is_right = answer.counts() && answer.verdict == Verdict::Right;
                let [right, first, all] = &mut self.replies;
                *right += usize::from(is_right);
                *first += usize::from(answer.counts());
                *all += 1;
            }
            Record::Said(_) | Record::Game(_) | Record::Seal(_) => {}
        }
    }
}

/// Tells what came of a lesson.
fn close(so_far: &SoFar, stood: &Course, announcer: &mut Announcer) -> Result<(), Failure> {
    let SoFar { course, parts, .. } = so_far;
    if parts.values().any(|part| part.is_placement) {
        for line in voice::lesson::placed(course) {
            announcer.say(Tone::Plain, &line)?;
        }
    }
    let passed = |step: &CourseStep| {
        course.standing(*step).is_passed() && !stood.standing(*step).is_passed()
    };
    let passed: Vec<CourseStep> = CourseStep::ALL.into_iter().filter(passed).collect();
    let replies = parts.values().fold([0; 3], |all, part| {
        std::array::from_fn(|at| all[at] + part.replies[at])
    });
    for line in voice::lesson::closing(replies, &passed, course) {
        announcer.say(Tone::Plain, &line)?;
    }
    Ok(())
}

fn say_notes(notes: Option<&str>, announcer: &mut Announcer) -> Result<(), Failure> {
    for line in notes.map(voice::lesson::notes).unwrap_or_default() {
        announcer.say(Tone::Plain, &line)?;
    }
    Ok(())
}
