//! A file of games that has been opened: unpacked on the way.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use super::demo;
use super::failure::Failure;
use crate::pgn::{Collection, Encoding, Packing, unpacked};
use crate::terminal::games_from_input;

/// A file of games.
pub(super) struct Opened {
    pub(super) packing: Packing,
    /// The size in bytes, as it lies there; `None` for what is no file on a disk.
    pub(super) size: Option<u64>,
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
            packing,
            size,
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
