//! `journal`: where a learner's answers are kept, a copy of them, and the answers of another machine.

use std::fs;
use std::io::ErrorKind;
use std::path::PathBuf;

use clap::{Args, Subcommand};

use super::failure::Failure;
use super::shared::{Shared, tell_broken};
use crate::learner::{JournalProblem, LearnerName};
use crate::terminal::{Tone, open_regular, write_files};
use crate::voice::journal as words;

/// The longest journal that is merged, in bytes: the answers of many years.
const LONGEST: u64 = 512 << 20;

/// The options of `journal`; its page of the handbook says what it does.
#[derive(Args, Debug)]
#[command(disable_help_subcommand = true)]
pub(super) struct Arguments {
    #[command(subcommand)]
    way: Option<Way>,
}

#[derive(Subcommand, Debug)]
enum Way {
    /// Copy the journal to a new file
    Copy {
        /// The file
        file: PathBuf,
    },
    /// Bring in the answers of these journals that are not here yet; nothing is counted twice
    Merge {
        /// Copies of journals
        #[arg(required = true, value_name = "FILE")]
        files: Vec<PathBuf>,
        /// Bring in the sessions of this learner too, who is the same one under another name
        #[arg(long, value_name = "NAME")]
        from: Vec<LearnerName>,
    },
}

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let journal = shared.journal()?;
    let mut screen = shared.screen();
    match &arguments.way {
        None => {
            let path = journal.path().display().to_string();
            screen.say(Tone::Plain, &words::place(&path, journal.path().exists()))?;
        }
        Some(Way::Copy { file }) => {
            let text = match fs::read_to_string(journal.path()) {
                Ok(text) => text,
                Err(error) if error.kind() == ErrorKind::NotFound => {
                    let reason = words::nothing_to_copy(&shared.learner()?);
                    return Err(Failure::Unusable(reason));
                }
                Err(reason) => {
                    return Err(JournalProblem::Unreadable(reason).at(journal.path()).into());
                }
            };
            // A line that was cut off by a crash is no record, and none is made of it elsewhere.
            let whole = text.rfind('\n').map_or(0, |end| end + 1);
            write_files(&[(Some(file), &text[..whole])])?;
            screen.say(Tone::Plain, &words::copied(text[..whole].lines().count()))?;
        }
        Some(Way::Merge { files, from }) => {
            for path in files {
                open_regular(path, LONGEST)
                    .map_err(|error| Failure::other_file(path, "a journal in it", &error))?;
                let merged = journal.merge(path, from)?;
                tell_broken(path, &merged.broken);
                let name = path.display().to_string();
                if merged.added + merged.known == 0 {
                    return Err(Failure::Unusable(words::no_journal(&name)));
                }
                let said = words::merged(&name, merged.added, merged.known, merged.broken.cut);
                screen.say(Tone::Plain, &said)?;
            }
        }
    }
    Ok(())
}
