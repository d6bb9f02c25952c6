//! A file in TOML whose errors point into it.

use std::fmt::Display;
use std::io;
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::time::Duration;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::arguments::seconds;
use super::demo;
use super::failure::{AtPlace, Failure, shown};
use super::fault;
use crate::game::Place;
use crate::terminal::read_regular;
use crate::voice::in_words;

/// The longest file that is read, in bytes; one that is longer was written by no hand.
const LONGEST: u64 = 4 << 20;

/// The text of a file in TOML.
#[derive(Debug)]
pub(super) struct TomlText {
    path: PathBuf,
    text: String,
}

/// A value with its place in the file.
pub(super) type Value<'a> = Spanned<DeValue<'a>>;

/// What is wrong at a place of the text.
#[derive(Debug)]
pub(super) struct Fault {
    pub(super) span: Range<usize>,
    reason: String,
}

impl Fault {
    /// Says what is wrong at a place.
    pub(super) fn at(span: Range<usize>, reason: impl Display) -> Fault {
        let reason = reason.to_string();
        Fault { span, reason }
    }
}

/// All that is wrong with a text: the first faults by their place, and how many there are.
#[derive(Debug, Default)]
pub(super) struct Faults {
    first: Vec<Fault>,
    count: usize,
}

impl Faults {
    /// So many are told.
    const MOST: usize = 10;

    /// Adds a fault.
    pub(super) fn add(&mut self, fault: Fault) {
        self.count += 1;
        let at = (self.first).partition_point(|other| other.span.start <= fault.span.start);
        self.first.insert(at, fault);
        self.first.truncate(Faults::MOST);
    }

    /// Returns what was read, or adds why nothing was.
    pub(super) fn unless<T>(&mut self, read: Result<T, Fault>) -> Option<T> {
        read.map_err(|fault| self.add(fault)).ok()
    }

    /// Returns how many there are.
    pub(super) const fn count(&self) -> usize {
        self.count
    }

    /// Returns the first ones, and how many more there are.
    pub(super) fn told(&self) -> (&[Fault], usize) {
        (&self.first, self.count - self.first.len())
    }
}

impl TomlText {
    /// Reads a file.
    pub(super) fn read(path: &Path) -> Result<TomlText, Failure> {
        let text = match demo::text(path) {
            Some(text) => Ok(text.to_owned()),
            None => read_regular(path, LONGEST).and_then(|bytes| {
                String::from_utf8(bytes)
                    .map_err(|error| io::Error::new(io::ErrorKind::InvalidData, error))
            }),
        };
        Ok(TomlText {
            path: path.to_owned(),
            text: text.map_err(|error| Failure::toml_file(path, &error))?,
        })
    }

    /// Tells whether the text begins as a file of games does.
    pub(super) fn begins_as_games(&self) -> bool {
        self.text.trim_start().starts_with("[Event \"")
    }

    /// Makes sense of the text.
    pub(super) fn table(&self) -> Result<DeTable<'_>, Fault> {
        match DeTable::parse(&self.text) {
            Ok(table) => Ok(table.into_inner()),
            Err(error) => {
                let span = error.span().unwrap_or(0..0);
                Err(Fault::at(span, error.message()))
            }
        }
    }

    /// Tells a fault with its line and column, and marks its place.
    pub(super) fn failure(&self, fault: &Fault) -> Failure {
        let Fault { span, reason } = fault;
        let text = &self.text;
        let start = text.floor_char_boundary(span.start.min(text.len()));
        let begin = text[..start].rfind('\n').map_or(0, |at| at + 1);
        let line_end = text[start..]
            .find(['\n', '\r'])
            .map_or(text.len(), |at| start + at);
        let end = text
            .floor_char_boundary(span.end.min(line_end))
            .max(start)
            .min(line_end);
        let line = text[..begin].matches('\n').count() + 1;
        let column = text[begin..start].chars().count() + 1;
        let excerpt = fault::marked(
            line,
            &text[begin..start],
            &text[start..end],
            &text[end..line_end],
        );
        let (file, place) = (shown(&self.path), Place::new(line, column));
        Failure::AtPlace(Box::new(AtPlace {
            said: format!("{file}:{place}: {reason}"),
            excerpt,
            plainly: in_words::at_place(&file, place, &text[start..end], reason),
        }))
    }

    /// Says that a key is unknown, with the ones that are known.
    pub(super) fn unknown(key: &Spanned<impl AsRef<str>>, known: &[&str]) -> Fault {
        let name = key.get_ref().as_ref();
        Fault::at(
            key.span(),
            format!(
                "there is no key \"{name}\" here: take one of {}, or leave it out",
                known.join(", ")
            ),
        )
    }

    /// Reads a text.
    pub(super) fn string<'a>(value: &'a Value<'_>) -> Result<&'a str, Fault> {
        match value.get_ref() {
            DeValue::String(text) => Ok(text),
            other => Err(TomlText::wanted("a text in quotes", value, other)),
        }
    }

    /// Reads a list of texts; one text alone is a list of one.
    pub(super) fn strings(value: &Value<'_>) -> Result<Vec<String>, Fault> {
        match value.get_ref() {
            DeValue::String(text) => Ok(vec![text.to_string()]),
            DeValue::Array(items) => items
                .iter()
                .map(|item| TomlText::string(item).map(str::to_owned))
                .collect(),
            other => Err(TomlText::wanted(
                "texts in brackets, as in [\"one\", \"two\"]",
                value,
                other,
            )),
        }
    }

    /// Reads yes or no.
    pub(super) fn boolean(value: &Value<'_>) -> Result<bool, Fault> {
        match value.get_ref() {
            DeValue::Boolean(is) => Ok(*is),
            other => Err(TomlText::wanted("true or false", value, other)),
        }
    }

    /// Reads a whole number from 1 on.
    pub(super) fn count(value: &Value<'_>) -> Result<usize, Fault> {
        let number = match value.get_ref() {
            DeValue::Integer(number) => plain(number.as_str()).parse().ok(),
            other => return Err(TomlText::wanted("a whole number", value, other)),
        };
        number
            .filter(|number| *number > 0)
            .ok_or_else(|| Fault::at(value.span(), "write a whole number from 1 on"))
    }

    /// Reads a time in seconds.
    pub(super) fn seconds(value: &Value<'_>) -> Result<Duration, Fault> {
        let number = match value.get_ref() {
            DeValue::Integer(number) => number.as_str(),
            DeValue::Float(number) => number.as_str(),
            other => return Err(TomlText::wanted("a number of seconds", value, other)),
        };
        seconds(&plain(number)).map_err(|reason| Fault::at(value.span(), reason))
    }

    /// Reads one of a few words.
    pub(super) fn word<T: Copy>(value: &Value<'_>, words: &[(&str, T)]) -> Result<T, Fault> {
        let said = TomlText::string(value)?;
        let found = words.iter().find(|(word, _)| *word == said);
        found.map(|(_, meant)| *meant).ok_or_else(|| {
            let known: Vec<String> = words.iter().map(|(word, _)| format!("{word:?}")).collect();
            Fault::at(value.span(), format!("write one of {}", known.join(", ")))
        })
    }

    fn wanted(what: &str, value: &Value<'_>, found: &DeValue<'_>) -> Fault {
        let found = match found {
            DeValue::String(_) => "a text",
            DeValue::Integer(_) | DeValue::Float(_) => "a number",
            DeValue::Boolean(_) => "true or false",
            DeValue::Datetime(_) => "a date",
            DeValue::Array(_) => "a list",
            DeValue::Table(_) => "a table",
        };
        Fault::at(value.span(), format!("this is {found}: write {what}"))
    }

    /// Returns a path that the file names: a relative one starts from the file's own folder.
    pub(super) fn beside(&self, path: &str) -> PathBuf {
        self.path
            .parent()
            .map_or_else(|| PathBuf::from(path), |folder| folder.join(path))
    }
}

/// A number without the marks that TOML allows between its digits.
pub(super) fn plain(number: &str) -> String {
    number.replace('_', "")
}
