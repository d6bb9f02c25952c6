//! A journal gone through once for counting, on all cores, with no record kept.

use std::fs::{self, File};
use std::io::{self, Seek, SeekFrom};
use std::num::NonZeroUsize;
use std::panic::resume_unwind;
use std::thread;

use jiff::Timestamp;

use super::journal::{Lines, Text};
use super::line::{self, Passing};
use super::{BrokenLine, Journal, JournalError, LearnerName, MOST_TOLD};
use crate::question::{Kind, Verdict};

/// No part of a journal is so small that a thread of its own is worth it, in bytes.
const SMALLEST_PART: u64 = 256 << 10;

/// One answer as it passes by; what is kept of it must be copied.
#[derive(Clone, Copy, Debug)]
pub struct Glance<'a> {
    /// When it was given.
    pub time: Timestamp,
    /// The exercise, by its command's name.
    pub exercise: &'a str,
    /// The kind of the question.
    pub kind: Kind,
    /// The subject, as JSON.
    pub subject: &'a str,
    /// The right answer, as JSON.
    pub expected: &'a str,
    /// The words of the reply.
    pub reply: &'a str,
    /// What came of it.
    pub verdict: Verdict,
    /// Milliseconds from question to reply; `None` where that is not known.
    pub millis: Option<u64>,
    /// Whether the reply took longer than the think time.
    pub late: bool,
    /// Whether the question came again in a drill, after it was missed or slow: only first tries count.
    pub repeat: bool,
    /// The plies since the board was last seen; `None` over the bare board, and in old journals.
    pub plies: Option<u32>,
}

/// What is gathered from the answers of a journal.
///
/// The journal is gone through in parts, each with a gatherer of its own. Times mostly rise, but two
/// machines' journals may have been merged: what depends on the order must look at the times.
pub trait Gather: Default + Send {
    /// Takes one answer.
    fn take(&mut self, answer: &Glance<'_>);

    /// Adds what was gathered from a later part.
    fn join(&mut self, later: Self);
}

/// What a sweep through a journal brought.
#[derive(Clone, Debug, Default)]
pub struct Swept<T> {
    /// What was gathered from the answers.
    pub gathered: T,
    /// The learner's name as it was typed last, where a session of that learner's begins.
    pub learner: Option<LearnerName>,
    /// The first [`MOST_TOLD`] lines that are no records, lines cut off by a crash left out.
    pub broken: Vec<BrokenLine>,
    /// How many such lines there are.
    pub broken_lines: usize,
    /// How many records are of a type or kind that only a later build knows.
    pub unknown: usize,
}

impl Journal {
    /// Goes through all answers once, in parts on as many threads; a journal that is not there yet
    /// is empty. Memory is bounded at any size of the journal, what is gathered apart.
    ///
    /// Lines are read and passed over just as by [`Journal::read`].
    ///
    /// # Errors
    ///
    /// [`JournalError`] when the file cannot be read or holds records of a later version.
    pub fn sweep<T: Gather>(&self, threads: NonZeroUsize) -> Result<Swept<T>, JournalError> {
        let Some(file) = self.open_to_read()? else {
            return Ok(Swept::default());
        };
        let unreadable = |reason| JournalError::reading(self.path(), reason);
        let length = file.metadata().map_err(unreadable)?.len();
        let parts = (length / SMALLEST_PART).clamp(1, threads.get() as u64);
        // The file stays open, and so locked, until all parts have been read.
        self.sweep_in_parts(parts)
    }

    fn sweep_in_parts<T: Gather>(&self, parts: u64) -> Result<Swept<T>, JournalError> {
        let unreadable = |reason| JournalError::reading(self.path(), reason);
        let length = fs::metadata(self.path()).map_err(unreadable)?.len();
        let parts: Vec<(u64, u64)> = (0..parts)
            .map(|part| (length * part / parts, length * (part + 1) / parts))
            .collect();
        let swept: Vec<io::Result<Part<T>>> = thread::scope(|scope| {
            let running: Vec<_> = parts
                .into_iter()
                .map(|(from, to)| scope.spawn(move || Part::sweep(self, from, to)))
                .collect();
            running
                .into_iter()
                .map(|part| part.join().unwrap_or_else(|panic| resume_unwind(panic)))
                .collect()
        });
        let mut whole = Part::default();
        for part in swept {
            whole.join(part.map_err(unreadable)?);
        }
        match whole.newer {
            Some((line, version)) => Err(JournalError::Newer {
                path: self.path().to_owned(),
                line,
                version,
            }),
            None => Ok(whole.swept),
        }
    }
}

/// What one part of the file brought; its lines are counted from its own beginning.
#[derive(Default)]
struct Part<T> {
    swept: Swept<T>,
    /// The name of the file.
    file: String,
    lines: usize,
    /// Whether it begins with the seal of the line before it.
    begins_sealed: bool,
    /// Whether its last line is broken, and may yet be sealed.
    ends_broken: bool,
    /// The first record of a later version: its line and version.
    newer: Option<(usize, u64)>,
}

impl<T: Gather> Part<T> {
    /// Sweeps the lines that begin between two places of the file.
    fn sweep(journal: &Journal, from: u64, to: u64) -> io::Result<Part<T>> {
        let mut file = File::open(journal.path())?;
        // A line belongs to the part that holds its first byte: the part before reads it to its end.
        let skipped = from.saturating_sub(1);
        file.seek(SeekFrom::Start(skipped))?;
        let mut lines = Lines::new(file);
        let mut place = skipped;
        if from > 0 {
            place += lines.skip()?;
        }
        let mut part = Part {
            file: journal.file_name(),
            ..Part::default()
        };
        while place < to {
            let Some((text, length)) = lines.next_with_length()? else {
                break;
            };
            place += length;
            part.lines += 1;
            part.line(&text);
        }
        Ok(part)
    }

    fn line(&mut self, text: &Text<'_>) {
        let passing = match text {
            Text::Whole(text) if text.trim_ascii().is_empty() => Passing::Other,
            Text::Whole(text) => line::glance(text, &mut |answer| self.swept.gathered.take(answer)),
            Text::CutOff(text) => {
                match line::glance(text, &mut |answer| self.swept.gathered.take(answer)) {
                    Passing::Broken(_) => Passing::Other,
                    whole => whole,
                }
            }
            Text::TooLong => Passing::Broken("it is far too long".to_owned()),
        };
        let was_broken = std::mem::take(&mut self.ends_broken);
        match passing {
            Passing::Other => {}
            // Another learner's sessions may have been merged in.
            Passing::Start(learner) => {
                if learner.file_name() == self.file {
                    self.swept.learner = Some(learner);
                }
            }
            Passing::Seal if was_broken => self.forgive(),
            Passing::Seal => self.begins_sealed |= self.lines == 1,
            Passing::Unknown => self.swept.unknown += 1,
            Passing::Broken(reason) => {
                self.ends_broken = true;
                self.tell(BrokenLine {
                    line: self.lines,
                    reason,
                });
            }
            Passing::Newer(version) => {
                self.newer.get_or_insert((self.lines, version));
            }
        }
    }

    fn tell(&mut self, broken: BrokenLine) {
        self.swept.broken_lines += 1;
        if self.swept.broken.len() < MOST_TOLD {
            self.swept.broken.push(broken);
        }
    }

    /// Takes back the last broken line, which a seal has told of before.
    fn forgive(&mut self) {
        if self.swept.broken_lines == self.swept.broken.len() {
            self.swept.broken.pop();
        }
        self.swept.broken_lines -= 1;
    }

    fn join(&mut self, later: Part<T>) {
        if later.begins_sealed && self.ends_broken {
            self.forgive();
        }
        let before = self.lines;
        self.swept.gathered.join(later.swept.gathered);
        self.swept.learner = later.swept.learner.or(self.swept.learner.take());
        self.swept.unknown += later.swept.unknown;
        let told = later.swept.broken.len();
        for mut broken in later.swept.broken {
            broken.line += before;
            self.tell(broken);
        }
        self.swept.broken_lines += later.swept.broken_lines - told;
        self.newer = self
            .newer
            .or(later.newer.map(|(line, version)| (line + before, version)));
        self.begins_sealed |= before == 0 && later.begins_sealed;
        if later.lines > 0 {
            self.ends_broken = later.ends_broken;
        }
        self.lines += later.lines;
    }
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::*;

    /// Keeps the replies, in order.
    #[derive(Debug, Default, PartialEq)]
    struct Replies(Vec<String>);

    impl Gather for Replies {
        fn take(&mut self, answer: &Glance<'_>) {
            self.0.push(answer.reply.to_owned());
        }

        fn join(&mut self, later: Replies) {
            self.0.extend(later.0);
        }
    }

    fn answer(n: usize) -> String {
        format!(
            r#"{{"v":1,"type":"answer","time":"2026-03-01T18:20:04Z","session":"s","exercise":"drill","kind":"color","subject":{{"square":"c4"}},"expected":{{"color":"light"}},"reply":"{n}","verdict":"right","score":1.0,"millis":900,"late":false,"looks":0}}"#
        )
    }

    fn begun(n: usize, learner: &str) -> String {
        format!(
            r#"{{"v":1,"type":"start","time":"2026-03-01T18:20:04Z","session":"{n}","learner":"{learner}","exercise":"drill","seed":1,"setup":{{}}}}"#
        )
    }

    const SEAL: &str = r#"{"v":1,"type":"seal","time":"2026-03-01T18:20:04Z","session":"s"}"#;

    #[test]
    fn in_any_number_of_parts_all_lines_are_seen_once_and_broken_ones_told_as_in_one() {
        let folder = tempfile::tempdir().unwrap();
        let journal = Journal::open(folder.path(), &"learner".parse().unwrap()).unwrap();
        let torn = answer(0)[..40].to_owned();
        let mut lines = Vec::new();
        for n in 0..40 {
            lines.push(answer(n));
            match n % 8 {
                1 => lines.push(String::new()),
                2 => lines.push("no record".to_owned()),
                3 => lines.extend([torn.clone(), SEAL.to_owned()]),
                4 => lines.push(
                    r#"{"v":1,"type":"song","time":"2026-03-01T18:20:04Z","session":"s"}"#
                        .to_owned(),
                ),
                5 => lines.push(answer(n).replace(r#","looks":0"#, "")),
                6 => lines.extend([begun(n, "LEARNER"), begun(n, "Bruno")]),
                7 => lines.push(begun(n, "Learner")),
                _ => {}
            }
        }
        let text = lines.join("\n") + "\n" + &torn;
        fs::write(journal.path(), text).unwrap();
        let read = journal.read().unwrap();
        assert_eq!((read.broken.len(), read.unknown), (10, 5));
        for parts in 1..30 {
            let swept = journal.sweep_in_parts::<Replies>(parts).unwrap();
            let replies = (0..40).map(|n| n.to_string()).collect();
            assert_eq!(swept.gathered, Replies(replies), "in {parts} parts");
            assert_eq!(swept.broken, read.broken, "in {parts} parts");
            assert_eq!((swept.broken_lines, swept.unknown), (10, 5));
            let name = swept.learner.map(|learner| learner.to_string());
            assert_eq!(name.as_deref(), Some("Learner"), "in {parts} parts");
        }
    }

    #[test]
    fn a_record_of_a_later_version_is_refused_with_its_line_in_any_number_of_parts() {
        let folder = tempfile::tempdir().unwrap();
        let journal = Journal::open(folder.path(), &"learner".parse().unwrap()).unwrap();
        let mut lines: Vec<String> = (0..20).map(answer).collect();
        lines[13] = lines[13].replace(r#""v":1"#, r#""v":7"#);
        fs::write(journal.path(), lines.join("\n") + "\n").unwrap();
        for parts in 1..30 {
            let refused = journal.sweep_in_parts::<Replies>(parts).unwrap_err();
            let JournalError::Newer { line, version, .. } = refused else {
                panic!("{refused}")
            };
            assert_eq!((line, version), (14, 7), "in {parts} parts");
        }
    }

    #[test]
    fn many_broken_lines_are_counted_and_the_first_told() {
        let folder = tempfile::tempdir().unwrap();
        let journal = Journal::open(folder.path(), &"learner".parse().unwrap()).unwrap();
        fs::write(journal.path(), "no record\n".repeat(1_000)).unwrap();
        for parts in [1, 3] {
            let swept = journal.sweep_in_parts::<Replies>(parts).unwrap();
            assert_eq!((swept.broken.len(), swept.broken_lines), (MOST_TOLD, 1_000));
            assert_eq!(
                swept.broken.last().map(|broken| broken.line),
                Some(MOST_TOLD)
            );
        }
    }
}
