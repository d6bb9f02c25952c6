//! Written answers, as somebody typed them from paper: the sheet's command, then an answer a line.

/// A file of written answers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Entry {
    /// The command of the sheet.
    pub(crate) command: String,
    /// The line of the file that it stands in, counted from 1.
    pub(crate) command_line: usize,
    /// The answers in the order of the file.
    answers: Vec<WrittenAnswer>,
}

/// What is written for one question.
#[derive(Clone, Debug, PartialEq, Eq)]
struct WrittenAnswer {
    /// The number of the question.
    number: usize,
    /// The line of the file.
    line: usize,
    /// The reply. An empty one, or `pass`, gives the question up.
    reply: String,
}

/// A line that does not belong into a file of answers.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{reason}")]
pub(crate) struct EntryError {
    /// The line that is at fault; where one is missing, the last one that says something.
    pub(crate) line: usize,
    /// What is wrong there.
    pub(crate) reason: EntryErrorReason,
}

/// What is wrong with a file of answers.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub(crate) enum EntryErrorReason {
    /// There is no line but empty ones and remarks.
    #[error("nothing is written here: begin with the command that stands on the sheet")]
    Empty,
    /// A line begins with no number.
    #[error(
        "this line begins with no number of a question: write its number and then the reply, as in \
         1 e5; a line that begins with # is a remark"
    )]
    MissingNumber,
    /// A question is answered twice.
    #[error(
        "question {number} is answered in line {before} already: leave one of the two lines out"
    )]
    Repeated {
        /// The number of the question.
        number: usize,
        /// The line of the first answer.
        before: usize,
    },
    /// The sheet has no such question.
    #[error("the sheet has no question {number}: its questions run from 1 to {last}")]
    UnknownQuestion {
        /// The number.
        number: usize,
        /// The number of the last question.
        last: usize,
    },
    /// A question has no line.
    #[error("no line answers question {number}: write the number alone where nothing was answered")]
    Unanswered {
        /// The number of the question.
        number: usize,
    },
}

impl Entry {
    /// Reads a file of answers. Empty lines and those that begin with `#` are passed over.
    ///
    /// # Errors
    ///
    /// [`EntryError`] names the first line that is no answer.
    pub(crate) fn read(text: &str) -> Result<Entry, EntryError> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let mut lines = (1..)
            .zip(text.lines().map(str::trim))
            .filter(|(_, text)| !text.is_empty() && !text.starts_with('#'));
        let (command_line, command) = lines.next().ok_or(EntryErrorReason::Empty.at(1))?;
        let mut entry = Entry {
            command: command.to_owned(),
            command_line,
            answers: Vec::new(),
        };
        for (line, text) in lines {
            let (number, reply) = numbered(text).ok_or(EntryErrorReason::MissingNumber.at(line))?;
            if let Some(before) = entry.line_of(number) {
                return Err(EntryErrorReason::Repeated { number, before }.at(line));
            }
            entry.answers.push(WrittenAnswer {
                number,
                line,
                reply: reply.to_owned(),
            });
        }
        Ok(entry)
    }

    /// Sees to it that each of a sheet's questions has a line, and each line a question.
    ///
    /// # Errors
    ///
    /// [`EntryError`] names the line that answers no question, or the question that no line answers.
    pub(crate) fn fits(&self, questions: usize) -> Result<(), EntryError> {
        let numbers = 1..=questions;
        let mut answers = self.answers.iter();
        if let Some(other) = answers.find(|answer| !numbers.contains(&answer.number)) {
            let (number, last) = (other.number, questions);
            return Err(EntryErrorReason::UnknownQuestion { number, last }.at(other.line));
        }
        let last = self.answers.last();
        let line = last.map_or(self.command_line, |answer| answer.line);
        let missing = numbers
            .into_iter()
            .find(|number| self.line_of(*number).is_none());
        let unanswered = |number| EntryErrorReason::Unanswered { number }.at(line);
        missing.map_or(Ok(()), |number| Err(unanswered(number)))
    }

    /// Returns the reply to a question; `None` where it was given up.
    pub(crate) fn reply(&self, number: usize) -> Option<&str> {
        let reply = self.answer(number)?.reply.as_str();
        (!reply.is_empty() && !reply.eq_ignore_ascii_case("pass")).then_some(reply)
    }

    /// Returns the line that answers a question.
    pub(crate) fn line_of(&self, number: usize) -> Option<usize> {
        self.answer(number).map(|answer| answer.line)
    }

    fn answer(&self, number: usize) -> Option<&WrittenAnswer> {
        self.answers.iter().find(|answer| answer.number == number)
    }
}

impl EntryErrorReason {
    const fn at(self, line: usize) -> EntryError {
        EntryError { line, reason: self }
    }
}

/// Parts the number of a question from the reply behind it.
fn numbered(text: &str) -> Option<(usize, &str)> {
    let rest = text.trim_start_matches(|c: char| c.is_ascii_digit());
    let number = text.strip_suffix(rest)?.parse().ok()?;
    let reply = rest.strip_prefix(['.', ')', ':']).unwrap_or(rest);
    let parted = reply.is_empty() || reply.starts_with(char::is_whitespace) || reply != rest;
    parted.then(|| (number, reply.trim()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(answers: &str) -> Result<Entry, EntryError> {
        Entry::read(&format!("sansvoir sheet drill color\n{answers}"))
    }

    #[test]
    fn the_command_stands_first_and_a_number_alone_gives_a_question_up() {
        let typed = "sansvoir sheet --seed 5 drill color # sheet 93f1b4c2\n1 light\n2. dark\n3\n";
        let entry = Entry::read(typed).unwrap();
        assert_eq!(entry.command_line, 1);
        assert_eq!(entry.reply(2), Some("dark"));
        assert_eq!(entry.reply(3), None);
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
        assert_eq!(read.command, "sansvoir sheet drill color");
        assert_eq!(read.reply(1), Some("light"));
    }

    #[test]
    fn a_line_that_is_no_answer_is_named() {
        assert_eq!(
            Entry::read("# nothing\n\n"),
            Err(EntryErrorReason::Empty.at(1))
        );
        for no_answer in ["e5", "x 1", "1e5", "99999999999999999999 e5"] {
            let fault = EntryErrorReason::MissingNumber.at(3);
            assert_eq!(entry(&format!("1 e5\n{no_answer}")), Err(fault));
        }
        let twice = EntryErrorReason::Repeated {
            number: 1,
            before: 2,
        };
        assert_eq!(entry("1 e5\n2 e6\n1 e7"), Err(twice.at(4)));
    }

    #[test]
    fn what_is_missing_or_too_much_is_named() {
        let read = entry("1 e5\n3 e7").unwrap();
        let unanswered = EntryErrorReason::Unanswered { number: 2 }.at(3);
        assert_eq!(read.fits(3), Err(unanswered));
        let beyond = EntryErrorReason::UnknownQuestion { number: 3, last: 2 };
        assert_eq!(read.fits(2), Err(beyond.at(3)));
    }
}
