//! Sessions that begin, and sessions that go on: each is held by one process at a time.

use std::fmt::Display;

use serde::de::DeserializeOwned;

use super::failure::Failure;
use super::shared::{Shared, records};
use crate::learner::{Held, Journal, Record, Unfinished};

/// A session that goes on in this process and in no other.
pub(super) struct Resumed {
    pub(super) held: Held,
    /// The journal as it was once the session was held.
    pub(super) records: Vec<Record>,
}

impl Shared {
    /// Takes hold of a new session.
    pub(super) fn hold_new(&self, journal: &Journal) -> Result<Held, Failure> {
        let session = self.session_name()?;
        journal.hold(&session).map_err(Failure::unusable)
    }

    /// Takes hold of the session to go on with; `None` where there is none.
    pub(super) fn take_up(
        &self,
        journal: &Journal,
        exercise: &str,
    ) -> Result<Option<Resumed>, Failure> {
        let mut before = records(journal)?;
        while let Some(left) = self.unfinished(&before, exercise) {
            let session = left.start.stamp.session.clone();
            let mut held = journal.hold(&session).map_err(Failure::unusable)?;
            // Until it was held, another process may have gone on with it.
            before = journal.read().map_err(Failure::unusable)?.records;
            let left = self.unfinished(&before, exercise);
            if left.is_some_and(|left| left.start.stamp.session == session) {
                held.has(&before);
                return Ok(Some(Resumed {
                    held,
                    records: before,
                }));
            }
        }
        Ok(None)
    }
}

impl Resumed {
    /// Returns what the journal says of the session.
    pub(super) fn earlier(
        &self,
        shared: &Shared,
        exercise: &str,
    ) -> Result<Unfinished<'_>, Failure> {
        let earlier = shared.unfinished(&self.records, exercise);
        earlier.ok_or_else(|| self.cannot_go_on("it is not there"))
    }

    /// Reads what the journal keeps of how the session goes.
    pub(super) fn setup<T: DeserializeOwned>(
        &self,
        earlier: &Unfinished<'_>,
    ) -> Result<T, Failure> {
        T::deserialize(&earlier.start.setup).map_err(|error| self.cannot_go_on(error))
    }

    /// Says why the session cannot go on as it stands in the journal, and on which line it begins there.
    pub(super) fn cannot_go_on(&self, reason: impl Display) -> Failure {
        let journal = self.held.journal();
        let line = journal.line_of_start(self.held.session());
        let line = line.map_or_else(String::new, |line| format!(":{line}"));
        Failure::Unusable(format!(
            "{}{line}: the session that begins here cannot go on ({reason}): leave out --resume to begin \
             a new one",
            journal.path().display()
        ))
    }
}
