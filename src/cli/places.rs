//! Where games are taken from: the files and folders that were named, else the learner's own games, else
//! the demo games, which the program carries with it: what it recommends works in every folder.

use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, PoisonError};

use super::archives;
use super::failure::{Failure, shown, tell};
use crate::voice::{asides, commands as words, listed};

/// Returns the files of games that were named, or else the learner's own, every folder replaced by the files of games in it, in the order of their
/// names.
pub(super) fn files(named: &[PathBuf], own: &[PathBuf]) -> Result<Vec<PathBuf>, Failure> {
    let mut files = Vec::new();
    for place in named {
        if place.is_dir() {
            files.extend(inside(place)?);
        } else if place.is_file() {
            files.extend(unpacked(place.clone())?);
        } else {
            files.push(place.clone());
        }
    }
    if named.is_empty() {
        for place in own {
            match own_files(place) {
                Ok(found) => files.extend(found),
                Err(reason) => leave_out(place, &reason),
            }
        }
    }
    if files.is_empty() {
        files.push(PathBuf::from(CLUB));
    }
    Ok(files)
}

/// Says once that a place of the learner's own games is left out.
pub(super) fn leave_out(place: &Path, reason: &Failure) {
    let mut told = LEFT_OUT.lock().unwrap_or_else(PoisonError::into_inner);
    if told.insert(place.to_owned()) {
        tell(&listed::left_out(&reason.told(true), &shown(place)));
    }
}

/// Returns the files of the learner's own games, and then the demo games, as they stay right from whatever
/// folder a lesson goes on.
pub(super) fn own_then_demo(own: &[PathBuf]) -> Result<Vec<PathBuf>, Failure> {
    keep_quiet_of(Path::new(CLUB));
    let mut files = files(&[], own)?;
    files.extend((!own.is_empty()).then(|| PathBuf::from(CLUB)));
    files.iter().map(|file| lasting(file)).collect()
}

/// Tells whether neither a command nor the config file names games.
pub(super) fn are_demo(named: &[PathBuf], own: &[PathBuf]) -> bool {
    named.is_empty() && own.is_empty()
}

/// The files that the config file means by one of its places: they must be there, and end some day.
pub(super) fn own_files(place: &Path) -> Result<Vec<PathBuf>, Failure> {
    match fs::metadata(place) {
        Ok(found) if found.is_dir() => inside(place),
        Ok(found) if found.is_file() && found.len() > 0 => unpacked(place.to_owned()),
        Ok(found) if found.is_file() => Err(Failure::at(place, words::NO_GAME_IN)),
        Ok(_) => Err(no_file(place)),
        Err(error) => Err(Failure::file(place, &error)),
    }
}

/// Says that a pipe or a device stands where a file of games should.
pub(super) fn no_file(place: &Path) -> Failure {
    Failure::at(place, words::NO_FILE)
}

/// Returns the files of games in a folder; where it holds none itself, those in the folders in it.
fn inside(folder: &Path) -> Result<Vec<PathBuf>, Failure> {
    let are_games = |path: &PathBuf| {
        let ending = path.extension();
        let is_archive = ending.is_some_and(|ending| ending.eq_ignore_ascii_case("zip"));
        (archives::is_named_as_games(path) || is_archive) && path.is_file()
    };
    let here = entries(folder).map_err(|error| Failure::file(folder, &error))?;
    let mut files: Vec<PathBuf> = here
        .iter()
        .filter(|path| are_games(path))
        .cloned()
        .collect();
    if files.is_empty() {
        let below = here.iter().filter_map(|path| entries(path).ok());
        files.extend(below.flatten().filter(are_games));
    }
    let files: Vec<PathBuf> = files
        .into_iter()
        .map(unpacked)
        .collect::<Result<Vec<_>, _>>()?
        .concat();
    if files.is_empty() {
        return Err(Failure::at(folder, words::EMPTY_FOLDER));
    }
    Ok(files)
}

/// Returns what lies in a folder, in the order of the names.
fn entries(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let entries = fs::read_dir(folder)?.map(|entry| Ok(entry?.path()));
    let mut entries = entries.collect::<io::Result<Vec<_>>>()?;
    entries.sort();
    Ok(entries)
}

/// Returns the files of games in an archive, or the file that is none.
fn unpacked(path: PathBuf) -> Result<Vec<PathBuf>, Failure> {
    match archives::inside(&path) {
        Ok(Some(files)) if files.is_empty() => Err(Failure::at(&path, words::NO_GAME_IN)),
        Ok(Some(files)) => Ok(files),
        // What cannot be opened is told where it is read.
        Err(error) if error.kind() == io::ErrorKind::InvalidData => Err(Failure::at(&path, error)),
        Ok(None) | Err(_) => Ok(vec![path]),
    }
}

/// The games that are taken where none were named.
const CLUB: &str = "games-demo/club-evening.pgn";
/// The short games that end with a mate.
pub(super) const MINIATURES: &str = "games-demo/miniatures.pgn";
/// The folder that the demo files are named with.
const FOLDER: &str = "games-demo";

/// Includes files of that folder: their names and texts.
macro_rules! demo_files {
    ($($name:literal),+) => {
        [$(($name, include_str!(concat!("../../games-demo/", $name)))),+]
    };
}

/// The demo files: their names and texts.
const DEMOS: [(&str, &str); 6] = demo_files![
    "club-evening.pgn",
    "first-steps.pgn",
    "miniatures.pgn",
    "dialects.pgn",
    "first-lesson.toml",
    "club-group.toml"
];

/// Returns the names of the demo files.
pub(super) fn demo_names() -> impl Iterator<Item = &'static str> {
    DEMOS.iter().map(|(name, _)| *name)
}

/// Places of one's own games that hold none and of which that was said.
static LEFT_OUT: Mutex<BTreeSet<PathBuf>> = Mutex::new(BTreeSet::new());

/// Whether it was said of each that it comes with the program; once is enough.
static SAID: [AtomicBool; DEMOS.len()] = [const { AtomicBool::new(false) }; DEMOS.len()];

/// Finds the demo file of this name, with its folder or without, where no such file is on the disk.
fn find(path: &Path) -> Option<usize> {
    let name = path.strip_prefix(FOLDER).unwrap_or(path);
    let found = DEMOS.iter().position(|(demo, _)| Path::new(demo) == name);
    found.filter(|_| !path.exists())
}

/// Returns the text of a demo file, for where no such file is on the disk, and says that it is read.
pub(super) fn demo_text(path: &Path) -> Option<&'static str> {
    let demo = find(path)?;
    if !SAID[demo].swap(true, Ordering::Relaxed) {
        tell(&asides::from_the_program(&shown(path)));
    }
    Some(DEMOS[demo].1)
}

/// Says that a demo game is taken because none was named; of its file there is no more to say then.
pub(super) fn say_demo() {
    tell(asides::DEMO_GAMES);
    keep_quiet_of(Path::new(CLUB));
}

/// Says nothing of a demo file any more.
pub(super) fn keep_quiet_of(path: &Path) {
    if let Some(demo) = find(path) {
        SAID[demo].store(true, Ordering::Relaxed);
    }
}

/// Tells whether a demo file is meant.
pub(super) fn is_demo(path: &Path) -> bool {
    find(path).is_some()
}

/// Returns the usual path of the demo file that a lesson file means by `name`, if it means one.
pub(super) fn demo_path(name: &Path) -> Option<PathBuf> {
    find(name).map(|demo| Path::new(FOLDER).join(DEMOS[demo].0))
}

/// A path as it stays right from whatever folder a lesson goes on.
pub(super) fn lasting(path: &Path) -> Result<PathBuf, Failure> {
    if is_demo(path) {
        return Ok(path.to_owned());
    }
    let absolute = std::path::absolute(path).map_err(|error| Failure::file(path, &error))?;
    match absolute.to_str() {
        Some(_) => Ok(absolute),
        None => Err(Failure::at(path, words::NAME_IS_NO_TEXT)),
    }
}
