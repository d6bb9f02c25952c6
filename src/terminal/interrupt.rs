//! Ctrl-C, where the terminal makes it a signal.

use std::process;
use std::sync::Arc;
use std::sync::atomic::{AtomicU32, Ordering};

/// The interrupts that nobody has heard yet.
#[derive(Clone, Debug, Default)]
pub(super) struct Interrupts(Arc<AtomicU32>);

impl Interrupts {
    /// Catches the signal for the rest of the program and calls `wake` at each one.
    ///
    /// When a second one comes while the first is still unheard, the program hangs in something
    /// else than listening, and ends at once. That is the learner's own stop, hence exit code 0;
    /// every answer is in the journal by then.
    pub(super) fn catch(wake: impl Fn() + Send + 'static) -> Result<Interrupts, ctrlc::Error> {
        let interrupts = Interrupts::default();
        let unheard = interrupts.clone();
        ctrlc::set_handler(move || {
            if unheard.0.fetch_add(1, Ordering::SeqCst) > 0 {
                process::exit(0);
            }
            wake();
        })?;
        Ok(interrupts)
    }

    /// Hears of what has come since the last time.
    pub(super) fn hear(&self) -> bool {
        self.0.swap(0, Ordering::SeqCst) > 0
    }

    #[cfg(test)]
    pub(super) fn come(&self) {
        self.0.fetch_add(1, Ordering::SeqCst);
    }
}
