//! `games`: list, find, check and export the games of a collection.

mod json;

use std::cell::{Cell, RefCell};
use std::io::{self, IsTerminal};
use std::path::{Path, PathBuf};

use clap::Args;
use serde::Deserialize;

use super::excerpt;
use super::failure::{Failure, shown, tell};
use super::pick::Pick;
use super::shared::Shared;
use super::values::word;
use crate::pgn::{
    Cost, Passage, Reading, Reason, check as strictly, export as strictly_written, read_twice,
};
use crate::terminal::{NewFile, Screen, Tone};
use crate::voice::{asides, clean, in_words};

/// The options of `games`; its page of the handbook says what it does.
#[derive(Args, Debug)]
pub(super) struct Arguments {
    #[command(flatten)]
    pick: Pick,
    /// Read every game strictly, tell each fault with its place, and count
    #[arg(long, conflicts_with = "format")]
    check: bool,
    /// Write the games that fit as strict PGN to this file; - is standard output
    #[arg(long, value_name = "FILE", conflicts_with_all = ["format", "check"])]
    export: Option<PathBuf>,
    /// How games are written: text, or json with one object a line
    #[arg(long, value_name = "FORMAT", default_value = "text", hide_possible_values = true,
          value_parser = word::<Format>())]
    format: Format,
}

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
        return export(arguments, to, shared, &mut screen);
    }
    let lines = RefCell::new(Lines::new(&mut screen));
    let several = pick.places(shared)?.len() > 1;
    let listed = if shared.plain {
        in_words::listed
    } else {
        asides::listed
    };
    let walked = pick.survey(
        shared,
        true,
        |file, found| match arguments.format {
            Format::Text if several => {
                let game = listed(found.number(), &found.heading());
                Ok(asides::in_file(&shown(file), &game))
            }
            Format::Text => Ok(listed(found.number(), &found.heading())),
            Format::Json => {
                let passage = found.passage();
                json::Entry::new(file, &passage, &strictly(&passage)).line()
            }
        },
        |_, _, line| lines.borrow_mut().say(&line?),
        || {
            // What cannot be written stays, and is refused again with the next line.
            let _ = lines.borrow_mut().flush();
            0
        },
    );
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
        true,
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
    all_whole(cut)
}

/// Fails where games lost moves.
fn all_whole(cut: usize) -> Result<(), Failure> {
    match cut {
        0 => Ok(()),
        _ => Err(Failure::GamesAtFault),
    }
}

/// Writes the games that fit, one after the other: a file whole or not at all. What is left out
/// behind a fault is told, and makes the exit code 1.
fn export(
    arguments: &Arguments,
    to: &Path,
    shared: &Shared,
    screen: &mut Screen,
) -> Result<(), Failure> {
    let mut lines = Lines::new(screen);
    let mut file = match to.to_str() {
        Some("-") => None,
        _ => Some(NewFile::begin(to)?),
    };
    // A text could steer a terminal.
    let cleans = io::stdout().is_terminal();
    let (mut games, mut cut) = (0, 0);
    let plain = shared.plain;
    let walked = arguments.pick.survey(
        shared,
        true,
        |file, found| {
            let mut reading = read_twice(&found.passage());
            note_losses(&mut reading);
            let costly = reading.faults.iter().filter(|fault| {
                fault.cost > Cost::Nothing || fault.reason == Reason::Chess960WithoutFen
            });
            let costly = costly.map(|fault| excerpt::sentence(file, fault, plain));
            let told: Vec<String> = costly.collect();
            (strictly_written(&reading.game), told, reading.is_whole())
        },
        |_, _, (text, told, is_whole)| {
            games += 1;
            cut += usize::from(!is_whole);
            for fault in &told {
                tell(fault);
            }
            if let Some(file) = &mut file {
                file.write(&text)?;
                return Ok(true);
            }
            // A line brings its own end along.
            let text = &text[..text.len() - 1];
            if cleans {
                lines.say(&clean(text))
            } else {
                lines.say(text)
            }
        },
        || 0,
    );
    // Where the walk broke off, what came before is told of by the failure, and no file is made.
    walked?;
    lines.flush()?;
    file.map_or(Ok(()), NewFile::finish)?;
    tell(&asides::exported(games, cut));
    all_whole(cut)
}

/// Puts comments into a game that lost moves: one where its moves end, one at the head for its sidelines.
fn note_losses(reading: &mut Reading) {
    let game = &mut reading.game;
    let mut faults = reading.faults.iter();
    let sidelines = faults.clone().filter(|fault| fault.cost == Cost::Sideline);
    let sidelines: Vec<_> = sidelines.collect();
    game.preface.extend(asides::lost_sidelines(&sidelines));
    if let Some(fault) = faults.find(|fault| fault.cost == Cost::Moves) {
        let comment = asides::lost_moves(fault);
        match game.main_nodes().last() {
            Some(last) => game.node_mut(last).comments.push(comment),
            None => game.preface.push(comment),
        }
    }
}

/// Lines that go to the screen many at a time.
struct Lines<'a> {
    screen: &'a mut Screen,
    held: String,
}

impl<'a> Lines<'a> {
    /// How much is held back, in bytes.
    const MOST: usize = 1 << 15;

    const fn new(screen: &'a mut Screen) -> Lines<'a> {
        Lines {
            screen,
            held: String::new(),
        }
    }

    /// Says a line, soon.
    fn say(&mut self, line: &str) -> Result<bool, Failure> {
        self.held.push_str(line);
        self.held.push('\n');
        if self.held.len() > Lines::MOST {
            self.flush()?;
        }
        Ok(true)
    }

    fn flush(&mut self) -> Result<(), Failure> {
        if !self.held.is_empty() {
            self.screen.say(Tone::Plain, &self.held)?;
            self.held.clear();
        }
        Ok(())
    }
}
