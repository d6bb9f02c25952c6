//! Pages that are written whole or not at all.

use std::fs::{self, File};
use std::io::{self, BufWriter, ErrorKind, Write};
use std::path::{Path, PathBuf};

use tempfile::{Builder, NamedTempFile};

use super::ScreenError;

/// A text, and the file that it goes to; without one, standard output.
#[derive(Clone, Copy, Debug)]
pub struct Page<'a> {
    /// The file.
    pub path: Option<&'a Path>,
    /// The text.
    pub text: &'a str,
}

/// Why pages cannot be written.
#[derive(Debug, thiserror::Error)]
pub enum PageError {
    /// A file is there already.
    #[error("{}: this file is there already: name another one, or overwrite it with --force", path.display())]
    Exists {
        /// The file.
        path: PathBuf,
    },
    /// A folder has that name.
    #[error("{}: this is a folder: name a file in it", path.display())]
    Folder {
        /// The folder.
        path: PathBuf,
    },
    /// The folder that the file is to stand in is not there.
    #[error("{}: there is no such folder: make it, or name another file", path.display())]
    NoFolder {
        /// The folder.
        path: PathBuf,
    },
    /// The file cannot be written.
    #[error("{}: this file cannot be written ({reason}): name another one, or see whether the disk is full", path.display())]
    Unwritable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        reason: io::Error,
    },
    /// Standard output cannot be written.
    #[error(transparent)]
    Output(#[from] ScreenError),
}

/// Writes pages. Each file is whole on the disk before it gets its name, and no file gets its name
/// before all are written; what is no file (a device, a pipe) is written to as it is.
///
/// # Errors
///
/// [`PageError`]; where a file is there already and `overwrite` is not wished, nothing is written.
pub fn write_pages(pages: &[Page<'_>], overwrite: bool) -> Result<(), PageError> {
    let mut ready = Vec::new();
    let mut at_once = Vec::new();
    for page in pages {
        match page.path {
            None => at_once.push(*page),
            Some(path) => match fs::metadata(path) {
                Ok(found) if found.is_dir() => {
                    return Err(PageError::Folder {
                        path: path.to_owned(),
                    });
                }
                Ok(found) if found.is_file() && !overwrite => {
                    return Err(PageError::Exists {
                        path: path.to_owned(),
                    });
                }
                Ok(found) if !found.is_file() => at_once.push(*page),
                // A link is followed, so that the file behind it is overwritten and not the link.
                Ok(_) => ready.push((path, fs::canonicalize(path), page.text)),
                Err(_) => ready.push((path, Ok(path.to_owned()), page.text)),
            },
        }
    }
    let mut written = Vec::new();
    for (path, target, text) in ready {
        let unwritable = |reason| PageError::Unwritable {
            path: path.to_owned(),
            reason,
        };
        let target = target.map_err(unwritable)?;
        written.push((path, write_beside(&target, path, text)?, target));
    }
    for page in at_once {
        write_at_once(page)?;
    }
    for (path, file, target) in written {
        name(file, &target, path, overwrite)?;
    }
    Ok(())
}

/// A file that is written bit by bit, and has no name before it is whole.
#[derive(Debug)]
pub struct NewFile {
    path: PathBuf,
    target: PathBuf,
    file: BufWriter<NamedTempFile>,
    overwrite: bool,
}

impl NewFile {
    /// Begins the file that will be called `path`.
    ///
    /// # Errors
    ///
    /// [`PageError`]; where a file is there already and `overwrite` is not wished, too.
    pub fn begin(path: &Path, overwrite: bool) -> Result<NewFile, PageError> {
        let owned = || path.to_owned();
        match fs::metadata(path) {
            Ok(found) if found.is_dir() => return Err(PageError::Folder { path: owned() }),
            Ok(found) if found.is_file() && !overwrite => {
                return Err(PageError::Exists { path: owned() });
            }
            Ok(_) | Err(_) => {}
        }
        let target = fs::canonicalize(path).unwrap_or_else(|_| owned());
        Ok(NewFile {
            path: owned(),
            file: BufWriter::new(nameless(&target, path)?),
            target,
            overwrite,
        })
    }

    /// Writes more.
    ///
    /// # Errors
    ///
    /// [`PageError::Unwritable`]
    pub fn write(&mut self, text: &str) -> Result<(), PageError> {
        let written = self.file.write_all(text.as_bytes());
        written.map_err(|reason| self.unwritable(reason))
    }

    /// Gives the file its name.
    ///
    /// # Errors
    ///
    /// [`PageError`]: then the file is not there, or the one that was there is as it was.
    pub fn finish(mut self) -> Result<(), PageError> {
        let flushed = self.file.flush();
        let synced = flushed.and_then(|()| self.file.get_ref().as_file().sync_all());
        synced.map_err(|reason| self.unwritable(reason))?;
        let (path, target) = (self.path.clone(), self.target);
        let unwritable = |reason| PageError::Unwritable {
            path: path.clone(),
            reason,
        };
        let file = self.file.into_inner();
        let file = file.map_err(|error| unwritable(error.into_error()))?;
        name(file, &target, &path, self.overwrite)
    }

    fn unwritable(&self, reason: io::Error) -> PageError {
        PageError::Unwritable {
            path: self.path.clone(),
            reason,
        }
    }
}

/// Gives a file its name.
fn name(file: NamedTempFile, target: &Path, path: &Path, overwrite: bool) -> Result<(), PageError> {
    let kept = if overwrite {
        file.persist(target)
    } else {
        file.persist_noclobber(target)
    };
    kept.map_err(|error| match error.error.kind() {
        ErrorKind::AlreadyExists => PageError::Exists {
            path: path.to_owned(),
        },
        _ => PageError::Unwritable {
            path: path.to_owned(),
            reason: error.error,
        },
    })?;
    // The name outlives a power loss only once its folder is on the disk, where that can be said.
    if let Ok(folder) = File::open(folder_of(target)) {
        let _ = folder.sync_all();
    }
    Ok(())
}

/// Makes a file under a name that is nobody's, in the folder of the file that it will be.
fn nameless(target: &Path, path: &Path) -> Result<NamedTempFile, PageError> {
    let folder = folder_of(target);
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
            ErrorKind::NotFound => PageError::NoFolder {
                path: folder.to_owned(),
            },
            _ => PageError::Unwritable {
                path: path.to_owned(),
                reason,
            },
        })
}

/// Writes a text under a name that is nobody's, in the folder of the file that it will be.
fn write_beside(target: &Path, path: &Path, text: &str) -> Result<NamedTempFile, PageError> {
    let mut file = nameless(target, path)?;
    let written = file.write_all(text.as_bytes());
    let synced = written.and_then(|()| file.as_file().sync_all());
    synced.map_err(|reason| PageError::Unwritable {
        path: path.to_owned(),
        reason,
    })?;
    Ok(file)
}

fn write_at_once(page: Page<'_>) -> Result<(), PageError> {
    let Some(path) = page.path else {
        let mut out = io::stdout().lock();
        let written = out
            .write_all(page.text.as_bytes())
            .and_then(|()| out.flush());
        return written.map_err(|error| PageError::Output(error.into()));
    };
    let write = || -> io::Result<()> {
        let mut file = File::options().write(true).open(path)?;
        file.write_all(page.text.as_bytes())?;
        file.flush()
    };
    write().map_err(|reason| PageError::Unwritable {
        path: path.to_owned(),
        reason,
    })
}

fn folder_of(path: &Path) -> &Path {
    path.parent()
        .filter(|folder| !folder.as_os_str().is_empty())
        .unwrap_or(Path::new("."))
}
