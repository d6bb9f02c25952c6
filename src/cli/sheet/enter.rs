//! `sheet enter`: written answers of one pupil or several are graded into their journals.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use clap::Parser;

use super::form::{Arguments, Paper, without_name};
use super::work::Work;
use crate::cli::failure::{Failure, shown};
use crate::cli::request::session_of_part;
use crate::cli::shared::{Shared, records};
use crate::cli::values::Text;
use crate::learner::{AnswerRecord, EndRecord, Journal, LearnerName, Record, Stamp, StartRecord};
use crate::question::{Form, Verdict};
use crate::report::sheet::{self, Entry, EntryFault, SheetPart};
use crate::terminal::{Tone, now};
use crate::voice::{asides, clean_line, commands as words, paper};

/// No class writes more, in bytes.
const LONGEST: u64 = 4 << 20;

/// What one pupil's answers become.
struct Graded {
    learner: LearnerName,
    journal: Journal,
    records: Vec<Record>,
    /// Whether they are in the journal already.
    is_known: bool,
    parts: Vec<SheetPart>,
}

/// Grades a file of written answers; they are all entered, or none. All that is wrong with the file is told at once.
pub(super) fn run(path: &Path, shared: &Shared) -> Result<(), Failure> {
    let text = read(path)?;
    let at = |line: usize| format!("{}:{line}", shown(path));
    let entry = Entry::read(&text);
    let in_command = |failure: Failure| failure.unusable_about(&at(entry.command_line));
    let mut faults = entry.faults.clone();
    if entry.command.is_empty() {
        return refuse(&faults, at);
    }
    let (command, named) = command(&entry.command).map_err(in_command)?;
    let Command {
        shared: given,
        sheet,
    } = command;
    let of_sheet = |of_pupil: &Shared| {
        let mut of_sheet = given.clone();
        of_sheet.config = of_pupil.config.clone();
        of_sheet
    };
    let no_sheet = || Failure::Unusable(words::no_command_of_a_sheet(words::NO_EXERCISE));
    let work =
        Work::of(&sheet.paper, &of_sheet(shared), &[]).and_then(|work| work.ok_or_else(no_sheet));
    let work = work.map_err(in_command)?;
    let mut graded = Vec::new();
    for pupil in &entry.pupils {
        let of_pupil = match &pupil.name {
            Some(name) => shared.of_learner(name),
            None => shared.learner().map(|_| shared.clone()),
        };
        let unknown = of_pupil.as_ref().err();
        faults.extend(unknown.map(|failure| EntryFault::said(pupil.line, failure.told(true))));
        // Of whoever is unknown it is told all the same what else is wrong.
        let of_pupil = of_pupil.unwrap_or_else(|_| shared.clone());
        let reply = |number, form: Form| {
            let written = pupil.reply(number)?;
            Some(match of_pupil.config.letters {
                Some(Text(letters)) => form.in_english(written, letters),
                None => written.to_owned(),
            })
        };
        let (mut parts, unread) = work.hold(&of_pupil, reply).map_err(in_command)?;
        let name = sheet::name(&parts);
        if let Some(named) = named.filter(|named| *named != name) {
            let reason = words::another_sheet(&name, &clean_line(named));
            return Err(in_command(Failure::Unusable(reason)));
        }
        let all = sheet::questions(&parts).count();
        faults.extend(pupil.unfit(all));
        faults.extend(unread.iter().map(|(number, said)| {
            let line = pupil.line_of(*number).unwrap_or(pupil.line);
            EntryFault::said(line, words::about_question(*number, said))
        }));
        if !faults.is_empty() {
            continue;
        }
        let replies = (1..=all).map(|number| pupil.written(number));
        for question in parts.iter_mut().flat_map(SheetPart::questions_mut) {
            if let Some(unreadable) = pupil.unreadable(question.number) {
                question.answered.mark.verdict = Verdict::Wrong;
                unreadable.clone_into(&mut question.answered.text);
            }
        }
        // The same replies to the same sheet have the same name.
        let session = sheet::session_name(&name, replies);
        let journal = of_pupil.journal()?;
        let is_known =
            |record: &Record| matches!(record, Record::End(end) if end.stamp.session == session);
        graded.push(Graded {
            is_known: records(&journal)?.iter().any(is_known),
            records: journal_of(&work, &parts, &session, &of_pupil)?,
            learner: of_pupil.learner()?,
            journal,
            parts,
        });
    }
    if !faults.is_empty() {
        return refuse(&faults, at);
    }
    if graded.iter().all(|graded| graded.is_known) {
        return Err(Failure::at(path, asides::ENTERED_ALREADY));
    }
    keep(&graded, shared)
}

/// Enters what was graded, and says what came of each answer, for the paper to be given back with.
fn keep(graded: &[Graded], shared: &Shared) -> Result<(), Failure> {
    let mut screen = shared.screen();
    for of_pupil in graded {
        let learner = of_pupil.learner.to_string();
        if of_pupil.is_known {
            screen.say(Tone::Aside, &asides::entered_before(&learner))?;
            continue;
        }
        if let Some(found) = asides::appended(of_pupil.journal.append_all(&of_pupil.records)?) {
            screen.say(Tone::Aside, found)?;
        }
        if graded.len() > 1 {
            screen.say(Tone::Heading, &paper::answers_of(&learner))?;
        }
        let mut marks = Vec::new();
        for question in sheet::questions(&of_pupil.parts) {
            let graded = paper::graded(question.number, &question.answered);
            screen.say(Tone::Plain, &graded)?;
            marks.push(question.answered.mark.clone());
        }
        screen.say(Tone::Heading, &paper::entered(&learner, &marks))?;
    }
    Ok(())
}

/// Tells all that is wrong with a file of answers, in the order of its lines.
fn refuse(faults: &[EntryFault], at: impl Fn(usize) -> String) -> Result<(), Failure> {
    let mut faults = faults.to_vec();
    faults.sort_by_key(|fault| fault.line);
    let told = faults
        .iter()
        .map(|fault| format!("{}: {}", at(fault.line), fault.reason));
    let told: Vec<String> = told.chain([asides::NOTHING_ENTERED.to_owned()]).collect();
    Err(Failure::Unusable(told.join("\n")))
}

/// Writes down what a journal keeps of a sheet that was answered: an exercise's session, or a lesson's with those of
/// its parts.
fn journal_of(
    work: &Work<'_>,
    parts: &[SheetPart],
    session: &str,
    shared: &Shared,
) -> Result<Vec<Record>, Failure> {
    let stamp = |session: &str| Stamp::new(now(), session);
    let end = |session: &str, finished, plies| {
        Record::End(EndRecord {
            stamp: stamp(session),
            finished,
            plies,
            looks: 0,
            helped: false,
        })
    };
    let mut records = Vec::new();
    if let Some(outline) = &work.outline {
        records.push(Record::Start(StartRecord {
            stamp: stamp(session),
            learner: shared.learner()?,
            exercise: "lesson".to_owned(),
            played: None,
            game: None,
            seed: work.seed,
            plan: serde_json::to_value(outline)?,
        }));
    }
    for (part, of_work) in parts.iter().zip(&work.parts) {
        let name = match &work.outline {
            Some(_) => session_of_part(session, of_work.number, 1),
            None => session.to_owned(),
        };
        records.push(of_work.exercise.start(stamp(&name), shared)?);
        records.extend(part.questions().map(|question| {
            let game = part.game.clone();
            let answer = AnswerRecord::new(stamp(&name), part.exercise, game, &question.answered);
            Record::Answer(Box::new(answer))
        }));
        records.push(end(&name, true, part.plies));
    }
    if work.outline.is_some() {
        records.push(end(session, true, 0));
    }
    Ok(records)
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

/// Reads the command line of a sheet; returns also the sheet's name, where it stands there.
fn command(command: &str) -> Result<(Command, Option<&str>), Failure> {
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
    match &command.sheet.paper {
        Paper::Enter { .. } => return Err(no_sheet(words::NO_EXERCISE)),
        Paper::Ask(request) if request.takes_input() => {
            return Err(no_sheet(words::GAME_FROM_INPUT));
        }
        Paper::Ask(_) | Paper::Lesson { .. } => {}
    }
    Ok((command, name))
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
