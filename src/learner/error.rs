//! What can be wrong with a journal.

use std::io;
use std::path::{Path, PathBuf};

/// Why a journal cannot be used.
#[derive(Debug, thiserror::Error)]
#[error("{}: {problem}", path.display())]
pub struct JournalError {
    /// The journal, or the folder that it should stand in.
    pub path: PathBuf,
    /// What is wrong there, and what to do about it.
    pub problem: JournalProblem,
}

/// What is wrong with a journal.
#[derive(Debug, thiserror::Error)]
pub enum JournalProblem {
    /// A later version of the program has written into the journal.
    #[error(
        "line {line} was written by a later version of sansvoir (its records have version \
         {version}): use that version, or begin another journal with --learner or --data; nothing \
         was changed"
    )]
    Newer {
        /// The line, counted from 1.
        line: usize,
        /// The version that the line states.
        version: u64,
    },
    /// A journal that was to be merged holds a session of another learner.
    #[error(
        "line {line} begins a session of another learner, {learner:?}: bring it into that learner's \
         journal with --learner, or, where both names are one person's, give this one with --from; \
         nothing was brought in"
    )]
    OtherLearner {
        /// The line, counted from 1.
        line: usize,
        /// The learner's name as it stands there.
        learner: String,
    },
    /// A folder has the journal's name.
    #[error(
        "a folder stands where the journal should be: move it away, or name another place with --data"
    )]
    Folder,
    /// A pipe or a device has the journal's name.
    #[error(
        "something that is no file stands where the journal should be: move it away, or name \
         another place with --data"
    )]
    NotAFile,
    /// A record is longer, with so many bytes, than any that would be read again.
    #[error(
        "this session is too long for the journal (a line of {0} bytes): read a part of the \
         game with --from and --to, or leave out --sidelines"
    )]
    TooLong(usize),
    /// The folder for the journal is not there and cannot be made.
    #[error("there can be no folder here for the journal ({0}): name another place with --data")]
    FolderNotMade(io::Error),
    /// The journal is there and cannot be read.
    #[error(
        "this journal cannot be read ({0}): make it readable, or name another place with --data"
    )]
    Unreadable(io::Error),
    /// The journal cannot be written to.
    #[error(
        "this journal cannot be written ({0}): make it writable, or name another place with --data"
    )]
    Unwritable(io::Error),
    /// There is no space left for the journal.
    #[error(
        "there is no space left for this journal ({0}): make some, or name another place \
         with --data; the answers before this one are kept"
    )]
    Full(io::Error),
    /// Another process goes on with the session.
    #[error(
        "this session is open at this moment in another window or on another machine: go on \
         there, or say stop there first; leave out --resume to begin another one"
    )]
    SessionLocked,
    /// The journal cannot be locked against other writers.
    #[error(
        "this journal cannot be locked against a second writer ({0}): name a place on a \
         local disk with --data"
    )]
    Unlockable(io::Error),
}

impl JournalProblem {
    /// Says of which file or folder this is told.
    pub fn at(self, path: &Path) -> JournalError {
        JournalError {
            path: path.to_owned(),
            problem: self,
        }
    }
}

impl JournalError {
    pub(super) fn reading(path: &Path, reason: io::Error) -> JournalError {
        JournalError::of(path, reason, JournalProblem::Unreadable)
    }

    pub(super) fn writing(path: &Path, reason: io::Error) -> JournalError {
        JournalError::of(path, reason, JournalProblem::Unwritable)
    }

    fn of(path: &Path, reason: io::Error, other: fn(io::Error) -> JournalProblem) -> JournalError {
        use io::ErrorKind::{
            FileTooLarge, IsADirectory, NotADirectory, QuotaExceeded, StorageFull,
        };
        let problem = match reason.kind() {
            IsADirectory => JournalProblem::Folder,
            NotADirectory => JournalProblem::FolderNotMade(reason),
            StorageFull | QuotaExceeded | FileTooLarge => JournalProblem::Full(reason),
            _ => other(reason),
        };
        problem.at(path)
    }
}

/// So many broken lines of a journal are told one by one at most; the others are counted.
const MOST_TOLD: usize = 10;

/// A line in the midst of a journal that is no record; it is passed over and left as it is.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("line {line} cannot be read ({reason}): it is skipped and left as it is")]
pub struct BrokenLine {
    /// The line, counted from 1.
    pub line: usize,
    /// What is wrong with it.
    pub reason: String,
}

/// The lines of a journal that are no records, lines cut off by a crash left out.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BrokenLines {
    /// The first ten.
    pub first: Vec<BrokenLine>,
    /// How many there are.
    pub count: usize,
    /// Whether the last line of all was cut off.
    pub cut: bool,
}

impl BrokenLines {
    pub(super) fn add(&mut self, line: usize, reason: String) {
        if self.first.len() < MOST_TOLD {
            self.first.push(BrokenLine { line, reason });
        }
        self.count += 1;
    }

    /// Takes the line back that was added last: a seal has told of it before.
    pub(super) fn forgive(&mut self, line: usize) {
        self.first.retain(|broken| broken.line != line);
        self.count -= 1;
    }
}

pub(super) const NO_OBJECT: &str = "it is no whole JSON object";

/// Says what is wrong with the JSON; the place within the line would be taken for one in the file.
pub(super) fn reason(error: &serde_json::Error) -> String {
    if !error.is_data() {
        return NO_OBJECT.to_owned();
    }
    let said = error.to_string();
    let end = said.rfind(" at line ").unwrap_or(said.len());
    let field = said[..end].strip_prefix("missing field `");
    match field.and_then(|field| field.strip_suffix('`')) {
        Some(field) => missing(field),
        None => printable(&said[..end]),
    }
}

pub(super) fn missing(field: &str) -> String {
    format!("the field {field} is missing")
}

/// Writes what cannot be printed, or would steer a terminal, by its number: an error quotes the line's own text.
fn printable(text: &str) -> String {
    let mut printable = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '"' | '\'' | '\\' => printable.push(c),
            c => printable.extend(c.escape_debug()),
        }
    }
    printable
}
