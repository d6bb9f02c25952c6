//! `sheet`: the questions of an exercise on paper or as data.

mod exercise;

use std::path::PathBuf;

use clap::{ArgMatches, Args, Subcommand};

use super::failure::Failure;
use super::named;
use super::shared::{Shared, records};
use super::{drill, replay};
use crate::report::sheet;
use crate::terminal::{Page, write_pages};

pub(super) use exercise::Exercise;

/// Put the questions of an exercise on paper, or write them as data
#[derive(Args, Debug)]
#[command(after_help = HELP)]
pub(super) struct Arguments {
    /// How the sheet is written: html, markdown or json
    #[arg(long, value_name = "FORMAT", default_value = "json", hide_possible_values = true,
          value_parser = named(&[("json", Format::Json)]))]
    format: Format,
    /// Where the sheet goes [default: standard output]
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Overwrite files that are there
    #[arg(long)]
    force: bool,
    #[command(subcommand)]
    exercise: Choice,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Format {
    Json,
}

/// The exercise that the questions are from.
#[derive(Subcommand, Debug)]
enum Choice {
    Replay(Box<replay::Arguments>),
    Drill(Box<drill::Arguments>),
}

const HELP: &str = "\
Examples:
  sansvoir sheet --format json replay games-demo/club-evening.pgn --seed 24
  sansvoir sheet --format json drill name,color --count 10";

pub(super) fn run(
    arguments: &Arguments,
    shared: &Shared,
    _matches: &ArgMatches,
) -> Result<(), Failure> {
    let mut exercise = match &arguments.exercise {
        Choice::Replay(replay) => {
            let records = records(&shared.journal()?)?;
            replay::on_paper(replay, shared, &records)?
        }
        Choice::Drill(drill) => drill::on_paper(drill, shared)?,
    };
    let opening = std::mem::take(&mut exercise.opening);
    let parts = sheet::parts(&mut *exercise.session, opening);
    let text = sheet::json(exercise.name, exercise.game.as_ref(), &parts);
    let page = Page {
        path: arguments.out.as_deref(),
        text: &text,
    };
    Ok(write_pages(&[page], arguments.force)?)
}
