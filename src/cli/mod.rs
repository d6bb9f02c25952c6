//! Floor 7: the command line. Each command is a short story that calls the floors below.

mod ahead;
mod aloud;
mod arguments;
mod chosen;
mod config;
mod demo;
mod drill;
mod failure;
mod fault;
mod games;
mod journal;
mod lesson;
mod opened;
mod pick;
mod places;
mod prepared;
mod progress;
mod recite;
mod replay;
mod shared;
mod sheet;
mod sitting;
mod survey;
mod telling;
mod toml_text;

use std::ffi::OsString;
use std::io::{ErrorKind, Write};
use std::process::ExitCode;
use std::rc::Rc;
use std::sync::atomic::{AtomicBool, Ordering};

use clap::builder::{PossibleValuesParser, TypedValueParser};
use clap::{ArgMatches, CommandFactory, FromArgMatches, Parser, Subcommand};

use crate::terminal::{ScreenError, Tone, print_styled};
use crate::voice::{clean, clean_line, first_words};
use config::Config;
use failure::Failure;
use prepared::Given;
use shared::Shared;

/// Trains chess without sight of the board: hear a game, answer at checkpoints, learn why
#[derive(Parser, Debug)]
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
    Replay(Box<replay::Arguments>),
    Ahead(Box<ahead::Arguments>),
    Drill(drill::Arguments),
    Recite(Box<recite::Arguments>),
    Lesson(lesson::Arguments),
    Games(games::Arguments),
    Progress(progress::Arguments),
    Journal(journal::Arguments),
    Sheet(sheet::Arguments),
}

/// Runs the program with the arguments of this process and returns its exit code: 0 when done or
/// stopped by the learner, 1 when a file, a game or a journal could not be used, 2 for a usage error.
#[must_use]
pub fn run() -> ExitCode {
    // clap's own errors and help end here with its exit codes, 2 for a usage error and 0 for help.
    let (cli, matches) = match parse(std::env::args_os()) {
        Ok(read) => read,
        Err(error) => return advised(&sheet::advise(error), wants_plain(std::env::args_os())),
    };
    let plain = cli.shared.plain;
    let done = Config::find().map(|config| match wishing(cli, matches, config) {
        Ok((cli, matches)) => carry_out(&cli, &matches),
        Err(error) => advised(&error, plain),
    });
    done.unwrap_or_else(|failure| told(&failure, plain))
}

/// Tells what there is to say to a command line that asks for help or cannot be read.
fn advised(error: &clap::Error, plain: bool) -> ExitCode {
    let text = error.render().ansi().to_string();
    match print_styled(&text, error.use_stderr(), plain) {
        Err(failed) if failed.kind() != ErrorKind::BrokenPipe && !error.use_stderr() => {
            told(&Failure::from(ScreenError::from(failed)), plain)
        }
        Ok(()) | Err(_) => ExitCode::from(u8::try_from(error.exit_code()).unwrap_or(2)),
    }
}

/// Runs a command, and lets what it speaks come to its end.
fn carry_out(cli: &Cli, matches: &ArgMatches) -> ExitCode {
    let shared = &cli.shared;
    let code = match dispatch(cli, matches) {
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

/// Tells what ended a command, and returns the exit code that says so.
fn told(failure: &Failure, plain: bool) -> ExitCode {
    match failure {
        Failure::Usage(_) | Failure::Unusable(_) | Failure::AtPlace(_) => {
            tell(&format!("sansvoir: {}", failure.told(plain)));
        }
        Failure::GamesAtFault | Failure::OutputClosed => {}
    }
    failure.exit_code()
}

fn dispatch(cli: &Cli, matches: &ArgMatches) -> Result<(), Failure> {
    match &cli.command {
        Some(Command::Replay(arguments)) => replay::run(arguments, &cli.shared),
        Some(Command::Ahead(arguments)) => ahead::run(arguments, &cli.shared),
        Some(Command::Drill(arguments)) => drill::run(arguments, &cli.shared),
        Some(Command::Recite(arguments)) => recite::run(arguments, &cli.shared),
        Some(Command::Lesson(arguments)) => lesson::run(arguments, &cli.shared),
        Some(Command::Games(arguments)) => games::run(arguments, &cli.shared),
        Some(Command::Progress(arguments)) => progress::run(arguments, &cli.shared),
        Some(Command::Journal(arguments)) => journal::run(arguments, &cli.shared),
        Some(Command::Sheet(arguments)) => sheet::run(arguments, &cli.shared, matches),
        None => greet(&cli.shared),
    }
}

/// Reads the command line of this process once more with what the config file says in the place of the
/// options' own defaults. It is read after the first time, so that `--help` and errors in the command
/// line come before any trouble with the file.
fn wishing(
    cli: Cli,
    matches: ArgMatches,
    config: Config,
) -> Result<(Cli, ArgMatches), clap::Error> {
    if config == Config::default() {
        return Ok((cli, matches));
    }
    let (mut cli, matches) = parsed(
        config.in_place_of_defaults(Cli::command()),
        std::env::args_os(),
    )?;
    cli.shared.config = Rc::new(config);
    Ok((cli, matches))
}

/// Reads a command line, and returns also which options it really names.
fn parse(words: impl IntoIterator<Item = OsString>) -> Result<(Cli, ArgMatches), clap::Error> {
    parsed(Cli::command(), words)
}

/// Tells whether a command line that was not read asks for plain text.
fn wants_plain(mut words: impl Iterator<Item = OsString>) -> bool {
    words.any(|word| word == "--plain" || word == "--plain=true")
}

fn parsed(
    mut command: clap::Command,
    words: impl IntoIterator<Item = OsString>,
) -> Result<(Cli, ArgMatches), clap::Error> {
    let matches = command.try_get_matches_from_mut(words)?;
    let cli = Cli::from_arg_matches(&matches);
    let mut cli = cli.map_err(|error| error.format(&mut command))?;
    cli.shared.given = Given::of(&matches);
    Ok((cli, matches))
}

/// Says in a screenful what to do first.
fn greet(shared: &Shared) -> Result<(), Failure> {
    let mut screen = shared.screen();
    for line in first_words() {
        if shared.plain {
            // Columns are for the eye.
            screen.say(Tone::Plain, &clean_line(line))?;
        } else {
            screen.say(Tone::Plain, line)?;
        }
    }
    Ok(())
}

/// Whether something was told beside the sittings.
static TOLD: AtomicBool = AtomicBool::new(false);

/// Notes that something was told beside the sittings.
fn note_told() {
    TOLD.store(true, Ordering::Relaxed);
}

/// Tells whether something was told that the learner has to read before it goes from sight.
fn something_was_told() -> bool {
    TOLD.swap(false, Ordering::Relaxed)
}

/// Writes a sentence to standard error, without anything that could steer a terminal (the name of a
/// file can hold it); where standard error is closed, nobody is there to be told.
fn tell(sentence: &str) {
    note_told();
    let _ = writeln!(std::io::stderr(), "{}", clean(sentence));
}

/// Reads one of a few words, and suggests the nearest one for any other.
fn named<T: Clone + Send + Sync + 'static>(
    words: &'static [(&'static str, T)],
) -> impl TypedValueParser<Value = T> {
    PossibleValuesParser::new(words.iter().map(|(word, _)| *word)).map(|said| {
        let found = words.iter().find(|(word, _)| *word == said);
        found
            .map(|(_, value)| value.clone())
            .expect("clap lets only these words through")
    })
}
