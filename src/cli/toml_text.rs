//! A file in TOML whose errors point into it.

use std::fmt::Display;
use std::fs;
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::time::Duration;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::arguments::seconds;
use super::failure::{AtPlace, Failure, shown};
use super::fault;
use crate::game::Place;
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

impl TomlText {
    /// Reads a file.
    pub(super) fn read(path: &Path) -> Result<TomlText, Failure> {
        let failed = |error| Failure::toml_file(path, &error);
        let length = fs::metadata(path).map_err(failed)?.len();
        if length > LONGEST {
            return Err(Failure::Unusable(format!(
                "{}: this file is far too long: give a text file in TOML",
                shown(path)
            )));
        }
        Ok(TomlText {
            path: path.to_owned(),
            text: fs::read_to_string(path).map_err(failed)?,
        })
    }

    /// Makes sense of the text.
    pub(super) fn table(&self) -> Result<DeTable<'_>, Failure> {
        match DeTable::parse(&self.text) {
            Ok(table) => Ok(table.into_inner()),
            Err(error) => {
                let span = error.span().unwrap_or(0..0);
                Err(self.fault(span, error.message()))
            }
        }
    }

    /// Says what is wrong at a place, and marks it.
    pub(super) fn fault(&self, span: Range<usize>, reason: impl Display) -> Failure {
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
            plainly: in_words::at_place(&file, place, &text[start..end], &reason.to_string()),
        }))
    }

    /// Says that a key is unknown, with the ones that are known.
    pub(super) fn unknown(&self, key: &Spanned<impl AsRef<str>>, known: &[&str]) -> Failure {
        let name = key.get_ref().as_ref();
        self.fault(
            key.span(),
            format!(
                "there is no key \"{name}\" here: take one of {}, or leave it out",
                known.join(", ")
            ),
        )
    }

    /// Reads a text.
    pub(super) fn string<'a>(&self, value: &'a Value<'_>) -> Result<&'a str, Failure> {
        match value.get_ref() {
            DeValue::String(text) => Ok(text),
            other => Err(self.wanted("a text in quotes", value, other)),
        }
    }

    /// Reads a list of texts; one text alone is a list of one.
    pub(super) fn strings(&self, value: &Value<'_>) -> Result<Vec<String>, Failure> {
        match value.get_ref() {
            DeValue::String(text) => Ok(vec![text.to_string()]),
            DeValue::Array(items) => items
                .iter()
                .map(|item| self.string(item).map(str::to_owned))
                .collect(),
            other => Err(self.wanted("texts in brackets, as in [\"one\", \"two\"]", value, other)),
        }
    }

    /// Reads yes or no.
    pub(super) fn boolean(&self, value: &Value<'_>) -> Result<bool, Failure> {
        match value.get_ref() {
            DeValue::Boolean(is) => Ok(*is),
            other => Err(self.wanted("true or false", value, other)),
        }
    }

    /// Reads a whole number from 1 on.
    pub(super) fn count(&self, value: &Value<'_>) -> Result<usize, Failure> {
        let number = match value.get_ref() {
            DeValue::Integer(number) => plain(number.as_str()).parse().ok(),
            other => return Err(self.wanted("a whole number", value, other)),
        };
        number
            .filter(|number| *number > 0)
            .ok_or_else(|| self.fault(value.span(), "write a whole number from 1 on"))
    }

    /// Reads a time in seconds.
    pub(super) fn seconds(&self, value: &Value<'_>) -> Result<Duration, Failure> {
        let number = match value.get_ref() {
            DeValue::Integer(number) => number.as_str(),
            DeValue::Float(number) => number.as_str(),
            other => return Err(self.wanted("a number of seconds", value, other)),
        };
        seconds(&plain(number)).map_err(|reason| self.fault(value.span(), reason))
    }

    /// Reads one of a few words.
    pub(super) fn word<T: Copy>(
        &self,
        value: &Value<'_>,
        words: &[(&str, T)],
    ) -> Result<T, Failure> {
        let said = self.string(value)?;
        let found = words.iter().find(|(word, _)| *word == said);
        found.map(|(_, meant)| *meant).ok_or_else(|| {
            let known: Vec<String> = words.iter().map(|(word, _)| format!("{word:?}")).collect();
            self.fault(value.span(), format!("write one of {}", known.join(", ")))
        })
    }

    fn wanted(&self, what: &str, value: &Value<'_>, found: &DeValue<'_>) -> Failure {
        let found = match found {
            DeValue::String(_) => "a text",
            DeValue::Integer(_) | DeValue::Float(_) => "a number",
            DeValue::Boolean(_) => "true or false",
            DeValue::Datetime(_) => "a date",
            DeValue::Array(_) => "a list",
            DeValue::Table(_) => "a table",
        };
        self.fault(value.span(), format!("this is {found}: write {what}"))
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
