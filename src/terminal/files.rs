//! Files that are written whole or not at all, and files that are read only where they end soon.

use std::fs::{self, File};
use std::io::{self, BufWriter, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};

use tempfile::{Builder, NamedTempFile};

use super::screen::ScreenError;
use crate::voice::page::MADE_BY;

/// Why a text cannot be written.
#[derive(Debug, thiserror::Error)]
pub(crate) enum WriteError {
    /// A file is there already.
    #[error("{}: this file is there already: name another one, or delete it first", .0.display())]
    Exists(PathBuf),
    /// A folder has that name.
    #[error("{}: this is a folder: name a file in it", .0.display())]
    Folder(PathBuf),
    /// The folder that the file is to stand in is not there.
    #[error("{}: there is no such folder: make it, or name another file", .0.display())]
    NoFolder(PathBuf),
    /// The file cannot be written.
    #[error("{path}: this file cannot be written ({reason}): name another one, or see whether the disk is full", path = .0.display(), reason = .1)]
    Unwritable(PathBuf, io::Error),
    /// Standard output cannot be written.
    #[error(transparent)]
    Output(#[from] ScreenError),
}

impl WriteError {
    /// Tells why this file cannot be written.
    pub(super) fn unwritable(path: &Path) -> impl Fn(io::Error) -> WriteError + use<> {
        let path = path.to_owned();
        move |reason| WriteError::Unwritable(path.clone(), reason)
    }
}

/// Writes texts to files, or to standard output where none is named. Each file is whole on the disk before it
/// gets its name, and no file gets its name before all are written; what is no file (a device, a pipe) is
/// written to as it is.
///
/// # Errors
///
/// [`WriteError`]; where a file is there already, nothing is written.
pub(crate) fn write_files(pages: &[(Option<&Path>, &str)]) -> Result<(), WriteError> {
    let is_device =
        |path: &Path| fs::metadata(path).is_ok_and(|found| !found.is_file() && !found.is_dir());
    let mut files = Vec::new();
    let mut at_once = Vec::new();
    for (path, text) in pages {
        match path.filter(|path| !is_device(path)) {
            Some(path) if is_made_anew(path, text) => {
                let path = path.to_owned();
                files.push((NewFile::in_place(path)?, text));
            }
            Some(path) => files.push((NewFile::begin(path)?, text)),
            None => at_once.push((path, text)),
        }
    }
    for (file, text) in &mut files {
        file.write(text)?;
        file.sync()?;
    }
    for (path, text) in at_once {
        write_at_once(*path, text)?;
    }
    files.into_iter().try_for_each(|(file, _)| file.finish())
}

/// Tells whether a page takes the place of one that the program wrote, where it may be made anew.
fn is_made_anew(path: &Path, text: &str) -> bool {
    const HEAD: usize = 1 << 10;
    let says =
        |text: &[u8]| memchr::memmem::find(&text[..text.len().min(HEAD)], MADE_BY.as_bytes());
    if says(text.as_bytes()).is_none() || !fs::metadata(path).is_ok_and(|found| found.is_file()) {
        return false;
    }
    let mut head = Vec::new();
    let read = File::open(path).and_then(|file| file.take(HEAD as u64).read_to_end(&mut head));
    read.is_ok() && says(&head).is_some()
}

fn write_at_once(path: Option<&Path>, text: &str) -> Result<(), WriteError> {
    let Some(path) = path else {
        let mut out = io::stdout().lock();
        let written = out.write_all(text.as_bytes()).and_then(|()| out.flush());
        return written.map_err(|error| WriteError::Output(error.into()));
    };
    let file = File::options().write(true).open(path);
    file.and_then(|mut file| file.write_all(text.as_bytes()))
        .map_err(WriteError::unwritable(path))
}

/// A file that is written bit by bit, and has no name before it is whole.
#[derive(Debug)]
pub(crate) struct NewFile {
    path: PathBuf,
    /// Whether it takes the place of a file.
    replaces: bool,
    file: BufWriter<NamedTempFile>,
}

impl NewFile {
    /// Begins the file that will be called `path`.
    ///
    /// # Errors
    ///
    /// [`WriteError`]; where a file is there already, too.
    pub(crate) fn begin(path: &Path) -> Result<NewFile, WriteError> {
        let path = path.to_owned();
        match fs::metadata(&path) {
            Ok(found) if found.is_dir() => Err(WriteError::Folder(path)),
            Ok(found) if found.is_file() => Err(WriteError::Exists(path)),
            Ok(_) | Err(_) => Ok(NewFile {
                replaces: false,
                ..NewFile::in_place(path)?
            }),
        }
    }

    /// Begins the file that will take the place of the one at `path`, readable for whom that one was.
    ///
    /// # Errors
    ///
    /// [`WriteError`]
    pub(crate) fn in_place(path: PathBuf) -> Result<NewFile, WriteError> {
        let file = unnamed(folder_of(&path), &path)?;
        if let Ok(found) = fs::metadata(&path) {
            let kept = file.as_file().set_permissions(found.permissions());
            kept.map_err(WriteError::unwritable(&path))?;
        }
        Ok(NewFile {
            file: BufWriter::new(file),
            path,
            replaces: true,
        })
    }

    /// Writes more.
    ///
    /// # Errors
    ///
    /// [`WriteError::Unwritable`]
    pub(crate) fn write(&mut self, text: &str) -> Result<(), WriteError> {
        let written = self.file.write_all(text.as_bytes());
        written.map_err(WriteError::unwritable(&self.path))
    }

    /// Sees to it that all is on the disk.
    fn sync(&mut self) -> Result<(), WriteError> {
        let flushed = self.file.flush();
        let synced = flushed.and_then(|()| self.file.get_ref().as_file().sync_all());
        synced.map_err(WriteError::unwritable(&self.path))
    }

    /// Gives the file its name.
    ///
    /// # Errors
    ///
    /// [`WriteError`]: then no file is made, and one that came meanwhile is as it was.
    pub(crate) fn finish(mut self) -> Result<(), WriteError> {
        self.sync()?;
        let unwritable = WriteError::unwritable(&self.path);
        let file = self.file.into_inner();
        let file = file.map_err(|error| unwritable(error.into_error()))?;
        let named = if self.replaces {
            file.persist(&self.path)
        } else {
            file.persist_noclobber(&self.path)
        };
        if let Err(error) = named {
            return Err(match error.error.kind() {
                ErrorKind::AlreadyExists => WriteError::Exists(self.path),
                _ => unwritable(error.error),
            });
        }
        // The name outlives a power loss only once its folder is on the disk, where that can be said.
        if let Ok(folder) = File::open(folder_of(&self.path)) {
            let _ = folder.sync_all();
        }
        Ok(())
    }
}

/// Makes a file under a name that is nobody's, in the folder of the file that it will be.
fn unnamed(folder: &Path, path: &Path) -> Result<NamedTempFile, WriteError> {
    let mut builder = Builder::new();
    builder.prefix(".sansvoir-");
    // As any new file, readable for whom the user lets read.
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        builder.permissions(fs::Permissions::from_mode(0o666));
    }
    builder
        .tempfile_in(folder)
        .map_err(|reason| match reason.kind() {
            ErrorKind::NotFound => WriteError::NoFolder(folder.to_owned()),
            _ => WriteError::unwritable(path)(reason),
        })
}

fn folder_of(path: &Path) -> &Path {
    path.parent()
        .filter(|folder| !folder.as_os_str().is_empty())
        .unwrap_or(Path::new("."))
}

/// Opens a regular file of at most `most` bytes. A pipe or a device is refused before it is opened: to open
/// it may take for ever, and so may to read it.
///
/// # Errors
///
/// What the system says; what is no regular file or too large is told so, and a folder is an error of the
/// kind [`io::ErrorKind::IsADirectory`], on every system.
pub(crate) fn open_regular(path: &Path, most: u64) -> io::Result<File> {
    let found = fs::metadata(path)?;
    if found.is_dir() {
        return Err(ErrorKind::IsADirectory.into());
    }
    if !found.is_file() {
        return Err(io::Error::new(
            ErrorKind::InvalidInput,
            "this is a pipe or a device and no file: name a file",
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
pub(crate) fn read_regular(path: &Path, most: u64) -> io::Result<Vec<u8>> {
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
    let said =
        format!("this file is far too long, for {most} bytes are the most: name another one");
    io::Error::new(ErrorKind::FileTooLarge, said)
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
            assert_eq!(
                refused.to_string(),
                "this is a pipe or a device and no file: name a file"
            );
        }
    }
}
