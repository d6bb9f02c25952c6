//! The options that every command takes, and what they stand for.

use std::cell::OnceCell;
use std::path::PathBuf;

use clap::Args;
use etcetera::{BaseStrategy, choose_base_strategy};

use super::failure::Failure;
use super::named;
use crate::learner::{Journal, LearnerName, Record};
use crate::terminal::{ColorChoice, Listener, Screen, random_seed};

/// The options that every command takes.
#[derive(Args, Debug)]
pub(crate) struct Shared {
    /// Whose answers are kept
    #[arg(long, global = true, value_name = "NAME", default_value = "learner", help_heading = SHARED)]
    learner: LearnerName,
    /// The folder of the journals [default: the data folder of your system]
    #[arg(long, global = true, value_name = "DIR", env = "SANSVOIR_DATA", help_heading = SHARED)]
    data: Option<PathBuf>,
    /// Where all chance comes from: the same number asks the same questions
    #[arg(long, global = true, value_name = "N", help_heading = SHARED)]
    pub(super) seed: Option<u64>,
    /// For screen readers and pipes: no color, no cursor movement, no drawing
    #[arg(long, global = true, help_heading = SHARED)]
    pub(super) plain: bool,
    /// Color: auto, always or never
    #[arg(long, global = true, value_name = "WHEN", default_value = "auto",
          hide_possible_values = true, help_heading = SHARED,
          value_parser = named(&[("auto", ColorChoice::Auto), ("always", ColorChoice::Always),
                                 ("never", ColorChoice::Never)]))]
    color: ColorChoice,
    /// The seed that was drawn because none was given.
    #[arg(skip)]
    drawn: OnceCell<u64>,
}

const SHARED: &str = "Shared by all commands";

impl Shared {
    /// Returns the seed that was given, or one drawn once for this run.
    pub(super) fn seed(&self) -> u64 {
        self.seed
            .unwrap_or_else(|| *self.drawn.get_or_init(random_seed))
    }

    /// Opens standard output.
    pub(super) fn screen(&self) -> Screen {
        Screen::new(self.color, self.plain)
    }

    /// Opens standard input.
    pub(super) fn listener(&self) -> Listener {
        Listener::new(self.plain)
    }

    /// Finds the learner's journal.
    pub(super) fn journal(&self) -> Result<Journal, Failure> {
        Journal::open(&self.folder()?, &self.learner).map_err(Failure::unusable)
    }

    /// Reads the journal, and tells which lines are broken.
    pub(super) fn records(&self, journal: &Journal) -> Result<Vec<Record>, Failure> {
        let contents = journal.read().map_err(Failure::unusable)?;
        for broken in &contents.broken {
            super::tell(&format!("{}:{broken}", journal.path().display()));
        }
        Ok(contents.records)
    }

    fn folder(&self) -> Result<PathBuf, Failure> {
        if let Some(folder) = &self.data {
            return Ok(folder.clone());
        }
        let strategy = choose_base_strategy().map_err(|_| {
            Failure::Unusable(
                "your home folder is not known, so there is no place for the journal: name one with --data"
                    .to_owned(),
            )
        })?;
        Ok(strategy.data_dir().join("sansvoir"))
    }
}
