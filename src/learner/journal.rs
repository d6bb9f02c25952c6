//! The file of a learner's answers.

use std::fs::{self, File};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use super::line::{LONGEST_LINE, Reading, each_record, read_line};
use super::private::{appending, make_folder, make_private, open_private};
use super::{BrokenLines, JournalError, JournalProblem, LearnerName, Record};

/// The journal of one learner: a file to which whole lines are appended, and nothing else is done.
///
/// Nothing is held open between two calls, so that the file can be copied, moved or restored at
/// any time, and several programs can write to it in turn.
///
/// ```
/// use jiff::Timestamp;
/// use sansvoir::learner::{Appended, EndRecord, Journal, LearnerName, Record, Stamp};
/// # let folder = tempfile::tempdir()?;
/// # let folder = folder.path();
///
/// let journal = Journal::open(folder, &"Ana Petrov".parse::<LearnerName>()?)?;
/// let time: Timestamp = "2026-03-01T18:20:04Z".parse()?;
/// let end = Record::End(EndRecord {
///     stamp: Stamp::new(time, "5f1c"),
///     finished: true,
///     plies: 24,
///     looks: 0,
///     helped: false,
/// });
/// assert_eq!(journal.append(&end)?, Appended::Plainly);
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
    /// The lines that are no records.
    pub broken: BrokenLines,
}

/// How a record came into the journal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Appended {
    /// Behind a whole line, as ever.
    Plainly,
    /// Behind a line that had been cut off by a crash or power loss. That line is now sealed off: the
    /// learner should be told this once, and no later reading speaks of it again.
    AfterTornLine,
    /// With all of its session that was not there: the journal had been deleted or replaced in mid-session, and
    /// the learner should be told.
    WithLostRecords,
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
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// Tells whether the journal is this learner's.
    pub(super) fn is_of(&self, learner: &LearnerName) -> bool {
        self.path.ends_with(learner.file_name())
    }

    /// Appends a record and waits until it is on the disk, but for a start, which waits for the next one.
    ///
    /// The line is written whole in one go, under a lock that keeps other writers out. The folder
    /// and the file are made when they are not there.
    ///
    /// # Errors
    ///
    /// [`JournalError`] when the record is not safely on the disk.
    pub fn append(&self, record: &Record) -> Result<Appended, JournalError> {
        self.append_all(std::slice::from_ref(record))
    }

    /// Appends several records in one go, as [`Journal::append`] does one: all of them, or none where
    /// the disk is full.
    ///
    /// # Errors
    ///
    /// [`JournalError`] when the records are not safely on the disk.
    pub fn append_all(&self, records: &[Record]) -> Result<Appended, JournalError> {
        let lines: Vec<String> = records.iter().map(Record::to_line).collect();
        // A start promises nothing yet; the next record brings it along, and the first prompt comes
        // without waiting for the disk.
        self.append_lines(&lines, !matches!(records, [Record::Start(_)]))
    }

    /// Appends lines that are records already, all of them or none where the disk is full, and waits until
    /// they are on the disk where that is wished.
    pub(super) fn append_lines(
        &self,
        lines: &[String],
        flush: bool,
    ) -> Result<Appended, JournalError> {
        if lines.is_empty() {
            return Ok(Appended::Plainly);
        }
        if let Some(line) = lines.iter().find(|line| line.len() >= LONGEST_LINE) {
            return Err(JournalProblem::TooLong(line.len()).at(&self.path));
        }
        let unwritable = |reason| JournalError::writing(&self.path, reason);
        let mut file = self.open_to_append()?;
        let unlockable = |reason| JournalProblem::Unlockable(reason).at(&self.path);
        file.lock().map_err(unlockable)?;
        let is_torn = !ends_with_newline(&mut file).map_err(unwritable)?;
        let mut text = String::new();
        if is_torn {
            // The stamp is that of the first record behind the seal.
            let stamps = lines.iter().map(|line| serde_json::from_str(line));
            if let Some(stamp) = stamps.flatten().next() {
                text.push('\n');
                text.push_str(&Record::Seal(stamp).to_line());
            }
            text.push('\n');
        }
        for line in lines {
            text.push_str(line);
            text.push('\n');
        }
        let length = file.metadata().map_err(unwritable)?.len();
        file.write_all(text.as_bytes()).map_err(|reason| {
            // One record that is cut off is sealed at the next; of several, some would stay.
            if lines.len() > 1 {
                let _ = file.set_len(length);
            }
            unwritable(reason)
        })?;
        if flush {
            file.sync_data().map_err(unwritable)?;
        }
        Ok(if is_torn {
            Appended::AfterTornLine
        } else {
            Appended::Plainly
        })
    }

    /// Reads the whole journal; one that is not there yet is empty.
    ///
    /// A line that was cut off by a crash is passed over without a word when it is the last line or
    /// when it has been sealed off, and so are records of an unknown type and answers of an unknown kind:
    /// they are of a later build that shares this build's version.
    ///
    /// # Errors
    ///
    /// [`JournalError`] when the file cannot be read or holds records of a later version.
    pub fn read(&self) -> Result<Contents, JournalError> {
        let mut records = Vec::new();
        let broken = self.read_each(|_, record| records.push(record))?;
        Ok(Contents { records, broken })
    }

    /// Reads the journal as [`Journal::read`] does, one record after the other, each with its line, counted
    /// from 1.
    ///
    /// # Errors
    ///
    /// As [`Journal::read`].
    pub fn read_each(
        &self,
        mut take: impl FnMut(usize, Record),
    ) -> Result<BrokenLines, JournalError> {
        let Some(file) = self.open_to_read()? else {
            return Ok(BrokenLines::default());
        };
        each_record(&self.path, file, |line, _, record| {
            if let Some(record) = record {
                take(line, record);
            }
            Ok(())
        })
    }

    /// Finds the line on which the journal tells how a session begins, counted from 1.
    pub fn line_of_start(&self, session: &str) -> Option<usize> {
        let mut found = None;
        let read = self.read_each(|line, record| {
            if matches!(record, Record::Start(start) if start.stamp.session == session) {
                found.get_or_insert(line);
            }
        });
        read.ok().and(found)
    }

    pub(super) fn open_to_read(&self) -> Result<Option<File>, JournalError> {
        let unreadable = |reason| JournalError::reading(&self.path, reason);
        // A pipe or a device is refused before it is opened: to open it may take for ever, and so may to read it.
        match fs::metadata(&self.path) {
            Ok(found) if found.is_dir() => return Err(JournalProblem::Folder.at(&self.path)),
            Ok(found) if !found.is_file() => return Err(JournalProblem::NotAFile.at(&self.path)),
            // What else is wrong comes out when the file is opened.
            Ok(_) | Err(_) => {}
        }
        let file = match File::open(&self.path) {
            Err(reason) if reason.kind() == io::ErrorKind::NotFound => return Ok(None),
            opened => opened.map_err(unreadable)?,
        };
        // A reader that gets no lock may see a line half written, and passes over it as over any
        // line that was cut off: so a disk without locks can still be read.
        let _ = file.lock_shared();
        Ok(Some(file))
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
        make_folder(folder).map_err(|reason| JournalProblem::FolderNotMade(reason).at(folder))?;
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
            .is_some_and(|last| matches!(read_line(last), Reading::Newer(_))))
    }
}

/// Tells whether the last line is whole; where there is none, nothing is missing.
fn ends_with_newline(file: &mut File) -> io::Result<bool> {
    if file.seek(SeekFrom::End(0))? == 0 {
        return Ok(true);
    }
    let mut last = [0];
    file.seek(SeekFrom::End(-1))?;
    file.read_exact(&mut last)?;
    Ok(last == *b"\n")
}

#[cfg(test)]
mod tests {
    use super::*;

    const SEAL: &str = r#"{"v":1,"type":"seal","time":"2026-03-01T18:20:04Z","session":"s"}"#;

    fn journal(folder: &tempfile::TempDir, text: &str) -> Journal {
        let journal = Journal::open(folder.path(), &"learner".parse().unwrap()).unwrap();
        fs::write(journal.path(), text).unwrap();
        journal
    }

    fn answer(n: usize) -> String {
        format!(
            r#"{{"v":1,"type":"answer","time":"2026-03-01T18:20:04Z","session":"s","exercise":"drill","kind":"color","subject":{{"square":"c4"}},"expected":{{"color":"light"}},"reply":"{n}","verdict":"right","score":1.0,"millis":900,"late":false,"looks":0}}"#
        )
    }

    #[test]
    fn every_record_is_read_once_and_every_broken_line_told_that_is_not_sealed() {
        let torn = answer(0)[..40].to_owned();
        let mut lines = Vec::new();
        let mut broken = Vec::new();
        for n in 0..40 {
            lines.push(answer(n));
            match n % 8 {
                1 => lines.push(String::new()),
                2 => lines.push("no record".to_owned()),
                3 => lines.extend([torn.clone(), SEAL.to_owned()]),
                4 => lines.push(SEAL.replace("seal", "song")),
                5 => lines.push(answer(n).replace(r#","looks":0"#, "")),
                // A seal speaks of the line before it alone.
                6 => lines.extend([
                    answer(n).replace(r#""late":false,"#, ""),
                    answer(n),
                    SEAL.to_owned(),
                ]),
                _ => {}
            }
            match n % 8 {
                2 | 5 => broken.push(lines.len()),
                6 => broken.push(lines.len() - 2),
                _ => {}
            }
        }
        let folder = tempfile::tempdir().unwrap();
        let read = journal(&folder, &(lines.join("\n") + "\n" + &torn)).read();
        let Contents {
            records,
            broken: found,
        } = read.unwrap();
        let answers = records.iter().filter_map(Record::answer);
        let replies = answers.map(|answer| answer.reply.parse().unwrap());
        let twice = |n| std::iter::repeat_n(n, if n % 8 == 6 { 2 } else { 1 });
        let all: Vec<usize> = (0..40).flat_map(twice).collect();
        assert_eq!(replies.collect::<Vec<usize>>(), all);
        assert_eq!(found.count, broken.len());
        let told: Vec<usize> = found.first.iter().map(|broken| broken.line).collect();
        assert_eq!(told, broken[..10]);
        assert_eq!(found.first[1].reason, "the field looks is missing");
    }

    #[test]
    fn a_record_of_a_later_version_is_refused_with_its_line() {
        let mut lines: Vec<String> = (0..20).map(answer).collect();
        lines[13] = lines[13].replace(r#""v":1"#, r#""v":7"#);
        let folder = tempfile::tempdir().unwrap();
        let refused = journal(&folder, &lines.join("\n")).read().unwrap_err();
        let JournalProblem::Newer { line, version } = refused.problem else {
            panic!("{refused}")
        };
        assert_eq!((line, version), (14, 7));
    }

    #[test]
    fn many_broken_lines_are_counted_and_the_first_told() {
        let folder = tempfile::tempdir().unwrap();
        let broken = journal(&folder, &"no record\n".repeat(1_000))
            .read()
            .unwrap()
            .broken;
        assert_eq!((broken.first.len(), broken.count), (10, 1_000));
        assert_eq!(broken.first.last().map(|broken| broken.line), Some(10));
    }
}
