//! The command line. Each command is a short story that calls the layers below.

mod alone;
mod aloud;
mod archives;
mod chosen;
mod class;
mod config;
mod excerpt;
mod failure;
mod games;
mod help;
mod journal;
mod lesson;
mod numbers;
mod own;
mod pick;
mod places;
mod prepared;
mod progress;
mod request;
mod setup;
mod shared;
mod sheet;
mod sitting;
mod toml_file;
mod values;
mod walk;

use std::io;
use std::iter;
use std::path::Path;
use std::process::ExitCode;

use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap::{CommandFactory, Parser, Subcommand};

use crate::terminal::{ScreenError, print_styled};
use crate::voice::commands as words;
use crate::voice::handbook::{self, Page};
use config::Config;
use failure::{Failure, tell};
use request::Request;
use shared::Shared;

/// Trains chess without sight of the board
#[derive(Parser)]
#[command(
    name = "sansvoir",
    version,
    max_term_width = 100,
    disable_help_subcommand = true
)]
struct Cli {
    #[command(flatten)]
    shared: Shared,
    #[command(subcommand)]
    command: Option<Command>,
}

#[derive(Subcommand, Debug)]
enum Command {
    #[command(flatten)]
    Exercise(Request),
    Lesson(lesson::Arguments),
    Games(Box<games::Arguments>),
    Progress(progress::Arguments),
    Journal(journal::Arguments),
    Sheet(sheet::Arguments),
    #[command(subcommand, disable_help_subcommand = true)]
    Setup(setup::What),
    Help(help::Arguments),
}

/// Runs the program with the arguments of this process and returns its exit code: 0 when done or
/// stopped by the learner, 1 when a file, a game or a journal could not be used, 2 for a usage error.
pub fn run() -> ExitCode {
    setup::complete(Cli::command);
    // clap's own errors and help end here with its exit codes, 2 for a usage error and 0 for help. Only then are
    // the pages of the handbook read.
    let mut cli = match Cli::try_parse() {
        Ok(cli) => cli,
        Err(error) => {
            let brief = std::env::args_os().all(|word| word != "--help");
            let taught = help::taught(Cli::command(), brief);
            let taught = taught.try_get_matches().err();
            return advised(&advise(sheet::advise(taught.unwrap_or(error))));
        }
    };
    // It is read only now, so that help and errors in the command line come before any trouble with it.
    let makes_one = match &cli.command {
        Some(Command::Games(arguments)) => arguments.changes_own_games(),
        command => matches!(command, Some(Command::Setup(_))),
    };
    match Config::find(!makes_one) {
        Ok(config) => cli.shared.heed(config),
        // They tell how it is mended.
        Err(_) if matches!(cli.command, Some(Command::Help(_) | Command::Setup(_))) => {
            cli.shared.heed(Config::default());
        }
        Err(failure) => {
            let plain = cli.shared.plain_wish.unwrap_or_default();
            return told(&failure, plain, "config");
        }
    }
    if let Err(failure) = cli.shared.join_class() {
        return told(&failure, cli.shared.plain, "coach");
    }
    carry_out(&cli)
}

/// Tells how to hear a game where a file of games stands in the place of a command.
fn advise(mut error: clap::Error) -> clap::Error {
    if error.kind() == ErrorKind::InvalidSubcommand
        && let Some(ContextValue::String(word)) = error.get(ContextKind::InvalidSubcommand)
        && archives::is_named_as_games(Path::new(word))
    {
        let advice = words::to_hear_a_game(word).into();
        error.remove(ContextKind::SuggestedSubcommand);
        error.insert(
            ContextKind::Suggested,
            ContextValue::StyledStrs(vec![advice]),
        );
    }
    error
}

/// The page of the command that was typed.
fn topic() -> &'static str {
    let mut words = std::env::args_os().skip(1);
    let page = words.find_map(|word| Page::find(word.to_str()?));
    page.map_or("start", |page| page.topic)
}

/// Tells what there is to say to a command line that asks for help or cannot be read.
fn advised(error: &clap::Error) -> ExitCode {
    // The command line was not read, and may all the same ask for plain text.
    let plain = std::env::args_os().any(|word| word == "--plain" || word == "--plain=true");
    // Where no argument is told, nothing stands between its empty lines.
    let mut text = error
        .render()
        .ansi()
        .to_string()
        .replace("\n\n\n\n", "\n\n");
    if error.kind() != ErrorKind::DisplayHelpOnMissingArgumentOrSubcommand
        && error.use_stderr()
        && let Some(place) = text.rfind("--help")
    {
        text.replace_range(place..place + "--help".len(), &handbook::command(topic()));
    }
    match print_styled(&text, error.use_stderr(), plain) {
        Err(failed) if failed.kind() != io::ErrorKind::BrokenPipe && !error.use_stderr() => {
            told(&Failure::from(ScreenError::from(failed)), plain, topic())
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
            let code = told(&failure, shared.plain, topic());
            shared.aloud().aside(&failure.told(true));
            shared.aloud().aside(&handbook::more(topic()));
            code
        }
    };
    match shared.hear_out() {
        Ok(()) => code,
        Err(failure) => told(&failure, shared.plain, topic()),
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
        Some(Command::Setup(what)) => setup::run(what, Cli::command(), shared),
        Some(Command::Help(arguments)) => help::run(arguments, shared),
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

/// Tells what ended a command and which page tells more, and returns the exit code that says so.
fn told(failure: &Failure, plain: bool, topic: &str) -> ExitCode {
    match failure {
        Failure::Usage(_)
        | Failure::Unusable(_)
        | Failure::AtPlace { .. }
        | Failure::OwnQuestions(_) => {
            tell(&format!("sansvoir: {}", failure.told(plain)));
            tell(&handbook::more(topic));
        }
        Failure::GamesAtFault | Failure::SearchStopped | Failure::OutputClosed => {}
    }
    failure.exit_code()
}
