//! Opening files that are to be read whole: nothing that never ends, and nothing too large.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::Path;

/// Why something that is there is not read as a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum UnfitFile {
    /// A pipe, a socket or a device: to open it may take for ever, and so may to read it.
    #[error("this is a pipe or a device and no file: name a file")]
    NoFile,
    /// It is larger than anything that was meant.
    #[error("this file is far too long, for {most} bytes are the most: name another one")]
    TooLong {
        /// The most bytes that are read.
        most: u64,
    },
}

/// Opens a regular file of at most `most` bytes. A pipe or a device is refused before it is opened.
///
/// # Errors
///
/// What the system says; an error around [`UnfitFile`] for what is no regular file or too large, and
/// one of the kind [`io::ErrorKind::IsADirectory`] for a folder, on every system.
pub fn open_regular(path: &Path, most: u64) -> io::Result<File> {
    let found = fs::metadata(path)?;
    if found.is_dir() {
        return Err(io::ErrorKind::IsADirectory.into());
    }
    if !found.is_file() {
        return Err(io::Error::new(
            io::ErrorKind::InvalidInput,
            UnfitFile::NoFile,
        ));
    }
    if found.len() > most {
        return Err(too_long(most));
    }
    File::open(path)
}

/// Reads a regular file of at most `most` bytes whole; one that grows meanwhile is not read for ever.
///
/// # Errors
///
/// As [`open_regular`].
pub fn read_regular(path: &Path, most: u64) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    open_regular(path, most)?
        .take(most.saturating_add(1))
        .read_to_end(&mut bytes)?;
    if bytes.len() as u64 > most {
        return Err(too_long(most));
    }
    Ok(bytes)
}

fn too_long(most: u64) -> io::Error {
    io::Error::new(io::ErrorKind::FileTooLarge, UnfitFile::TooLong { most })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_of_the_most_bytes_is_read_and_one_of_more_is_refused() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a");
        fs::write(&path, "abc").unwrap();
        assert_eq!(read_regular(&path, 3).unwrap(), b"abc");
        let refused = read_regular(&path, 2).unwrap_err();
        assert_eq!(refused.kind(), io::ErrorKind::FileTooLarge);
        assert!(refused.to_string().contains("2 bytes are the most"));
    }

    #[test]
    fn a_folder_and_a_file_that_is_not_there_are_told_apart() {
        let folder = tempfile::tempdir().unwrap();
        let kind = |path: &Path| open_regular(path, 9).unwrap_err().kind();
        assert_eq!(kind(folder.path()), io::ErrorKind::IsADirectory);
        assert_eq!(kind(&folder.path().join("a")), io::ErrorKind::NotFound);
    }

    #[cfg(unix)]
    #[test]
    fn a_device_or_a_pipe_is_refused_at_once() {
        let folder = tempfile::tempdir().unwrap();
        let pipe = folder.path().join("pipe");
        let made = std::process::Command::new("mkfifo").arg(&pipe).status();
        assert!(made.unwrap().success());
        for path in [Path::new("/dev/zero"), &pipe] {
            let refused = open_regular(path, u64::MAX).unwrap_err();
            assert_eq!(refused.to_string(), UnfitFile::NoFile.to_string());
        }
    }
}
