//! `progress`: what a learner can do now, and how it has changed; what a class can do, and what came of a lesson.

use std::num::NonZeroUsize;
use std::path::{Path, PathBuf};
use std::thread;

use clap::Args;
use serde::Deserialize;
use serde_json::{Value, json};

use super::failure::Failure;
use super::help::show;
use super::lesson;
use super::request::Outline;
use super::shared::{Shared, tell_broken};
use super::values::word;
use crate::cli::failure::tell;
use crate::learner::account::Account;
use crate::learner::{HeldLesson, Journal, LearnerName, LessonResults};
use crate::report::progress::{self, Learner};
use crate::terminal::{now, write_files};
use crate::voice::{asides, clean_line, commands, progress as words};

/// The options of `progress`; its page of the handbook says what it does.
#[derive(Args, Debug)]
pub(super) struct Arguments {
    /// all puts all learners who have a journal side by side
    #[arg(value_name = "all", value_parser = ["all"])]
    all: Option<String>,
    /// Who held this lesson, when, and what came of each part
    #[arg(long, value_name = "FILE.toml")]
    lesson: Option<PathBuf>,
    /// How it is written: text, json, csv (every answer; with --class a line a pupil), html for the browser and the
    /// printer, or report: a page a pupil for parents
    #[arg(long, value_name = "FORMAT", default_value = "text", hide_possible_values = true,
          value_parser = word::<Format>())]
    format: Format,
    /// Where it goes [default: standard output]
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Format {
    Text,
    Json,
    Csv,
    Html,
    Report,
}

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let folder = shared.data()?;
    let names = names(arguments, shared, &folder)?;
    let text = match &arguments.lesson {
        Some(file) => of_lesson(file, &names, arguments.format, shared)?,
        None => of_learners(&names, arguments, shared)?,
    };
    if arguments.format == Format::Text {
        let aloud = shared.aloud();
        for line in &text {
            aloud.aside(line);
        }
    }
    match (&arguments.out, arguments.format) {
        (None, Format::Text) => show(&(text.join("\n") + "\n"), shared),
        (Some(_), Format::Text) => Err(Failure::usage(commands::OUT_IS_NO_TEXT)),
        (out, Format::Json) => Ok(write_files(&[(out.as_deref(), &(text.join("\n") + "\n"))])?),
        (out, Format::Csv | Format::Html | Format::Report) => {
            Ok(write_files(&[(out.as_deref(), &text.concat())])?)
        }
    }
}

/// Returns the learners who are told of, each with the name that is shown.
fn names(
    arguments: &Arguments,
    shared: &Shared,
    folder: &Path,
) -> Result<Vec<(LearnerName, Option<String>)>, Failure> {
    let with_journal = || LearnerName::all_in(folder);
    let Some(class) = &shared.class else {
        let everyone =
            arguments.all.is_some() || (arguments.lesson.is_some() && !shared.names_any());
        let names = if everyone {
            with_journal()?
        } else {
            shared.learners()
        };
        return Ok(names.into_iter().map(|name| (name, None)).collect());
    };
    let is_of_class = |name: &LearnerName| class.pupils.iter().any(|pupil| pupil.name == *name);
    let others: Vec<String> = with_journal()?
        .iter()
        .filter(|name| !is_of_class(name))
        .map(ToString::to_string)
        .collect();
    if !others.is_empty() {
        tell(&asides::not_of_the_class(&others));
    }
    let named = shared.learners();
    let is_meant = |name: &LearnerName| !shared.names_any() || named.contains(name);
    let pupils = class.pupils.iter().filter(|pupil| is_meant(&pupil.name));
    Ok(pupils
        .map(|pupil| (pupil.name.clone(), Some(pupil.shown.clone())))
        .collect())
}

/// Reads the journals of learners, on all cores: thirty of 10,000 answers each take half as long on two.
fn read_all<T: Send>(
    names: &[(LearnerName, Option<String>)],
    shared: &Shared,
    read: impl Fn(&Journal, &LearnerName, Option<&str>) -> Result<T, Failure> + Sync,
) -> Result<Vec<T>, Failure> {
    let folder = shared.data()?;
    let cores = thread::available_parallelism().unwrap_or(NonZeroUsize::MIN);
    let each = |(name, shown): &(LearnerName, Option<String>)| {
        read(&Journal::open(&folder, name)?, name, shown.as_deref())
    };
    thread::scope(|scope| {
        let chunks = names.chunks(names.len().div_ceil(cores.get()).max(1));
        let working: Vec<_> = chunks
            .map(|chunk| {
                scope.spawn(|| chunk.iter().map(each).collect::<Result<Vec<T>, Failure>>())
            })
            .collect();
        let mut all = Vec::with_capacity(names.len());
        for worker in working {
            all.extend(
                worker
                    .join()
                    .unwrap_or_else(|panic| std::panic::resume_unwind(panic))?,
            );
        }
        Ok(all)
    })
}

/// Returns what there is to tell of learners.
fn of_learners(
    names: &[(LearnerName, Option<String>)],
    arguments: &Arguments,
    shared: &Shared,
) -> Result<Vec<String>, Failure> {
    let now = now();
    let class = shared.class.as_ref();
    let is_group = arguments.all.is_some() || (class.is_some() && !shared.names_any());
    if arguments.format == Format::Csv && class.is_none() {
        let rows = read_all(names, shared, |journal, name, _| {
            let (mut rows, name) = (Vec::new(), clean_line(&name.to_string()));
            let broken = journal.read_each(|_, record| {
                rows.extend(progress::answer(&name, &record));
            })?;
            tell_broken(journal.path(), &broken);
            Ok(rows)
        })?;
        return Ok(vec![progress::answers(rows.concat()).csv()]);
    }
    let mut learners = read_all(names, shared, |journal, name, shown| {
        let (account, broken) = Account::of(journal)?;
        tell_broken(journal.path(), &broken);
        // The name of a file is in lower case, that of a session as the learner has typed it.
        let typed = account.learner.as_ref().filter(|_| arguments.all.is_some());
        let typed = || clean_line(&typed.unwrap_or(name).to_string());
        Ok(Learner {
            name: shown.map_or_else(typed, str::to_owned),
            account,
        })
    })?;
    if is_group {
        progress::sort(&mut learners);
    }
    let title = class.and_then(|class| class.title.as_deref());
    Ok(match (arguments.format, &learners[..]) {
        (Format::Html, learners) => vec![progress::html(learners, is_group, title, now)],
        (Format::Report, learners) => vec![progress::reports(learners, now)],
        (Format::Csv, learners) => vec![progress::pupils(learners, now).csv()],
        (Format::Json, learners) => learners
            .iter()
            .map(|one| progress::json(one, now))
            .collect(),
        (Format::Text, []) => vec![words::NOBODY_YET.to_owned()],
        (Format::Text, [learner]) if !is_group => {
            let lesson = shared.lesson_command();
            words::progress(&learner.name, &learner.account, now, &lesson, shared.plain)
        }
        (Format::Text, learners) => {
            let told = |one: &Learner| words::of_group(&one.name, &one.account, now);
            learners.iter().map(told).collect()
        }
    })
}

/// Returns what there is to tell of a lesson.
fn of_lesson(
    file: &Path,
    names: &[(LearnerName, Option<String>)],
    format: Format,
    shared: &Shared,
) -> Result<Vec<String>, Failure> {
    let outline = lesson::written(file, shared)?;
    let learners = read_all(names, shared, |journal, name, shown| {
        let (held, broken) = HeldLesson::all(journal, |plan| parts_of_same(&outline, plan))?;
        tell_broken(journal.path(), &broken);
        let name = shown.map_or_else(|| clean_line(&name.to_string()), str::to_owned);
        Ok((name, held))
    })?;
    let results = LessonResults {
        parts: outline
            .parts
            .iter()
            .map(|part| (part.heading.clone(), part.pass))
            .collect(),
        title: outline.title,
        learners,
    };
    Ok(match format {
        Format::Text => words::held::lesson(&results),
        Format::Json => progress::lesson(&results).json(),
        Format::Csv => vec![progress::lesson(&results).csv()],
        Format::Html => vec![progress::lesson_page(&results, now())],
        Format::Report => return Err(Failure::usage(commands::REPORT_IS_OF_LEARNERS)),
    })
}

/// What makes a part of a lesson the one it is.
const OVER: [&str; 7] = [
    "/exercise",
    "/options/kinds",
    "/options/mate",
    "/options/fen",
    "/pick/fen",
    "/pick/line",
    "/pick/game",
];

/// Counts the parts of a lesson's plan, where it is the lesson that a file says: its title, its headings, its
/// exercises and what they are over are the same. Pass marks and other settings may have been changed since.
fn parts_of_same(file: &Outline, plan: &Value) -> Option<usize> {
    let parts = plan["parts"].as_array()?;
    let is_same = plan["title"].as_str() == file.title.as_deref()
        && parts.len() == file.parts.len()
        && parts.iter().zip(&file.parts).all(|(kept, part)| {
            let (held, written) = (&kept["request"], json!(part.request));
            let said =
                |request: &Value, key| request.pointer(key).filter(|said| !said.is_null()).cloned();
            let is_alike = |key| said(held, key) == said(&written, key);
            kept["heading"] == *part.heading && OVER.into_iter().all(is_alike)
        });
    is_same.then_some(parts.len())
}
