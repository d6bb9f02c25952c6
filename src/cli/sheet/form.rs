//! What `sheet` puts on paper, and how.

use std::ffi::OsStr;
use std::path::{Path, PathBuf};

use clap::{Args, Command, Subcommand};
use serde::Deserialize;

use crate::cli::failure::Failure;
use crate::cli::request::Request;
use crate::cli::values::word;
use crate::terminal::write_files;
use crate::voice::commands as words;

/// The options of `sheet`; its page of the handbook says what it does.
#[derive(Args, Debug)]
#[command(
    subcommand_value_name = "EXERCISE",
    disable_help_subcommand = true,
    subcommand_help_heading = "Exercises",
    mut_subcommands(on_paper)
)]
pub(crate) struct Arguments {
    /// How the sheet is written: html, large (large print), markdown, text or json; to be heard: script or wav
    /// [default: as the file's ending says, else html]
    #[arg(long, value_name = "FORMAT", hide_possible_values = true, value_parser = word::<Format>())]
    format: Option<Format>,
    /// Where the sheet goes [default: standard output]
    #[arg(long, value_name = "FILE")]
    pub(super) out: Option<PathBuf>,
    /// Where the key goes, and what is read aloud [default: behind the questions, on new pages]
    #[arg(long, value_name = "FILE")]
    pub(super) key: Option<PathBuf>,
    #[command(subcommand)]
    pub(super) paper: Paper,
}

/// What is done with paper.
#[derive(Subcommand, Debug)]
pub(super) enum Paper {
    #[command(flatten)]
    Ask(Request),
    /// Put a whole lesson on paper
    Lesson {
        /// The lesson file
        #[arg(value_name = "FILE.toml")]
        file: PathBuf,
    },
    /// Grade written answers into the journal: the sheet's command, then a line a question
    Enter {
        /// The file; - is standard input
        file: PathBuf,
    },
}

/// How a sheet is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, strum::IntoStaticStr)]
#[serde(rename_all = "lowercase")]
#[strum(serialize_all = "lowercase")]
pub(super) enum Format {
    Html,
    Large,
    Markdown,
    Text,
    Json,
    Script,
    Wav,
}

/// Leaves out of the help what is not for paper: there no game is played, and nothing goes on.
fn on_paper(exercise: Command) -> Command {
    if matches!(exercise.get_name(), "enter" | "lesson") {
        return exercise;
    }
    let needs_dialogue = exercise.get_name() == "play";
    let resume = exercise.mut_arg("resume", |resume| resume.hide(true));
    resume.hide(needs_dialogue)
}

impl Arguments {
    /// Returns how the sheet is written: as its file is named where no option tells.
    pub(super) fn format(&self) -> Format {
        let ending = self.out.as_deref().and_then(Path::extension);
        self.format.unwrap_or(match ending.and_then(OsStr::to_str) {
            Some("md") => Format::Markdown,
            Some("txt") => Format::Text,
            Some("json") => Format::Json,
            Some("wav") => Format::Wav,
            Some(_) | None => Format::Html,
        })
    }

    /// Sees to it that the options fit together.
    pub(super) fn check(&self) -> Result<(), Failure> {
        let unfit = match self.format() {
            _ if self.key.is_none() => return Ok(()),
            Format::Script | Format::Wav | Format::Json => words::KEY_IS_IN_IT,
            _ if self.key == self.out => words::KEY_IS_THE_SHEET,
            Format::Html | Format::Large | Format::Markdown | Format::Text => return Ok(()),
        };
        Err(Failure::usage(unfit))
    }

    /// Writes the sheet, and its key where that goes to a file of its own.
    pub(super) fn write(&self, sheet: &str, key: Option<&str>) -> Result<(), Failure> {
        let mut pages = vec![(self.out.as_deref(), sheet)];
        pages.extend(key.map(|key| (self.key.as_deref(), key)));
        Ok(write_files(&pages)?)
    }
}

/// What stands between a sheet's command and its name; a shell takes what follows for a remark.
const NAMED: &str = " # sheet ";

/// Writes a sheet's command with the sheet's name behind it.
pub(super) fn named(command: &str, name: &str) -> String {
    format!("{command}{NAMED}{name}")
}

/// Parts a sheet's command from the sheet's name, where that stands behind it.
pub(super) fn without_name(command: &str) -> (&str, Option<&str>) {
    let parts = command.rsplit_once(NAMED);
    parts.map_or((command, None), |(command, name)| {
        (command, Some(name.trim()))
    })
}
