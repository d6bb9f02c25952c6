//! Where games are taken from: the files and folders that were named, else the learner's own games, else
//! the demo games.

use std::fs;
use std::path::{Path, PathBuf};

use super::config::Config;
use super::demo;
use super::failure::{Failure, shown};

/// Returns the files of games, every folder replaced by the files of games in it, in the order of their
/// names.
pub(super) fn files(named: &[PathBuf], config: &Config) -> Result<Vec<PathBuf>, Failure> {
    let mut files = Vec::new();
    for place in named {
        if place.is_dir() {
            files.extend(inside(place)?);
        } else {
            files.push(place.clone());
        }
    }
    if named.is_empty() {
        for place in &config.games {
            let own = own(place).map_err(|failure| failure.about("games of the config file"))?;
            files.extend(own);
        }
    }
    if files.is_empty() {
        files.push(PathBuf::from(demo::CLUB));
    }
    Ok(files)
}

/// Tells whether neither a command nor the config file names games.
pub(super) fn are_demo(named: &[PathBuf], config: &Config) -> bool {
    named.is_empty() && config.games.is_empty()
}

/// The files that the config file means by one of its places: they must be there, and end some day.
fn own(place: &Path) -> Result<Vec<PathBuf>, Failure> {
    let kind = fs::metadata(place)
        .map_err(|error| Failure::file(place, &error))?
        .file_type();
    if kind.is_dir() {
        inside(place)
    } else if kind.is_file() {
        Ok(vec![place.to_owned()])
    } else {
        Err(no_file(place))
    }
}

/// Says that a pipe or a device stands where a file of games should.
pub(super) fn no_file(place: &Path) -> Failure {
    Failure::Unusable(format!(
        "{}: this is a pipe or a device and no file: name a PGN file",
        shown(place)
    ))
}

fn inside(folder: &Path) -> Result<Vec<PathBuf>, Failure> {
    let failed = |error| Failure::file(folder, &error);
    let mut files = Vec::new();
    for entry in fs::read_dir(folder).map_err(failed)? {
        let path = entry.map_err(failed)?.path();
        if is_named_as_games(&path) && path.is_file() {
            files.push(path);
        }
    }
    if files.is_empty() {
        return Err(Failure::Unusable(format!(
            "{}: no PGN file lies in this folder: put one there, or name another folder or a file",
            shown(folder)
        )));
    }
    files.sort();
    Ok(files)
}

/// Tells whether a file is named as one of games, packed or not.
pub(super) fn is_named_as_games(path: &Path) -> bool {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let name = name.to_lowercase();
    let packed = [".gz", ".bz2", ".zst", ".xz"];
    let bare = packed.iter().find_map(|ending| name.strip_suffix(ending));
    let ending = Path::new(bare.unwrap_or(&name)).extension();
    ending.is_some_and(|ending| ending == "pgn")
}
