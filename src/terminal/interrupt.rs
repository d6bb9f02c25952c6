//! Ctrl-C where the terminal makes it a signal, and the signals that ask the program to end.

use std::process;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicU32, Ordering};

use super::lines::Said;
use super::screen;

/// The interrupts that nobody has heard yet, and whether the program is to end.
#[derive(Clone, Debug, Default)]
pub(super) struct Interrupts {
    pub(super) unheard: Arc<AtomicU32>,
    /// Whether the program was asked to end.
    pub(super) ending: Arc<AtomicBool>,
    /// Whether somebody has heard that.
    heard_end: Arc<AtomicBool>,
}

impl Interrupts {
    /// Catches the signals for the rest of the program. `rouse` is called again and again from the moment
    /// when the program is asked to end until somebody hears of it.
    ///
    /// When a second Ctrl-C comes while the first is still unheard, the program hangs in something
    /// else than listening, and ends at once. That is the learner's own stop, hence exit code 0;
    /// every answer is in the journal by then.
    pub(super) fn catch(rouse: fn()) -> Result<Interrupts, ctrlc::Error> {
        let interrupts = Interrupts::default();
        let told = interrupts.clone();
        ctrlc::set_handler(move || {
            let is_ending = told.ending.load(Ordering::SeqCst);
            if !is_ending && told.unheard.fetch_add(1, Ordering::SeqCst) > 0 {
                leave_at_once();
            }
        })?;
        interrupts.clone().catch_end(rouse)?;
        Ok(interrupts)
    }

    /// Catches SIGTERM, and SIGHUP, which comes when the window of the terminal is closed. A second
    /// one ends the program at once, as does the first where nobody hears of it.
    #[cfg(unix)]
    fn catch_end(self, rouse: fn()) -> Result<(), ctrlc::Error> {
        use std::thread;
        use std::time::Duration;

        use signal_hook::consts::{SIGHUP, SIGTERM};
        use signal_hook::iterator::Signals;

        const GLANCE: Duration = Duration::from_millis(50);
        const GLANCES: usize = 60;

        let mut signals = Signals::new([SIGTERM, SIGHUP]).map_err(ctrlc::Error::System)?;
        thread::spawn(move || {
            for _ in signals.forever() {
                if self.ending.swap(true, Ordering::SeqCst) {
                    leave_at_once();
                }
                for _ in 0..GLANCES {
                    if self.heard_end.load(Ordering::SeqCst) {
                        break;
                    }
                    rouse();
                    thread::sleep(GLANCE);
                }
                if !self.heard_end.load(Ordering::SeqCst) {
                    leave_at_once();
                }
            }
        });
        Ok(())
    }

    #[cfg(not(unix))]
    fn catch_end(self, _: fn()) -> Result<(), ctrlc::Error> {
        Ok(())
    }

    /// Hears of what has come since the last time.
    pub(super) fn hear(&self) -> Option<Said> {
        if self.hear_end() {
            return Some(Said::End);
        }
        (self.unheard.swap(0, Ordering::SeqCst) > 0).then_some(Said::Interrupt)
    }

    /// Hears whether the program is to end.
    pub(super) fn hear_end(&self) -> bool {
        let ending = self.ending.load(Ordering::SeqCst);
        if ending {
            self.heard_end.store(true, Ordering::SeqCst);
        }
        ending
    }
}

fn leave_at_once() -> ! {
    screen::restore();
    process::exit(0);
}
