//! The indexes in the cache folder. Whatever goes wrong with one, the work goes on without it.

mod space;

use std::ffi::OsString;
use std::fs::{self, File};
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use super::opened::Opened;
use crate::notation::{Block, Index, IndexWriter};
use crate::terminal::{cache_folder, open_regular};

/// Smaller files are read as quickly as their index, in bytes.
const WORTH_IT: u64 = 1 << 20;
/// No index is longer, in bytes.
const LONGEST: u64 = 64 << 30;
/// A file that was changed just now may change again within the same tick of its clock.
const SETTLED: Duration = Duration::from_secs(2);

/// Opens the index of a file, where there is one that is of the file as it is now.
pub(super) fn find(opened: &Opened) -> Option<Index<File>> {
    let key = opened.key.as_ref()?;
    let file = open_regular(&place(opened)?, LONGEST).ok()?;
    space::used(&file);
    Index::open(file, key)
}

/// Where the index of a file lies.
fn place(opened: &Opened) -> Option<PathBuf> {
    if opened.size? < WORTH_IT {
        return None;
    }
    let path = fs::canonicalize(&opened.path).ok()?;
    let named = [
        path.as_os_str().as_encoded_bytes(),
        b"\0",
        opened.encoding_name().as_bytes(),
    ]
    .concat();
    // FNV-1a: two files that share a name by chance only push each other out.
    let hash = named.iter().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3)
    });
    Some(cache_folder()?.join("index").join(format!("{hash:016x}")))
}

/// An index that is being written while the file is read.
pub(super) struct NewIndex {
    writer: IndexWriter<BufWriter<File>>,
    unfinished: Unfinished,
    place: PathBuf,
    as_written: bool,
}

/// A file that is gone unless it gets its name.
struct Unfinished(PathBuf);

impl Drop for Unfinished {
    fn drop(&mut self) {
        // It may have got its name.
        let _ = fs::remove_file(&self.0);
    }
}

impl NewIndex {
    /// Begins the index of a file, where one is worth it and can be kept.
    pub(super) fn begin(opened: &Opened) -> Option<NewIndex> {
        let place = place(opened)?;
        let modified = fs::metadata(&opened.path).ok()?.modified().ok()?;
        if SystemTime::now().duration_since(modified).ok()? < SETTLED {
            return None;
        }
        fs::create_dir_all(place.parent()?).ok()?;
        // Each process writes its own, and the last one to finish stays.
        let mut name = OsString::from(place.file_name()?);
        name.push(format!(".{}", std::process::id()));
        let unfinished = Unfinished(place.with_file_name(name));
        let file = File::create(&unfinished.0).ok()?;
        let out = BufWriter::with_capacity(1 << 18, file);
        Some(NewIndex {
            writer: IndexWriter::new(out, opened.key.as_deref()?).ok()?,
            unfinished,
            place,
            as_written: true,
        })
    }

    /// Adds the games of a block. Returns the index unless it cannot be written any more.
    pub(super) fn add(mut self, block: &Block) -> Option<NewIndex> {
        self.as_written &= block.is_as_written();
        self.writer.add(block).ok()?;
        Some(self)
    }

    /// Gives the index its name, if the file is still the same.
    pub(super) fn finish(self, opened: &Opened) -> Option<()> {
        let mut out = self.writer.finish(self.as_written).ok()?;
        out.flush().ok()?;
        if opened.is_unchanged() {
            rename(&self.unfinished.0, &self.place)?;
            space::clear(self.place.parent()?, SystemTime::now());
        }
        Some(())
    }
}

fn rename(from: &Path, to: &Path) -> Option<()> {
    fs::rename(from, to).ok()
}
