//! `sheet --enter`: written answers are graded into the journal.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use clap::Parser;

use super::form::{Arguments, without_name};
use crate::cli::failure::{Failure, shown};
use crate::cli::prepared::Prepared;
use crate::cli::shared::{Shared, records};
use crate::cli::values::{Text, shell_words};
use crate::exercise::Output;
use crate::learner::{AnswerRecord, Appended, EndRecord, Journal, Record, Stamp};
use crate::question::Form;
use crate::report::sheet::{self, Entry, SheetQuestion};
use crate::terminal::{Tone, now, session_name};
use crate::voice::{Voice, asides, clean_line, commands as words, paper};

/// No pupil writes more, in bytes.
const LONGEST: u64 = 1 << 20;

/// Grades a file of written answers; they are all entered, or none.
pub(super) fn run(path: &Path, force: bool, shared: &Shared) -> Result<(), Failure> {
    let text = read(path)?;
    let at = |line: usize| format!("{}:{line}", shown(path));
    let entry =
        Entry::read(&text).map_err(|fault| Failure::unusable(&fault).about(&at(fault.line)))?;
    let exercise = set_up(&entry.command, shared);
    let (exercise, named) =
        exercise.map_err(|failure| failure.unusable_about(&at(entry.command_line)))?;
    let letters = shared.config.letters.map(|Text(language)| language);
    let reply = |number, form: Form| {
        let written = entry.reply(number)?;
        Some(letters.map_or_else(
            || written.to_owned(),
            |letters| form.in_english(written, letters),
        ))
    };
    let mut held = exercise.plan.on_paper()?;
    let (items, unread) = sheet::hold(&mut held, reply);
    let name = sheet::name(&items);
    if let Some(named) = named.filter(|named| *named != name) {
        let failure = Failure::Unusable(words::another_sheet(&name, &clean_line(&named)));
        return Err(failure.about(&at(entry.command_line)));
    }
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

/// A command line of a sheet.
#[derive(Parser)]
#[command(no_binary_name = true)]
struct Command {
    #[command(flatten)]
    shared: Shared,
    #[command(flatten)]
    sheet: Arguments,
}

/// Sets up the exercise of a sheet from its command line; returns also the sheet's name, where it stands
/// there.
fn set_up(command: &str, shared: &Shared) -> Result<(Prepared, Option<String>), Failure> {
    let no_sheet = |reason: &str| Failure::Unusable(words::no_command_of_a_sheet(reason));
    let (command, name) = without_name(command);
    let words = shell_words(command);
    let ["sansvoir", "sheet", words @ ..] =
        &words.iter().map(String::as_str).collect::<Vec<_>>()[..]
    else {
        return Err(no_sheet(words::NO_SHEET));
    };
    let command = Command::try_parse_from(words).map_err(|error| {
        let said = error.to_string();
        let first = said.lines().next().unwrap_or_default();
        no_sheet(&clean_line(first.trim_start_matches("error: ")))
    })?;
    if command.shared.seed.is_none() {
        return Err(no_sheet(words::NO_SEED));
    }
    let Some(request) = command.sheet.exercise else {
        return Err(no_sheet(words::NO_EXERCISE));
    };
    if request.takes_input() {
        return Err(no_sheet(words::GAME_FROM_INPUT));
    }
    let mut of_sheet = command.shared;
    of_sheet.config = shared.config.clone();
    Ok((request.on_paper(&of_sheet, &[])?, name.map(str::to_owned)))
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
            words::about_question(&at(*number), *number, &said)
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
        (true, true) => Ok(session_name()?),
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
    match journal.append_all(&records)? {
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
    let failed = |error: io::Error| Failure::other_file(path, "a file of answers", &error);
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
        return Err(Failure::Unusable(words::too_many_answers(&shown(path))));
    }
    String::from_utf8(bytes).map_err(|error| {
        let valid = &error.as_bytes()[..error.utf8_error().valid_up_to()];
        let line = 1 + memchr::memchr_iter(b'\n', valid).count();
        Failure::Unusable(words::no_utf8(&format!("{}:{line}", shown(path))))
    })
}
