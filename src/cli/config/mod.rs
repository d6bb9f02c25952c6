//! The config file: what a learner wishes for every time, unless an option says otherwise.

mod defaults;

use std::path::PathBuf;
use std::time::Duration;

use shakmaty::Color;
use toml::de::DeValue;

use super::failure::Failure;
use super::toml_text::{Fault, TomlText, Value};
use crate::learner::LearnerName;
use crate::question::Kind;
use crate::terminal::{config_file, home_folder};
use crate::voice::Announce;

/// What the config file says.
///
/// The values that stand for an option become that option's default, so that the command line has its
/// own way of saying that a flag comes first.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Config {
    /// The defaults of options, by the option's name.
    defaults: Vec<(&'static str, String)>,
    /// How moves are announced where no option tells.
    pub(super) announce: Option<Announce>,
    /// The side from which the board is shown where no option tells.
    pub(super) view: Option<Color>,
    /// The learner's own games: files, or folders of files.
    pub(super) games: Vec<PathBuf>,
    /// Think times of kinds, in place of the kinds' own.
    pub(super) think: Vec<(Kind, Duration)>,
    /// The program that speaks, and its arguments.
    pub(super) speech: Option<Vec<String>>,
    /// The program that speaks into a file, and its arguments.
    pub(super) speech_file: Option<Vec<String>>,
}

/// The keys that the file may have, in the order of the README.
const KEYS: [&str; 9] = [
    "games",
    "learner",
    "announce",
    "view",
    "plain",
    "color",
    "think",
    "speech",
    "speech_file",
];

impl Config {
    /// Reads the config file, where there is one.
    ///
    /// # Errors
    ///
    /// [`Failure`] when it cannot be read or does not say what it should, or when it was named and is not
    /// there.
    pub(super) fn find() -> Result<Config, Failure> {
        match config_file() {
            Some((path, named)) if named || path.exists() => Config::read(&TomlText::read(&path)?),
            Some(_) | None => Ok(Config::default()),
        }
    }

    fn read(text: &TomlText) -> Result<Config, Failure> {
        Config::of(text).map_err(|fault| text.failure(&fault))
    }

    fn of(text: &TomlText) -> Result<Config, Fault> {
        let mut config = Config::default();
        for (key, value) in &text.table()? {
            match key.get_ref().as_ref() {
                "games" => config.games = games(text, value)?,
                "learner" => {
                    let name = TomlText::string(value)?;
                    if let Err(error) = name.parse::<LearnerName>() {
                        return Err(Fault::at(value.span(), error));
                    }
                    config.defaults.push(("learner", name.to_owned()));
                }
                "announce" => {
                    let styles = [
                        ("words", Announce::Words),
                        ("san", Announce::San),
                        ("long", Announce::Long),
                        ("spelled", Announce::Spelled),
                    ];
                    config.announce = Some(TomlText::word(value, &styles)?);
                }
                "view" => {
                    let sides = [("white", Color::White), ("black", Color::Black)];
                    config.view = Some(TomlText::word(value, &sides)?);
                }
                "color" => {
                    let wishes = [("auto", ()), ("always", ()), ("never", ())];
                    config.word("color", value, &wishes)?;
                }
                "plain" => {
                    let plain = TomlText::boolean(value)?;
                    config.defaults.push(("plain", plain.to_string()));
                }
                "think" => config.think = think(value)?,
                "speech" => config.speech = Some(command(value)?),
                "speech_file" => config.speech_file = Some(command(value)?),
                _ => return Err(TomlText::unknown(key, &KEYS)),
            }
        }
        Ok(config)
    }

    /// Reads one of a few words, which becomes the default of the option of that name.
    fn word<T: Copy>(
        &mut self,
        key: &'static str,
        value: &Value<'_>,
        words: &[(&str, T)],
    ) -> Result<T, Fault> {
        let meant = TomlText::word(value, words)?;
        self.defaults
            .push((key, TomlText::string(value)?.to_owned()));
        Ok(meant)
    }
}

fn games(text: &TomlText, value: &Value<'_>) -> Result<Vec<PathBuf>, Fault> {
    let place = |path: &String| match (path.strip_prefix("~/"), home_folder()) {
        (Some(rest), Some(home)) => home.join(rest),
        (Some(_) | None, _) => text.beside(path),
    };
    Ok(TomlText::strings(value)?.iter().map(place).collect())
}

fn think(value: &Value<'_>) -> Result<Vec<(Kind, Duration)>, Fault> {
    let DeValue::Table(times) = value.get_ref() else {
        let reason = "write think times as a table, as in [think] and below it color = 4";
        return Err(Fault::at(value.span(), reason));
    };
    times
        .iter()
        .map(|(key, value)| {
            let kind = key.get_ref().parse().map_err(|_| {
                let names: Vec<&str> = Kind::ALL.into_iter().map(Kind::name).collect();
                TomlText::unknown(key, &names)
            })?;
            Ok((kind, TomlText::seconds(value)?))
        })
        .collect()
}

fn command(value: &Value<'_>) -> Result<Vec<String>, Fault> {
    let words = TomlText::strings(value)?;
    if words.first().is_none_or(String::is_empty) {
        let reason = "name the program first, then its arguments, each in quotes of its own";
        return Err(Fault::at(value.span(), reason));
    }
    Ok(words)
}
