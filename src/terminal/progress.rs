//! When to say how far a long read has come.

use std::io::{IsTerminal, stderr};
use std::time::{Duration, Instant};

/// How long nothing is said.
const PAUSE: Duration = Duration::from_secs(2);

/// The pace of a read. It speaks every two seconds, and only where standard error is a terminal.
#[derive(Debug)]
pub struct Progress {
    begun: Instant,
    next: Option<Instant>,
}

impl Progress {
    /// Begins now.
    #[must_use]
    pub fn begin() -> Progress {
        Progress::on(stderr().is_terminal())
    }

    fn on(terminal: bool) -> Progress {
        let begun = Instant::now();
        Progress {
            begun,
            next: terminal.then(|| begun + PAUSE),
        }
    }

    /// Tells whether it is time to say something; then not again for two seconds.
    pub fn is_due(&mut self) -> bool {
        let now = Instant::now();
        let due = self.next.is_some_and(|next| next <= now);
        if due {
            self.next = Some(now + PAUSE);
        }
        due
    }

    /// Estimates the time that is left when `done` of `all` is done, in seconds.
    #[must_use]
    pub fn seconds_left(&self, done: u64, all: u64) -> Option<u64> {
        let so_far = self.begun.elapsed().as_millis();
        let left = u128::from(all.checked_sub(done)?) * so_far / u128::from(done.max(1));
        u64::try_from(left.div_ceil(1000)).ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_said_before_two_seconds_or_where_nobody_looks() {
        assert!(!Progress::on(true).is_due());
        let mut late = Progress::on(true);
        late.next = Some(late.begun);
        assert!(late.is_due());
        assert!(!late.is_due());
        let mut blind = Progress::on(false);
        assert!(!blind.is_due());
    }

    #[test]
    fn no_time_is_left_when_all_is_done() {
        let progress = Progress::on(true);
        assert_eq!(progress.seconds_left(7, 7), Some(0));
        assert_eq!(progress.seconds_left(8, 7), None);
    }
}
