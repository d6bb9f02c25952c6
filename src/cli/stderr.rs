//! What is told beside the sittings, on standard error.

use std::io::Write;
use std::sync::atomic::{AtomicBool, Ordering};

use crate::voice::clean;

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
    let _ = writeln!(std::io::stderr(), "{}", clean(sentence));
}
