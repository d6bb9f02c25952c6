//! What ends a command, and the exit code that says so; and what is told beside the sittings.

use std::error::Error;
use std::fmt::Display;
use std::io;
use std::path::Path;
use std::process::ExitCode;
use std::sync::atomic::{AtomicBool, Ordering};

use crate::exercise::PlanError;
use crate::pgn::{Packing, TooPacked};
use crate::terminal::{ListenError, ScreenError, WriteError, print_styled};
use crate::voice::{asides, clean, clean_line, commands as words};

/// Why a command ends early.
#[derive(Debug)]
pub(super) enum Failure {
    /// The command line asks for something that does not fit together.
    Usage(String),
    /// A file, a game or a journal cannot be used.
    Unusable(String),
    /// A text file cannot be used because of one place in it.
    AtPlace {
        /// The place as an editor shows it, what is wrong there, and the line with the place marked.
        marked: String,
        /// All of it in one sentence.
        plainly: String,
    },
    /// Questions that a coach wrote cannot be asked: which, counted from 0, the key at fault, and why.
    OwnQuestions(Vec<(usize, (&'static str, String))>),
    /// A check found games that could not be kept whole; all has been said already.
    GamesAtFault,
    /// The learner stopped the search for mates; that has been said already.
    SearchStopped,
    /// The reader of our output has gone: there is nobody to tell.
    OutputClosed,
}

impl Failure {
    /// Says what is wrong; where all is plain, nothing is drawn.
    pub(super) fn told(&self, plain: bool) -> String {
        match self {
            Failure::Usage(said) | Failure::Unusable(said) => said,
            Failure::AtPlace { plainly, .. } if plain => plainly,
            Failure::AtPlace { marked, .. } => marked,
            Failure::OwnQuestions(wrong) => {
                let said: Vec<&str> = wrong.iter().map(|(_, (_, said))| said.as_str()).collect();
                return said.join("\n");
            }
            Failure::GamesAtFault => "some games could not be kept whole",
            Failure::SearchStopped => asides::NOT_SEARCHED_THROUGH,
            Failure::OutputClosed => "the output was closed",
        }
        .to_owned()
    }

    /// Wraps anything that makes a file, a game or a journal unusable.
    pub(super) fn unusable(error: impl Display) -> Failure {
        Failure::Unusable(error.to_string())
    }

    /// Says why what lies at a path cannot be used, and what to do.
    pub(super) fn at(path: &Path, reason: impl Display) -> Failure {
        Failure::unusable(reason).about(&shown(path))
    }

    /// Says why a file of games cannot be opened or read, and what to do.
    pub(super) fn file(path: &Path, error: &io::Error) -> Failure {
        Failure::other_file(path, "a PGN file in it", error)
    }

    /// Says that a file could not be read to its end.
    pub(super) fn broken(
        path: &Path,
        packing: Packing,
        games: usize,
        error: &io::Error,
    ) -> Failure {
        let asks_too_much = error
            .get_ref()
            .is_some_and(<dyn Error + Send + Sync>::is::<TooPacked>);
        if packing == Packing::Plain || asks_too_much {
            return Failure::file(path, error);
        }
        let error = clean_line(&error.to_string());
        Failure::at(path, words::damaged(packing, games, &error))
    }

    /// Says why a file cannot be opened or read; `wanted` is what to name instead of a folder.
    pub(super) fn other_file(path: &Path, wanted: &str, error: &io::Error) -> Failure {
        match error.kind() {
            io::ErrorKind::NotFound => Failure::at(path, words::NO_SUCH_FILE),
            io::ErrorKind::IsADirectory => Failure::at(path, words::folder(wanted)),
            io::ErrorKind::PermissionDenied => Failure::at(path, words::UNREADABLE),
            _ => Failure::at(path, error),
        }
    }

    /// Names what the failure is about, before the reason.
    pub(super) fn about(self, what: &str) -> Failure {
        match self {
            Failure::Unusable(reason) => Failure::Unusable(format!("{what}: {reason}")),
            other => other,
        }
    }

    /// Names the line of a file that holds a command which cannot be carried out.
    pub(super) fn unusable_about(self, what: &str) -> Failure {
        match self {
            Failure::Usage(reason) => Failure::Unusable(reason).about(what),
            other => other.about(what),
        }
    }

    /// Wraps a sentence about a command line that asks for what does not fit together.
    pub(super) fn usage(sentence: impl Into<String>) -> Failure {
        Failure::Usage(sentence.into())
    }

    /// Returns the exit code: 1 when something could not be used, 2 for a usage error, 0 when the
    /// output was closed.
    pub(super) fn exit_code(&self) -> ExitCode {
        match self {
            Failure::Usage(_) => ExitCode::from(2),
            Failure::SearchStopped | Failure::OutputClosed => ExitCode::SUCCESS,
            Failure::Unusable(_)
            | Failure::AtPlace { .. }
            | Failure::OwnQuestions(_)
            | Failure::GamesAtFault => ExitCode::FAILURE,
        }
    }
}

/// Whatever fails makes something unusable, save that the reader of our output has gone, or that options leave
/// nothing to ask.
impl<E: Error + 'static> From<E> for Failure {
    fn from(error: E) -> Failure {
        use ScreenError::Closed;

        let error: &(dyn Error + 'static) = &error;
        if matches!(error.downcast_ref(), Some(Closed))
            || matches!(error.downcast_ref(), Some(ListenError::Screen(Closed)))
            || matches!(error.downcast_ref(), Some(WriteError::Output(Closed)))
        {
            Failure::OutputClosed
        } else if let Some(PlanError::NothingToAsk) = error.downcast_ref() {
            Failure::usage(error.to_string())
        } else {
            Failure::unusable(error)
        }
    }
}

/// A path as a user reads it: `-` is standard input, and nothing in a name steers the terminal.
pub(super) fn shown(path: &Path) -> String {
    if path == Path::new("-") {
        "(standard input)".to_owned()
    } else {
        clean_line(&path.to_string_lossy())
    }
}

/// Whether something was told beside the sittings.
static TOLD: AtomicBool = AtomicBool::new(false);

/// Notes that something was told beside the sittings.
pub(super) fn note_told() {
    TOLD.store(true, Ordering::Relaxed);
}

/// Tells whether something was told that the learner has to read before it goes from sight.
pub(super) fn something_was_told() -> bool {
    TOLD.swap(false, Ordering::Relaxed)
}

/// Writes a sentence to standard error, without anything that could steer a terminal (the name of a
/// file can hold it); where standard error is closed, nobody is there to be told.
pub(super) fn tell(sentence: &str) {
    note_told();
    let _ = print_styled(&clean(sentence), true, true);
}
