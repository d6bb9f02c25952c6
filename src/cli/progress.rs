//! `progress`: what a learner can do now, and how it has changed.

use std::path::PathBuf;

use clap::Args;

use super::failure::Failure;
use super::named;
use super::shared::{Shared, tell_broken};
use crate::learner::account::Account;
use crate::learner::{Journal, LearnerName};
use crate::report::progress::{self, Learner};
use crate::terminal::{Tone, now, write_files};
use crate::voice::{clean_line, progress as words};

/// Tell what you can do now, and how it has changed
#[derive(Args, Debug)]
#[command(after_help = HELP)]
pub(super) struct Arguments {
    /// Put all learners who have a journal side by side
    #[arg(long)]
    all: bool,
    /// How it is written: text or json
    #[arg(long, value_name = "FORMAT", default_value = "text", hide_possible_values = true,
          value_parser = named(&[("text", Format::Text), ("json", Format::Json)]))]
    format: Format,
    /// Write a page for the browser and the printer to this file
    #[arg(long, value_name = "FILE")]
    html: Option<PathBuf>,
    /// Overwrite the page that is there
    #[arg(long, requires = "html")]
    force: bool,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Format {
    Text,
    Json,
}

const HELP: &str = "\
Accuracy comes first, then pace: medians are those of right replies. Only first tries count: what came
again in a drill after a miss is left out. Lately is the last four weeks.

Examples:
  sansvoir progress
  sansvoir progress --html progress.html
  sansvoir progress --all --html group.html";

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let now = now();
    let folder = shared.data()?;
    let names = if arguments.all {
        LearnerName::all_in(&folder).map_err(Failure::unusable)?
    } else {
        shared.learners().into_iter().cloned().collect()
    };
    let mut learners = Vec::with_capacity(names.len());
    for name in names {
        let journal = Journal::open(&folder, &name).map_err(Failure::unusable)?;
        let (account, broken) = Account::of(&journal).map_err(Failure::unusable)?;
        tell_broken(journal.path(), &broken);
        // The name of a file is in lower case, that of a session as the learner has typed it.
        let typed = account.learner().filter(|_| arguments.all);
        learners.push(Learner {
            name: clean_line(&typed.unwrap_or(&name).to_string()),
            account,
        });
    }
    if let Some(path) = &arguments.html {
        let page = progress::html(&learners, now);
        return Ok(write_files(&[(Some(path), &page)], arguments.force)?);
    }
    let mut screen = shared.screen();
    match (arguments.format, &learners[..]) {
        (Format::Json, _) => {
            for learner in &learners {
                screen.say(Tone::Plain, &progress::json(learner, now))?;
            }
        }
        (Format::Text, []) => {
            for line in words::nobody_yet() {
                screen.say(Tone::Plain, &line)?;
            }
        }
        (Format::Text, [learner]) if !arguments.all => {
            let said = words::progress(&learner.name, &learner.account, now, shared.plain);
            for line in said {
                screen.say(Tone::Plain, &line)?;
            }
        }
        (Format::Text, group) => {
            for learner in group {
                let line = words::of_group(&learner.name, &learner.account);
                screen.say(Tone::Plain, &line)?;
            }
        }
    }
    Ok(())
}
