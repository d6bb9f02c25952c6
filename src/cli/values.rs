//! Values of options and keys: each is read in one way, whether it comes from a command line, a lesson
//! file, the config file or a journal.

use std::fmt::{self, Display};
use std::marker::PhantomData;
use std::path::{Path, PathBuf};
use std::str::FromStr;
use std::time::Duration;

use clap::ColorChoice;
use clap::builder::{PossibleValuesParser, TypedValueParser};
use serde::de::value::Error as NoValue;
use serde::de::{DeserializeOwned, Error, IntoDeserializer, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer, forward_to_deserialize_any};
use serde_json::{Map, Value};
use shakmaty::Color;

use super::failure::Failure;
use crate::exercise::bound::Millis;
use crate::question::Kind;
use crate::voice::commands as words;

/// The longest time that is taken, in seconds: a day.
const LONGEST: f64 = 86_400.0;

/// A value that is kept as a text, as it is typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Text<T>(pub(super) T);

impl<T: FromStr> FromStr for Text<T> {
    type Err = T::Err;

    fn from_str(text: &str) -> Result<Text<T>, T::Err> {
        text.parse().map(Text)
    }
}

impl<T: Display> Serialize for Text<T> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(&self.0)
    }
}

impl<'de, T: FromStr<Err: Display>> Deserialize<'de> for Text<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Text<T>, D::Error> {
        from.deserialize_str(Typed(PhantomData)).map(Text)
    }
}

/// Reads what can be typed; a number is taken as it would be typed.
struct Typed<T>(PhantomData<T>);

impl<T: FromStr<Err: Display>> Visitor<'_> for Typed<T> {
    type Value = T;

    fn expecting(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(words::NUMBER_OR_TEXT)
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<T, E> {
        text.parse().map_err(E::custom)
    }

    fn visit_i64<E: Error>(self, number: i64) -> Result<T, E> {
        self.visit_str(&number.to_string())
    }

    fn visit_u64<E: Error>(self, number: u64) -> Result<T, E> {
        self.visit_str(&number.to_string())
    }

    fn visit_f64<E: Error>(self, number: f64) -> Result<T, E> {
        self.visit_str(&number.to_string())
    }
}

/// A time in seconds, with or without a fraction.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Seconds(Duration);

impl Seconds {
    /// Returns the time.
    pub(super) const fn time(self) -> Duration {
        self.0
    }

    /// Counts the milliseconds.
    pub(super) fn millis(self) -> Millis {
        Millis::nearest(usize::try_from(self.0.as_millis()).unwrap_or(usize::MAX))
    }
}

impl FromStr for Seconds {
    type Err = &'static str;

    fn from_str(text: &str) -> Result<Seconds, &'static str> {
        let seconds = text.parse().ok().filter(|seconds| *seconds > 0.0);
        let time = seconds.and_then(|seconds| Duration::try_from_secs_f64(seconds).ok());
        let time = time.filter(|time| time.as_secs_f64() <= LONGEST);
        time.map(Seconds).ok_or(words::NO_SECONDS)
    }
}

impl Serialize for Seconds {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_f64(self.0.as_secs_f64())
    }
}

impl<'de> Deserialize<'de> for Seconds {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Seconds, D::Error> {
        from.deserialize_any(Typed(PhantomData))
    }
}

/// When there is color, by the words of the option.
#[derive(Deserialize)]
#[serde(remote = "ColorChoice", rename_all = "lowercase")]
pub(super) enum When {
    Auto,
    Always,
    Never,
}

/// A side of the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum Side {
    White,
    Black,
}

impl From<Side> for Color {
    fn from(side: Side) -> Color {
        match side {
            Side::White => Color::White,
            Side::Black => Color::Black,
        }
    }
}

/// A kind of question over the empty board or over a position, or the word that stands for more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct KindWord<const BARE: bool>(Option<Kind>);

/// One word of `--ask`: a kind over a position, or all of them.
pub(super) type AskedKind = KindWord<false>;
/// One word of the kinds of a drill: one over the empty board, or few for a handful of pieces.
pub(super) type DrillKind = KindWord<true>;

impl<const BARE: bool> KindWord<BARE> {
    const KINDS: &'static [Kind] = if BARE { &Kind::BARE } else { &Kind::LINE };
    /// The word that stands for more than a kind.
    const MORE: &'static str = if BARE { "few" } else { "all" };

    /// All words that can be written.
    pub(super) fn names() -> impl Iterator<Item = &'static str> {
        let kinds = Self::KINDS.iter().map(|kind| kind.name());
        kinds.chain([Self::MORE])
    }

    /// Reads a word of the command line.
    pub(super) fn parser() -> impl TypedValueParser<Value = Text<Self>> {
        PossibleValuesParser::new(Self::names()).try_map(|word| word.parse())
    }

    /// Writes kinds down.
    pub(super) fn of(kinds: impl IntoIterator<Item = Kind>) -> Vec<Text<Self>> {
        let kinds = kinds.into_iter().map(|kind| Text(KindWord(Some(kind))));
        kinds.collect()
    }

    /// The word that stands for more than a kind, written down.
    pub(super) const fn more() -> Text<Self> {
        Text(KindWord(None))
    }

    /// Returns the kinds that are named, in the order of the climb.
    pub(super) fn kinds(named: &[Text<Self>]) -> Vec<Kind> {
        let is_named = |kind: &Kind| named.contains(&Text(KindWord(Some(*kind))));
        Self::KINDS.iter().copied().filter(is_named).collect()
    }
}

impl<const BARE: bool> FromStr for KindWord<BARE> {
    type Err = String;

    fn from_str(word: &str) -> Result<Self, String> {
        if word == Self::MORE {
            return Ok(KindWord(None));
        }
        let kind = Self::KINDS.iter().find(|kind| kind.name() == word);
        let kind = kind.ok_or_else(|| words::unknown_word(word, Self::names()))?;
        Ok(KindWord(Some(*kind)))
    }
}

impl<const BARE: bool> Display for KindWord<BARE> {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(self.0.map_or(Self::MORE, Kind::name))
    }
}

/// Returns the kinds that are asked for, in the order of the climb; without any, the three that ask for
/// the piece, its reach and its moves.
pub(super) fn kinds_asked(asked: &[Text<AskedKind>]) -> Vec<Kind> {
    if asked.is_empty() {
        vec![Kind::Whereabouts, Kind::Attacks, Kind::Legality]
    } else if asked.contains(&AskedKind::more()) {
        Kind::LINE.to_vec()
    } else {
        AskedKind::kinds(asked)
    }
}

/// Reads one of the words of an enum, and suggests the nearest one for any other.
pub(super) fn word<T>() -> impl TypedValueParser<Value = T>
where
    T: DeserializeOwned + Clone + Send + Sync + 'static,
{
    PossibleValuesParser::new(names_of::<T>()).try_map(|said| {
        let said: serde::de::value::StringDeserializer<NoValue> = said.into_deserializer();
        T::deserialize(said)
    })
}

/// Returns the names of an enum's words, or of a struct's keys.
pub(super) fn names_of<T: DeserializeOwned>() -> &'static [&'static str] {
    let mut names: &'static [&'static str] = &[];
    // Nothing is read: the type only asks for its names.
    let _ = T::deserialize(Names(&mut names));
    names
}

/// Takes the names that a type asks for.
struct Names<'a>(&'a mut &'static [&'static str]);

impl<'de> Deserializer<'de> for Names<'_> {
    type Error = NoValue;

    fn deserialize_any<V: Visitor<'de>>(self, _: V) -> Result<V::Value, NoValue> {
        Err(NoValue::custom("no value"))
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, NoValue> {
        *self.0 = variants;
        self.deserialize_any(visitor)
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, NoValue> {
        *self.0 = fields;
        self.deserialize_any(visitor)
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf option unit
        unit_struct newtype_struct seq tuple tuple_struct map identifier ignored_any
    }
}

/// The options that were given, by name: what is left at its default is not among them.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(transparent)]
pub(super) struct GivenOptions(Map<String, Value>);

impl GivenOptions {
    /// Reads what was given from a struct of options.
    pub(super) fn of(options: &impl Serialize) -> Result<GivenOptions, Failure> {
        let options = serde_json::to_value(options)?;
        let GivenOptions(mut given) = serde_json::from_value(options)?;
        given.retain(|_, value| match value {
            Value::Null | Value::Bool(false) => false,
            Value::Array(values) => !values.is_empty(),
            _ => true,
        });
        Ok(GivenOptions(given))
    }

    /// Gives an option that was left at its default.
    pub(super) fn settle(&mut self, option: &str, value: impl Into<Value>) {
        self.0.entry(option).or_insert_with(|| value.into());
    }

    /// Returns the first of these options that was given.
    pub(super) fn first_of<'a>(&self, options: &[&'a str]) -> Option<&'a str> {
        let mut options = options.iter().copied();
        options.find(|option| self.0.contains_key(*option))
    }

    /// Returns the first option that was given otherwise than `begun` has it.
    pub(super) fn first_unlike(&self, begun: &GivenOptions) -> Option<&str> {
        let mut given = self.0.iter();
        let unlike = given.find(|(option, value)| begun.0.get(*option) != Some(value));
        unlike.map(|(option, _)| option.as_str())
    }

    /// Returns the words of a command line that gives these options; those that stand for themselves come
    /// first.
    pub(super) fn words(&self, bare: &[&str]) -> Vec<String> {
        let (first, rest): (Vec<_>, Vec<_>) =
            (self.0.iter()).partition(|(option, _)| bare.contains(&option.as_str()));
        let mut words: Vec<String> = first.iter().map(|(_, value)| typed(value)).collect();
        for (option, value) in rest {
            words.push(format!("--{option}"));
            if *value != Value::Bool(true) {
                words.push(typed(value));
            }
        }
        words
    }
}

/// A value as it is typed.
fn typed(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        Value::Array(values) => values.iter().map(typed).collect::<Vec<_>>().join(","),
        Value::Number(number) => {
            let whole = number.as_f64().filter(|number| number.fract() == 0.0);
            whole.map_or_else(|| number.to_string(), |whole| whole.to_string())
        }
        other => other.to_string(),
    }
}

/// Writes a path, which need be no text.
#[expect(clippy::ref_option, reason = "serde hands it over so")]
pub(super) fn as_shown<S: Serializer>(path: &Option<PathBuf>, to: S) -> Result<S::Ok, S::Error> {
    path.as_deref().map(Path::to_string_lossy).serialize(to)
}

/// The words of a command: the program, then its arguments.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct CommandWords(pub(super) Vec<String>);

impl FromStr for CommandWords {
    type Err = &'static str;

    /// Reads a command as a shell reads its words; no shell ever sees it.
    fn from_str(text: &str) -> Result<CommandWords, &'static str> {
        let words = shell_words::split(text).map_err(|_| words::OPEN_QUOTE)?;
        let words = Some(words).filter(|words| !words.is_empty());
        words.map(CommandWords).ok_or(words::NO_PROGRAM)
    }
}

impl Display for CommandWords {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        to.write_str(&quoted(&self.0))
    }
}

/// Writes words as a shell reads them.
pub(super) fn quoted(words: &[String]) -> String {
    let is_bare = |c: char| c.is_ascii_alphanumeric() || "_@%+=:,./-".contains(c);
    let quoted = words.iter().map(|word| match word.as_str() {
        word if !word.is_empty() && word.chars().all(is_bare) => word.to_owned(),
        word => format!("'{}'", word.replace('\'', r"'\''")),
    });
    quoted.collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_come_out_of_quotes_as_they_went_in() {
        for word in [
            "a",
            "",
            "my games.pgn",
            "it's",
            r"C:\games",
            "\"q\"",
            "$HOME `x` é",
        ] {
            let both = [word.to_owned(), "next".to_owned()];
            assert_eq!(shell_words::split(&quoted(&both)).unwrap(), both);
        }
    }

    #[test]
    fn a_command_is_read_as_a_shell_reads_it() {
        let read: CommandWords = r#" a  "b c" d\ e 'f'g "#.parse().unwrap();
        assert_eq!(read.0, ["a", "b c", "d e", "fg"]);
        assert!("my-voice 'half".parse::<CommandWords>().is_err());
    }
}
