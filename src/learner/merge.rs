//! Two machines' journals of one learner, brought together without counting anything twice.

use std::collections::HashMap;
use std::collections::hash_map::RandomState;
use std::fs::File;
use std::hash::BuildHasher;
use std::path::Path;

use super::line::each_record;
use super::{Appended, BrokenLines, Journal, JournalError, JournalProblem, LearnerName, Record};

/// What came of a merge.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Merged {
    /// Records that were new here.
    pub added: usize,
    /// Records that were here already.
    pub known: usize,
    /// The lines of the other journal that are no records; they stay where they are.
    pub broken: BrokenLines,
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
    /// [`JournalError`] when either file cannot be read, a record of a later version or a session of
    /// somebody else is in the other one, or this journal cannot be written: then nothing has been added.
    pub fn merge(&self, other: &Path, from: &[LearnerName]) -> Result<Merged, JournalError> {
        // How often each line occurs, known by two hashes of 64 bits, so that lines need not be kept.
        let mut counts: HashMap<[u64; 2], u32> = HashMap::new();
        let hashers: [RandomState; 2] = Default::default();
        let key = |line: &[u8]| hashers.each_ref().map(|hasher| hasher.hash_one(line));
        if let Some(own) = self.open_to_read()? {
            each_record(self.path(), own, |_, text, _| {
                *counts.entry(key(text)).or_default() += 1;
                Ok(())
            })?;
        }
        let mut known = 0;
        let mut news: Vec<String> = Vec::new();
        let file = File::open(other).map_err(|reason| JournalError::reading(other, reason))?;
        let broken = each_record(other, file, |line, text, record| {
            if let Some(count @ 1..) = counts.get_mut(&key(text)) {
                *count -= 1;
                known += 1;
                return Ok(());
            }
            if let Some(Record::Start(start)) = record
                && !self.is_of(&start.learner)
                && !from.contains(&start.learner)
            {
                let learner = start.learner.to_string();
                return Err(JournalProblem::OtherLearner { line, learner }.at(other));
            }
            // A record that can be read is UTF-8.
            news.push(String::from_utf8_lossy(text).into_owned());
            Ok(())
        })?;
        let _: Appended = self.append_lines(&news, true)?;
        Ok(Merged {
            added: news.len(),
            known,
            broken,
        })
    }
}
