//! Where a learner's data and wishes are.

use std::env;
use std::ffi::OsString;
use std::path::{Path, PathBuf};

use etcetera::BaseStrategy;

const VARIABLE: &str = "SANSVOIR_DATA";
const NAME: &str = "sansvoir";
const CONFIG_VARIABLE: &str = "SANSVOIR_CONFIG";
const CONFIG: &str = "config.toml";

/// There is no home folder to keep data in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "no home folder is known to keep the journal in: name a place with --data DIR or in {VARIABLE}"
)]
pub struct DataFolderError;

/// Returns the folder for the journals: the one given, else the one that `SANSVOIR_DATA` names, else
/// `sansvoir` in the user's data folder (XDG Base Directory Specification; on Windows `%APPDATA%`).
///
/// The folder need not exist yet.
///
/// # Errors
///
/// [`DataFolderError`] when nothing names a folder and the system knows no home.
pub fn data_folder(given: Option<&Path>) -> Result<PathBuf, DataFolderError> {
    choose(given, env::var_os(VARIABLE), || {
        etcetera::choose_base_strategy()
            .ok()
            .map(|base| base.data_dir())
    })
}

/// Returns the place of the config file, and whether somebody named it: the one that `SANSVOIR_CONFIG`
/// names, else `sansvoir/config.toml` in the user's config folder (XDG Base Directory Specification; on
/// Windows `%APPDATA%`).
///
/// `None` where nothing names a file and the system knows no home: then there are no wishes.
#[must_use]
pub fn config_file() -> Option<(PathBuf, bool)> {
    let named = env::var_os(CONFIG_VARIABLE).filter(|file| !file.is_empty());
    if let Some(file) = named {
        return Some((PathBuf::from(file), true));
    }
    let base = etcetera::choose_base_strategy().ok()?;
    Some((base.config_dir().join(NAME).join(CONFIG), false))
}

/// Returns the user's home folder, which `~/` stands for; `None` where the system knows none.
#[must_use]
pub fn home_folder() -> Option<PathBuf> {
    etcetera::home_dir().ok()
}

fn choose(
    given: Option<&Path>,
    variable: Option<OsString>,
    base: impl FnOnce() -> Option<PathBuf>,
) -> Result<PathBuf, DataFolderError> {
    let named = variable.filter(|folder| !folder.is_empty());
    given
        .map(Path::to_owned)
        .or_else(|| named.map(PathBuf::from))
        .or_else(|| base().map(|folder| folder.join(NAME)))
        .ok_or(DataFolderError)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn chosen(given: Option<&str>, variable: Option<&str>, base: Option<&str>) -> Option<PathBuf> {
        let base = || base.map(PathBuf::from);
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
