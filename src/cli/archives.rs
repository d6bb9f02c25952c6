//! Archives of games: the files in them have paths that go on behind the archive's own.

use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

use crate::pgn::Archive;

/// The archive that was read last, since its files are read one after the other.
static LAST: Mutex<Option<(PathBuf, Archive<File>)>> = Mutex::new(None);

/// Returns the paths of the files of games in an archive; `None` where the file is none.
pub(super) fn inside(path: &Path) -> io::Result<Option<Vec<PathBuf>>> {
    let Some(archive) = Archive::open(File::open(path)?, is_named_as_games)? else {
        return Ok(None);
    };
    let files = archive.files().map(|file| path.join(file)).collect();
    let mut last = LAST.lock().unwrap_or_else(PoisonError::into_inner);
    *last = Some((path.to_owned(), archive));
    Ok(Some(files))
}

/// Opens a file in an archive; returns its packed size too. `None` where the path leads into none.
pub(super) fn open(path: &Path) -> io::Result<Option<(u64, Box<dyn Read + Send>)>> {
    let Some(archive) = path.ancestors().skip(1).find(|above| above.is_file()) else {
        return Ok(None);
    };
    let name = path.strip_prefix(archive).unwrap_or(path);
    let is_open =
        |last: &Option<(PathBuf, _)>| last.as_ref().is_some_and(|(path, _)| path == archive);
    if !is_open(&LAST.lock().unwrap_or_else(PoisonError::into_inner)) {
        inside(archive)?;
    }
    let mut last = LAST.lock().unwrap_or_else(PoisonError::into_inner);
    match last.as_mut().filter(|(path, _)| path == archive) {
        Some((_, found)) => found.unpack(name, File::open(archive)?),
        None => Ok(None),
    }
}

/// Tells whether a file is named as one of games or of positions, packed or not.
pub(super) fn is_named_as_games(path: &Path) -> bool {
    ending(path).is_some_and(|ending| ending == "pgn") || is_named_as_positions(path)
}

/// Tells whether a file is named as one of positions, packed or not.
pub(super) fn is_named_as_positions(path: &Path) -> bool {
    ending(path).is_some_and(|ending| ending == "epd" || ending == "fen")
}

/// The ending of a file's name in lower case, that of its packing left out.
fn ending(path: &Path) -> Option<String> {
    let name = path.file_name()?.to_string_lossy().to_lowercase();
    let packed = [".gz", ".bz2", ".zst", ".xz"];
    let bare = packed.iter().find_map(|ending| name.strip_suffix(ending));
    let (_, ending) = bare.unwrap_or(&name).rsplit_once('.')?;
    Some(ending.to_owned())
}
