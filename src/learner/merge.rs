//! Two machines' journals of one learner, brought together without counting anything twice.

use std::collections::HashMap;
use std::collections::hash_map::RandomState;
use std::fs::File;
use std::hash::BuildHasher;
use std::path::Path;

use super::journal::{Lines, Text};
use super::line::{self, Reading};
use super::{BrokenLine, Journal, JournalError, LearnerName, MOST_TOLD, Record, Tail};

/// So many bytes are written in one go.
const GO: usize = 4 << 20;

/// What came of a merge.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Merged {
    /// Records that were new here.
    pub added: usize,
    /// Records that were here already.
    pub known: usize,
    /// The first [`MOST_TOLD`] lines of the other journal that are no records; they stay where they are.
    pub broken: Vec<BrokenLine>,
    /// How many such lines there are.
    pub broken_lines: usize,
}

/// How often each line occurs, known by two hashes of 64 bits, so that lines need not be kept.
struct Lookup {
    hashers: [RandomState; 2],
    counts: HashMap<(u64, u64), u32>,
}

impl Journal {
    /// Appends the records of another journal that this one does not have, as they stand there.
    ///
    /// A record is the same when its line is: a journal copied to another machine, continued
    /// there and merged back counts nothing twice, and to merge it once more adds nothing. The records
    /// stand behind this journal's own; who asks for their order looks at their times. Sessions come in
    /// that are this journal's learner's, and those of a learner named in `from`.
    ///
    /// # Errors
    ///
    /// [`JournalError`] when either file cannot be read, or a record of a later version or a session of
    /// somebody else is in the other one: then nothing has been added; and when this journal cannot be written: then merging once
    /// more adds what is missing.
    pub fn merge(&self, other: &Path, from: &[LearnerName]) -> Result<Merged, JournalError> {
        let mut lookup = Lookup::default();
        if let Some(own) = self.open_to_read()? {
            each_line(self.path(), own, |_, text| {
                *lookup.count(text) += 1;
                Ok(())
            })?;
        }
        let own = self.file_name();
        let mut merged = Merged::default();
        let mut news: Vec<String> = Vec::new();
        let unreadable = |reason| JournalError::reading(other, reason);
        let file = File::open(other).map_err(unreadable)?;
        each_line(other, file, |number, text| {
            match line::read(text) {
                Reading::Broken(reason) => {
                    merged.broken_lines += 1;
                    if merged.broken.len() < MOST_TOLD {
                        let line = number;
                        merged.broken.push(BrokenLine { line, reason });
                    }
                }
                Reading::Newer(version) => {
                    return Err(JournalError::Newer {
                        path: other.to_owned(),
                        line: number,
                        version,
                    });
                }
                reading @ (Reading::Record(_) | Reading::Unknown) => {
                    let count = lookup.count(text);
                    if *count > 0 {
                        *count -= 1;
                        merged.known += 1;
                    } else {
                        if let Reading::Record(Record::Start(start)) = reading
                            && start.learner.file_name() != own
                            && !from.contains(&start.learner)
                        {
                            return Err(JournalError::OtherLearner {
                                path: other.to_owned(),
                                line: number,
                                learner: start.learner.to_string(),
                            });
                        }
                        // A record that can be read is UTF-8.
                        news.push(String::from_utf8_lossy(text).into_owned());
                    }
                }
            }
            Ok(())
        })?;
        let mut from = 0;
        while from < news.len() {
            let mut bytes = 0;
            let lines = news[from..].iter().take_while(|line| {
                bytes += line.len() + 1;
                bytes <= GO
            });
            let to = from + lines.count().max(1);
            let _: Tail = self.append_lines(&news[from..to])?;
            merged.added += to - from;
            from = to;
        }
        Ok(merged)
    }
}

/// Shows the whole lines of a journal, each with its number, empty ones left out.
fn each_line(
    path: &Path,
    file: File,
    mut show: impl FnMut(usize, &[u8]) -> Result<(), JournalError>,
) -> Result<(), JournalError> {
    let mut lines = Lines::new(file);
    let mut number = 0;
    loop {
        let next = lines.next_with_length();
        let Some((text, _)) = next.map_err(|reason| JournalError::reading(path, reason))? else {
            return Ok(());
        };
        number += 1;
        match text {
            Text::Whole(text) if !text.trim_ascii().is_empty() => show(number, text)?,
            // A line that was cut off is no record yet.
            Text::Whole(_) | Text::CutOff(_) | Text::TooLong => {}
        }
    }
}

impl Default for Lookup {
    fn default() -> Lookup {
        Lookup {
            hashers: [RandomState::new(), RandomState::new()],
            counts: HashMap::new(),
        }
    }
}

impl Lookup {
    fn count(&mut self, line: &[u8]) -> &mut u32 {
        let [one, other] = &self.hashers;
        let line = line.trim_ascii();
        let key = (one.hash_one(line), other.hash_one(line));
        self.counts.entry(key).or_default()
    }
}
