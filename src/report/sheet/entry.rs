//! Written answers, as somebody typed them from paper: the sheet's command, then an answer a line.

use crate::learner::{LearnerName, LearnerNameError};

/// A file of written answers.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Entry {
    /// The command of the sheet; empty where there is none.
    pub(crate) command: String,
    /// The line of the file that it stands in, counted from 1.
    pub(crate) command_line: usize,
    /// The answers, pupil by pupil.
    pub(crate) pupils: Vec<PupilAnswers>,
    /// The lines that do not belong into such a file.
    pub(crate) faults: Vec<EntryFault>,
}

/// The answers of one pupil, in the order of the file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct PupilAnswers {
    /// The name; `None` where none stands in the file.
    pub(crate) name: Option<LearnerName>,
    /// The line of the name, or of the command.
    pub(crate) line: usize,
    answers: Vec<WrittenAnswer>,
}

/// What is written for one question.
#[derive(Clone, Debug, PartialEq, Eq)]
struct WrittenAnswer {
    /// The number of the question.
    number: usize,
    /// The line of the file.
    line: usize,
    /// The reply. An empty one, or `pass`, gives the question up; one that begins with `!` cannot be read.
    reply: String,
}

/// A line that is at fault; where one is missing, the last one that says something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct EntryFault {
    /// The line.
    pub(crate) line: usize,
    /// What is wrong there.
    pub(crate) reason: EntryFaultReason,
}

/// What is wrong with a file of answers.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub(crate) enum EntryFaultReason {
    /// There is no line but empty ones and remarks.
    #[error("nothing is written here: begin with the command that stands on the sheet")]
    Empty,
    /// A line begins with no number.
    #[error(
        "this line begins with no number of a question: write its number and then the reply, as in \
         1 e5; a line that begins with # is a remark, and one with a name and a colon begins a pupil's answers"
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
    /// A pupil's answers begin twice.
    #[error("the answers of {name} begin in line {before} already: put all of them there")]
    RepeatedPupil {
        /// The name.
        name: String,
        /// The line where they begin.
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
    /// Questions have no line.
    #[error(
        "no line answers question {numbers}: write the number alone where nothing was answered"
    )]
    Unanswered {
        /// The numbers of the questions.
        numbers: String,
    },
    /// Something else.
    #[error("{0}")]
    Said(String),
}

impl Entry {
    /// Reads a file of answers. Empty lines and those that begin with `#` are passed over.
    pub(crate) fn read(text: &str) -> Entry {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let mut lines = (1..)
            .zip(text.lines().map(str::trim))
            .filter(|(_, text)| !text.is_empty() && !text.starts_with('#'));
        let mut entry = Entry::default();
        let Some((line, command)) = lines.next() else {
            entry.faults.push(EntryFaultReason::Empty.at(1));
            return entry;
        };
        (entry.command, entry.command_line) = (command.to_owned(), line);
        let mut pupil = PupilAnswers {
            line,
            ..PupilAnswers::default()
        };
        for (line, text) in lines {
            if let Some((number, reply)) = numbered(text) {
                if let Some(before) = pupil.line_of(number) {
                    let repeated = EntryFaultReason::Repeated { number, before };
                    entry.faults.push(repeated.at(line));
                    continue;
                }
                pupil.answers.push(WrittenAnswer {
                    number,
                    line,
                    reply: reply.to_owned(),
                });
            } else if let Some(name) = text.strip_suffix(':') {
                entry.take(pupil);
                let named: Result<LearnerName, _> = name.parse();
                let unnamed = |error: &LearnerNameError| EntryFault::said(line, error.to_string());
                entry.faults.extend(named.as_ref().err().map(unnamed));
                pupil = PupilAnswers {
                    name: named.ok(),
                    line,
                    answers: Vec::new(),
                };
            } else {
                entry.faults.push(EntryFaultReason::MissingNumber.at(line));
            }
        }
        entry.take(pupil);
        if entry.pupils.is_empty() {
            let line = entry.command_line;
            entry.pupils.push(PupilAnswers {
                line,
                ..PupilAnswers::default()
            });
        }
        entry
    }

    /// Takes a pupil's answers, where a name or an answer stands there.
    fn take(&mut self, pupil: PupilAnswers) {
        if pupil.name.is_none() && pupil.answers.is_empty() {
            return;
        }
        if let Some(name) = &pupil.name
            && let Some(other) = self
                .pupils
                .iter()
                .find(|other| other.name.as_ref() == Some(name))
        {
            let (name, before) = (name.to_string(), other.line);
            let repeated = EntryFaultReason::RepeatedPupil { name, before };
            self.faults.push(repeated.at(pupil.line));
            return;
        }
        self.pupils.push(pupil);
    }
}

impl PupilAnswers {
    /// Returns the lines that answer no question of a sheet with so many, and the questions that no line answers.
    pub(crate) fn unfit(&self, questions: usize) -> Vec<EntryFault> {
        let others = self
            .answers
            .iter()
            .filter(|answer| !(1..=questions).contains(&answer.number));
        let mut faults: Vec<EntryFault> = others
            .map(|other| {
                let (number, last) = (other.number, questions);
                EntryFaultReason::UnknownQuestion { number, last }.at(other.line)
            })
            .collect();
        let missing = (1..=questions).filter(|number| self.line_of(*number).is_none());
        let missing: Vec<String> = missing.map(|number| number.to_string()).collect();
        if !missing.is_empty() {
            let line = self.answers.last().map_or(self.line, |answer| answer.line);
            let numbers = missing.join(", ");
            faults.push(EntryFaultReason::Unanswered { numbers }.at(line));
        }
        faults
    }

    /// Returns the reply to a question; `None` where it was given up, or cannot be read.
    pub(crate) fn reply(&self, number: usize) -> Option<&str> {
        let written = self.written(number);
        (!written.is_empty() && !written.starts_with('!')).then_some(written)
    }

    /// Returns the reply to a question where it cannot be read, with its mark.
    pub(crate) fn unreadable(&self, number: usize) -> Option<&str> {
        Some(self.written(number)).filter(|written| written.starts_with('!'))
    }

    /// Returns what is written for a question, nothing where it was given up.
    pub(crate) fn written(&self, number: usize) -> &str {
        let written = self.answer(number).map_or("", |answer| &answer.reply);
        if written.eq_ignore_ascii_case("pass") {
            ""
        } else {
            written
        }
    }

    /// Returns the line that answers a question.
    pub(crate) fn line_of(&self, number: usize) -> Option<usize> {
        self.answer(number).map(|answer| answer.line)
    }

    fn answer(&self, number: usize) -> Option<&WrittenAnswer> {
        self.answers.iter().find(|answer| answer.number == number)
    }
}

impl EntryFault {
    /// Names a line and what is said of it.
    pub(crate) fn said(line: usize, reason: impl Into<String>) -> EntryFault {
        EntryFaultReason::Said(reason.into()).at(line)
    }
}

impl EntryFaultReason {
    const fn at(self, line: usize) -> EntryFault {
        EntryFault { line, reason: self }
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

    fn entry(answers: &str) -> Entry {
        Entry::read(&format!("sansvoir sheet drill color\n{answers}"))
    }

    #[test]
    fn the_command_stands_first_and_a_number_alone_gives_a_question_up() {
        let typed = "sansvoir sheet --seed 5 drill color # sheet 93f1b4c2\n1 light\n2. dark\n3\n";
        let entry = Entry::read(typed);
        assert_eq!(entry.command_line, 1);
        assert_eq!(entry.pupils[0].reply(2), Some("dark"));
        assert_eq!(entry.pupils[0].reply(3), None);
    }

    #[test]
    fn an_answer_may_have_its_number_as_a_list_has_it() {
        let read = entry("1 e5\n 2. d5, e6 \n3) 6 3\n4:none\n\n# late\n5 pass\n6\n7 !c3?");
        let read = &read.pupils[0];
        let replies: Vec<Option<&str>> = (1..=7).map(|number| read.reply(number)).collect();
        let said = [
            Some("e5"),
            Some("d5, e6"),
            Some("6 3"),
            Some("none"),
            None,
            None,
            None,
        ];
        assert_eq!(replies, said);
        assert_eq!(read.unfit(7), []);
        assert_eq!(read.line_of(5), Some(8));
        assert_eq!(
            (read.unreadable(7), read.unreadable(1)),
            (Some("!c3?"), None)
        );
    }

    #[test]
    fn a_file_from_another_system_reads_the_same() {
        let read = Entry::read("\u{feff}sansvoir sheet drill color\r\n1 light\r\n");
        assert_eq!(read.command, "sansvoir sheet drill color");
        assert_eq!(read.pupils[0].reply(1), Some("light"));
    }

    #[test]
    fn several_pupils_stand_below_their_names() {
        let read = entry("Ana:\n1 e5\n2 e6\nBruno Ek:\n1 e7\nana:\n2 e5\n : \n");
        let names = read
            .pupils
            .iter()
            .map(|pupil| pupil.name.as_ref().unwrap().to_string());
        assert_eq!(names.collect::<Vec<_>>(), ["Ana", "Bruno Ek"]);
        let lines: Vec<usize> = read.faults.iter().map(|fault| fault.line).collect();
        assert_eq!(lines, [7, 9], "{:?}", read.faults);
        let unanswered = EntryFaultReason::Unanswered {
            numbers: "2, 3".to_owned(),
        };
        assert_eq!(read.pupils[1].unfit(3), [unanswered.at(6)]);
    }

    #[test]
    fn every_line_that_is_no_answer_is_named() {
        assert_eq!(
            Entry::read("# nothing\n\n").faults,
            [EntryFaultReason::Empty.at(1)]
        );
        let none = ["e5", "x 1", "1e5", "99999999999999999999 e5"];
        let read = entry(&format!("1 e5\n{}", none.join("\n")));
        let faults = (3..=6).map(|line| EntryFaultReason::MissingNumber.at(line));
        assert_eq!(read.faults, faults.collect::<Vec<_>>());
        let twice = EntryFaultReason::Repeated {
            number: 1,
            before: 2,
        };
        assert_eq!(entry("1 e5\n2 e6\n1 e7").faults, [twice.at(4)]);
    }

    #[test]
    fn what_is_missing_or_too_much_is_named() {
        let read = entry("1 e5\n3 e7");
        let unanswered = EntryFaultReason::Unanswered {
            numbers: "2".to_owned(),
        };
        assert_eq!(read.pupils[0].unfit(3), [unanswered.clone().at(3)]);
        let beyond = EntryFaultReason::UnknownQuestion { number: 3, last: 2 };
        assert_eq!(read.pupils[0].unfit(2), [beyond.at(3), unanswered.at(3)]);
    }
}
