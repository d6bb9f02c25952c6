//! The config file: what a learner wishes for every time, unless an option says otherwise.

use std::path::{Path, PathBuf};

use clap::ColorChoice;
use serde::de::Error;
use serde::{Deserialize, Deserializer};
use toml::de::DeValue;

use super::failure::Failure;
use super::toml_file::{Faults, Keys, TomlFile};
use super::values::{CommandWords, Seconds, Side, Text, When};
use crate::exercise::By;
use crate::exercise::bound::Trail;
use crate::learner::LearnerName;
use crate::question::Kind;
use crate::reply::FileNames;
use crate::rules::Language;
use crate::terminal::{config_file, home_folder};
use crate::voice::{Announce, List, commands as words};

/// What the config file says.
#[expect(clippy::struct_excessive_bools, reason = "each is a key of the file")]
#[derive(Clone, Debug, Default, Deserialize)]
#[serde(default)]
pub(super) struct Config {
    /// The learner's own games: files, or folders of files.
    #[serde(deserialize_with = "one_or_more")]
    pub(super) games: Vec<PathBuf>,
    pub(super) learner: Option<Text<LearnerName>>,
    /// How moves are announced where no option tells.
    pub(super) announce: Option<Announce>,
    /// The side from which the board is shown where no option tells.
    pub(super) view: Option<Side>,
    pub(super) plain: bool,
    #[serde(deserialize_with = "When::deserialize")]
    pub(super) color: ColorChoice,
    /// How pieces are listed where they are told.
    pub(super) list: List,
    /// The language of the piece letters in replies.
    pub(super) letters: Option<Text<Language>>,
    /// What one Enter reads in a replay.
    pub(super) by: Option<By>,
    /// The time between two readings; without it, Enter goes on.
    pub(super) pace: Option<Seconds>,
    /// How many plies of a replay stay readable.
    pub(super) trail: Option<Trail>,
    /// The time that a UCI engine has for a move.
    pub(super) seconds: Option<Seconds>,
    /// The program that speaks, and its arguments.
    #[serde(deserialize_with = "command")]
    pub(super) speech: Option<CommandWords>,
    /// The program that hears, and its arguments.
    #[serde(deserialize_with = "command")]
    pub(super) hearing: Option<CommandWords>,
    /// Whether the microphone does not hear what is spoken.
    pub(super) headphones: bool,
    /// So long a silence counts as yes to what is said back.
    pub(super) silence: Option<Seconds>,
    /// How files are called by mouth.
    pub(super) files: FileNames,
    /// The program that speaks into a file, and its arguments.
    #[serde(deserialize_with = "file_command")]
    pub(super) speech_file: Option<CommandWords>,
    /// Whether a sheet to be heard says also why each answer is right.
    pub(super) sheet_why: bool,
    /// Whether a sheet to be heard says each question twice.
    pub(super) sheet_twice: bool,
    /// What is added to every think time.
    pub(super) more_time: Option<Seconds>,
    /// Think times of kinds, in place of the kinds' own.
    #[serde(skip)]
    pub(super) think: Vec<(Kind, Seconds)>,
}

impl Config {
    /// Reads the config file, where there is one; where it is `needed`, one that was named must be there.
    ///
    /// # Errors
    ///
    /// [`Failure`] when it cannot be read or does not say what it should, or when it was named and is not
    /// there.
    pub(super) fn find(needed: bool) -> Result<Config, Failure> {
        match config_file() {
            Some((path, named)) if (named && needed) || path.exists() => {
                Config::read(&TomlFile::read(&path)?)
            }
            Some(_) | None => Ok(Config::default()),
        }
    }

    fn read(file: &TomlFile) -> Result<Config, Failure> {
        let mut faults = Faults::default();
        let table = file.table().map_err(|fault| file.failure(&fault))?;
        let mut keys = Keys::new(&table, 0..0, &mut faults);
        let mut config: Config = keys.take();
        keys.known.push("think");
        if let Some(think) = table.get("think") {
            if let DeValue::Table(times) = think.get_ref() {
                let mut times = Keys::new(times, 0..0, keys.faults);
                for kind in Kind::ALL {
                    times.known.push(kind.name());
                    let time = times.value(kind.name());
                    config.think.extend(time.map(|time| (kind, time)));
                }
                times.refuse_others(words::no_such_key);
            } else {
                keys.faults.add(think.span(), words::THINK_IS_A_TABLE);
            }
        }
        keys.refuse_others(words::no_such_key);
        for place in &mut config.games {
            *place = meant(place, &file.beside(Path::new("")));
        }
        file.refuse(&faults).map(|()| config)
    }
}

/// Returns the place that a path means which stands in a file of this folder.
pub(super) fn meant(place: &Path, folder: &Path) -> PathBuf {
    match (place.strip_prefix("~"), home_folder()) {
        (Ok(rest), Some(home)) => home.join(rest),
        (Ok(_) | Err(_), _) => folder.join(place),
    }
}

/// Reads texts in a list, or one alone.
pub(super) fn one_or_more<'de, D, T>(from: D) -> Result<Vec<T>, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de>,
{
    #[derive(Deserialize)]
    #[serde(untagged)]
    enum Texts<T> {
        One(T),
        More(Vec<T>),
    }
    match Texts::deserialize(from) {
        Ok(Texts::One(text)) => Ok(vec![text]),
        Ok(Texts::More(texts)) => Ok(texts),
        Err(_) => Err(D::Error::custom(words::NO_TEXTS)),
    }
}

fn command<'de, D: Deserializer<'de>>(from: D) -> Result<Option<CommandWords>, D::Error> {
    let words: Vec<String> = one_or_more(from)?;
    if words.first().is_none_or(String::is_empty) {
        return Err(D::Error::custom(words::NO_COMMAND));
    }
    Ok(Some(CommandWords(words)))
}

/// Reads a command that writes a sound file.
fn file_command<'de, D: Deserializer<'de>>(from: D) -> Result<Option<CommandWords>, D::Error> {
    let names_file =
        |CommandWords(words): &CommandWords| words.iter().skip(1).any(|word| word.contains("FILE"));
    let command = command(from)?.filter(names_file).map(Some);
    command.ok_or_else(|| D::Error::custom(words::NO_FILE_IN_COMMAND))
}
