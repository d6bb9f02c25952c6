//! `games`: list, find and check the games of a collection.

mod export;
mod json;

use std::cell::{Cell, RefCell};
use std::path::{Path, PathBuf};

use clap::Args;
use serde::Deserialize;

use super::excerpt;
use super::failure::{Failure, shown};
use super::pick::Pick;
use super::shared::Shared;
use super::values::word;
use super::walk::Found;
use crate::pgn::{Passage, check as strictly};
use crate::terminal::{Screen, Tone};
use crate::voice::{asides, in_words};
use export::Lines;

/// List and find games; check them strictly
#[derive(Args, Debug)]
#[command(after_help = HELP)]
pub(super) struct Arguments {
    #[command(flatten)]
    pick: Pick,
    /// Read every game strictly, tell each fault with its place, and count
    #[arg(long, conflicts_with = "format")]
    check: bool,
    /// Write the games that fit as strict PGN to this file; - is standard output
    #[arg(long, value_name = "FILE", conflicts_with_all = ["format", "check"])]
    export: Option<PathBuf>,
    /// Overwrite the file that is there
    #[arg(long, requires = "export")]
    force: bool,
    /// How games are written: text, or json with one object a line
    #[arg(long, value_name = "FORMAT", default_value = "text", hide_possible_values = true,
          value_parser = word::<Format>())]
    format: Format,
}

const HELP: &str = "\
Of several files each game is listed with the name of its file; a folder is all PGN files in it.
A check or an export ends with exit code 1 when a game lost moves to a fault.

Examples:
  sansvoir games games-demo/club-evening.pgn
  sansvoir games games-demo/dialects.pgn --check
  sansvoir games games-demo/dialects.pgn --export clean.pgn";

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Format {
    Text,
    Json,
}

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let mut screen = shared.screen();
    let pick = &arguments.pick;
    if arguments.check {
        return check(pick, shared, &mut screen);
    }
    if let Some(to) = &arguments.export {
        return export::export(pick, to, arguments.force, shared, &mut screen);
    }
    let lines = RefCell::new(Lines::new(&mut screen));
    let mut say =
        |_: &Path, _: Found<'_>, line: Result<String, Failure>| lines.borrow_mut().say(&line?);
    let pause = || {
        // What cannot be written stays, and is refused again with the next line.
        let _ = lines.borrow_mut().flush();
        0
    };
    let walked = match arguments.format {
        Format::Text => {
            let listed = if shared.plain {
                in_words::listed
            } else {
                asides::listed
            };
            let several = pick.places(shared)?.len() > 1;
            let said = |file: &Path, found: Found<'_>| {
                let game = listed(found.number(), &found.heading());
                Ok(if several {
                    asides::in_file(&shown(file), &game)
                } else {
                    game
                })
            };
            pick.survey(shared, said, &mut say, pause)
        }
        Format::Json => {
            let written = |file: &Path, found: Found<'_>| {
                let passage = found.passage();
                let check = strictly(&passage);
                let entry = json::Entry::new(file, &passage, &check);
                entry.line().map_err(Failure::unusable)
            };
            pick.survey(shared, written, &mut say, pause)
        }
    };
    lines.into_inner().flush()?;
    walked.map(|_| ())
}

/// What a check found in a game.
struct Report {
    /// What is said of it.
    said: Vec<String>,
    plies: usize,
    faults: usize,
    is_cut: bool,
}

impl Report {
    /// Reads a game strictly; where all is plain the faults are told in words alone.
    fn new(file: &Path, passage: &Passage, plain: bool) -> Report {
        let reading = strictly(passage);
        let mut said = Vec::new();
        for fault in &reading.faults {
            said.push(excerpt::sentence(file, fault, plain));
            if !plain {
                said.push(excerpt::excerpt(passage, fault));
            }
        }
        if let Some(letters) = &reading.letters {
            let letters = asides::letters(letters);
            said.push(if plain {
                in_words::at_line(&shown(file), passage.line, &letters)
            } else {
                format!("{}:{}: {letters}", shown(file), passage.line)
            });
        }
        Report {
            said,
            plies: reading.plies,
            faults: reading.faults.len(),
            is_cut: !reading.is_whole(),
        }
    }
}

/// Reads every game strictly, tells every fault and closes with the counts.
fn check(pick: &Pick, shared: &Shared, screen: &mut Screen) -> Result<(), Failure> {
    let (mut games, mut plies, mut cut) = (0, 0, 0);
    let faults = Cell::new(0);
    let plain = shared.plain;
    let walked = pick.survey(
        shared,
        |file, found| Report::new(file, &found.passage(), plain),
        |_, _, report: Report| {
            games += 1;
            plies += report.plies;
            faults.set(faults.get() + report.faults);
            cut += usize::from(report.is_cut);
            for said in &report.said {
                screen.say(Tone::Plain, said)?;
            }
            Ok(true)
        },
        || faults.get(),
    );
    if games > 0 {
        let said = asides::checked(games, plies, faults.get(), cut);
        screen.say(Tone::Plain, &said)?;
    }
    walked?;
    if cut > 0 {
        Err(Failure::GamesAtFault)
    } else {
        Ok(())
    }
}
