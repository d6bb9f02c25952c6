//! `sansvoir` alone: through a pipe what to do first, in a screenful; on a terminal the next sensible thing,
//! begun with Enter, which a first time is a miniature with a mate to be found.

use std::io::{IsTerminal, stdout};
use std::path::Path;

use super::aloud::Announcer;
use super::chosen::file_name;
use super::failure::{Failure, something_was_told};
use super::help;
use super::pick::Pick;
use super::places;
use super::prepared::{Asked, resume};
use super::request::arguments::GameArguments;
use super::request::replay::Options;
use super::request::{AtMove, Request};
use super::shared::{Shared, answers, records};
use super::values::{AskedKind, Text};
use crate::exercise::bound::Questions;
use crate::exercise::{Input, PlanError};
use crate::learner::course::{Course, CourseEvent};
use crate::learner::{Journal, Record, StartRecord, unfinished_session};
use crate::question::{Kind, Verdict};
use crate::terminal::{Said, Tone, Way};
use crate::voice::handbook::{Page, Shape};
use crate::voice::{alone as words, progress};

/// The words of a command, as one would type them behind the program's name.
pub(super) type CommandLine = Vec<String>;

/// Offers what can be done next, and returns the command that is chosen.
pub(super) fn run(shared: &Shared) -> Result<Option<CommandLine>, Failure> {
    if shared.manner().way == Way::Piped || !stdout().is_terminal() {
        return say_first_words(shared).map(|()| None);
    }
    // That a name is new is told by the exercise.
    let journal = Journal::open(&shared.data()?, &shared.learner()?)?;
    let mut known = records(&journal)?;
    let mut announcer = shared.announcer();
    let mut chosen = if journal.path().exists() {
        choice(&known, &mut announcer, shared)?
    } else {
        for sentence in words::WELCOME {
            announcer.say(Tone::Plain, sentence)?;
        }
        Some(Choice::Miniature)
    };
    let mut aside = shared.clone();
    aside.miniature = true;
    loop {
        match chosen {
            Some(Choice::Miniature) => replay_miniature(&known, &aside)?,
            Some(Choice::SameMiniature) => drop(resume(REPLAY, &Asked::default(), &aside)?),
            Some(Choice::Begin(command)) => return Ok(Some(command)),
            None => return Ok(None),
        }
        known = journal.read()?.records;
        let Some(end) = known
            .iter()
            .rev()
            .find_map(Record::end)
            .filter(|end| end.finished)
        else {
            return Ok(None);
        };
        let last = answers(&known).last();
        let found = last.is_some_and(|answer| answer.verdict == Verdict::Right);
        announcer.say(Tone::Plain, &words::done(end.plies, found, end.looks))?;
        chosen = choice(&known, &mut announcer, shared)?;
    }
}

/// Says in a screenful what to do first.
fn say_first_words(shared: &Shared) -> Result<(), Failure> {
    let blocks = Page::of("start").blocks().into_iter().skip(1);
    let first = blocks.take_while(|block| block.shape != Shape::Heading);
    help::say(&first.collect::<Vec<_>>(), shared)
}

/// What the learner chooses.
enum Choice {
    /// A command.
    Begin(CommandLine),
    /// The next miniature.
    Miniature,
    /// The one that was stopped last.
    SameMiniature,
}

/// Offers what can be done by all that the journal tells, and hears what is chosen; `None` where the learner
/// leaves.
fn choice(
    known: &[Record],
    announcer: &mut Announcer,
    shared: &Shared,
) -> Result<Option<Choice>, Failure> {
    let begin = |words: &[&str]| {
        let words = words.iter().copied().map(str::to_owned);
        Ok(Some(Choice::Begin(words.collect())))
    };
    let left = left_last(known);
    let is_new = !known.iter().any(is_lesson);
    let offer = words::offer(left.map(|start| start.exercise.as_str()), is_new);
    let listener = shared.listener()?;
    if !is_new {
        let mut course = Course::default();
        for record in known {
            if let Some(event) = CourseEvent::of(record) {
                course.hear(record.stamp().time, event);
            }
        }
        for sentence in progress::stand(&course).iter().take(1) {
            announcer.say(Tone::Plain, sentence)?;
        }
    }
    announcer.say(Tone::Plain, &offer)?;
    let mut warned = false;
    loop {
        let said = announcer.line(
            &listener,
            words::PROMPT,
            &[LESSON, "short game", "own games"],
        )?;
        announcer.aloud.silence();
        let line = match said {
            Said::Line(line) => line,
            Said::Interrupt if !warned => {
                warned = true;
                announcer.say(Tone::Aside, words::INTERRUPTED)?;
                continue;
            }
            Said::Interrupt | Said::End => return Ok(None),
        };
        warned = false;
        // What was told up to here has been read.
        something_was_told();
        let text = match Input::read(&line.text, 0) {
            Input::GoOn => match left {
                Some(start) if miniature(start).is_some() => {
                    return Ok(Some(Choice::SameMiniature));
                }
                Some(start) => return begin(&[&start.exercise, "--resume"]),
                None => return begin(&[LESSON]),
            },
            Input::Stop => return Ok(None),
            Input::Help => {
                announcer.say(Tone::Plain, &offer)?;
                continue;
            }
            Input::Reply { text, .. } => text.to_lowercase(),
            _ => String::new(),
        };
        let text = text.trim_end_matches('.');
        match text.strip_prefix("a ").unwrap_or(text) {
            "l" | "lesson" => return begin(&[LESSON]),
            "m" | "short game" => return Ok(Some(Choice::Miniature)),
            "g" | "own games" if !shared.config.games.is_empty() => return begin(&[REPLAY]),
            "g" | "own games" => announcer.say(Tone::Plain, words::OWN_GAMES)?,
            _ => announcer.say(Tone::Plain, &words::choose(&offer))?,
        }
    }
}

/// The names of lessons and replays in the journal.
const LESSON: &str = "lesson";
const REPLAY: &str = "replay";

fn is_lesson(record: &Record) -> bool {
    matches!(record, Record::Start(start) if start.exercise == LESSON)
}

/// Returns how the session began that was stopped last of all, where nothing was done since.
fn left_last(known: &[Record]) -> Option<&StartRecord> {
    let session = known.last()?.stamp().session.as_str();
    // A part of a lesson is named after it.
    let whole = session.split('-').next()?;
    let start = unfinished_session(known, whole)?.start;
    let exercise = start.exercise.as_str();
    let is_known = exercise == LESSON || Request::EXERCISES.contains(&exercise);
    is_known.then_some(start)
}

/// Returns the number of the miniature that is replayed in a session, if one is.
fn miniature(start: &StartRecord) -> Option<usize> {
    let game = start.game.as_ref().filter(|_| start.exercise == REPLAY)?;
    (game.file == file_name(Path::new(places::MINIATURES))).then_some(game.number)
}

/// Reads the miniature that follows the one that was read last, and asks for its last move before it is read.
fn replay_miniature(known: &[Record], shared: &Shared) -> Result<(), Failure> {
    let file = Path::new(places::MINIATURES);
    places::keep_quiet_of(file);
    let mut ends = Vec::new();
    Pick::of_file(file, None).walk(shared, |picked| {
        let line = picked.reading.game.main_line();
        let before_last = line.plies().iter().rev().nth(1);
        ends.push(before_last.map(|ply| Text(AtMove::After(ply.number))));
        Ok(true)
    })?;
    let mut starts = known.iter().rev().filter_map(Record::start);
    let read = starts.find_map(miniature).unwrap_or_default();
    let order = (0..ends.len()).map(|after| (read + after) % ends.len());
    let next = { order }.find_map(|at| Some((at + 1, ends[at]?)));
    let (number, end) = next.ok_or_else(|| Failure::at(file, PlanError::NoPlies))?;
    let pick = Pick::of_file(file, number.to_string().parse().ok());
    let options = Options {
        at: vec![end],
        ask: AskedKind::of([Kind::Mate]),
        questions: Some(Questions::nearest(1)),
        ..Options::default()
    };
    Request::Replay(GameArguments::over(&pick, options)).run(shared)
}
