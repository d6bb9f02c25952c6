//! `sheet --enter`: written answers are graded into the journal.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use super::super::failure::{Failure, shown};
use super::super::shared::{Shared, records};
use super::super::{Command, parse};
use super::{Arguments, Prepared, again, exercise};
use crate::exercise::Output;
use crate::learner::{AnswerRecord, Appended, EndRecord, Journal, Record, Stamp};
use crate::question::Form;
use crate::report::sheet::{self, Entry, SheetQuestion};
use crate::rules::Language;
use crate::terminal::{Tone, now, session_name};
use crate::voice::{Voice, asides, clean_line, paper};

/// No pupil writes more, in bytes.
const LONGEST: u64 = 1 << 20;

/// Grades a file of written answers; they are all entered, or none.
pub(super) fn run(path: &Path, force: bool, shared: &Shared) -> Result<(), Failure> {
    let text = read(path)?;
    let at = |line: usize| format!("{}:{line}", shown(path));
    let entry =
        Entry::read(&text).map_err(|fault| Failure::unusable(&fault).about(&at(fault.line)))?;
    let set_up = set_up(&entry.command);
    let (arguments, exercise, letters) =
        set_up.map_err(|failure| failure.unusable_about(&at(entry.command_line)))?;
    // A pupil's letters may be named here or in the sheet's command.
    let letters = shared.speaking.letters.or(letters);
    let reply = |number, form: Form| {
        let written = entry.reply(number)?;
        Some(letters.map_or_else(
            || written.to_owned(),
            |letters| form.in_english(written, letters),
        ))
    };
    let mut held = exercise.on_paper()?;
    let (items, unread) = sheet::hold(&mut held, reply);
    let name = sheet::name(&items);
    arguments
        .agree_with(&name)
        .map_err(|failure| failure.about(&at(entry.command_line)))?;
    let questions: Vec<&SheetQuestion> = sheet::questions(&items).collect();
    entry
        .fits(questions.len())
        .map_err(|fault| Failure::unusable(&fault).about(&at(fault.line)))?;
    all_read(&unread, exercise.telling.voice(shared), |number| {
        at(entry.line_of(number).unwrap_or(entry.command_line))
    })?;
    let journal = shared.journal()?;
    let known_as = sheet::session_name(
        &name,
        (1..=questions.len()).map(|number| entry.reply(number).unwrap_or("")),
    );
    let session =
        free_name(known_as, &journal, force).map_err(|failure| failure.about(&shown(path)))?;
    let heard = (held.heard(), held.looks());
    keep(
        &exercise,
        &questions,
        heard,
        Stamp::new(now(), session),
        &journal,
        shared,
    )?;
    tell(&questions, shared)
}

/// Sets up the exercise of a sheet from its command line, which may name the letters of the replies.
fn set_up(command: &str) -> Result<(Arguments, Prepared, Option<Language>), Failure> {
    let no_sheet = |reason: &str| {
        Failure::Unusable(format!(
            "this is no command of a sheet ({reason}): copy the one that stands on the sheet"
        ))
    };
    let words = again::words(command);
    if words.get(1).is_none_or(|word| word != "sheet") {
        return Err(no_sheet("it begins with sansvoir sheet"));
    }
    let (cli, _) = parse(words.iter().map(Into::into)).map_err(|error| {
        let said = error.to_string();
        let first = said.lines().next().unwrap_or_default();
        no_sheet(&clean_line(first.trim_start_matches("error: ")))
    })?;
    let Some(Command::Sheet(arguments)) = cli.command else {
        return Err(no_sheet("it is another command"));
    };
    if cli.shared.seed.is_none() {
        return Err(no_sheet("--seed is missing"));
    }
    let Some(choice) = &arguments.exercise else {
        return Err(no_sheet("it names no exercise"));
    };
    if choice.takes_input() {
        return Err(no_sheet("its game came through standard input"));
    }
    let exercise = exercise(choice, &cli.shared, &[])?;
    Ok((arguments, exercise, cli.shared.speaking.letters))
}

/// Sees to it that every reply could be read; those that could not are all told.
fn all_read(
    unread: &[(usize, Output)],
    voice: Voice,
    at: impl Fn(usize) -> String,
) -> Result<(), Failure> {
    if unread.is_empty() {
        return Ok(());
    }
    let mut told: Vec<String> = unread
        .iter()
        .map(|(number, said)| {
            let said = voice.say(said).join(" ");
            format!("{}: question {number}: {said}", at(*number))
        })
        .collect();
    told.push(asides::NOTHING_ENTERED.to_owned());
    Err(Failure::Unusable(told.join("\n")))
}

/// The name of the session in the journal. The same replies to the same sheet have the same name, and
/// are entered twice only where that is wished, under a name of their own.
fn free_name(known_as: String, journal: &Journal, force: bool) -> Result<String, Failure> {
    let is_known = records(journal)?
        .iter()
        .any(|record| matches!(record, Record::End(end) if end.stamp.session == known_as));
    match (is_known, force) {
        (false, _) => Ok(known_as),
        (true, true) => session_name().map_err(Failure::unusable),
        (true, false) => Err(Failure::Unusable(asides::ENTERED_ALREADY.to_owned())),
    }
}

/// Writes all records of the session in one go.
fn keep(
    exercise: &Prepared,
    questions: &[&SheetQuestion],
    (heard, looks): (usize, u32),
    stamp: Stamp,
    journal: &Journal,
    shared: &Shared,
) -> Result<(), Failure> {
    let mut records = vec![exercise.start(stamp.clone(), shared)?];
    records.extend(questions.iter().map(|question| {
        let (stamp, game) = (stamp.clone(), exercise.game());
        let answer = AnswerRecord::new(stamp, exercise.plan.exercise(), game, &question.answered);
        Record::Answer(Box::new(answer))
    }));
    records.push(Record::End(EndRecord {
        stamp,
        finished: true,
        heard,
        looks,
    }));
    match journal.append_all(&records).map_err(Failure::unusable)? {
        Appended::Plainly | Appended::WithLostRecords => Ok(()),
        Appended::AfterTornLine => Ok(shared.screen().say(Tone::Aside, asides::TORN_LINE)?),
    }
}

/// Says what came of each answer, for the paper to be given back with.
fn tell(questions: &[&SheetQuestion], shared: &Shared) -> Result<(), Failure> {
    let mut screen = shared.screen();
    for question in questions {
        let graded = paper::graded(question.number, &question.answered);
        screen.say(Tone::Plain, &graded)?;
    }
    let verdicts: Vec<_> = questions
        .iter()
        .map(|question| question.answered.mark.verdict)
        .collect();
    let learner = shared.learner()?.to_string();
    Ok(screen.say(Tone::Heading, &paper::entered(&learner, &verdicts))?)
}

fn read(path: &Path) -> Result<String, Failure> {
    let failed = |error: io::Error| match error.kind() {
        io::ErrorKind::IsADirectory => Failure::Unusable(format!(
            "{}: this is a folder: name a file of answers",
            shown(path)
        )),
        _ => Failure::file(path, &error),
    };
    let mut bytes = Vec::new();
    if path == Path::new("-") {
        io::stdin().take(LONGEST + 1).read_to_end(&mut bytes)
    } else {
        File::open(path)
            .map_err(failed)?
            .take(LONGEST + 1)
            .read_to_end(&mut bytes)
    }
    .map_err(failed)?;
    if bytes.len() as u64 > LONGEST {
        return Err(Failure::Unusable(format!(
            "{}: this is far too long for a file of answers: name another one",
            shown(path)
        )));
    }
    String::from_utf8(bytes).map_err(|error| {
        let valid = &error.as_bytes()[..error.utf8_error().valid_up_to()];
        let line = 1 + memchr::memchr_iter(b'\n', valid).count();
        Failure::Unusable(format!(
            "{}:{line}: this is no text in UTF-8: save the file as UTF-8",
            shown(path)
        ))
    })
}
