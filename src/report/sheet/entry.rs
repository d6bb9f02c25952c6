//! Written answers, as somebody typed them from paper: the sheet's command, then an answer a line.
//!
//! ```
//! use sansvoir::report::sheet::Entry;
//!
//! let typed = "sansvoir sheet --seed 5 drill color # sheet 93f1b4c2\n1 light\n2. dark\n3\n";
//! let entry = Entry::read(typed)?;
//! assert_eq!(entry.command.line, 1);
//! assert_eq!(entry.reply(2), Some("dark"));
//! assert_eq!(entry.reply(3), None);
//! # Ok::<(), sansvoir::report::sheet::EntryFault>(())
//! ```

/// A line of the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// Its number in the file, counted from 1.
    pub line: usize,
    /// What it says.
    pub text: String,
}

/// A file of written answers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The command line of the sheet.
    pub command: Written,
    /// Each answer with the number of its question, in the order of the file. An empty one, or `pass`,
    /// gives the question up.
    replies: Vec<(usize, Written)>,
}

/// A line that does not belong into a file of answers; each tells its place in the file.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum EntryFault {
    /// There is no line but empty ones and remarks.
    #[error("nothing is written here: begin with the command that stands on the sheet")]
    Nothing,
    /// A line begins with no number.
    #[error(
        "this line begins with no number of a question: write its number and then the reply, as in \
         1 e5; a line that begins with # is a remark"
    )]
    NoNumber {
        /// The line.
        line: usize,
    },
    /// A question is answered twice.
    #[error(
        "question {number} is answered in line {before} already: leave one of the two lines out"
    )]
    Twice {
        /// The line.
        line: usize,
        /// The number of the question.
        number: usize,
        /// The line of the first answer.
        before: usize,
    },
    /// The sheet has no such question.
    #[error("the sheet has no question {number}: its questions run from 1 to {last}")]
    NoQuestion {
        /// The line.
        line: usize,
        /// The number.
        number: usize,
        /// The number of the last question.
        last: usize,
    },
    /// A question has no line.
    #[error("no line answers question {number}: write the number alone where nothing was answered")]
    Unanswered {
        /// The last line of the file that says something.
        line: usize,
        /// The number of the question.
        number: usize,
    },
}

impl EntryFault {
    /// Returns the line that is at fault.
    #[must_use]
    pub const fn line(&self) -> usize {
        match self {
            EntryFault::Nothing => 1,
            EntryFault::NoNumber { line }
            | EntryFault::Twice { line, .. }
            | EntryFault::NoQuestion { line, .. }
            | EntryFault::Unanswered { line, .. } => *line,
        }
    }
}

impl Entry {
    /// Reads a file of answers. Empty lines and those that begin with `#` are passed over.
    ///
    /// # Errors
    ///
    /// [`EntryFault`] names the first line that is no answer.
    pub fn read(text: &str) -> Result<Entry, EntryFault> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let mut lines = text
            .lines()
            .enumerate()
            .map(|(n, text)| (n + 1, text.trim()))
            .filter(|(_, text)| !text.is_empty() && !text.starts_with('#'));
        let (line, command) = lines.next().ok_or(EntryFault::Nothing)?;
        let mut entry = Entry {
            command: Written {
                line,
                text: command.to_owned(),
            },
            replies: Vec::new(),
        };
        for (line, text) in lines {
            let (number, text) = answer(text).ok_or(EntryFault::NoNumber { line })?;
            if let Some(before) = entry.line_of(number) {
                return Err(EntryFault::Twice {
                    line,
                    number,
                    before,
                });
            }
            let text = text.to_owned();
            entry.replies.push((number, Written { line, text }));
        }
        Ok(entry)
    }

    /// Sees to it that each of a sheet's questions has a line, and each line a question.
    ///
    /// # Errors
    ///
    /// [`EntryFault::NoQuestion`] or [`EntryFault::Unanswered`].
    pub fn fits(&self, questions: usize) -> Result<(), EntryFault> {
        let beyond = (self.replies.iter()).find(|(number, _)| *number == 0 || *number > questions);
        if let Some((number, written)) = beyond {
            return Err(EntryFault::NoQuestion {
                line: written.line,
                number: *number,
                last: questions,
            });
        }
        match (1..=questions).find(|number| self.line_of(*number).is_none()) {
            None => Ok(()),
            Some(number) => Err(EntryFault::Unanswered {
                line: (self.replies.last()).map_or(self.command.line, |(_, written)| written.line),
                number,
            }),
        }
    }

    /// Returns the reply to a question; `None` where it was given up.
    #[must_use]
    pub fn reply(&self, number: usize) -> Option<&str> {
        let (_, written) = self.replies.iter().find(|(of, _)| *of == number)?;
        let text = written.text.as_str();
        (!text.is_empty() && !text.eq_ignore_ascii_case("pass")).then_some(text)
    }

    /// Returns the line that answers a question.
    #[must_use]
    pub fn line_of(&self, number: usize) -> Option<usize> {
        let found = self.replies.iter().find(|(of, _)| *of == number);
        found.map(|(_, written)| written.line)
    }
}

/// Parts the number of a question from the reply behind it.
fn answer(text: &str) -> Option<(usize, &str)> {
    let end = text
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(text.len());
    let number = text[..end].parse().ok()?;
    let rest = &text[end..];
    let reply = rest.strip_prefix(['.', ')', ':']).unwrap_or(rest);
    let parted = reply.is_empty() || reply.starts_with(char::is_whitespace) || reply != rest;
    parted.then(|| (number, reply.trim()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(answers: &str) -> Result<Entry, EntryFault> {
        Entry::read(&format!("sansvoir sheet drill color\n{answers}"))
    }

    #[test]
    fn an_answer_may_have_its_number_as_a_list_has_it() {
        let read = entry("1 e5\n 2. d5, e6 \n3) 6 3\n4:none\n\n# late\n5 pass\n6").unwrap();
        let replies: Vec<Option<&str>> = (1..=6).map(|number| read.reply(number)).collect();
        let said = [
            Some("e5"),
            Some("d5, e6"),
            Some("6 3"),
            Some("none"),
            None,
            None,
        ];
        assert_eq!(replies, said);
        assert_eq!(read.fits(6), Ok(()));
        assert_eq!(read.line_of(5), Some(8));
    }

    #[test]
    fn a_file_from_another_system_reads_the_same() {
        let read = Entry::read("\u{feff}sansvoir sheet drill color\r\n1 light\r\n").unwrap();
        assert_eq!(read.command.text, "sansvoir sheet drill color");
        assert_eq!(read.reply(1), Some("light"));
    }

    #[test]
    fn a_line_that_is_no_answer_is_named() {
        assert_eq!(Entry::read("# nothing\n\n"), Err(EntryFault::Nothing));
        for no_answer in ["e5", "x 1", "1e5", "99999999999999999999 e5"] {
            let fault = EntryFault::NoNumber { line: 3 };
            assert_eq!(entry(&format!("1 e5\n{no_answer}")), Err(fault));
        }
        let twice = EntryFault::Twice {
            line: 4,
            number: 1,
            before: 2,
        };
        assert_eq!(entry("1 e5\n2 e6\n1 e7"), Err(twice));
    }

    #[test]
    fn what_is_missing_or_too_much_is_named() {
        let read = entry("1 e5\n3 e7").unwrap();
        let unanswered = EntryFault::Unanswered { line: 3, number: 2 };
        assert_eq!(read.fits(3), Err(unanswered));
        let beyond = EntryFault::NoQuestion {
            line: 3,
            number: 3,
            last: 2,
        };
        assert_eq!(read.fits(2), Err(beyond));
    }
}
