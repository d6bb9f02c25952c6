//! The time of day.

use jiff::Timestamp;

/// Returns the present time.
#[must_use]
pub fn now() -> Timestamp {
    Timestamp::now()
}
