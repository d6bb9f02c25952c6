//! `progress`: what a learner can do now, and how it has changed.

use std::path::PathBuf;

use clap::Args;
use serde::Deserialize;

use super::failure::Failure;
use super::shared::{Shared, tell_broken};
use super::values::word;
use crate::learner::account::Account;
use crate::learner::{Journal, LearnerName};
use crate::report::progress::{self, Learner};
use crate::terminal::{Tone, now, write_files};
use crate::voice::{clean_line, commands, progress as words};

/// Tell what you can do now, and how it has changed
#[derive(Args, Debug)]
#[command(after_help = HELP)]
pub(super) struct Arguments {
    /// all puts all learners who have a journal side by side
    #[arg(value_name = "all", value_parser = ["all"])]
    all: Option<String>,
    /// How it is written: text, json, or html for the browser and the printer
    #[arg(long, value_name = "FORMAT", default_value = "text", hide_possible_values = true,
          value_parser = word::<Format>())]
    format: Format,
    /// Where the page for the browser goes [default: standard output]
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Format {
    Text,
    Json,
    Html,
}

const HELP: &str = "\
Accuracy comes first, then pace: medians are those of right replies. Only first tries count: what came
again in a drill after a miss is left out. Lately is the last four weeks.

Examples:
  sansvoir progress
  sansvoir progress --format html --out progress.html
  sansvoir progress all --format html --out group.html";

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let now = now();
    let folder = shared.data()?;
    let all = arguments.all.is_some();
    let names = if all {
        LearnerName::all_in(&folder)?
    } else {
        shared.learners()
    };
    let mut learners = Vec::with_capacity(names.len());
    for name in names {
        let journal = Journal::open(&folder, &name)?;
        let (account, broken) = Account::of(&journal)?;
        tell_broken(journal.path(), &broken);
        // The name of a file is in lower case, that of a session as the learner has typed it.
        let typed = account.learner.as_ref().filter(|_| all);
        learners.push(Learner {
            name: clean_line(&typed.unwrap_or(&name).to_string()),
            account,
        });
    }
    if arguments.format == Format::Html {
        let page = progress::html(&learners, now);
        let pages = [(arguments.out.as_deref(), &page[..])];
        return Ok(write_files(&pages)?);
    }
    if arguments.out.is_some() {
        return Err(Failure::usage(commands::OUT_IS_FOR_HTML));
    }
    let mut screen = shared.screen();
    let said = match (arguments.format, &learners[..]) {
        (Format::Json, group) => group.iter().map(|one| progress::json(one, now)).collect(),
        (Format::Text | Format::Html, []) => words::nobody_yet(),
        (Format::Text | Format::Html, [learner]) if !all => {
            words::progress(&learner.name, &learner.account, now, shared.plain)
        }
        (Format::Text | Format::Html, group) => {
            let told = |one: &Learner| words::of_group(&one.name, &one.account);
            group.iter().map(told).collect()
        }
    };
    for line in said {
        screen.say(Tone::Plain, &line)?;
    }
    Ok(())
}
