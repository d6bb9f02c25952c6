//! What a lesson consists of, as the journal keeps it, and how its parts are held one after the other.

use std::ffi::OsString;

use serde::{Deserialize, Serialize};

use super::super::failure::Failure;
use super::super::shared::{Part as Held, Shared};
use super::super::{Cli, Command, ahead, drill, parsed, recite, replay};
use crate::learner::Record;
use crate::question::BareQuestion;
use clap::CommandFactory;

/// A lesson: what another process needs to go on with it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(super) struct Outline {
    /// Its title; `None` where the program has chosen it.
    pub(super) title: Option<String>,
    /// What is read out before the first part.
    pub(super) notes: Option<String>,
    /// The parts, in order.
    pub(super) parts: Vec<Part>,
}

/// One part of a lesson: an exercise by its command line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(super) struct Part {
    /// What it is headed with, without an end mark.
    pub(super) heading: String,
    /// What is read out before it.
    pub(super) notes: Option<String>,
    /// The words of the exercise's command, without the program's name.
    pub(super) words: Vec<String>,
    /// The questions over the bare board that were chosen beforehand.
    #[serde(default)]
    pub(super) chosen: Vec<BareQuestion>,
    /// How many right replies it asks for.
    #[serde(default)]
    pub(super) pass: Option<usize>,
}

impl Part {
    /// Reads the part's command line.
    pub(super) fn command(&self, shared: &Shared) -> Result<Cli, clap::Error> {
        read(&self.words, shared)
    }

    /// Holds the part from its beginning, or goes on with it; `seed` is where its chance comes from unless
    /// the part names another.
    pub(super) fn hold(
        &self,
        session: String,
        seed: u64,
        resumed: bool,
        lesson: &Shared,
    ) -> Result<(), Failure> {
        let words = if resumed {
            self.words_to_resume()
        } else {
            self.words.clone()
        };
        let cli = read(&words, lesson)
            .map_err(|error| Failure::Unusable(format!("{}: {}", self.heading, reason(&error))))?;
        let mut shared = cli.shared;
        shared.adopt(
            lesson,
            Held {
                session,
                chosen: self.chosen.clone(),
            },
        );
        if !resumed {
            shared.seed.get_or_insert(seed);
        }
        match cli.command {
            Some(Command::Replay(arguments)) => replay::run(&arguments, &shared),
            Some(Command::Ahead(arguments)) => ahead::run(&arguments, &shared),
            Some(Command::Drill(arguments)) => drill::run(&arguments, &shared),
            Some(Command::Recite(arguments)) => recite::run(&arguments, &shared),
            Some(
                Command::Games(_)
                | Command::Sheet(_)
                | Command::Lesson(_)
                | Command::Progress(_)
                | Command::Journal(_),
            )
            | None => Err(no_exercise(&words)),
        }
    }

    fn words_to_resume(&self) -> Vec<String> {
        let exercise = self.words.first().cloned();
        exercise
            .into_iter()
            .chain(["--resume".to_owned()])
            .collect()
    }
}

fn read(words: &[String], shared: &Shared) -> Result<Cli, clap::Error> {
    let words = std::iter::once("sansvoir")
        .chain(words.iter().map(String::as_str))
        .map(OsString::from);
    let command = shared.config.in_place_of_defaults(Cli::command());
    parsed(command, words).map(|(cli, _)| cli)
}

/// Says that a command is no exercise.
pub(super) fn no_exercise(words: &[String]) -> Failure {
    let word = words.first().map_or("", String::as_str);
    Failure::Usage(format!(
        "\"{word}\" is no exercise: take one of {}",
        EXERCISES.join(", ")
    ))
}

/// The exercises that a part can be.
pub(super) const EXERCISES: [&str; 4] = ["replay", "ahead", "recite", "drill"];

/// What is wrong with a command line, in one line without the program's usage.
pub(super) fn reason(error: &clap::Error) -> String {
    let text = error.to_string();
    let told = text.split("\n\nUsage").next().unwrap_or(&text);
    let told = told
        .split("\n\nFor more information")
        .next()
        .unwrap_or(told);
    let lines: Vec<&str> = told
        .trim_start_matches("error: ")
        .lines()
        .map(str::trim)
        .filter(|line| !line.is_empty())
        .collect();
    lines.join(" ")
}

/// How far a part has come, as the journal tells it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stage {
    /// It has not begun.
    Ahead,
    /// It was begun and not finished.
    Begun,
    /// All of it was read and asked.
    Over,
}

impl Stage {
    /// Looks up how far the session of this name has come.
    pub(super) fn of(records: &[Record], session: &str) -> Stage {
        let mut stage = Stage::Ahead;
        for record in records {
            if record.stamp().session != session {
                continue;
            }
            match record {
                Record::Start(_) => stage = Stage::Begun,
                Record::End(end) if end.finished => stage = Stage::Over,
                Record::End(_) | Record::Answer(_) | Record::Seal(_) => {}
            }
        }
        stage
    }
}
