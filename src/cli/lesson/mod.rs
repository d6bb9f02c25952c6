//! `lesson`: exercises one after the other, chosen by the journal or written by a coach.

mod coach;
#[cfg(test)]
mod tests;
mod today;

use std::collections::HashMap;
use std::path::{Path, PathBuf};

use clap::Args;

use super::aloud::Announcer;
use super::failure::{Failure, shown};
use super::request::{Outline, seed_of_part, session_of_part};
use super::shared::{Shared, records, tell_broken};
use crate::exercise::Input;
use crate::exercise::bound::Minutes;
use crate::learner::course::{Course, CourseEvent, CourseStep};
use crate::learner::{
    EndRecord, Journal, LearnerState, PartResult, Record, SessionLock, Stamp, StartRecord,
    part_number,
};
use crate::terminal::{Said, Tone, Way, now};
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
        let lesson = coach::read(file, shared.seed()?, Some(&[]), shared)?;
        let parts = lesson.outline.parts.len();
        let sentence = voice::lesson::checked(&shown(file), parts, lesson.extent);
        return Ok(shared.screen().say(Tone::Plain, &sentence)?);
    }
    let journal = shared.journal()?;
    if arguments.resume {
        let left = shared.take_up(&journal, EXERCISE)?;
        return hold(left.held, &left.setup, left.start, true, shared).map(drop);
    }
    if let Some(file) = &arguments.file {
        let records = records(&journal)?;
        let lesson = coach::read(file, shared.seed()?, Some(&records), shared)?;
        return begin(&lesson.outline, &journal, shared).map(drop);
    }
    let (mut learner, broken) = LearnerState::of(&journal)?;
    tell_broken(journal.path(), &broken);
    let is_first = arguments.start.is_none()
        && !learner.had_lesson
        && learner.course.current() == Some(CourseStep::WhiteSquares);
    let goes_on = arguments.start.is_none() && !arguments.place && learner.placing.is_some();
    if arguments.place || is_first || goes_on {
        let is_placed = if goes_on {
            let left = shared.take_up(&journal, EXERCISE)?;
            hold(left.held, &left.setup, left.start, true, shared)?
        } else {
            begin(&today::placement(), &journal, shared)?
        };
        if arguments.place || !is_placed {
            return Ok(());
        }
        learner = LearnerState::of(&journal)?.0;
        // Elsewhere the first part waits for Enter.
        if shared.plain && shared.manner().way != Way::Piped {
            let listener = shared.listener()?;
            let mut announcer = shared.announcer();
            let Said::Line(line) = announcer.line(&listener, asides::BEGIN_PROMPT, &[])? else {
                return Ok(());
            };
            if Input::read(&line.text, 0) == Input::Stop {
                return Ok(());
            }
        }
    }
    let minutes = arguments.minutes.map_or(MINUTES, Minutes::get);
    let outline = today::outline(minutes, arguments.start, learner, shared)?;
    begin(&outline, &journal, shared).map(drop)
}

/// Reads a lesson file whose parts are not tried.
pub(super) fn written(file: &Path, shared: &Shared) -> Result<Outline, Failure> {
    Ok(coach::read(file, 0, None, shared)?.outline)
}

/// Reads a lesson file each of whose parts can be held by anybody.
pub(super) fn tried(file: &Path, seed: u64, shared: &Shared) -> Result<Outline, Failure> {
    Ok(coach::read(file, seed, Some(&[]), shared)?.outline)
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
    for (place, at) in (1..).zip(outline.order()) {
        let (part, number) = (&outline.parts[at], at + 1);
        loop {
            let result = so_far.parts.get(&number);
            let over = result.filter(|result| result.is_over);
            if over.is_some_and(|result| !part.comes_again(result)) {
                break;
            }
            let is_begun = over.is_none() && result.is_some();
            let time = result.map_or(1, |result| result.time + usize::from(result.is_over));
            let heading = voice::lesson::part(place, outline.parts.len(), &part.heading, time);
            announcer.say(Tone::Heading, &heading)?;
            if time == 1 {
                say_notes(part.notes.as_deref(), &mut announcer)?;
            }
            part.hold(
                session_of_part(&name, number, time),
                seed_of_part(seed, number, time),
                is_begun,
                shared,
            )?;
            so_far = SoFar::of(&journal, &name)?;
            let result = so_far.parts.get(&number);
            let Some(result) = result.filter(|part| part.is_over && part.time == time) else {
                announcer.say(
                    Tone::Aside,
                    &voice::lesson::stopped(&shared.lesson_command()),
                )?;
                end(&mut held, false, &mut announcer)?;
                return Ok(false);
            };
            if let Some(mark) = part.pass {
                announcer.say(Tone::Plain, &voice::lesson::pass_mark(result, mark))?;
            }
        }
    }
    end(&mut held, true, &mut announcer)?;
    close(&so_far, &stood, &mut announcer, &shared.lesson_command())?;
    Ok(true)
}

fn end(held: &mut SessionLock, finished: bool, announcer: &mut Announcer) -> Result<(), Failure> {
    let end = Record::End(EndRecord {
        stamp: Stamp::new(now(), held.session()),
        finished,
        plies: 0,
        looks: 0,
        helped: false,
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
    /// The parts that were begun, by their numbers.
    parts: HashMap<usize, PartResult>,
}

impl SoFar {
    fn of(journal: &Journal, lesson: &str) -> Result<SoFar, Failure> {
        let mut so_far = SoFar::default();
        journal.read_each(|_, record| {
            let Stamp { time, session } = record.stamp();
            let part = session.strip_prefix(lesson);
            let part = part.and_then(|part| part_number(part.strip_prefix('-')?));
            if let Some(event) = CourseEvent::of(&record) {
                if part.is_none() {
                    so_far.others.hear(*time, event.clone());
                }
                so_far.course.hear(*time, event);
            }
            if let Some((number, time)) = part {
                so_far.parts.entry(number).or_default().take(time, &record);
            }
        })?;
        Ok(so_far)
    }
}

/// Tells what came of a lesson, and with which command the next one begins.
fn close(
    so_far: &SoFar,
    stood: &Course,
    announcer: &mut Announcer,
    lesson: &str,
) -> Result<(), Failure> {
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
    for line in voice::lesson::closing(replies, &passed, course, lesson) {
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
