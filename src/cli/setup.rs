//! `setup`: what a machine needs: completions for a shell, manual pages, a config file, grammars for a speech
//! recognizer.

use std::ffi::OsStr;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use clap::builder::PossibleValuesParser;
use clap::{Arg, Command, Subcommand};
use clap_complete::engine::ValueCompleter;
use clap_complete::env::{CompleteEnv, Shells};
use clap_complete::{ArgValueCandidates, ArgValueCompleter, CompletionCandidate, PathCompleter};
use clap_mangen::Man;
use clap_mangen::roff::{Roff, bold, roman};
use strum::VariantArray;

use super::failure::{Failure, shown};
use super::help;
use super::places;
use super::shared::Shared;
use crate::learner::LearnerName;
use crate::learner::course::CourseStep;
use crate::reply::{DICTIONARY, Form};
use crate::terminal::{Tone, config_file, data_folder};
use crate::voice::commands as words;
use crate::voice::handbook::{PAGES, Page, Shape, marked};

#[derive(Subcommand, Debug)]
pub(super) enum What {
    /// Print the script that lets a shell complete words of the command line
    Completions {
        /// The shell
        #[arg(value_name = "SHELL", value_parser = PossibleValuesParser::new(Shells::builtins().names()))]
        shell: String,
    },
    /// Write the handbook as manual pages into a folder
    Manual {
        /// The folder, which is made where there is none
        #[arg(value_name = "DIR")]
        folder: PathBuf,
    },
    /// Print the grammar of all that can be said, for a speech recognizer
    Grammar {
        /// What is awaited: the form of a reply, or prompt for none
        #[arg(value_name = "FORM", value_parser = PossibleValuesParser::new(forms()))]
        form: Option<String>,
    },
    /// Print the words of all grammars with their pronunciations
    Words,
    /// Print where the config file is, and one to begin with
    Config,
}

pub(super) fn run(what: &What, program: Command, shared: &Shared) -> Result<(), Failure> {
    let mut lines = Vec::new();
    match what {
        What::Completions { shell } => {
            let shells = Shells::builtins();
            let shell = shells.completer(shell).expect("the command line was read");
            let mut script = Vec::new();
            shell.write_registration(VARIABLE, NAME, NAME, NAME, &mut script)?;
            lines.push(String::from_utf8(script)?);
        }
        What::Manual { folder } => {
            let failed = |error| Failure::other_file(folder, "another folder", &error);
            manual(&help::taught(program, false), folder).map_err(failed)?;
            lines.push(words::manual_written(PAGES.len(), &shown(folder)));
        }
        What::Grammar { form } => lines.push(match form.as_deref().map(str::parse::<Form>) {
            None => shared.grammar().whole(),
            Some(form) => shared.grammar().of(form.ok().as_slice()),
        }),
        What::Words => lines.push(DICTIONARY.to_owned()),
        What::Config => {
            let path = config_file()
                .ok_or_else(|| Failure::unusable(words::NO_CONFIG_FOLDER))?
                .0;
            lines.push(words::config_file_at(&shown(&path)));
            let sample = Page::of("config").first(Shape::Sample).into_iter();
            lines.extend(sample.map(|line| format!("# {line}").trim_end().to_owned()));
        }
    }
    Ok(shared
        .screen()
        .say(Tone::Plain, lines.join("\n").trim_end())?)
}

/// Returns the names of what can be awaited.
fn forms() -> impl Iterator<Item = &'static str> {
    Form::VARIANTS.iter().map(<&str>::from).chain(["prompt"])
}

const NAME: &str = "sansvoir";
/// The variable by which a shell asks for completions.
const VARIABLE: &str = "COMPLETE";

/// Answers a shell that asks how a command line can go on, and ends; does nothing where none asks.
pub(super) fn complete(command: fn() -> Command) {
    CompleteEnv::with_factory(|| completing(command()))
        .var(VARIABLE)
        .complete();
}

/// Lets a command and those below it complete what no list of theirs holds: learners, steps and demo files.
fn completing(command: Command) -> Command {
    command.mut_args(completed).mut_subcommands(completing)
}

fn completed(arg: Arg) -> Arg {
    let steps = || candidates(CourseStep::ALL.map(<&str>::from));
    let names = arg.get_value_names().unwrap_or_default();
    let is_read = arg.is_positional() || arg.get_id() == "from";
    match names.first().map_or("", |name| name.as_str()) {
        "NAME" if arg.get_id() == "learner" => arg.add(ArgValueCandidates::new(learners)),
        "STEP" => arg.add(ArgValueCandidates::new(steps)),
        "FILE" if is_read => arg.add(ArgValueCompleter::new(|typed: &OsStr| files(typed, "pgn"))),
        "FILE.toml" => arg.add(ArgValueCompleter::new(|typed: &OsStr| files(typed, "toml"))),
        _ => arg,
    }
}

fn candidates(words: impl IntoIterator<Item: ToString>) -> Vec<CompletionCandidate> {
    let words = words.into_iter().map(|word| word.to_string());
    words.map(CompletionCandidate::new).collect()
}

fn learners() -> Vec<CompletionCandidate> {
    let folder = data_folder(None).ok();
    let names = folder.and_then(|folder| LearnerName::all_in(&folder).ok());
    candidates(names.unwrap_or_default())
}

/// Completes a path to what is on the disk, and to the demo files of a sort.
fn files(typed: &OsStr, ending: &str) -> Vec<CompletionCandidate> {
    let mut found = PathCompleter::any().complete(typed);
    let typed = typed.to_string_lossy();
    let is_meant = |name: &&str| name.ends_with(ending) && name.starts_with(&*typed);
    found.extend(candidates(places::demo_names().filter(is_meant)));
    found
}

/// Writes the handbook as manual pages: those of commands in section 1, the others in section 7.
fn manual(program: &Command, folder: &Path) -> io::Result<()> {
    fs::create_dir_all(folder)?;
    for page in PAGES {
        let (name, found) = match page.topic {
            "start" => (NAME.to_owned(), Some(program)),
            topic => (format!("{NAME}-{topic}"), program.find_subcommand(topic)),
        };
        let section = if found.is_some() { "1" } else { "7" };
        let told = found.cloned().unwrap_or_default().about(page.title());
        let man = Man::new(told.display_name(&name));
        let man = man.title(&name).section(section);
        let mut text = Vec::new();
        man.render_title(&mut text)?;
        man.render_name_section(&mut text)?;
        description(page).to_writer(&mut text)?;
        if found.is_some() {
            man.render_synopsis_section(&mut text)?;
            man.render_options_section(&mut text)?;
        }
        fs::write(folder.join(format!("{name}.{section}")), text)?;
    }
    Ok(())
}

/// Sets what stands on a page below its title as a manual page has it.
fn description(page: &Page) -> Roff {
    let mut roff = Roff::new();
    roff.control("SH", ["DESCRIPTION"]);
    for block in page.blocks().into_iter().skip(1) {
        match block.shape {
            Shape::Heading => {
                roff.control("SH", block.lines.iter().map(String::as_str));
                continue;
            }
            Shape::Text => roff.control("PP", []),
            Shape::Item => roff.control("IP", ["-", "2"]),
            Shape::Commands | Shape::Sample => roff.control("PP", []).control("nf", []),
        };
        for line in &block.lines {
            match block.shape {
                Shape::Commands | Shape::Sample => roff.text([roman(format!("    {line}"))]),
                Shape::Heading | Shape::Text | Shape::Item => {
                    roff.text(marked(line, roman, bold)).control("br", [])
                }
            };
        }
        roff.control("fi", []);
    }
    roff
}
