//! Archives (.zip, APPNOTE.TXT 6.3): which files of games are in one, and how each is read on its own.

use std::io::{self, ErrorKind, Read, Seek, SeekFrom};
use std::path::{Component, Path, PathBuf};

use flate2::Crc;
use flate2::read::DeflateDecoder;
use zip::{CompressionMethod, ZipArchive};

/// The most files that an archive may hold: its list of them is kept in memory.
const MOST_FILES: u64 = 50_000;

/// The longest list of them, in bytes: 8 MiB.
const LONGEST_LIST: u64 = 8 << 20;

/// Why a whole archive is not read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
enum NotRead {
    /// It holds too many files.
    #[error(
        "this archive holds more than 50,000 files, or names that are too long: unpack it yourself and name the folder"
    )]
    TooMany,
    /// Its files lie over each other, as only those do that are made to burst.
    #[error("the files in this archive lie over each other: get it again from where it came")]
    Overlaps,
    /// A file in it is packed in a way that is not known here.
    #[error("this file is encrypted or packed in an uncommon way: unpack the archive yourself")]
    Uncommon,
    /// What was unpacked is not what was packed.
    #[error("this file of the archive is damaged: its checksum does not agree")]
    Checksum,
}

impl From<NotRead> for io::Error {
    fn from(why: NotRead) -> io::Error {
        io::Error::new(ErrorKind::InvalidData, why)
    }
}

/// An archive that has been opened.
#[derive(Debug)]
pub struct Archive<R> {
    zip: ZipArchive<R>,
    files: Vec<(PathBuf, usize)>,
}

impl<R: Read + Seek> Archive<R> {
    /// Opens an archive and lists the files in it whose names are those of games and lead nowhere out of it.
    /// `None` where the reader gives something else.
    ///
    /// # Errors
    ///
    /// What the reader says; that the archive is damaged or holds too much.
    pub fn open(mut reader: R, is_games: impl Fn(&Path) -> bool) -> io::Result<Option<Archive<R>>> {
        let mut head = Vec::new();
        reader.by_ref().take(4).read_to_end(&mut head)?;
        if !matches!(&head[..], b"PK\x03\x04" | b"PK\x05\x06") {
            return Ok(None);
        }
        let len = reader.seek(SeekFrom::End(0))?;
        let [count, start] = list(&mut reader, len)?;
        if count > MOST_FILES || len.saturating_sub(start) > LONGEST_LIST {
            return Err(NotRead::TooMany.into());
        }
        let zip = ZipArchive::new(reader)?;
        let (mut files, mut packed) = (Vec::new(), 0_u64);
        for index in 0..zip.len() {
            let entry = zip.by_index_data(index)?;
            packed = packed.saturating_add(entry.compressed_size());
            let name = entry.enclosed_name().filter(|name| {
                entry.is_file()
                    && is_games(name)
                    && name
                        .components()
                        .all(|part| matches!(part, Component::Normal(_)))
            });
            files.extend(name.map(|name| (name, index)));
        }
        if packed > len {
            return Err(NotRead::Overlaps.into());
        }
        files.sort();
        Ok(Some(Archive { zip, files }))
    }

    /// Returns the names of the files of games, in their order.
    pub fn files(&self) -> impl Iterator<Item = &Path> {
        self.files.iter().map(|(name, _)| name.as_path())
    }

    /// Reads one of its files, from a reader of the same archive; returns its packed size too. `None` where there is no such
    /// file.
    ///
    /// # Errors
    ///
    /// What the reader says; that the file cannot be unpacked.
    pub fn unpack<'a>(
        &mut self,
        name: &Path,
        mut reader: impl Read + Seek + Send + 'a,
    ) -> io::Result<Option<(u64, Box<dyn Read + Send + 'a>)>> {
        let Ok(at) = self
            .files
            .binary_search_by(|(file, _)| file.as_path().cmp(name))
        else {
            return Ok(None);
        };
        let entry = self.zip.by_index_raw(self.files[at].1)?;
        let (size, wanted) = (entry.compressed_size(), entry.crc32());
        let start = entry.data_start().filter(|_| !entry.encrypted());
        reader.seek(SeekFrom::Start(start.ok_or(NotRead::Uncommon)?))?;
        let packed = reader.take(size);
        let reader: Box<dyn Read + Send> = match entry.compression() {
            CompressionMethod::STORE => Box::new(packed),
            CompressionMethod::DEFLATE => Box::new(DeflateDecoder::new(packed)),
            _ => return Err(NotRead::Uncommon.into()),
        };
        let sum = Crc::new();
        Ok(Some((
            size,
            Box::new(Checked {
                reader,
                sum,
                wanted,
            }),
        )))
    }
}

/// Reads how many files an archive says that it holds, and where its list of them begins (4.3.14 to 4.3.16).
fn list(reader: &mut (impl Read + Seek), len: u64) -> io::Result<[u64; 2]> {
    /// The longest end of an archive: its record, the longest comment, and the place of a longer record.
    const END: u64 = 22 + 65_535 + 20;
    let number = |bytes: &[u8], at: usize, len: usize| {
        let bytes = bytes.get(at..at + len)?.iter().rev();
        Some(bytes.fold(0, |all, byte| all << 8 | u64::from(*byte)))
    };
    reader.seek(SeekFrom::Start(len.saturating_sub(END)))?;
    let mut end = Vec::new();
    reader.by_ref().take(END).read_to_end(&mut end)?;
    let found = memchr::memmem::rfind(&end, b"PK\x05\x06").unwrap_or(end.len());
    let count = number(&end, found + 10, 2).unwrap_or_default();
    let start = number(&end, found + 16, 4).unwrap_or(len);
    let far = memchr::memmem::rfind(&end, b"PK\x06\x07");
    let Some(far) = far.and_then(|at| number(&end, at + 8, 8)) else {
        return Ok([count, start]);
    };
    let mut record = Vec::new();
    reader.seek(SeekFrom::Start(far))?;
    reader.take(56).read_to_end(&mut record)?;
    let count = count.max(number(&record, 32, 8).unwrap_or(u64::MAX));
    Ok([count, start.min(number(&record, 48, 8).unwrap_or_default())])
}

/// A reader that compares at its end what it has read with a checksum.
struct Checked<R> {
    reader: R,
    sum: Crc,
    wanted: u32,
}

impl<R: Read> Read for Checked<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let read = self.reader.read(buffer)?;
        self.sum.update(&buffer[..read]);
        if read == 0 && !buffer.is_empty() && self.sum.sum() != self.wanted {
            return Err(NotRead::Checksum.into());
        }
        Ok(read)
    }
}
