//! Random tests beside the code: where the cases that fail are kept.

use proptest::test_runner::{Config, FileFailurePersistence};

/// Keeps under `tests` what fails, so that it is tried first from then on.
pub(crate) fn kept() -> Config {
    let place = FileFailurePersistence::SourceParallel("tests/proptest-regressions");
    Config::with_failure_persistence(place)
}
