//! A file of games that has been opened: unpacked on the way, and known again by its key.

use std::fs::{File, Metadata};
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::UNIX_EPOCH;

use super::demo;
use super::failure::Failure;
use crate::notation::{Collection, Encoding, Packing, unpacked};
use crate::terminal::games_from_input;

/// A file of games.
pub(super) struct Opened {
    pub(super) path: PathBuf,
    pub(super) packing: Packing,
    /// The size in bytes, as it lies there; `None` for what is no file on a disk.
    pub(super) size: Option<u64>,
    /// What the file is known by, as long as it does not change.
    pub(super) key: Option<Vec<u8>>,
    /// How many bytes have been read.
    pub(super) read: Arc<AtomicU64>,
    pub(super) reader: Box<dyn Read + Send>,
    encoding: Option<&'static Encoding>,
}

impl Opened {
    /// Opens a file; `-` is standard input.
    pub(super) fn new(path: &Path, encoding: Option<&'static Encoding>) -> Result<Opened, Failure> {
        let failed = |error| Failure::file(path, &error);
        let mut size = None;
        let mut key = None;
        let raw: Box<dyn Read + Send> = if path == Path::new("-") {
            games_from_input().map_err(failed)?
        } else if let Some(text) = demo::text(path) {
            Box::new(text.as_bytes())
        } else {
            let file = File::open(path).map_err(failed)?;
            let metadata = file.metadata().map_err(failed)?;
            if metadata.is_dir() {
                return Err(failed(io::ErrorKind::IsADirectory.into()));
            }
            if metadata.is_file() {
                size = Some(metadata.len());
                key = key_of(&metadata, encoding);
            }
            Box::new(file)
        };
        let read = Arc::new(AtomicU64::new(0));
        let counted = Counted {
            reader: raw,
            read: Arc::clone(&read),
        };
        let (packing, reader) = unpacked(counted).map_err(failed)?;
        Ok(Opened {
            path: path.to_owned(),
            packing,
            size,
            key,
            read,
            reader,
            encoding,
        })
    }

    /// Splits the file into games.
    pub(super) fn collection(&mut self) -> Collection<Box<dyn Read + Send>> {
        let reader = std::mem::replace(&mut self.reader, Box::new(io::empty()));
        let collection = Collection::new(reader);
        match self.encoding {
            None => collection,
            Some(encoding) => collection.encoded_in(encoding),
        }
    }

    /// Returns the encoding's name, or nothing.
    pub(super) fn encoding_name(&self) -> &'static str {
        self.encoding.map_or("", Encoding::name)
    }

    /// Tells whether the file is still the one that was opened.
    pub(super) fn is_unchanged(&self) -> bool {
        std::fs::metadata(&self.path).is_ok_and(|now| self.is_of(&now))
    }

    /// Tells whether these are the data of the file that was opened.
    pub(super) fn is_of(&self, metadata: &Metadata) -> bool {
        self.key.is_some() && key_of(metadata, self.encoding) == self.key
    }
}

/// Puts together what a file is known by: where it lies on the disk, its size and its times.
fn key_of(metadata: &Metadata, encoding: Option<&'static Encoding>) -> Option<Vec<u8>> {
    let modified = metadata.modified().ok()?.duration_since(UNIX_EPOCH).ok()?;
    let mut key = Vec::new();
    key.extend(metadata.len().to_le_bytes());
    key.extend(modified.as_nanos().to_le_bytes());
    #[cfg(unix)]
    {
        use std::os::unix::fs::MetadataExt;
        key.extend(metadata.dev().to_le_bytes());
        key.extend(metadata.ino().to_le_bytes());
        key.extend(metadata.ctime().to_le_bytes());
        key.extend(metadata.ctime_nsec().to_le_bytes());
    }
    key.extend(encoding.map_or("", Encoding::name).as_bytes());
    Some(key)
}

/// A reader that counts.
struct Counted<R> {
    reader: R,
    read: Arc<AtomicU64>,
}

impl<R: Read> Read for Counted<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let read = self.reader.read(buffer)?;
        self.read.fetch_add(read as u64, Ordering::Relaxed);
        Ok(read)
    }
}
