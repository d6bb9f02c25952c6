//! The lock on a session: no two processes go on with it at once.

use std::ffi::OsString;
use std::fs::{self, File, Metadata, TryLockError};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

use super::private::open_private;
use super::{Appended, Journal, JournalError, JournalProblem, Record, name};

/// A session that this process alone may go on with, until this value is dropped or the process ends,
/// however that comes.
///
/// It is a lock on an empty file beside the journal, `JOURNAL.SESSION.lock`. The system takes the lock from
/// a process that is gone. The file goes with the lock; what a killed process leaves behind is empty, and goes
/// when the session is locked again.
#[derive(Debug)]
pub struct SessionLock {
    journal: Journal,
    session: String,
    /// `None` where no lock can be had: nothing can be appended there either, and that is told.
    _lock: Option<Lock>,
    /// What the journal has of this session.
    records: Vec<Record>,
    /// The journal as it was when this process last read or wrote it.
    seen: Option<(Identity, u64)>,
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
    /// Locks a session.
    ///
    /// # Errors
    ///
    /// [`JournalProblem::SessionLocked`] when another process, or another value in this one, holds it.
    pub fn lock_session(&self, session: &str) -> Result<SessionLock, JournalError> {
        let mut path = OsString::from(self.path());
        path.push(format!(".{}.lock", name::escaped(session)));
        let lock = match lock(&PathBuf::from(path)) {
            Ok(lock) => Some(lock),
            Err(TryLockError::WouldBlock) => {
                return Err(JournalProblem::SessionLocked.at(self.path()));
            }
            Err(TryLockError::Error(_)) => None,
        };
        Ok(SessionLock {
            journal: self.clone(),
            session: session.to_owned(),
            _lock: lock,
            records: Vec::new(),
            seen: None,
        })
    }
}

fn lock(path: &Path) -> Result<Lock, TryLockError> {
    loop {
        let file = open_private(path).map_err(TryLockError::Error)?;
        file.try_lock()?;
        // The last holder may have removed the file between our opening it and our locking it.
        let opened = file.metadata().map(|found| identity(&found));
        let now = fs::metadata(path).map(|found| identity(&found));
        if opened.is_ok_and(|opened| now.is_ok_and(|now| now == opened)) {
            return Ok(Lock {
                path: path.to_owned(),
                _file: file,
            });
        }
    }
}

impl SessionLock {
    /// Returns the session's name.
    pub fn session(&self) -> &str {
        &self.session
    }

    /// Returns the journal.
    pub const fn journal(&self) -> &Journal {
        &self.journal
    }

    /// Notes what the journal has of the session already, among its other records.
    pub fn remember(&mut self, records: &[Record]) {
        let own = |record: &&Record| record.stamp().session == self.session;
        self.records = records.iter().filter(own).cloned().collect();
        self.seen = seen(&self.journal);
    }

    /// Appends a record of this session, as [`Journal::append`] does. Where the journal was deleted or
    /// replaced since the last time, all of the session that is not there is written anew.
    ///
    /// # Errors
    ///
    /// [`JournalError`] when the record is not safely on the disk.
    pub fn append(&mut self, record: Record) -> Result<Appended, JournalError> {
        let is_lost = self.seen.is_some_and(|(identity, length)| {
            // It may have grown under another process.
            seen(&self.journal).is_none_or(|now| now.0 != identity || now.1 < length)
        });
        self.records.push(record);
        let appended = match self.records.as_slice() {
            [.., last] if !is_lost => self.journal.append(last)?,
            records => {
                let there = self.journal.read()?.records;
                let mut missing = records.to_vec();
                missing.retain(|record| !there.contains(record));
                let appended = self.journal.append_all(&missing)?;
                if missing.len() > 1 {
                    Appended::WithLostRecords
                } else {
                    appended
                }
            }
        };
        self.seen = seen(&self.journal);
        Ok(appended)
    }
}

/// What a journal is known again by, and its length.
fn seen(journal: &Journal) -> Option<(Identity, u64)> {
    let found = fs::metadata(journal.path()).ok()?;
    Some((identity(&found), found.len()))
}

/// What tells a file from another one under the same name: when it was made, and where it lies on the disk, as
/// far as the system tells.
type Identity = (Option<SystemTime>, Option<(u64, u64)>);

fn identity(found: &Metadata) -> Identity {
    #[cfg(unix)]
    let place = {
        use std::os::unix::fs::MetadataExt;
        Some((found.dev(), found.ino()))
    };
    #[cfg(not(unix))]
    let place = None;
    (found.created().ok(), place)
}
