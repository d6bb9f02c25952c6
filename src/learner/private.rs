//! Files and folders that nobody but their owner may look into: a journal holds what a child has answered.

use std::fs::{DirBuilder, File, OpenOptions};
use std::io;
use std::path::Path;

/// Windows locks no file that was opened for appending alone.
pub(super) fn appending() -> OpenOptions {
    let mut options = OpenOptions::new();
    options.read(true).append(true);
    options
}

/// Opens a file for appending that its owner alone may read, and makes it with its folder where it is not
/// there.
pub(super) fn open_private(path: &Path) -> io::Result<File> {
    if let Some(folder) = path.parent() {
        make_folder(folder)?;
    }
    let mut options = appending();
    options.create(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(path)
}

/// Makes a folder that its owner alone may look into; one that is there stays as it is.
pub(super) fn make_folder(folder: &Path) -> io::Result<()> {
    let mut builder = DirBuilder::new();
    builder.recursive(true);
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.create(folder)
}

/// Takes a file from the eyes of others, where that can be done.
pub(super) fn make_private(file: &File) {
    #[cfg(unix)]
    if let Ok(found) = file.metadata() {
        use std::os::unix::fs::PermissionsExt;
        let mode = found.permissions().mode();
        if mode & 0o077 != 0 {
            let _ = file.set_permissions(std::fs::Permissions::from_mode(mode & 0o700));
        }
    }
    #[cfg(not(unix))]
    let _ = file;
}
