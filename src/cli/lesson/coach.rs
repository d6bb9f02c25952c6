//! A lesson that a coach wrote: a file in TOML, checked before anything of it is held.

use std::ops::Range;
use std::path::Path;

use clap::error::{ContextKind, ContextValue};
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::super::failure::Failure;
use super::super::shared::Shared;
use super::super::toml_text::{TomlText, Value, plain};
use super::super::{Command, ahead, drill, recite, replay, tell};
use super::outline::{EXERCISES, Outline, Part, no_exercise, reason};
use super::today::word;
use crate::voice::clean;

/// The keys of the file.
const KEYS: [&str; 3] = ["title", "notes", "part"];
/// The options of every command, which are the learner's and not the lesson's.
const LEARNERS: [&str; 11] = [
    "learner", "data", "plain", "color", "speak", "speech", "list", "letters", "resume", "help",
    "version",
];

/// Reads a lesson file and sees to it that every part of it can be held. Every fault is told; the last
/// one is returned.
pub(super) fn outline(file: &Path, shared: &Shared) -> Result<Outline, Failure> {
    let text = TomlText::read(file)?;
    let mut outline = Outline::default();
    let mut faults = Vec::new();
    let table = text.table()?;
    for (key, value) in &table {
        let read = match key.get_ref().as_ref() {
            "title" => text
                .string(value)
                .map(|title| outline.title = Some(title.to_owned())),
            "notes" => text
                .string(value)
                .map(|notes| outline.notes = Some(notes.to_owned())),
            "part" => parts(&text, value, shared, &mut faults).map(|parts| outline.parts = parts),
            _ => Err(text.unknown(key, &KEYS)),
        };
        faults.extend(read.err());
    }
    if outline.parts.is_empty() && faults.is_empty() {
        let reason = "this lesson has no part: write [[part]], and below it exercise = \"replay\"";
        faults.push(text.fault(0..0, reason));
    }
    let Some(last) = faults.pop() else {
        return Ok(outline);
    };
    for fault in faults {
        tell(&format!("sansvoir: {}", fault.told(shared.plain)));
    }
    Err(last)
}

fn parts(
    text: &TomlText,
    value: &Value<'_>,
    shared: &Shared,
    faults: &mut Vec<Failure>,
) -> Result<Vec<Part>, Failure> {
    let wanted = || text.fault(value.span(), "write each part below a line [[part]]");
    let DeValue::Array(tables) = value.get_ref() else {
        return Err(wanted());
    };
    let mut parts = Vec::new();
    for table in tables {
        let DeValue::Table(keys) = table.get_ref() else {
            return Err(wanted());
        };
        let written = Written {
            text,
            keys,
            span: table.span(),
        };
        match written.part().and_then(|part| {
            written.check(&part, shared)?;
            Ok(part)
        }) {
            Ok(part) => parts.push(part),
            Err(fault) => faults.push(fault),
        }
    }
    Ok(parts)
}

/// One part as it stands in the file.
struct Written<'a> {
    text: &'a TomlText,
    keys: &'a DeTable<'a>,
    span: Range<usize>,
}

impl Written<'_> {
    /// Turns the keys into the words of a command.
    fn part(&self) -> Result<Part, Failure> {
        let text = self.text;
        let exercise = self.value("exercise").ok_or_else(|| {
            let known = EXERCISES.join(", ");
            text.fault(
                self.head(),
                format!("this part names no exercise: write exercise = and one of {known}"),
            )
        })?;
        let name = text.string(exercise)?;
        if !EXERCISES.contains(&name) {
            let reason = no_exercise(&[name.to_owned()]);
            return Err(text.fault(exercise.span(), reason));
        }
        let mut part = Part {
            heading: name.to_owned(),
            notes: None,
            words: vec![name.to_owned()],
            chosen: Vec::new(),
            pass: None,
        };
        let mut options = Vec::new();
        for (key, value) in self.keys {
            match key.get_ref().as_ref() {
                "exercise" => {}
                "heading" => text.string(value)?.clone_into(&mut part.heading),
                "notes" => part.notes = Some(text.string(value)?.to_owned()),
                "pass" => part.pass = Some(text.count(value)?),
                "kinds" if name == "drill" => part.words.push(text.strings(value)?.join(",")),
                "files" if name != "drill" => {
                    for file in text.strings(value)? {
                        if file == "-" {
                            let reason =
                                "a lesson's replies come through standard input: name a file";
                            return Err(text.fault(value.span(), reason));
                        }
                        part.words.push(word(&text.beside(&file))?);
                    }
                }
                "from" if name == "drill" => {
                    let file = word(&text.beside(text.string(value)?))?;
                    options.push(format!("--from={file}"));
                }
                _ => options.extend(self.option(key, value)?),
            }
        }
        part.words.extend(options);
        Ok(part)
    }

    /// Turns a key into an option; nothing where it is false.
    fn option(
        &self,
        key: &Spanned<impl AsRef<str>>,
        value: &Value<'_>,
    ) -> Result<Option<String>, Failure> {
        let name = key.get_ref().as_ref();
        let option = option_of(name);
        if LEARNERS.contains(&name) {
            let reason =
                format!("{option} is the learner's to say, not the lesson's: leave it out");
            return Err(self.text.fault(key.span(), reason));
        }
        let single = |value: &Value<'_>| match value.get_ref() {
            DeValue::String(text) => Ok(text.to_string()),
            DeValue::Integer(number) => Ok(plain(number.as_str())),
            DeValue::Float(number) => Ok(plain(number.as_str())),
            DeValue::Datetime(date) => Ok(date.to_string()),
            DeValue::Boolean(_) | DeValue::Array(_) | DeValue::Table(_) => {
                let reason = "write a text in quotes, a number, true, or a list of texts";
                Err(self.text.fault(value.span(), reason))
            }
        };
        let given = match value.get_ref() {
            DeValue::Boolean(true) => return Ok(Some(option)),
            DeValue::Boolean(false) => return Ok(None),
            DeValue::Array(values) => {
                let values: Vec<String> = values.iter().map(single).collect::<Result<_, _>>()?;
                values.join(",")
            }
            _ => single(value)?,
        };
        Ok(Some(format!("{option}={given}")))
    }

    /// Sees to it that the part can be held: every option fits, every game is there and can be read.
    fn check(&self, part: &Part, shared: &Shared) -> Result<(), Failure> {
        let cli = part.command(shared).map_err(|error| {
            let span = self.blamed(&error).unwrap_or_else(|| self.exercise());
            self.text.fault(span, reason(&error))
        })?;
        let shared = &cli.shared;
        let held = match &cli.command {
            Some(Command::Replay(arguments)) => replay::on_paper(arguments, shared, &[]).map(drop),
            Some(Command::Ahead(arguments)) => ahead::check(arguments, shared),
            Some(Command::Drill(arguments)) => drill::on_paper(arguments, shared).map(drop),
            Some(Command::Recite(arguments)) => recite::check(arguments, shared),
            Some(
                Command::Games(_)
                | Command::Sheet(_)
                | Command::Lesson(_)
                | Command::Progress(_)
                | Command::Journal(_),
            )
            | None => Err(no_exercise(&part.words)),
        };
        held.map_err(|failure| {
            let files = ["files", "from"].iter().find_map(|key| self.value(key));
            let span = match (&failure, files) {
                (Failure::Unusable(_), Some(files)) => files.span(),
                _ => self.exercise(),
            };
            self.text.fault(span, clean(&failure.to_string()))
        })
    }

    /// Finds the key that the command line's error is about.
    fn blamed(&self, error: &clap::Error) -> Option<Range<usize>> {
        let named = match error.get(ContextKind::InvalidArg)? {
            ContextValue::String(named) => named,
            ContextValue::Strings(named) => named.first()?,
            _ => return None,
        };
        let word = named.split(['=', ' ', '<']).next().unwrap_or(named);
        let blamed = self.keys.iter().find(|(key, _)| {
            let key = key.get_ref().as_ref();
            let is_words = matches!(key, "kinds" | "files") && !named.starts_with("--");
            option_of(key) == word || is_words
        })?;
        // An option that there is not is marked itself; otherwise what it is given.
        let unknown = error.kind() == clap::error::ErrorKind::UnknownArgument;
        Some(if unknown {
            blamed.0.span()
        } else {
            blamed.1.span()
        })
    }

    fn value(&self, key: &str) -> Option<&Value<'_>> {
        let found = self
            .keys
            .iter()
            .find(|(known, _)| known.get_ref().as_ref() == key);
        found.map(|(_, value)| value)
    }

    fn exercise(&self) -> Range<usize> {
        self.value("exercise")
            .map_or_else(|| self.head(), Spanned::span)
    }

    /// The line that the part begins with.
    fn head(&self) -> Range<usize> {
        self.span.clone()
    }
}

/// The option that a key stands for.
fn option_of(key: &str) -> String {
    format!("--{}", key.replace('_', "-"))
}
