//! One part of a lesson as a coach wrote it: its keys become the words of a command, and it is tried as it
//! will be held.

use std::ops::Range;

use toml::Spanned;
use toml::de::{DeTable, DeValue};

use super::super::failure::Failure;
use super::super::shared::{Part as Held, Shared};
use super::super::toml_text::{Fault, Faults, TomlText, Value, plain};
use super::super::{Cli, Command, ahead, demo, drill, places, recite, replay};
use super::coach::Trial;
use super::keys;
use super::outline::{EXERCISES, Part, no_exercise};
use super::today::word;
use crate::exercise::{Plan, questions};
use crate::voice;
use crate::voice::clean;

/// The options of every command, which are the learner's and not the lesson's.
const LEARNERS: [&str; 11] = [
    "learner", "data", "plain", "color", "speak", "speech", "list", "letters", "resume", "help",
    "version",
];
/// Kinds that stand for ones that cannot be read, so that the other keys are read all the same.
const STAND_IN: &str = "color";

/// One part as it stands in the file.
pub(super) struct Written<'a> {
    pub(super) trial: &'a Trial<'a>,
    pub(super) keys: &'a DeTable<'a>,
    pub(super) span: Range<usize>,
    /// Where its chance comes from, unless it names another seed.
    pub(super) seed: u64,
}

/// A word of the command line, and the key that it comes from.
struct Word {
    key: String,
    span: Range<usize>,
    said: String,
}

impl Written<'_> {
    /// Reads the part, and tries it. Adds all that is wrong with it.
    pub(super) fn part(&self, faults: &mut Faults) -> Option<Part> {
        let name = faults.unless(self.exercise())?;
        let before = faults.count();
        let mut part = Part {
            heading: name.to_owned(),
            notes: None,
            words: Vec::new(),
            chosen: Vec::new(),
            pass: None,
        };
        let mut words = Vec::new();
        let mut is_whole = true;
        for (key, value) in self.keys {
            match self.read(name, key, value, &mut part) {
                Ok(read) => words.extend(read),
                Err(fault) => {
                    // A key that is none takes nothing from the part.
                    is_whole &= fault.span == key.span();
                    faults.add(fault);
                }
            }
        }
        let read = faults.count();
        let cli = self.command(&mut part, name, words, faults)?;
        // What is left out because it is at fault may be what it cannot be held without.
        if is_whole && faults.count() == read {
            let held = self.hold(&part, cli);
            faults.unless(held);
        }
        (faults.count() == before).then_some(part)
    }

    /// The exercise that it names.
    fn exercise(&self) -> Result<&str, Fault> {
        let known = EXERCISES.join(", ");
        let exercise = self.value("exercise").ok_or_else(|| {
            let reason =
                format!("this part names no exercise: write exercise = and one of {known}");
            Fault::at(self.span.clone(), reason)
        })?;
        let name = TomlText::string(exercise)?;
        if EXERCISES.contains(&name) {
            Ok(name)
        } else {
            let reason = no_exercise(&[name.to_owned()]);
            Err(Fault::at(exercise.span(), reason))
        }
    }

    /// Reads a key: it says something of the part itself, or becomes words of its command.
    fn read(
        &self,
        exercise: &str,
        key: &Spanned<impl AsRef<str>>,
        value: &Value<'_>,
        part: &mut Part,
    ) -> Result<Vec<Word>, Fault> {
        let name = key.get_ref().as_ref();
        let is_drill = exercise == "drill";
        let mut said = Vec::new();
        match name {
            "exercise" => {}
            "heading" => TomlText::string(value)?.clone_into(&mut part.heading),
            "notes" => part.notes = Some(TomlText::string(value)?.to_owned()),
            "pass" => part.pass = Some(TomlText::count(value)?),
            "kinds" if is_drill => said.push(TomlText::strings(value)?.join(",")),
            "files" if !is_drill => {
                for file in TomlText::strings(value)? {
                    said.push(self.file(&file, value)?);
                }
            }
            "from" if is_drill => {
                let file = self.file(TomlText::string(value)?, value)?;
                said.push(format!("--from={file}"));
            }
            _ => said.extend(self.option(exercise, key, value)?),
        }
        let word = |said| Word {
            key: option_name(name),
            span: value.span(),
            said,
        };
        Ok(said.into_iter().map(word).collect())
    }

    /// A file of games as a word: beside the lesson's file, or a demo file where none is there.
    fn file(&self, file: &str, value: &Value<'_>) -> Result<String, Fault> {
        let text = self.trial.text;
        let at = |reason: String| Fault::at(value.span(), reason);
        if file == "-" {
            let reason = "a lesson's replies come through standard input: name a file";
            return Err(at(reason.to_owned()));
        }
        let beside = text.beside(file);
        let path = match beside.metadata() {
            Ok(found) if found.is_file() || found.is_dir() => beside,
            Ok(_) => return Err(at(clean(&places::no_file(&beside).to_string()))),
            Err(_) => demo::path(file).unwrap_or(beside),
        };
        word(&path).map_err(|failure| at(clean(&failure.to_string())))
    }

    /// Turns a key into an option; nothing where it is false.
    fn option(
        &self,
        exercise: &str,
        key: &Spanned<impl AsRef<str>>,
        value: &Value<'_>,
    ) -> Result<Option<String>, Fault> {
        let name = key.get_ref().as_ref();
        let long = option_name(name);
        if LEARNERS.contains(&name) {
            let reason = voice::lesson::learners_own(name);
            return Err(Fault::at(key.span(), reason));
        }
        let known = self.trial.program.find_subcommand(exercise);
        let options = known.into_iter().flat_map(clap::Command::get_arguments);
        let options: Vec<(&str, &clap::Arg)> = options
            .filter_map(|argument| Some((argument.get_long()?, argument)))
            .filter(|(long, _)| !LEARNERS.contains(long))
            .collect();
        let Some((_, option)) = options.iter().find(|(known, _)| *known == long) else {
            let own = ["heading", "notes", "pass"].into_iter();
            let words = if exercise == "drill" {
                "kinds"
            } else {
                "files"
            };
            let options = options.iter().map(|(long, _)| *long);
            let known: Vec<&str> = own.chain([words]).chain(options).collect();
            let reason = voice::lesson::no_such_key(name, exercise, &known);
            return Err(Fault::at(key.span(), reason));
        };
        if !option.get_action().takes_values() {
            return Ok(TomlText::boolean(value)?.then(|| format!("--{long}")));
        }
        let wanted = |value: &Value<'_>| {
            let reason = "write a number, a text in quotes, or a list of texts";
            Fault::at(value.span(), reason)
        };
        let single = |value: &Value<'_>| match value.get_ref() {
            DeValue::String(text) => Ok(text.to_string()),
            DeValue::Integer(number) => Ok(plain(number.as_str())),
            DeValue::Float(number) => Ok(plain(number.as_str())),
            DeValue::Datetime(date) => Ok(date.to_string()),
            DeValue::Boolean(_) | DeValue::Array(_) | DeValue::Table(_) => Err(wanted(value)),
        };
        let given = match value.get_ref() {
            DeValue::Array(values) => {
                let values: Vec<String> = values.iter().map(single).collect::<Result<_, _>>()?;
                values.join(",")
            }
            _ => single(value)?,
        };
        Ok(Some(format!("--{long}={given}")))
    }

    /// Reads the words as the program reads its command line. What it refuses is left out, so that the
    /// next fault is found too; `None` where nothing can be left out.
    fn command(
        &self,
        part: &mut Part,
        name: &str,
        mut words: Vec<Word>,
        faults: &mut Faults,
    ) -> Option<Cli> {
        loop {
            let given = words.iter().map(|word| word.said.clone());
            part.words = std::iter::once(name.to_owned()).chain(given).collect();
            let error = match part.command(self.trial.shared) {
                Ok(cli) => return Some(cli),
                Err(error) => error,
            };
            let about = keys::about(&error);
            let found = words.iter().position(|word| word.key == about);
            let span = found.map_or_else(|| self.head(), |at| words[at].span.clone());
            // Kinds that are not there may have been left out as a fault already.
            let is_told = about == "kinds" && found.is_none() && self.value("kinds").is_some();
            if !is_told {
                faults.add(Fault::at(span, keys::reason(&error)));
            }
            match found {
                Some(at) if words[at].said == STAND_IN => return None,
                Some(at) if about == "kinds" => STAND_IN.clone_into(&mut words[at].said),
                Some(at) => drop(words.remove(at)),
                None if about == "kinds" => words.push(Word {
                    key: about,
                    span: self.head(),
                    said: STAND_IN.to_owned(),
                }),
                None => return None,
            }
        }
    }

    /// Sees to it that the part can be held: every option fits, every game is there and can be read, and
    /// there are questions enough for its pass mark.
    fn hold(&self, part: &Part, cli: Cli) -> Result<(), Fault> {
        let mut shared = cli.shared;
        let held = Held {
            session: String::new(),
            chosen: Vec::new(),
        };
        shared.adopt(self.trial.shared, held);
        shared.seed.get_or_insert(self.seed);
        let least = part.pass.unwrap_or(1);
        let asked = self
            .questions(part, cli.command.as_ref(), &shared, least)
            .map_err(|failure| self.why(&failure))?;
        match (part.pass, self.value("pass")) {
            (Some(pass), Some(value)) if pass > asked => {
                let reason = voice::lesson::pass_too_high(pass, asked);
                Err(Fault::at(value.span(), reason))
            }
            _ => Ok(()),
        }
    }

    /// Counts the questions of the part; of mates, it searches for no more than `least`.
    fn questions(
        &self,
        part: &Part,
        command: Option<&Command>,
        shared: &Shared,
        least: usize,
    ) -> Result<usize, Failure> {
        let records = self.trial.records;
        let prepared = match command {
            Some(Command::Replay(arguments)) => replay::prepare(arguments, shared, records)?,
            Some(Command::Drill(arguments)) => drill::prepare(arguments, shared, &[])?,
            Some(Command::Ahead(arguments)) => {
                ahead::prepare_to_try(arguments, shared, records, least)?
            }
            Some(Command::Recite(arguments)) => recite::prepare(arguments, shared, records)?,
            Some(
                Command::Games(_)
                | Command::Sheet(_)
                | Command::Lesson(_)
                | Command::Progress(_)
                | Command::Journal(_),
            )
            | None => return Err(no_exercise(&part.words)),
        };
        if let Plan::Mates(settings) = &prepared.plan {
            // Of each mate the first move is asked, and more only where that is found.
            return Ok(settings.problems.len());
        }
        Ok(questions(&mut prepared.on_paper()?))
    }

    /// Says at the key that it is about why the part cannot be held.
    fn why(&self, failure: &Failure) -> Fault {
        let said = clean(&failure.to_string());
        let named = keys::options_in(&said).find_map(|key| self.value(key));
        let keys = match failure {
            Failure::Unusable(_) => ["files", "from"].as_slice(),
            _ => &["kinds"],
        };
        let span = named
            .or_else(|| keys.iter().find_map(|key| self.value(key)))
            .map_or_else(|| self.head(), Spanned::span);
        Fault::at(span, keys::in_keys(&said))
    }

    fn value(&self, key: &str) -> Option<&Value<'_>> {
        let mut keys = self.keys.iter();
        let found = keys.find(|(known, _)| option_name(known.get_ref()) == key);
        found.map(|(_, value)| value)
    }

    /// Where the part as a whole is at fault: at its exercise.
    fn head(&self) -> Range<usize> {
        self.value("exercise")
            .map_or_else(|| self.span.clone(), Spanned::span)
    }
}

/// The name of the option that a key stands for.
fn option_name(key: &str) -> String {
    key.replace('_', "-")
}
