//! A file in TOML: its keys become values by serde, and every fault points into it.

use std::borrow::Cow;
use std::fmt::Display;
use std::ops::Range;
use std::path::{Path, PathBuf};

use serde::de::value::{MapDeserializer, SeqDeserializer};
use serde::de::{DeserializeOwned, Error, Expected, IntoDeserializer, Unexpected, Visitor};
use serde::{Deserializer, forward_to_deserialize_any};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::excerpt;
use super::failure::{Failure, shown};
use super::places;
use super::values::names_of;
use crate::game::Place;
use crate::terminal::read_regular;
use crate::voice::{commands as words, in_words};

/// The longest file that is read, in bytes; one that is longer was written by no hand.
const LONGEST: u64 = 4 << 20;

/// The text of a file in TOML.
#[derive(Debug)]
pub(super) struct TomlFile {
    path: PathBuf,
    text: String,
}

/// What is wrong at a place of the text.
#[derive(Debug)]
pub(super) struct Fault {
    span: Range<usize>,
    reason: String,
}

/// All that is wrong with a text: the first faults by their place, and how many there are.
#[derive(Debug, Default)]
pub(super) struct Faults {
    first: Vec<Fault>,
    pub(super) count: usize,
}

impl Faults {
    /// So many are told.
    const MOST: usize = 100;

    /// Adds a fault at this place.
    pub(super) fn add(&mut self, span: Range<usize>, reason: impl Display) {
        self.count += 1;
        let at = (self.first).partition_point(|other| other.span.start <= span.start);
        let reason = reason.to_string();
        self.first.insert(at, Fault { span, reason });
        self.first.truncate(Faults::MOST);
    }
}

impl TomlFile {
    /// Reads a file.
    pub(super) fn read(path: &Path) -> Result<TomlFile, Failure> {
        let text = if let Some(text) = places::demo_text(path) {
            text.to_owned()
        } else {
            let bytes = read_regular(path, LONGEST)
                .map_err(|error| Failure::other_file(path, "a file in TOML", &error))?;
            String::from_utf8(bytes).map_err(|_| Failure::at(path, words::NO_UTF8))?
        };
        let path = path.to_owned();
        Ok(TomlFile { path, text })
    }

    /// Tells whether the text begins as a file of games does.
    pub(super) fn begins_as_games(&self) -> bool {
        self.text.trim_start().starts_with("[Event \"")
    }

    /// Makes sense of the text.
    pub(super) fn table(&self) -> Result<DeTable<'_>, Fault> {
        let table = DeTable::parse(&self.text).map_err(|error| Fault {
            span: error.span().unwrap_or(0..0),
            reason: error.message().to_owned(),
        })?;
        Ok(table.into_inner())
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
            .clamp(start, line_end);
        let line = text[..begin].matches('\n').count() + 1;
        let column = text[begin..start].chars().count() + 1;
        let token = &text[start..end];
        let excerpt = excerpt::marked(line, &text[begin..start], token, &text[end..line_end]);
        let (file, place) = (shown(&self.path), Place::new(line, column));
        Failure::AtPlace {
            marked: format!("{file}:{place}: {reason}\n{excerpt}"),
            plainly: in_words::at_place(&file, place, token, reason),
        }
    }

    /// Returns all faults as one failure.
    pub(super) fn refuse(&self, faults: &Faults) -> Result<(), Failure> {
        if faults.count == 0 {
            return Ok(());
        }
        let mut told: Vec<Failure> = faults.first.iter().map(|one| self.failure(one)).collect();
        let more = faults.count - told.len();
        let of_more = || words::more_faults(&shown(&self.path), more);
        told.extend((more > 0).then(|| Failure::Unusable(of_more())));
        let all = |plain| told.iter().map(|one| one.told(plain)).collect::<Vec<_>>();
        Err(Failure::AtPlace {
            marked: all(false).join("\nsansvoir: "),
            plainly: all(true).join("\nsansvoir: "),
        })
    }

    /// Returns a path that the file names: a relative one starts from the file's own folder.
    pub(super) fn beside(&self, path: &Path) -> PathBuf {
        let folder = self.path.parent();
        folder.map_or_else(|| path.to_owned(), |folder| folder.join(path))
    }
}

/// Tables below lines as in `[[part]]`, each with its place.
pub(super) type Tables<'a> = Vec<(&'a DeTable<'a>, Range<usize>)>;

/// The keys of a table, which become values of several types one after the other.
pub(super) struct Keys<'a> {
    table: &'a DeTable<'a>,
    /// Where the table stands.
    span: Range<usize>,
    /// The keys that there may be: those that types have asked for, and those that are read otherwise.
    pub(super) known: Vec<&'static str>,
    /// What is wrong with the keys.
    pub(super) faults: &'a mut Faults,
}

impl<'a> Keys<'a> {
    pub(super) fn new(
        table: &'a DeTable<'a>,
        span: Range<usize>,
        faults: &'a mut Faults,
    ) -> Keys<'a> {
        Keys {
            table,
            span,
            known: Vec::new(),
            faults,
        }
    }

    /// Returns the tables below lines as in `[[part]]` or `[[part.question]]`, each with its place; what is none is a
    /// fault, and so is one beyond the most.
    pub(super) fn tables(&mut self, line: &'static str, most: usize) -> Tables<'a> {
        let key = line.rsplit('.').next().unwrap_or(line);
        self.known.push(key);
        let Some(value) = self.table.get(key) else {
            return Vec::new();
        };
        let DeValue::Array(items) = value.get_ref() else {
            self.faults
                .add(value.span(), words::below_a_line(key, line));
            return Vec::new();
        };
        if let Some(item) = items.get(most) {
            let said = words::too_many_tables(key, items.len(), most);
            self.faults.add(item.span(), said);
            return Vec::new();
        }
        let tables = items.iter().filter_map(|item| {
            if let DeValue::Table(table) = item.get_ref() {
                return Some((table, item.span()));
            }
            self.faults.add(item.span(), words::below_a_line(key, line));
            None
        });
        tables.collect()
    }

    /// Reads the keys of a struct. One that cannot be read is a fault and left out, so that the others
    /// are read all the same.
    pub(super) fn take<T: DeserializeOwned + Default>(&mut self) -> T {
        let mut fitting = Vec::new();
        for key in names_of::<T>() {
            fitting.extend(self.fit(key, |value| {
                let pair = (*key, value);
                read::<T>([pair].into_iter()).map(|_| pair)
            }));
        }
        self.known.extend(names_of::<T>());
        read(fitting.into_iter()).unwrap_or_default()
    }

    /// Reads the value of a key that is none of a struct.
    pub(super) fn value<T: DeserializeOwned>(&mut self, key: &str) -> Option<T> {
        self.fit(key, |value| T::deserialize(value))
    }

    /// Reads the value of a key, if there is such a key; one that does not fit is a fault.
    fn fit<T>(
        &mut self,
        key: &str,
        read: impl FnOnce(TomlValue<'a>) -> Result<T, Unfit>,
    ) -> Option<T> {
        let value = self.table.get(key)?;
        read(TomlValue(value.get_ref()))
            .map_err(|unfit| self.faults.add(value.span(), unfit.about(key)))
            .ok()
    }

    /// Adds every key that no type has asked for as a fault.
    pub(super) fn refuse_others(&mut self, reason: impl Fn(&str, &[&str]) -> String) {
        for key in self.table.keys() {
            let name = key.get_ref().as_ref();
            if !self.known.contains(&name) {
                let reason = reason(name, &self.known);
                self.faults.add(key.span(), reason);
            }
        }
    }

    /// Tells whether there is such a key.
    pub(super) fn has(&self, key: &str) -> bool {
        self.table.contains_key(key)
    }

    /// Adds a fault where the first of these keys stands that is there, else at the exercise, else at the
    /// table.
    pub(super) fn refuse(&mut self, keys: &[&str], reason: impl Display) {
        let mut keys = keys.iter().chain(&["exercise"]);
        let at = keys.find_map(|key| self.table.get(*key).map(Spanned::span));
        let at = at.unwrap_or_else(|| self.span.clone());
        self.faults.add(at, reason);
    }
}

fn read<'a, T: DeserializeOwned>(
    pairs: impl Iterator<Item = (&'static str, TomlValue<'a>)>,
) -> Result<T, Unfit> {
    T::deserialize(MapDeserializer::new(pairs))
}

/// Why a value does not fit its key.
#[derive(Debug, thiserror::Error)]
enum Unfit {
    /// The value is of another type than what is to be written.
    #[error("{0}")]
    Type(String),
    /// The value itself is refused, for this reason.
    #[error("{0}")]
    Refused(String),
}

impl Unfit {
    /// Says it about a key.
    fn about(&self, key: &str) -> String {
        match self {
            Unfit::Type(said) => said.clone(),
            Unfit::Refused(reason) => words::unfit_value(key, reason),
        }
    }
}

impl Error for Unfit {
    fn custom<T: Display>(reason: T) -> Unfit {
        Unfit::Refused(reason.to_string())
    }

    fn invalid_type(found: Unexpected<'_>, wanted: &dyn Expected) -> Unfit {
        Unfit::Type(words::wrong_type(found, &wanted.to_string()))
    }

    fn invalid_value(found: Unexpected<'_>, wanted: &dyn Expected) -> Unfit {
        Unfit::invalid_type(found, wanted)
    }

    fn unknown_variant(word: &str, known: &'static [&'static str]) -> Unfit {
        Unfit::Refused(words::unknown_word(word, known.iter().copied()))
    }
}

/// A value of the file, as serde reads it. Where words are wanted, a text is a list of its words; where
/// a text is wanted that can be typed on a command line, a number or a date is one too.
#[derive(Clone, Copy)]
struct TomlValue<'a>(&'a DeValue<'a>);

impl TomlValue<'_> {
    /// The value as it is typed; `None` for what is none of one word.
    fn typed(&self) -> Option<Cow<'_, str>> {
        Some(match self.0 {
            DeValue::String(text) => Cow::Borrowed(text.as_ref()),
            DeValue::Integer(number) => number.as_str().into(),
            DeValue::Float(number) => number.as_str().into(),
            DeValue::Datetime(date) => date.to_string().into(),
            DeValue::Boolean(_) | DeValue::Array(_) | DeValue::Table(_) => return None,
        })
    }
}

impl<'de> Deserializer<'de> for TomlValue<'_> {
    type Error = Unfit;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Unfit> {
        match self.0 {
            DeValue::String(text) => visitor.visit_str(text),
            DeValue::Boolean(is) => visitor.visit_bool(*is),
            DeValue::Integer(number) => {
                let (digits, radix) = (number.as_str(), number.radix());
                if let Ok(number) = i64::from_str_radix(digits, radix) {
                    visitor.visit_i64(number)
                } else if let Ok(number) = u64::from_str_radix(digits, radix) {
                    visitor.visit_u64(number)
                } else {
                    visitor.visit_f64(f64::INFINITY)
                }
            }
            DeValue::Float(number) => {
                visitor.visit_f64(number.as_str().parse().map_err(Unfit::custom)?)
            }
            DeValue::Datetime(date) => visitor.visit_str(&date.to_string()),
            DeValue::Array(items) => {
                let items = items.iter().map(|item| TomlValue(item.get_ref()));
                visitor.visit_seq(SeqDeserializer::new(items))
            }
            DeValue::Table(table) => {
                let pairs = table.iter();
                let pairs =
                    pairs.map(|(key, value)| (key.get_ref().as_ref(), TomlValue(value.get_ref())));
                visitor.visit_map(MapDeserializer::new(pairs))
            }
        }
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Unfit> {
        match self.typed() {
            Some(typed) => visitor.visit_str(&typed),
            None => self.deserialize_any(visitor),
        }
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Unfit> {
        match self.0 {
            DeValue::String(text) => visitor.visit_seq(SeqDeserializer::new(text.split(','))),
            DeValue::Array(items) if items.is_empty() => {
                Err(Unfit::Refused(words::EMPTY_LIST.to_owned()))
            }
            _ => self.deserialize_any(visitor),
        }
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Unfit> {
        visitor.visit_some(self)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        known: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Unfit> {
        match self.0 {
            DeValue::String(text) => visitor.visit_enum(text.as_ref().into_deserializer()),
            _ => Err(Unfit::Refused(words::one_of(known))),
        }
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char string bytes byte_buf unit unit_struct
        newtype_struct tuple tuple_struct map struct identifier ignored_any
    }
}

impl IntoDeserializer<'_, Unfit> for TomlValue<'_> {
    type Deserializer = Self;

    fn into_deserializer(self) -> Self {
        self
    }
}
