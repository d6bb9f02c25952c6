//! The space that indexes take: old ones make room, and what killed processes left behind goes.

use std::fs::{self, File, FileTimes};
use std::io::Read;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use crate::terminal::open_regular;

/// The most that all indexes together may take, in bytes; the one that was used last always stays.
const MOST: u64 = 512 << 20;
/// An unfinished index that nobody has written to for so long was left behind.
const LEFT_BEHIND: Duration = Duration::from_hours(24);
/// What every index begins with, of whatever version.
const BEGINNING: &[u8] = b"sansvoi";

/// Notes that an index has been used just now.
pub(super) fn used(index: &File) {
    // Where it cannot be noted, the index only seems older than it is.
    let _ = index.set_times(FileTimes::new().set_modified(SystemTime::now()));
}

/// Makes room in the folder of the indexes: removes unfinished ones that were left behind, and of the
/// finished ones those that have not been used for the longest time. Nothing else is touched.
pub(super) fn clear(folder: &Path, now: SystemTime) {
    clear_to(folder, now, MOST);
}

fn clear_to(folder: &Path, now: SystemTime, most: u64) {
    let Ok(entries) = fs::read_dir(folder) else {
        return;
    };
    let mut indexes: Vec<(SystemTime, u64, PathBuf)> = Vec::new();
    for entry in entries.flatten() {
        let path = entry.path();
        let name = entry.file_name();
        let Some(is_finished) = name.to_str().and_then(is_finished) else {
            continue;
        };
        // No link is followed out of the folder.
        let Ok(metadata) = fs::symlink_metadata(&path) else {
            continue;
        };
        let Ok(modified) = metadata.modified() else {
            continue;
        };
        if !metadata.is_file() || !is_ours(&path) {
            continue;
        }
        if is_finished {
            indexes.push((modified, metadata.len(), path));
        } else if now
            .duration_since(modified)
            .is_ok_and(|age| age > LEFT_BEHIND)
        {
            // Another process may have removed it meanwhile.
            let _ = fs::remove_file(path);
        }
    }
    indexes.sort();
    let mut taken = 0;
    for (at, (_, size, path)) in indexes.iter().rev().enumerate() {
        taken += size;
        if at > 0 && taken > most {
            let _ = fs::remove_file(path);
        }
    }
}

/// Tells a finished index by its name, 16 digits, from an unfinished one, behind whose name stands the
/// number of a process; `None` for any other file.
fn is_finished(name: &str) -> Option<bool> {
    let (name, process) = match name.split_once('.') {
        Some((name, process)) => (name, Some(process)),
        None => (name, None),
    };
    let is_small_hex = |byte: u8| matches!(byte, b'0'..=b'9' | b'a'..=b'f');
    let is_number = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let is_name = name.len() == 16 && name.bytes().all(is_small_hex);
    (is_name && process.is_none_or(is_number)).then_some(process.is_none())
}

/// Tells whether a file begins as an index does, as far as it was written.
fn is_ours(path: &Path) -> bool {
    let mut beginning = Vec::new();
    let read = open_regular(path, u64::MAX).and_then(|file| {
        file.take(BEGINNING.len() as u64)
            .read_to_end(&mut beginning)
    });
    read.is_ok() && (beginning.is_empty() || beginning == BEGINNING)
}

#[cfg(test)]
mod tests {
    use super::*;

    const NOW: Duration = Duration::from_secs(1_900_000_000);
    const HOUR: u64 = 3600;

    /// Writes a file that is so many hours old.
    fn file(folder: &Path, name: &str, text: &[u8], hours: u64) {
        let path = folder.join(name);
        fs::write(&path, text).unwrap();
        let file = File::options().write(true).open(path).unwrap();
        let then = SystemTime::UNIX_EPOCH + NOW - Duration::from_secs(hours * HOUR);
        file.set_modified(then).unwrap();
    }

    fn names(folder: &Path) -> Vec<String> {
        let entries = fs::read_dir(folder).unwrap();
        let mut names: Vec<String> = entries
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect();
        names.sort();
        names
    }

    #[test]
    fn what_was_left_behind_and_what_was_not_used_for_long_goes_and_nothing_else() {
        let folder = tempfile::tempdir().unwrap();
        let folder = folder.path();
        let index = [BEGINNING, [b'1'; 93].as_slice()].concat();
        file(folder, "00000000000000a1", &index, 1);
        file(folder, "00000000000000a2", &index, 30);
        file(folder, "00000000000000a3", &index, 200);
        file(folder, "00000000000000a4.77", &index, 23);
        file(folder, "00000000000000a4.78", &index, 25);
        file(folder, "00000000000000a5.79", b"", 25);
        // None of ours, however old.
        let others = [
            "00000000000000b1.txt",
            "00000000000000b2.",
            "00000000000000B3",
            "b4",
            "00000000000000b5.1.2",
        ];
        for other in others {
            file(folder, other, &index, 900);
        }
        file(folder, "00000000000000b6", b"a letter", 900);
        file(folder, "00000000000000b7.80", b"sans", 900);
        fs::create_dir(folder.join("00000000000000b8")).unwrap();
        let now = SystemTime::UNIX_EPOCH + NOW;
        let before = names(folder);
        clear_to(folder, now, 250);
        let gone = |name: &String| !names(folder).contains(name);
        let gone: Vec<&String> = before.iter().filter(|name| gone(name)).collect();
        assert_eq!(
            gone,
            [
                "00000000000000a3",
                "00000000000000a4.78",
                "00000000000000a5.79"
            ]
        );
        // The one that was used last stays, however large.
        clear_to(folder, now, 10);
        assert!(folder.join("00000000000000a1").exists());
        assert!(!folder.join("00000000000000a2").exists());
        clear(&folder.join("nowhere"), now);
    }
}
