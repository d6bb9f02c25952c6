//! A class file: the pupils of a coach, and what each of them needs.

use std::path::Path;

use serde::Deserialize;

use super::config::Config;
use super::failure::Failure;
use super::toml_file::{Faults, Keys, TomlFile};
use super::values::{Seconds, Side, Text};
use crate::learner::LearnerName;
use crate::rules::Language;
use crate::voice::{clean_name, commands as words};

/// The most pupils of a class.
const MOST_PUPILS: usize = 500;

/// The pupils of a coach, in the order of the file.
#[derive(Clone, Debug)]
pub(super) struct Class {
    pub(super) title: Option<String>,
    pub(super) pupils: Vec<Pupil>,
}

/// What a class file says of a pupil.
#[derive(Clone, Debug)]
pub(super) struct Pupil {
    pub(super) name: LearnerName,
    /// The name as it is shown.
    pub(super) shown: String,
    letters: Option<Text<Language>>,
    view: Option<Side>,
    more_time: Option<Seconds>,
}

/// The keys of a pupil.
#[derive(Default, Deserialize)]
#[serde(default)]
struct PupilKeys {
    name: Option<Text<LearnerName>>,
    shown: Option<String>,
    letters: Option<Text<Language>>,
    view: Option<Side>,
    more_time: Option<Seconds>,
}

/// The keys of the class as a whole.
#[derive(Default, Deserialize)]
#[serde(default)]
struct Head {
    title: Option<String>,
}

impl Class {
    /// Reads a class file; all that is wrong with it is told at once.
    pub(super) fn read(path: &Path) -> Result<Class, Failure> {
        let file = TomlFile::read(path)?;
        let table = file.table().map_err(|fault| file.failure(&fault))?;
        let mut faults = Faults::default();
        let mut top = Keys::new(&table, 0..0, &mut faults);
        let head: Head = top.take();
        let tables = top.tables("pupil", MOST_PUPILS);
        top.refuse_others(words::no_such_key);
        let mut pupils: Vec<Pupil> = Vec::new();
        for (table, span) in tables {
            let mut keys = Keys::new(table, span, top.faults);
            let of: PupilKeys = keys.take();
            keys.refuse_others(words::no_such_key);
            let Some(Text(name)) = of.name else {
                if !keys.has("name") {
                    keys.refuse(&[], words::PUPIL_WITHOUT_NAME);
                }
                continue;
            };
            if pupils.iter().any(|other| other.name == name) {
                keys.refuse(&["name"], words::named_twice(&name.to_string()));
            }
            pupils.push(Pupil {
                shown: clean_name(&of.shown.unwrap_or_else(|| name.to_string())),
                name,
                letters: of.letters,
                view: of.view,
                more_time: of.more_time,
            });
        }
        if pupils.is_empty() && faults.count == 0 {
            faults.add(0..0, words::NO_PUPIL);
        }
        file.refuse(&faults)?;
        Ok(Class {
            title: head.title.as_deref().map(clean_name),
            pupils,
        })
    }

    /// Finds a pupil.
    ///
    /// # Errors
    ///
    /// [`Failure`] where nobody in the class has this name, with the names that are near.
    pub(super) fn pupil(&self, name: &LearnerName) -> Result<&Pupil, Failure> {
        let found = self.pupils.iter().find(|pupil| pupil.name == *name);
        found.ok_or_else(|| {
            let near = self.pupils.iter().filter(|other| other.name.is_near(name));
            let near: Vec<String> = near.map(|pupil| pupil.name.to_string()).collect();
            Failure::Unusable(words::not_in_the_class(&name.to_string(), &near))
        })
    }
}

impl Pupil {
    /// Says in a config what this pupil needs.
    pub(super) fn settle(&self, config: &mut Config) {
        config.letters = self.letters.or(config.letters);
        config.view = self.view.or(config.view);
        config.more_time = self.more_time.or(config.more_time);
    }
}
