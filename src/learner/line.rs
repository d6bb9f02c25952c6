//! Lines of a journal, read back into records.

use std::fs::File;
use std::io::{self, BufRead, BufReader, Read};
use std::path::Path;

use serde::Deserialize;
use serde_json::Value;

use super::error::{NO_OBJECT, missing, reason};
use super::record::{Record, VERSION};
use super::{BrokenLines, JournalError, JournalProblem};
use crate::question::Kind;

/// The longest line that is written and read, in bytes; all but sessions of huge games are far shorter.
pub(super) const LONGEST_LINE: usize = 32 << 20;

/// How all answers of this version begin as this program writes them.
const ANSWER: &[u8] = br#"{"v":1,"type":"answer","#;

/// Reads a journal line by line, with one line in memory at a time: shows the number and the text of each
/// that is a record, and what it says where this build knows that. Returns the lines that are none.
pub(super) fn each_record(
    path: &Path,
    file: File,
    mut show: impl FnMut(usize, &[u8], Option<Record>) -> Result<(), JournalError>,
) -> Result<BrokenLines, JournalError> {
    let mut file = BufReader::with_capacity(64 << 10, file);
    let mut broken = BrokenLines::default();
    let mut last_broken = None;
    let mut line = Vec::new();
    for number in 1.. {
        line.clear();
        let mut read = || {
            let length = (&mut file)
                .take(LONGEST_LINE as u64)
                .read_until(b'\n', &mut line)?;
            let is_whole = line.last() == Some(&b'\n');
            if length == LONGEST_LINE && !is_whole {
                file.skip_until(b'\n')?;
            }
            io::Result::Ok((length, is_whole))
        };
        let (length, is_whole) = read().map_err(|reason| JournalError::reading(path, reason))?;
        let text = line.trim_ascii();
        if length == 0 {
            break;
        }
        if text.is_empty() {
            continue;
        }
        let reading = match length {
            LONGEST_LINE if !is_whole => Reading::Broken("it is far too long".to_owned()),
            _ => read_line(text),
        };
        match reading {
            Reading::Record(record) => {
                if matches!(record, Record::Seal(_)) && last_broken == Some(number - 1) {
                    broken.forgive(number - 1);
                }
                show(number, text, Some(record))?;
            }
            Reading::Unknown => show(number, text, None)?,
            // The last line may have been cut off by a crash, or be half written as yet.
            Reading::Broken(_) if !is_whole && length < LONGEST_LINE => broken.cut = true,
            Reading::Broken(reason) => {
                last_broken = Some(number);
                broken.add(number, reason);
            }
            Reading::Newer(version) => {
                let line = number;
                return Err(JournalProblem::Newer { line, version }.at(path));
            }
        }
    }
    Ok(broken)
}

/// What a line turned out to be.
#[derive(Debug)]
#[expect(clippy::large_enum_variant, reason = "there is one at a time")]
pub(super) enum Reading {
    /// A record.
    Record(Record),
    /// A record of a type, or an answer of a kind, that this build does not know.
    Unknown,
    /// A record of a later version.
    Newer(u64),
    /// No record, and why not.
    Broken(String),
}

/// Reads one line.
pub(super) fn read_line(line: &[u8]) -> Reading {
    // Measured: to read the version and the type of every answer beforehand takes a third longer.
    if line.starts_with(ANSWER)
        && let Ok(answer) = serde_json::from_slice(line)
    {
        return Reading::Record(Record::Answer(answer));
    }
    // Lists are kept away from the reader, which would take them for fields without names.
    if line.trim_ascii_start().first() != Some(&b'{') {
        return Reading::Broken(NO_OBJECT.to_owned());
    }
    read_by_type(line).unwrap_or_else(|error| Reading::Broken(reason(&error)))
}

/// Reads a line by the version and the type that it states.
fn read_by_type(line: &[u8]) -> serde_json::Result<Reading> {
    /// A later version may have given these another shape.
    #[derive(Deserialize)]
    struct Head {
        v: u64,
        #[serde(rename = "type", default)]
        tag: Value,
        #[serde(default)]
        kind: Value,
    }
    let head: Head = serde_json::from_slice(line)?;
    Ok(match head.tag.as_str() {
        _ if head.v > VERSION => Reading::Newer(head.v),
        _ if head.v != VERSION => Reading::Broken(format!("no record has the version {}", head.v)),
        None => Reading::Broken(missing("type")),
        Some("start") => Reading::Record(Record::Start(serde_json::from_slice(line)?)),
        Some("answer") => match head.kind.as_str().map(str::parse::<Kind>) {
            Some(Err(_)) => Reading::Unknown,
            _ => Reading::Record(Record::Answer(serde_json::from_slice(line)?)),
        },
        Some("said") => Reading::Record(Record::Said(serde_json::from_slice(line)?)),
        Some("game") => Reading::Record(Record::Game(serde_json::from_slice(line)?)),
        Some("end") => Reading::Record(Record::End(serde_json::from_slice(line)?)),
        Some("seal") => Reading::Record(Record::Seal(serde_json::from_slice(line)?)),
        Some(_) => Reading::Unknown,
    })
}

#[cfg(test)]
mod tests {
    use shakmaty::{Color, Square};

    use super::*;

    #[test]
    fn a_question_about_one_square_tells_it_and_the_side_from_which_it_is_seen() {
        let square = |kind: &str, subject: &str| {
            let line = format!(
                r#"{{"v":1,"type":"answer","time":"2026-03-01T18:20:04Z","session":"s","exercise":"drill","kind":"{kind}","subject":{subject},"expected":{{}},"reply":"","verdict":"pass","score":0.0,"millis":900,"late":false,"looks":0}}"#
            );
            match read_line(line.as_bytes()) {
                Reading::Record(Record::Answer(answer)) => answer.square(),
                other => panic!("{other:?}"),
            }
        };
        let c6 = r#"{"square":"c6","view":"black"}"#;
        assert_eq!(square("name", c6), Some((Square::C6, Some(Color::Black))));
        assert_eq!(
            square("color", r#"{"square":"c6"}"#),
            Some((Square::C6, None))
        );
        assert_eq!(square("color", r#"{"square":"z6"}"#), None);
        assert_eq!(square("attacks", c6), None);
    }

    #[test]
    fn an_answer_is_read_alike_wherever_its_version_and_its_type_stand() {
        let rest = r#""time":"2026-03-01T18:20:04Z","session":"s","exercise":"drill","kind":"color","subject":{"square":"c4"},"expected":{"color":"light"},"reply":"light","verdict":"right","score":1.0,"millis":900,"late":false,"looks":0"#;
        let record = |line: String| match read_line(line.as_bytes()) {
            Reading::Record(record) => record,
            other => panic!("{line}: {other:?}"),
        };
        let as_written = record(format!(r#"{{"v":1,"type":"answer",{rest}}}"#));
        assert_eq!(
            as_written.to_line(),
            format!(r#"{{"v":1,"type":"answer",{rest}}}"#)
        );
        assert_eq!(
            record(format!(r#" {{ {rest}, "type":"answer", "v":1 }}"#)),
            as_written
        );
    }
}
