//! What only the operating system knows: the time, what cannot be foreseen, and where a learner's data and
//! wishes are.

use std::env;
use std::ffi::OsString;
use std::io::{self, IsTerminal, stderr};
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use etcetera::BaseStrategy;
use jiff::Timestamp;

/// Returns the present time.
pub(crate) fn now() -> Timestamp {
    Timestamp::now()
}

/// Returns a seed for the choices of a session.
///
/// It lies below 2^32: short enough to be read out and typed in again, and exact in every program
/// that reads JSON, many of which lose digits above 2^53.
///
/// # Errors
///
/// When the operating system has no entropy to give.
pub(crate) fn seed() -> io::Result<u64> {
    Ok(u64::from(getrandom::u32()?))
}

/// Returns a name for a new session: 16 hexadecimal digits that no other session has.
///
/// # Errors
///
/// When the operating system has no entropy to give.
pub(crate) fn session_name() -> io::Result<String> {
    Ok(format!("{:016x}", getrandom::u64()?))
}

/// How long nothing is said.
const PAUSE: Duration = Duration::from_secs(2);

/// The pace of a read. It speaks every two seconds, and only where standard error is a terminal.
#[derive(Debug)]
pub(crate) struct Progress {
    begun: Instant,
    next: Option<Instant>,
}

impl Progress {
    /// Begins now.
    pub(crate) fn begin() -> Progress {
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
    pub(crate) fn is_due(&mut self) -> bool {
        let now = Instant::now();
        let due = self.next.is_some_and(|next| next <= now);
        if due {
            self.next = Some(now + PAUSE);
        }
        due
    }

    /// Estimates the time that is left when `done` of `all` is done, in seconds.
    pub(crate) fn seconds_left(&self, done: u64, all: u64) -> Option<u64> {
        let so_far = self.begun.elapsed().as_millis();
        let left = u128::from(all.checked_sub(done)?) * so_far / u128::from(done.max(1));
        u64::try_from(left.div_ceil(1000)).ok()
    }
}

const VARIABLE: &str = "SANSVOIR_DATA";
const NAME: &str = "sansvoir";

/// There is no home folder to keep data in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "no home folder is known to keep the journal in: name a place with --data DIR or in {VARIABLE}"
)]
pub(crate) struct DataFolderError;

/// Returns the folder for the journals: the one given, else the one that `SANSVOIR_DATA` names, else
/// `sansvoir` in the user's data folder (XDG Base Directory Specification; on Windows `%APPDATA%`).
///
/// The folder need not exist yet.
///
/// # Errors
///
/// [`DataFolderError`] when nothing names a folder and the system knows no home.
pub(crate) fn data_folder(given: Option<&Path>) -> Result<PathBuf, DataFolderError> {
    let base = etcetera::choose_base_strategy().ok();
    let base = base.map(|base| base.data_dir());
    choose(given, env::var_os(VARIABLE), base)
}

/// Returns the place of the config file, and whether somebody named it: the one that `SANSVOIR_CONFIG`
/// names, else `sansvoir/config.toml` in the user's config folder (XDG Base Directory Specification; on
/// Windows `%APPDATA%`).
///
/// `None` where nothing names a file and the system knows no home: then there are no wishes.
pub(crate) fn config_file() -> Option<(PathBuf, bool)> {
    let named = env::var_os("SANSVOIR_CONFIG").filter(|file| !file.is_empty());
    if let Some(file) = named {
        return Some((PathBuf::from(file), true));
    }
    let base = etcetera::choose_base_strategy().ok()?;
    Some((base.config_dir().join(NAME).join("config.toml"), false))
}

/// Returns the user's home folder, which `~/` stands for; `None` where the system knows none.
pub(crate) fn home_folder() -> Option<PathBuf> {
    etcetera::home_dir().ok()
}

fn choose(
    given: Option<&Path>,
    variable: Option<OsString>,
    base: Option<PathBuf>,
) -> Result<PathBuf, DataFolderError> {
    let named = variable.filter(|folder| !folder.is_empty());
    given
        .map(Path::to_owned)
        .or_else(|| named.map(PathBuf::from))
        .or_else(|| base.map(|folder| folder.join(NAME)))
        .ok_or(DataFolderError)
}

#[cfg(test)]
mod tests {
    use std::collections::HashSet;

    use super::*;

    #[test]
    fn a_thousand_sessions_have_a_thousand_names() {
        let names: HashSet<String> = (0..1000).map(|_| session_name().unwrap()).collect();
        assert_eq!(names.len(), 1000);
        assert!(names.iter().all(|name| name.len() == 16));
    }

    #[test]
    fn seeds_differ_and_stay_short() {
        let seeds: HashSet<u64> = (0..100).map(|_| seed().unwrap()).collect();
        assert!(seeds.len() > 90);
        assert!(seeds.iter().all(|seed| *seed < 1 << 32));
    }

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

    fn chosen(given: Option<&str>, variable: Option<&str>, base: Option<&str>) -> Option<PathBuf> {
        let base = base.map(PathBuf::from);
        choose(given.map(Path::new), variable.map(OsString::from), base).ok()
    }

    #[test]
    fn the_option_comes_before_the_variable_and_the_variable_before_the_home() {
        let path = |text: &str| Some(PathBuf::from(text));
        assert_eq!(chosen(Some("a"), Some("b"), Some("c")), path("a"));
        assert_eq!(chosen(None, Some("b"), Some("c")), path("b"));
        assert_eq!(
            chosen(None, Some(""), Some("c")),
            Some(Path::new("c").join("sansvoir"))
        );
        assert_eq!(
            chosen(None, None, Some("c")),
            Some(Path::new("c").join("sansvoir"))
        );
    }

    #[test]
    fn without_any_home_the_remedy_is_named() {
        assert_eq!(chosen(None, None, None), None);
        let said = DataFolderError.to_string();
        assert!(said.contains("--data") && said.contains("SANSVOIR_DATA"));
    }
}
