//! `sheet`: the questions of an exercise on paper or as data.

mod again;
mod enter;
mod sound;

use std::path::PathBuf;

use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap::{Arg, ArgMatches, Args, CommandFactory, Subcommand};

use super::aloud::{Words, command};
use super::failure::Failure;
use super::prepared::Prepared;
use super::shared::{Shared, records};
use super::{Cli, ahead, drill, named, replay, tell};
use crate::learner::Record;
use crate::report::sheet::{self, Sheet, Side};
use crate::terminal::write_files;
use crate::voice::{List, asides, clean_line, paper};

pub(super) use again::words;

/// Put the questions of an exercise on paper, or write them as data
#[derive(Args, Debug)]
#[command(after_help = HELP, subcommand_value_name = "EXERCISE", disable_help_subcommand = true,
          subcommand_help_heading = "Exercises")]
pub(super) struct Arguments {
    /// How the sheet is written: html, markdown or json; to be heard: script or wav
    #[arg(long, value_name = "FORMAT", default_value = "html", hide_possible_values = true,
          value_parser = named(&[("html", Format::Html), ("markdown", Format::Markdown),
                                 ("json", Format::Json), ("script", Format::Script),
                                 ("wav", Format::Wav)]))]
    format: Format,
    /// Where the sheet goes [default: standard output]
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// Where the key goes [default: behind the questions, on a new page]
    #[arg(long, value_name = "FILE")]
    key: Option<PathBuf>,
    /// Overwrite files that are there; with --enter, enter the same answers once more
    #[arg(long)]
    force: bool,
    /// With script and wav: say also why each answer is right
    #[arg(long)]
    why: bool,
    /// With wav: the command that writes what comes through its standard input to a sound file, FILE
    /// standing for that file [default: "espeak-ng --stdin -w FILE"]
    #[arg(long, value_name = "COMMAND", value_parser = file_command)]
    speech_file: Option<Words>,
    /// Make the sheet only if it is the one of this name again
    #[arg(long, value_name = "SHEET")]
    same: Option<String>,
    /// Grade written answers into the journal: a text file with the sheet's command as its first line,
    /// then a line for each question
    #[arg(long, value_name = "FILE", conflicts_with_all = ["format", "out", "key", "same", "why", "speech_file"])]
    enter: Option<PathBuf>,
    #[command(subcommand)]
    exercise: Option<Choice>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Format {
    Html,
    Markdown,
    Json,
    Script,
    Wav,
}

impl Format {
    const fn is_heard(self) -> bool {
        match self {
            Format::Script | Format::Wav => true,
            Format::Html | Format::Markdown | Format::Json => false,
        }
    }
}

/// Reads a command that writes a sound file.
fn file_command(text: &str) -> Result<Words, String> {
    let Words(words) = command(text)?;
    if words.iter().skip(1).any(|word| word.contains("FILE")) {
        Ok(Words(words))
    } else {
        Err("write FILE where the command takes the name of its sound file".to_owned())
    }
}

/// The exercise that the questions are from.
#[derive(Subcommand, Debug)]
enum Choice {
    #[command(mut_arg("resume", hidden))]
    Replay(Box<replay::Arguments>),
    #[command(mut_arg("resume", hidden))]
    Ahead(Box<ahead::Arguments>),
    #[command(mut_arg("resume", hidden))]
    Drill(Box<drill::Arguments>),
}

/// Leaves an option out of the help: on paper nothing goes on.
fn hidden(option: Arg) -> Arg {
    option.hide(true)
}

const HELP: &str = "\
The options of the sheet stand before the exercise, the exercise's own options behind it.
A sheet asks what the exercise asks with the same seed; of a drill on the empty board it has the \
questions of a learner who misses none, and none because it was weak before.
The same command makes the same sheet, and stands on it. To grade what a pupil wrote, copy that \
command into a text file, and write below it the number of each question and the reply, as in 1 e5; \
the number alone where nothing was answered. sansvoir sheet --enter ana.txt --learner Ana enters all of \
it, or nothing.

Examples:
  sansvoir sheet --out sheet.html --key key.html replay games-demo/club-evening.pgn
  sansvoir sheet --format markdown drill few --count 6";

pub(super) fn run(
    arguments: &Arguments,
    shared: &Shared,
    matches: &ArgMatches,
) -> Result<(), Failure> {
    let choice = match (&arguments.enter, &arguments.exercise) {
        (Some(file), None) => return enter::run(file, arguments.force, shared),
        (None, Some(choice)) => choice,
        (Some(_), Some(_)) => {
            return Err(usage(
                "--enter takes the exercise from its file: leave it out here",
            ));
        }
        (None, None) => {
            return Err(usage(
                "name an exercise, as in sansvoir sheet drill color, or a file with --enter",
            ));
        }
    };
    arguments.check()?;
    let records = records(&shared.journal()?)?;
    let exercise = exercise(choice, shared, &records)?;
    let items = sheet::items(&mut exercise.on_paper()?);
    let name = sheet::name(&items);
    arguments.agree_with(&name)?;
    if choice.takes_input() {
        tell(asides::SHEET_FROM_INPUT);
    }
    if arguments.format == Format::Json {
        let name = exercise.plan.exercise();
        let json = sheet::json(name, exercise.game().as_ref(), &items);
        return arguments.write(&json, None);
    }
    if arguments.format.is_heard() {
        return sound::write(arguments, shared, &exercise, &items);
    }
    let again = command_line(arguments, shared, matches, &exercise, &name);
    let known_as = paper::known_as(&name, exercise.seed);
    let sheet = Sheet::new(
        &items,
        exercise.telling.voice(shared),
        known_as,
        clean_line(&again),
    );
    let write = match arguments.format {
        Format::Markdown => sheet::markdown,
        Format::Html | Format::Json | Format::Script | Format::Wav => sheet::html,
    };
    match &arguments.key {
        None => arguments.write(&write(&sheet, Side::Both), None),
        Some(_) => arguments.write(
            &write(&sheet, Side::Questions),
            Some(&write(&sheet, Side::Key)),
        ),
    }
}

/// Sets the exercise up that was chosen, for a learner with these records.
fn exercise(choice: &Choice, shared: &Shared, records: &[Record]) -> Result<Prepared, Failure> {
    if choice.resumes() {
        return Err(usage("a sheet always starts over: leave out --resume"));
    }
    match choice {
        Choice::Replay(replay) => replay::prepare(replay, shared, records),
        Choice::Ahead(ahead) => ahead::on_paper(ahead, shared, records),
        Choice::Drill(drill) => drill::prepare(drill, shared, &[]),
    }
}

impl Choice {
    fn resumes(&self) -> bool {
        match self {
            Choice::Replay(replay) => replay.resume,
            Choice::Ahead(ahead) => ahead.resume,
            Choice::Drill(drill) => drill.resume,
        }
    }

    /// Tells whether games come through standard input, where they cannot be had again.
    fn takes_input(&self) -> bool {
        match self {
            Choice::Replay(replay) => replay.takes_input(),
            Choice::Ahead(ahead) => ahead.takes_input(),
            Choice::Drill(drill) => drill.takes_input(),
        }
    }
}

/// Tells of an option of the sheet that stands behind the exercise where it belongs.
pub(super) fn advise(mut error: clap::Error) -> clap::Error {
    const OWN: [&str; 8] = [
        "--format",
        "--out",
        "--key",
        "--force",
        "--same",
        "--enter",
        "--why",
        "--speech-file",
    ];
    let is_own = match error.get(ContextKind::InvalidArg) {
        Some(ContextValue::String(option)) => {
            OWN.contains(&option.split([' ', '=']).next().unwrap_or(option))
        }
        _ => false,
    };
    if error.kind() == ErrorKind::UnknownArgument && is_own {
        let advice = "as an option of the sheet it stands before the exercise".into();
        error.insert(
            ContextKind::Suggested,
            ContextValue::StyledStrs(vec![advice]),
        );
    }
    error
}

fn usage(reason: &str) -> Failure {
    Failure::Usage(reason.to_owned())
}

/// The command line that makes the sheet again.
fn command_line(
    arguments: &Arguments,
    shared: &Shared,
    matches: &ArgMatches,
    exercise: &Prepared,
    name: &str,
) -> String {
    let mut words: Vec<String> = ["sansvoir", "sheet"].map(str::to_owned).into();
    if arguments.format == Format::Markdown {
        words.extend(["--format", "markdown"].map(str::to_owned));
    }
    if shared.plain {
        words.push("--plain".to_owned());
    }
    match shared.speaking.list {
        List::Piece => {}
        List::Rank => words.extend(["--list", "rank"].map(str::to_owned)),
    }
    words.extend(["--same", name].map(str::to_owned));
    words.extend(["--seed".to_owned(), exercise.seed.to_string()]);
    let mut command = Cli::command();
    command.build();
    let given = matches.subcommand().and_then(|(sheet, matches)| {
        let (exercise, matches) = matches.subcommand()?;
        let command = command.find_subcommand(sheet)?.find_subcommand(exercise)?;
        Some((command, matches))
    });
    if let Some((command, matches)) = given {
        words.extend(again::exercise(
            command,
            matches,
            exercise
                .file
                .as_deref()
                .zip(exercise.game().map(|game| game.number)),
        ));
        words.extend(exercise.decided.iter().cloned());
    }
    again::quoted(&words)
}

impl Arguments {
    /// Sees to it that the options fit together.
    fn check(&self) -> Result<(), Failure> {
        if !self.format.is_heard() && (self.why || self.speech_file.is_some()) {
            return Err(usage(
                "--why and --speech-file are for a sheet to be heard: choose --format script or wav",
            ));
        }
        if self.format.is_heard() && self.key.is_some() {
            return Err(usage(
                "a sheet to be heard says its answers already: leave out --key",
            ));
        }
        if self.format == Format::Json && self.key.is_some() {
            return Err(Failure::Usage(
                "a sheet in JSON holds its answers already: leave out --key".to_owned(),
            ));
        }
        if self.key.is_some() && self.key == self.out {
            return Err(Failure::Usage(
                "the sheet and its key would be one file: give --out and --key two names, or leave \
                 out --key to have the key behind the questions"
                    .to_owned(),
            ));
        }
        Ok(())
    }

    /// Sees to it that the sheet is the one that was asked for.
    fn agree_with(&self, name: &str) -> Result<(), Failure> {
        match &self.same {
            Some(same) if same != name => Err(Failure::Unusable(format!(
                "this would be sheet {name}, not {}: the file of games, an option or the program has \
                 changed since; leave out --same to make it all the same",
                clean_line(same)
            ))),
            Some(_) | None => Ok(()),
        }
    }

    fn write(&self, sheet: &str, key: Option<&str>) -> Result<(), Failure> {
        let mut pages = vec![(self.out.as_deref(), sheet)];
        pages.extend(key.map(|key| (self.key.as_deref(), key)));
        Ok(write_files(&pages, self.force)?)
    }
}
