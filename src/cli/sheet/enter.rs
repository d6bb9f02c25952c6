//! `sheet enter`: written answers are graded into the journal.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use clap::Parser;

use super::form::{Arguments, Paper, without_name};
use crate::cli::failure::{Failure, shown};
use crate::cli::prepared::Prepared;
use crate::cli::shared::{Shared, records};
use crate::cli::values::Text;
use crate::learner::{AnswerRecord, EndRecord, Record, Stamp};
use crate::question::Form;
use crate::report::sheet::{self, Entry, EntryError, SheetQuestion};
use crate::terminal::{Tone, now};
use crate::voice::{asides, clean_line, commands as words, paper};

/// No pupil writes more, in bytes.
const LONGEST: u64 = 1 << 20;

/// Grades a file of written answers; they are all entered, or none.
pub(super) fn run(path: &Path, shared: &Shared) -> Result<(), Failure> {
    let text = read(path)?;
    let at = |line: usize| format!("{}:{line}", shown(path));
    let at_fault = |fault: EntryError| Failure::unusable(&fault).about(&at(fault.line));
    let entry = Entry::read(&text).map_err(at_fault)?;
    let in_command = |failure: Failure| failure.unusable_about(&at(entry.command_line));
    let (exercise, named) = set_up(&entry.command, shared).map_err(in_command)?;
    let reply = |number, form: Form| {
        let written = entry.reply(number)?;
        Some(match shared.config.letters {
            Some(Text(letters)) => form.in_english(written, letters),
            None => written.to_owned(),
        })
    };
    let mut held = exercise.plan.on_paper()?;
    let (items, unread) = sheet::hold(&mut held, reply);
    let name = sheet::name(&items);
    if let Some(named) = named.filter(|named| *named != name) {
        let reason = words::another_sheet(&name, &clean_line(&named));
        return Err(in_command(Failure::Unusable(reason)));
    }
    let questions: Vec<&SheetQuestion> = sheet::questions(&items).collect();
    entry.fits(questions.len()).map_err(at_fault)?;
    if !unread.is_empty() {
        let voice = exercise.telling.voice(shared);
        let told = unread.iter().map(|(number, said)| {
            let at = at(entry.line_of(*number).unwrap_or(entry.command_line));
            words::about_question(&at, *number, &voice.say(said).join(" "))
        });
        let told: Vec<String> = told.chain([asides::NOTHING_ENTERED.to_owned()]).collect();
        return Err(Failure::Unusable(told.join("\n")));
    }
    let journal = shared.journal()?;
    let replies = (1..=questions.len()).map(|number| entry.reply(number).unwrap_or(""));
    // The same replies to the same sheet have the same name.
    let session = sheet::session_name(&name, replies);
    let is_known =
        |record: &Record| matches!(record, Record::End(end) if end.stamp.session == session);
    if records(&journal)?.iter().any(is_known) {
        return Err(Failure::at(path, asides::ENTERED_ALREADY));
    }
    let stamp = Stamp::new(now(), session);
    let mut records = vec![exercise.start(stamp.clone(), shared)?];
    records.extend(questions.iter().map(|question| {
        let (stamp, game) = (stamp.clone(), exercise.game());
        let answer = AnswerRecord::new(stamp, exercise.plan.exercise(), game, &question.answered);
        Record::Answer(Box::new(answer))
    }));
    records.push(Record::End(EndRecord {
        stamp,
        finished: true,
        plies: held.heard(),
        looks: held.looks(),
    }));
    let mut screen = shared.screen();
    if let Some(found) = asides::appended(journal.append_all(&records)?) {
        screen.say(Tone::Aside, found)?;
    }
    // What came of each answer, for the paper to be given back with.
    let mut verdicts = Vec::new();
    for question in questions {
        let graded = paper::graded(question.number, &question.answered);
        screen.say(Tone::Plain, &graded)?;
        verdicts.push(question.answered.mark.verdict);
    }
    let learner = shared.learner()?.to_string();
    Ok(screen.say(Tone::Heading, &paper::entered(&learner, &verdicts))?)
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
    let mut words = shell_words::split(command).unwrap_or_default();
    if words
        .get(..2)
        .is_none_or(|first| first != ["sansvoir", "sheet"])
    {
        return Err(no_sheet(words::NO_SHEET));
    }
    let command = Command::try_parse_from(words.drain(2..)).map_err(|error| {
        let said = error.to_string();
        let first = said.lines().next().unwrap_or_default();
        no_sheet(&clean_line(first.trim_start_matches("error: ")))
    })?;
    if command.shared.seed.is_none() {
        return Err(no_sheet(words::NO_SEED));
    }
    let Paper::Ask(request) = command.sheet.paper else {
        return Err(no_sheet(words::NO_EXERCISE));
    };
    if request.takes_input() {
        return Err(no_sheet(words::GAME_FROM_INPUT));
    }
    let mut of_sheet = command.shared;
    of_sheet.config = shared.config.clone();
    Ok((request.on_paper(&of_sheet, &[])?, name.map(str::to_owned)))
}

fn read(path: &Path) -> Result<String, Failure> {
    let failed = |error| Failure::other_file(path, "a file of answers", &error);
    let input: Box<dyn Read> = if path == Path::new("-") {
        Box::new(io::stdin())
    } else {
        Box::new(File::open(path).map_err(failed)?)
    };
    let mut bytes = Vec::new();
    let read = input.take(LONGEST + 1).read_to_end(&mut bytes);
    if read.map_err(failed)? as u64 > LONGEST {
        return Err(Failure::at(path, words::TOO_MANY_ANSWERS));
    }
    String::from_utf8(bytes).map_err(|error| {
        let valid = &error.as_bytes()[..error.utf8_error().valid_up_to()];
        let line = 1 + memchr::memchr_iter(b'\n', valid).count();
        Failure::unusable(words::NO_UTF8).about(&format!("{}:{line}", shown(path)))
    })
}
