//! The options that every command takes, and what they stand for.

use std::cell::OnceCell;
use std::path::PathBuf;

use clap::Args;

use super::aloud::Speaking;
use super::failure::Failure;
use crate::learner::{Journal, LearnerName, Record};
use crate::terminal::{ColorWish, Listener, Manner, Screen, data_folder, seed};

/// The options that every command takes.
#[derive(Args, Debug)]
pub(crate) struct Shared {
    /// Whose answers are kept; progress takes several
    #[arg(long, global = true, value_name = "NAME", default_value = "learner", help_heading = SHARED)]
    learner: Vec<LearnerName>,
    /// The folder of the journals.
    #[arg(long, global = true, value_name = "DIR", help_heading = SHARED,
          help = "The folder of the journals [default: $SANSVOIR_DATA, else your system's data folder]")]
    data: Option<PathBuf>,
    /// Where all chance comes from: the same number asks the same questions
    #[arg(long, global = true, value_name = "N", help_heading = SHARED)]
    pub(super) seed: Option<u64>,
    /// For screen readers and pipes: no color, no cursor movement, no drawing
    #[arg(long, global = true, help_heading = SHARED)]
    pub(super) plain: bool,
    /// Color: auto, always or never
    #[arg(long, global = true, value_name = "WHEN", value_enum, default_value = "auto",
          hide_possible_values = true, help_heading = SHARED)]
    color: ColorWish,
    #[command(flatten)]
    pub(super) speaking: Speaking,
    /// The seed that was drawn because none was given.
    #[arg(skip)]
    drawn: OnceCell<u64>,
}

const SHARED: &str = "Shared by all commands";

impl Shared {
    /// Returns the seed that was given, or one drawn once for this run.
    pub(super) fn seed(&self) -> Result<u64, Failure> {
        if let Some(seed) = self.seed.or_else(|| self.drawn.get().copied()) {
            return Ok(seed);
        }
        let drawn = seed().map_err(|error| {
            Failure::Unusable(format!(
                "the system gives no random number ({error}): name one with --seed"
            ))
        })?;
        Ok(*self.drawn.get_or_init(|| drawn))
    }

    /// Tells how to behave at this terminal.
    pub(super) fn manner(&self) -> Manner {
        Manner::of_this_process(self.plain, self.color)
    }

    /// Opens standard output.
    pub(super) fn screen(&self) -> Screen {
        Screen::standard(self.manner())
    }

    /// Opens standard input.
    pub(super) fn listener(&self) -> Result<Listener, Failure> {
        Ok(Listener::standard(self.manner())?)
    }

    /// Returns the learner's name.
    pub(super) fn learner(&self) -> Result<&LearnerName, Failure> {
        match &self.learner[..] {
            [learner] => Ok(learner),
            _ => Err(Failure::Usage(
                "only progress takes several learners: name one with --learner".to_owned(),
            )),
        }
    }

    /// Returns the names of all learners who were named, each once.
    pub(super) fn learners(&self) -> Vec<&LearnerName> {
        let mut names: Vec<&LearnerName> = Vec::new();
        for name in &self.learner {
            if !names.contains(&name) {
                names.push(name);
            }
        }
        names
    }

    /// Finds the folder of the journals.
    pub(super) fn data(&self) -> Result<PathBuf, Failure> {
        data_folder(self.data.as_deref()).map_err(Failure::unusable)
    }

    /// Finds the learner's journal.
    pub(super) fn journal(&self) -> Result<Journal, Failure> {
        Journal::open(&self.data()?, self.learner()?).map_err(Failure::unusable)
    }
}

/// Reads a journal, and tells which of its lines are broken.
pub(super) fn records(journal: &Journal) -> Result<Vec<Record>, Failure> {
    let contents = journal.read().map_err(Failure::unusable)?;
    for broken in &contents.broken {
        super::tell(&format!("{}:{broken}", journal.path().display()));
    }
    Ok(contents.records)
}
