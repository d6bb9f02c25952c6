//! `games`: list, find and check the games of a collection.

mod json;

use clap::Args;

use super::failure::{Failure, shown};
use super::fault;
use super::pick::Pick;
use super::{Shared, named};
use crate::notation::{headline, read};
use crate::terminal::{Screen, Tone};
use crate::voice::asides;

/// List and find games; check them strictly
#[derive(Args, Debug)]
#[command(after_help = HELP)]
pub(super) struct Arguments {
    #[command(flatten)]
    pick: Pick,
    /// Read every game strictly, tell each fault with its place, and count
    #[arg(long, conflicts_with = "format")]
    check: bool,
    /// How games are written: text, or json with one object a line
    #[arg(long, value_name = "FORMAT", default_value = "text", hide_possible_values = true,
          value_parser = named(&[("text", Format::Text), ("json", Format::Json)]))]
    format: Format,
}

const HELP: &str = "\
A check ends with exit code 1 when a game lost moves to a fault.

Examples:
  sansvoir games games-demo/club-evening.pgn
  sansvoir games games-demo/dialects.pgn --check";

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Format {
    Text,
    Json,
}

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let mut screen = shared.screen();
    if arguments.check {
        return check(&arguments.pick, shared, &mut screen);
    }
    arguments.pick.walk(shared, |picked| {
        match arguments.format {
            Format::Text => {
                let tags = headline(&picked.passage);
                screen.say(Tone::Plain, &asides::listed(picked.passage.number, &tags))?;
            }
            Format::Json => {
                let reading = read(&picked.passage);
                let entry = json::Entry::new(&picked.file, &reading);
                screen.say(Tone::Plain, &entry.line().map_err(Failure::unusable)?)?;
            }
        }
        Ok(true)
    })?;
    Ok(())
}

/// Reads every game strictly, tells every fault and closes with the counts.
fn check(pick: &Pick, shared: &Shared, screen: &mut Screen) -> Result<(), Failure> {
    let (mut games, mut plies, mut faults, mut cut) = (0, 0, 0, 0);
    pick.walk(shared, |picked| {
        let reading = read(&picked.passage);
        games += 1;
        plies += reading.game.main_nodes().count();
        faults += reading.faults.len();
        cut += usize::from(!reading.is_whole());
        for fault in &reading.faults {
            screen.say(Tone::Plain, &fault::sentence(&picked.file, fault))?;
            if !shared.plain {
                screen.say(Tone::Plain, &fault::excerpt(&picked.passage, fault))?;
            }
        }
        if let Some(letters) = &reading.letters {
            let file = shown(&picked.file);
            let said = asides::letters(letters);
            screen.say(
                Tone::Plain,
                &format!("{file}:{}: {said}", picked.passage.line),
            )?;
        }
        Ok(true)
    })?;
    screen.say(Tone::Plain, &asides::checked(games, plies, faults, cut))?;
    if cut > 0 {
        Err(Failure::GamesAtFault)
    } else {
        Ok(())
    }
}
