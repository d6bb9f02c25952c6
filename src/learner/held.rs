//! The hold on a session: no two processes go on with it at once.

use std::ffi::OsString;
use std::fs::{self, File, TryLockError};
use std::io;
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use super::private::open_private;
use super::{Journal, JournalError, Record, Tail, name};

/// A session that this process alone may go on with, until this value is dropped or the process ends,
/// however that comes.
///
/// It is a lock on an empty file beside the journal, `JOURNAL.SESSION.lock`. The system takes the lock from
/// a process that is gone. The file goes with the hold; what a killed process leaves behind is empty, and goes
/// when the session is held again.
#[derive(Debug)]
pub struct Held {
    journal: Journal,
    session: String,
    /// `None` where no lock can be had: nothing can be appended there either, and that is told.
    _lock: Option<Lock>,
    /// What the journal has of this session.
    records: Vec<Record>,
    /// The journal as it was when this process last read or wrote it.
    seen: Option<Seen>,
}

#[derive(Debug)]
struct Lock {
    path: PathBuf,
    _file: File,
}

impl Drop for Lock {
    fn drop(&mut self) {
        // Still locked: nobody can hold the session by this file any more.
        let _ = fs::remove_file(&self.path);
    }
}

impl Journal {
    /// Takes hold of a session.
    ///
    /// # Errors
    ///
    /// [`JournalError::Held`] when another process, or another value in this one, holds it.
    pub fn hold(&self, session: &str) -> Result<Held, JournalError> {
        let path = self.beside(&format!(".{}{ENDING}", name::escaped(session)));
        let lock = match lock(&path) {
            Ok(lock) => Some(lock),
            Err(TryLockError::WouldBlock) => {
                return Err(JournalError::Held {
                    path: self.path().to_owned(),
                });
            }
            Err(TryLockError::Error(_)) => None,
        };
        Ok(Held {
            journal: self.clone(),
            session: session.to_owned(),
            _lock: lock,
            records: Vec::new(),
            seen: None,
        })
    }

    fn beside(&self, ending: &str) -> PathBuf {
        let mut path = OsString::from(self.path());
        path.push(ending);
        PathBuf::from(path)
    }
}

const ENDING: &str = ".lock";

fn lock(path: &Path) -> Result<Lock, TryLockError> {
    loop {
        let file = open_private(path).map_err(TryLockError::Error)?;
        file.try_lock()?;
        // The last holder may have removed the file between our opening it and our locking it.
        if is_at(&file, path) {
            return Ok(Lock {
                path: path.to_owned(),
                _file: file,
            });
        }
    }
}

#[cfg(unix)]
fn is_at(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let place = |found: fs::Metadata| (found.dev(), found.ino());
    let opened = file.metadata().map(place);
    opened.is_ok_and(|opened| fs::metadata(path).map(place).is_ok_and(|now| now == opened))
}

#[cfg(not(unix))]
fn is_at(_: &File, _: &Path) -> bool {
    // There a file that is open keeps its name.
    true
}

impl Held {
    /// Returns the session's name.
    #[must_use]
    pub fn session(&self) -> &str {
        &self.session
    }

    /// Returns the journal.
    #[must_use]
    pub const fn journal(&self) -> &Journal {
        &self.journal
    }

    /// Notes what the journal has of the session already, among its other records.
    pub fn has(&mut self, records: &[Record]) {
        let own = |record: &&Record| record.stamp().session == self.session;
        self.records = records.iter().filter(own).cloned().collect();
        self.seen = Seen::of(&self.journal).ok();
    }

    /// Appends a record of this session, as [`Journal::append`] does. Where the journal was deleted or
    /// replaced since the last time, all of the session that is not there is written anew.
    ///
    /// # Errors
    ///
    /// [`JournalError`] when the record is not safely on the disk.
    pub fn keep(&mut self, record: Record) -> Result<Tail, JournalError> {
        let is_lost = self.seen.is_some_and(|seen| !seen.is_there(&self.journal));
        self.records.push(record);
        let tail = match self.records.as_slice() {
            [.., last] if !is_lost => self.journal.append(last)?,
            records => {
                let there = self.journal.read()?.records;
                let mut missing = records.to_vec();
                missing.retain(|record| !there.contains(record));
                let tail = self.journal.append_all(&missing)?;
                if missing.len() > 1 { Tail::Anew } else { tail }
            }
        };
        self.seen = Seen::of(&self.journal).ok();
        Ok(tail)
    }
}

/// What a journal is known again by.
#[derive(Clone, Copy, Debug)]
struct Seen {
    length: u64,
    made: Option<SystemTime>,
    #[cfg(unix)]
    place: (u64, u64),
}

impl Seen {
    fn of(journal: &Journal) -> io::Result<Seen> {
        let found = fs::metadata(journal.path())?;
        Ok(Seen {
            length: found.len(),
            made: found.created().ok(),
            #[cfg(unix)]
            place: {
                use std::os::unix::fs::MetadataExt;
                (found.dev(), found.ino())
            },
        })
    }

    /// Tells whether the journal is still there, longer or not.
    fn is_there(self, journal: &Journal) -> bool {
        Seen::of(journal).is_ok_and(|now| {
            #[cfg(unix)]
            if now.place != self.place {
                return false;
            }
            now.made == self.made && now.length >= self.length
        })
    }
}
