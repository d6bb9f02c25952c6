//! Floor 7: the command line. Each command is a short story that calls the floors below.

mod failure;
mod games;
mod pick;
mod replay;
mod sitting;

use std::path::PathBuf;
use std::process::ExitCode;

use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{Args, Parser, Subcommand};

use crate::terminal::ColorChoice;

pub use failure::Failure;

/// Trains chess without sight of the board: hear a game, answer at checkpoints, learn why.
#[derive(Parser, Debug)]
#[command(name = "sansvoir", version, disable_help_subcommand = true)]
struct Cli {
    #[command(flatten)]
    shared: Shared,
    #[command(subcommand)]
    command: Option<Command>,
}

/// The options that every command takes.
#[derive(Args, Debug, Clone)]
struct Shared {
    /// Whose answers are kept
    #[arg(long, global = true, value_name = "NAME", default_value = "learner",
          help_heading = SHARED)]
    learner: String,
    /// The folder of the journals [default: $`SANSVOIR_DATA`, else the data folder of your system]
    #[arg(long, global = true, value_name = "DIR", help_heading = SHARED)]
    data: Option<PathBuf>,
    /// The number that all chance comes from; the same number asks the same questions
    #[arg(long, global = true, value_name = "N", help_heading = SHARED)]
    seed: Option<u64>,
    /// For screen readers and pipes: no color, no cursor movement, no drawing
    #[arg(long, global = true, help_heading = SHARED)]
    plain: bool,
    /// Color in the output
    #[arg(long, global = true, value_name = "WHEN", default_value = "auto",
          value_parser = named(&[("auto", ColorChoice::Auto), ("always", ColorChoice::Always),
                                 ("never", ColorChoice::Never)]),
          help_heading = SHARED)]
    color: ColorChoice,
}

const SHARED: &str = "Shared by all commands";

#[derive(Subcommand, Debug)]
enum Command {
    Replay(Box<replay::Arguments>),
    Games(games::Arguments),
}

/// Runs the program with the arguments of this process.
#[must_use]
pub fn run() -> ExitCode {
    let cli = match Cli::try_parse() {
        Ok(cli) => cli,
        // clap's own errors and help come with its exit codes: 2 for a usage error, 0 for help.
        Err(error) => error.exit(),
    };
    let done = match cli.command {
        None => first_words(),
        Some(Command::Replay(arguments)) => replay::run(&arguments, &cli.shared),
        Some(Command::Games(arguments)) => games::run(&arguments, &cli.shared),
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            failure.tell();
            failure.exit_code()
        }
    }
}

/// Reads one of a few words, and suggests the nearest one for any other.
fn named<T: Clone + Send + Sync + 'static>(
    words: &'static [(&'static str, T)],
) -> impl TypedValueParser<Value = T>
where
    T: 'static,
{
    PossibleValuesParser::new(words.iter().map(|(word, _)| *word)).map(|said| {
        let found = words.iter().find(|(word, _)| *word == said);
        found.map(|(_, value)| value.clone()).expect("one of the words")
    })
}
