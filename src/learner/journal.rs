//! The file of a learner's answers.

use std::fs::{self, File};
use std::io::{self, BufRead, BufReader, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use super::line::{self, Reading};
use super::private::{appending, make_folder, make_private, open_private};
use super::{BrokenLine, JournalError, LearnerName, Record, SealRecord, Stamp};

/// The longest line that is written and read, in bytes; all but sessions of huge games are far shorter.
const LONGEST_LINE: u64 = 32 << 20;

/// The journal of one learner: a file to which whole lines are appended, and nothing else is done.
///
/// Nothing is held open between two calls, so that the file can be copied, moved or restored at
/// any time, and several programs can write to it in turn.
///
/// ```
/// use jiff::Timestamp;
/// use sansvoir::learner::{EndRecord, Journal, LearnerName, Record, Stamp, Tail};
/// # let folder = tempfile::tempdir()?;
/// # let folder = folder.path();
///
/// let journal = Journal::open(folder, &"Ana Petrov".parse::<LearnerName>()?)?;
/// let time: Timestamp = "2026-03-01T18:20:04Z".parse()?;
/// let end = Record::End(EndRecord {
///     stamp: Stamp::new(time, "5f1c"),
///     finished: true,
///     heard: 24,
///     looks: 0,
/// });
/// assert_eq!(journal.append(&end)?, Tail::Whole);
/// assert_eq!(journal.read()?.records, [end]);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug)]
pub struct Journal {
    path: PathBuf,
}

/// What a journal holds.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Contents {
    /// The records, oldest first.
    pub records: Vec<Record>,
    /// The lines that are no records, lines cut off by a crash left out.
    pub broken: Vec<BrokenLine>,
    /// How many records are of a type or kind that only a later build knows.
    pub unknown: usize,
}

/// How the end of the journal was found when a record was appended.
#[must_use]
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tail {
    /// It ended with a whole line.
    Whole,
    /// Its last line had been cut off by a crash or power loss. That line is now sealed off: the
    /// learner should be told this once, and no later reading speaks of it again.
    Sealed,
    /// The journal had been deleted or replaced in mid-session, and all of the session that it lacked was
    /// written anew: the learner should be told.
    Anew,
}

impl Journal {
    /// Finds the journal of a learner in the data folder; neither needs to exist yet.
    ///
    /// # Errors
    ///
    /// [`JournalError`] when something else stands in its place, when it cannot be read, or when
    /// its last line was written by a later version.
    pub fn open(folder: &Path, learner: &LearnerName) -> Result<Journal, JournalError> {
        let journal = Journal {
            path: folder.join(learner.file_name()),
        };
        if journal.ends_with_newer()? {
            journal.read()?;
        }
        Ok(journal)
    }

    /// Returns the path of the file.
    #[must_use]
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Returns the name of the file, which is one learner's alone.
    pub(super) fn file_name(&self) -> String {
        let name = self.path.file_name().unwrap_or_default();
        name.to_string_lossy().into_owned()
    }

    /// Appends a record and waits until it is on the disk, but for a start, which waits for the next one.
    ///
    /// The line is written whole in one go, under a lock that keeps other writers out. The folder
    /// and the file are made when they are not there.
    ///
    /// # Errors
    ///
    /// [`JournalError`] when the record is not safely on the disk.
    pub fn append(&self, record: &Record) -> Result<Tail, JournalError> {
        self.append_all(std::slice::from_ref(record))
    }

    /// Appends several records in one go, as [`Journal::append`] does one: all of them, or none where
    /// the disk is full.
    ///
    /// # Errors
    ///
    /// [`JournalError`] when the records are not safely on the disk.
    pub fn append_all(&self, records: &[Record]) -> Result<Tail, JournalError> {
        let Some(first) = records.first() else {
            return Ok(Tail::Whole);
        };
        let lines: Vec<String> = records.iter().map(line::write).collect();
        self.append_text(
            &lines,
            first.stamp(),
            !matches!(records, [Record::Start(_)]),
        )
    }

    /// Appends lines that are records already, all of them or none where the disk is full.
    pub(super) fn append_lines(&self, lines: &[String]) -> Result<Tail, JournalError> {
        let stamp = lines
            .iter()
            .find_map(|text| match line::read(text.as_bytes()) {
                Reading::Record(record) => Some(record.stamp().clone()),
                Reading::Unknown | Reading::Newer(_) | Reading::Broken(_) => None,
            });
        match stamp {
            Some(stamp) => self.append_text(lines, &stamp, true),
            None => Ok(Tail::Whole),
        }
    }

    /// Appends lines in one go; the stamp is that of a seal, where the last line was cut off.
    fn append_text(
        &self,
        lines: &[String],
        stamp: &Stamp,
        flush: bool,
    ) -> Result<Tail, JournalError> {
        let unwritable = |reason| JournalError::writing(&self.path, reason);
        let mut written = String::new();
        for line in lines {
            if line.len() as u64 >= LONGEST_LINE {
                return Err(JournalError::TooLong {
                    path: self.path.clone(),
                    bytes: line.len(),
                });
            }
            written.push_str(line);
            written.push('\n');
        }
        let mut file = self.open_to_append()?;
        file.lock().map_err(|reason| JournalError::Unlockable {
            path: self.path.clone(),
            reason,
        })?;
        let tail = tail(&mut file).map_err(unwritable)?;
        let mut text = String::new();
        if tail == Tail::Sealed {
            let stamp = stamp.clone();
            text.push('\n');
            text.push_str(&line::write(&Record::Seal(SealRecord { stamp })));
            text.push('\n');
        }
        text.push_str(&written);
        let length = file.metadata().map_err(unwritable)?.len();
        file.write_all(text.as_bytes()).map_err(|reason| {
            // One record that is cut off is sealed at the next; of several, some would stay.
            if lines.len() > 1 {
                let _ = file.set_len(length);
            }
            unwritable(reason)
        })?;
        // A start promises nothing yet; the next flush brings it along, and the first prompt comes
        // without waiting for the disk.
        if flush {
            file.sync_data().map_err(unwritable)?;
        }
        Ok(tail)
    }

    /// Reads the whole journal; one that is not there yet is empty.
    ///
    /// A line that was cut off by a crash is passed over without a word when it is the last line or
    /// when it has been sealed off. Records of an unknown type, and answers of an unknown kind, are
    /// passed over and counted: they are of a later build that shares this build's version. The case
    /// of an answer is read only on demand ([`super::CaseText::read`]).
    ///
    /// # Errors
    ///
    /// [`JournalError`] when the file cannot be read or holds records of a later version.
    pub fn read(&self) -> Result<Contents, JournalError> {
        let Some(file) = self.open_to_read()? else {
            return Ok(Contents::default());
        };
        let mut contents = Contents::default();
        let mut lines = Lines::new(file);
        loop {
            let next = lines.next();
            let Some(text) = next.map_err(|reason| JournalError::reading(&self.path, reason))?
            else {
                return Ok(contents);
            };
            let reading = match text {
                Text::Whole(text) if text.trim_ascii().is_empty() => continue,
                Text::Whole(text) => line::read(text),
                Text::CutOff(text) => match line::read(text) {
                    Reading::Broken(_) => continue,
                    whole => whole,
                },
                Text::TooLong => Reading::Broken("it is far too long".to_owned()),
            };
            let line = lines.number;
            match reading {
                Reading::Record(record) => {
                    let sealed = contents.broken.last().map(|broken| broken.line + 1);
                    if matches!(record, Record::Seal(_)) && sealed == Some(line) {
                        contents.broken.pop();
                    }
                    contents.records.push(record);
                }
                Reading::Unknown => contents.unknown += 1,
                Reading::Broken(reason) => contents.broken.push(BrokenLine { line, reason }),
                Reading::Newer(version) => {
                    return Err(JournalError::Newer {
                        path: self.path.clone(),
                        line,
                        version,
                    });
                }
            }
        }
    }

    pub(super) fn open_to_read(&self) -> Result<Option<File>, JournalError> {
        let unreadable = |reason| JournalError::reading(&self.path, reason);
        self.must_be_a_file()?;
        let file = match File::open(&self.path) {
            Err(reason) if reason.kind() == io::ErrorKind::NotFound => return Ok(None),
            opened => opened.map_err(unreadable)?,
        };
        // A reader that gets no lock may see a line half written, and passes over it as over any
        // line that was cut off: so a disk without locks can still be read.
        let _ = file.lock_shared();
        Ok(Some(file))
    }

    /// A pipe or a device in the journal's place is refused before it is opened: to open it may take
    /// for ever, and so may to read it.
    fn must_be_a_file(&self) -> Result<(), JournalError> {
        match fs::metadata(&self.path) {
            Ok(found) if found.is_dir() => Err(JournalError::Folder {
                path: self.path.clone(),
            }),
            Ok(found) if !found.is_file() => Err(JournalError::NoFile {
                path: self.path.clone(),
            }),
            // What else is wrong comes out when the file is opened.
            Ok(_) | Err(_) => Ok(()),
        }
    }

    /// Finds the line on which the journal tells how a session begins, counted from 1.
    #[must_use]
    pub fn line_of_start(&self, session: &str) -> Option<usize> {
        let mut lines = Lines::new(self.open_to_read().ok()??);
        loop {
            let (Text::Whole(text) | Text::CutOff(text)) = lines.next().ok()?? else {
                continue;
            };
            if let Reading::Record(Record::Start(start)) = line::read(text)
                && start.stamp.session == session
            {
                return Some(lines.number);
            }
        }
    }

    fn open_to_append(&self) -> Result<File, JournalError> {
        let unwritable = |reason| JournalError::writing(&self.path, reason);
        match appending().open(&self.path) {
            Err(reason) if reason.kind() == io::ErrorKind::NotFound => {}
            opened => {
                let file = opened.map_err(unwritable)?;
                make_private(&file);
                return Ok(file);
            }
        }
        let folder = self.path.parent().unwrap_or(Path::new(""));
        make_folder(folder).map_err(|reason| JournalError::NoFolder {
            path: folder.to_owned(),
            reason,
        })?;
        let file = open_private(&self.path).map_err(unwritable)?;
        // The name of a new file outlives a power loss only once its folder is on the disk; where
        // a folder cannot be opened (Windows), the file system sees to that itself.
        if let Ok(folder) = File::open(folder) {
            let _ = folder.sync_all();
        }
        Ok(file)
    }

    /// Tells whether the last whole line is of a later version. A later version writes its records
    /// behind the older ones, so that this spares [`Journal::open`] from reading the whole file.
    fn ends_with_newer(&self) -> Result<bool, JournalError> {
        const ENOUGH: u64 = 64 << 10;
        let Some(mut file) = self.open_to_read()? else {
            return Ok(false);
        };
        let read = || -> io::Result<Vec<u8>> {
            let length = file.metadata()?.len();
            file.seek(SeekFrom::Start(length.saturating_sub(ENOUGH)))?;
            let mut end = Vec::new();
            file.take(ENOUGH).read_to_end(&mut end)?;
            Ok(end)
        };
        let end = read().map_err(|reason| JournalError::reading(&self.path, reason))?;
        let mut lines = end.rsplit(|byte| *byte == b'\n').skip(1);
        Ok(lines
            .next()
            .is_some_and(|last| matches!(line::read(last), Reading::Newer(_))))
    }
}

/// Looks whether the last line is whole.
fn tail(file: &mut File) -> io::Result<Tail> {
    if file.seek(SeekFrom::End(0))? == 0 {
        return Ok(Tail::Whole);
    }
    let mut last = [0];
    file.seek(SeekFrom::End(-1))?;
    file.read_exact(&mut last)?;
    Ok(match last {
        [b'\n'] => Tail::Whole,
        _ => Tail::Sealed,
    })
}

/// One line of a journal as it stands there.
pub(super) enum Text<'a> {
    /// A line with its newline.
    Whole(&'a [u8]),
    /// The last line, without a newline.
    CutOff(&'a [u8]),
    /// A line that is too long to be kept in memory.
    TooLong,
}

/// The lines of a file, one in memory at a time.
pub(super) struct Lines {
    file: BufReader<File>,
    text: Vec<u8>,
    number: usize,
}

impl Lines {
    pub(super) fn new(file: File) -> Lines {
        Lines {
            file: BufReader::with_capacity(64 << 10, file),
            text: Vec::new(),
            number: 0,
        }
    }

    fn next(&mut self) -> io::Result<Option<Text<'_>>> {
        Ok(self.next_with_length()?.map(|(text, _)| text))
    }

    /// Reads the next line, and tells how many bytes of the file it took.
    pub(super) fn next_with_length(&mut self) -> io::Result<Option<(Text<'_>, u64)>> {
        self.text.clear();
        let mut limited = (&mut self.file).take(LONGEST_LINE);
        let mut length = limited.read_until(b'\n', &mut self.text)? as u64;
        self.number += 1;
        let text = match self.text.split_last() {
            None => return Ok(None),
            Some((b'\n', line)) => Text::Whole(line),
            Some(_) if length == LONGEST_LINE => {
                length += self.file.skip_until(b'\n')? as u64;
                return Ok(Some((Text::TooLong, length)));
            }
            Some(_) => Text::CutOff(&self.text),
        };
        Ok(Some((text, length)))
    }

    /// Passes over all up to the next line, and tells how many bytes that was.
    pub(super) fn skip(&mut self) -> io::Result<u64> {
        Ok(self.file.skip_until(b'\n')? as u64)
    }
}
