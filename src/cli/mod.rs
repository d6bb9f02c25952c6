//! The command line. Each command is a short story that calls the layers below.

mod alone;
mod aloud;
mod archives;
mod chosen;
mod config;
mod excerpt;
mod failure;
mod games;
mod journal;
mod lesson;
mod pick;
mod places;
mod prepared;
mod progress;
mod request;
mod shared;
mod sheet;
mod sitting;
mod toml_file;
mod values;
mod walk;

use std::io::ErrorKind;
use std::iter;
use std::process::ExitCode;

use clap::{Parser, Subcommand};

use crate::terminal::{ScreenError, print_styled};
use config::Config;
use failure::{Failure, tell};
use request::Request;
use shared::Shared;

/// Trains chess without sight of the board: hear a game, answer at checkpoints, learn why
#[derive(Parser)]
#[command(name = "sansvoir", version, max_term_width = 100, after_help = HELP)]
struct Cli {
    #[command(flatten)]
    shared: Shared,
    #[command(subcommand)]
    command: Option<Command>,
}

const HELP: &str = "\
Examples:
  sansvoir replay games-demo/club-evening.pgn
  sansvoir lesson --minutes 5
  sansvoir games games-demo/club-evening.pgn";

#[derive(Subcommand, Debug)]
enum Command {
    #[command(flatten)]
    Exercise(Request),
    Lesson(lesson::Arguments),
    Games(Box<games::Arguments>),
    Progress(progress::Arguments),
    Journal(journal::Arguments),
    Sheet(sheet::Arguments),
}

/// Runs the program with the arguments of this process and returns its exit code: 0 when done or
/// stopped by the learner, 1 when a file, a game or a journal could not be used, 2 for a usage error.
pub fn run() -> ExitCode {
    // clap's own errors and help end here with its exit codes, 2 for a usage error and 0 for help.
    let mut cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(error) => return advised(&sheet::advise(error)),
    };
    // It is read only now, so that help and errors in the command line come before any trouble with it.
    match Config::find() {
        Ok(config) => cli.shared.heed(config),
        Err(failure) => return told(&failure, cli.shared.plain_wish.unwrap_or_default()),
    }
    carry_out(&cli)
}

/// Tells what there is to say to a command line that asks for help or cannot be read.
fn advised(error: &clap::Error) -> ExitCode {
    // The command line was not read, and may all the same ask for plain text.
    let plain = std::env::args_os().any(|word| word == "--plain" || word == "--plain=true");
    let text = error.render().ansi().to_string();
    match print_styled(&text, error.use_stderr(), plain) {
        Err(failed) if failed.kind() != ErrorKind::BrokenPipe && !error.use_stderr() => {
            told(&Failure::from(ScreenError::from(failed)), plain)
        }
        Ok(()) | Err(_) => ExitCode::from(u8::try_from(error.exit_code()).unwrap_or(2)),
    }
}

/// Runs a command, and lets what it speaks come to its end.
fn carry_out(cli: &Cli) -> ExitCode {
    let shared = &cli.shared;
    let code = match run_command(cli.command.as_ref(), shared) {
        Ok(()) => ExitCode::SUCCESS,
        // Nobody reads any more, and what is still to be spoken is left.
        Err(Failure::OutputClosed) => return Failure::OutputClosed.exit_code(),
        Err(failure) => {
            let code = told(&failure, shared.plain);
            shared.aloud().aside(&failure.told(true));
            code
        }
    };
    match shared.hear_out() {
        Ok(()) => code,
        Err(failure) => told(&failure, shared.plain),
    }
}

/// Runs a command; where none is given, the one that is chosen of those on offer.
fn run_command(command: Option<&Command>, shared: &Shared) -> Result<(), Failure> {
    match command {
        Some(Command::Exercise(request)) => request.run(shared),
        Some(Command::Lesson(arguments)) => lesson::run(arguments, shared),
        Some(Command::Games(arguments)) => games::run(arguments, shared),
        Some(Command::Progress(arguments)) => progress::run(arguments, shared),
        Some(Command::Journal(arguments)) => journal::run(arguments, shared),
        Some(Command::Sheet(arguments)) => sheet::run(arguments, shared),
        None => {
            let Some(words) = alone::run(shared)? else {
                return Ok(());
            };
            let program = iter::once("sansvoir".to_owned());
            let chosen = Cli::parse_from(program.chain(words));
            run_command(chosen.command.as_ref(), shared)
        }
    }
}

/// Tells what ended a command, and returns the exit code that says so.
fn told(failure: &Failure, plain: bool) -> ExitCode {
    match failure {
        Failure::Usage(_) | Failure::Unusable(_) | Failure::AtPlace { .. } => {
            tell(&format!("sansvoir: {}", failure.told(plain)));
        }
        Failure::GamesAtFault | Failure::SearchStopped | Failure::OutputClosed => {}
    }
    failure.exit_code()
}
