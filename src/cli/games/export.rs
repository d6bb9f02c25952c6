//! `games --export`: the games that fit, written as strict PGN.

use std::io::{self, IsTerminal};
use std::path::Path;

use crate::cli::excerpt;
use crate::cli::failure::Failure;
use crate::cli::pick::Pick;
use crate::cli::shared::Shared;
use crate::cli::stderr::tell;
use crate::pgn::{Cost, Reading, Reason, export as strictly_written, read_twice};
use crate::terminal::{NewFile, Screen, Tone};
use crate::voice::{asides, clean};

/// A game in export format, and the faults that cost something of it.
struct Written {
    text: String,
    faults: Vec<String>,
    is_cut: bool,
}

/// Where the games go.
enum Target<'a> {
    File(NewFile),
    Output(Lines<'a>),
    /// A terminal, which a text could steer.
    Terminal(Lines<'a>),
}

/// Writes the games that fit, one after the other: a file whole or not at all. What is left out
/// behind a fault is told, and makes the exit code 1.
pub(super) fn export(
    pick: &Pick,
    to: &Path,
    overwrite: bool,
    shared: &Shared,
    screen: &mut Screen,
) -> Result<(), Failure> {
    let mut target = if to != Path::new("-") {
        Target::File(NewFile::begin(to, overwrite)?)
    } else if io::stdout().is_terminal() {
        Target::Terminal(Lines::new(screen))
    } else {
        Target::Output(Lines::new(screen))
    };
    let (mut games, mut cut) = (0, 0);
    let plain = shared.plain;
    let walked = pick.survey(
        shared,
        |file, found| {
            let mut reading = read_twice(&found.passage());
            note_losses(&mut reading);
            let costly = reading.faults.iter().filter(|fault| {
                fault.cost > Cost::Nothing || fault.reason == Reason::Chess960WithoutFen
            });
            Written {
                text: strictly_written(&reading.game),
                faults: costly
                    .map(|found| excerpt::sentence(file, found, plain))
                    .collect(),
                is_cut: !reading.is_whole(),
            }
        },
        |_, _, written: Written| {
            games += 1;
            cut += usize::from(written.is_cut);
            for fault in &written.faults {
                tell(fault);
            }
            match &mut target {
                Target::File(file) => file.write(&written.text)?,
                // A line brings its own end along.
                Target::Output(lines) => {
                    lines.say(&written.text[..written.text.len() - 1])?;
                }
                Target::Terminal(lines) => {
                    lines.say(&clean(&written.text[..written.text.len() - 1]))?;
                }
            }
            Ok(true)
        },
        || 0,
    );
    // Where the walk broke off, what came before is told of by the failure, and no file is made.
    walked?;
    match target {
        Target::File(file) => file.finish()?,
        Target::Output(mut lines) | Target::Terminal(mut lines) => lines.flush()?,
    }
    tell(&asides::exported(games, cut));
    if cut > 0 {
        Err(Failure::GamesAtFault)
    } else {
        Ok(())
    }
}

/// Puts comments into a game that lost moves: one where its moves end, one at the head for its sidelines.
fn note_losses(reading: &mut Reading) {
    let game = &mut reading.game;
    let of_cost = |cost| {
        reading
            .faults
            .iter()
            .filter(move |fault| fault.cost == cost)
    };
    let sidelines: Vec<_> = of_cost(Cost::Sideline).collect();
    game.preface.extend(asides::lost_sidelines(&sidelines));
    if let Some(fault) = of_cost(Cost::Moves).next() {
        let comment = asides::lost_moves(fault);
        match game.main_nodes().last() {
            Some(last) => game.node_mut(last).comments.push(comment),
            None => game.preface.push(comment),
        }
    }
}

/// Lines that go to the screen many at a time.
pub(super) struct Lines<'a> {
    screen: &'a mut Screen,
    held: String,
}

impl<'a> Lines<'a> {
    /// How much is held back, in bytes.
    const MOST: usize = 1 << 15;

    pub(super) const fn new(screen: &'a mut Screen) -> Lines<'a> {
        Lines {
            screen,
            held: String::new(),
        }
    }

    /// Says a line, soon.
    pub(super) fn say(&mut self, line: &str) -> Result<bool, Failure> {
        self.held.push_str(line);
        self.held.push('\n');
        if self.held.len() > Lines::MOST {
            self.flush()?;
        }
        Ok(true)
    }

    pub(super) fn flush(&mut self) -> Result<(), Failure> {
        if !self.held.is_empty() {
            self.screen.say(Tone::Plain, &self.held)?;
            self.held.clear();
        }
        Ok(())
    }
}
