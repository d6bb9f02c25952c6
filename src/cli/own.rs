//! One's own games: the files and folders that the config file names for all learners here.

use std::fs;
use std::io;
use std::io::ErrorKind;
use std::path::{Component, Path, PathBuf, absolute};

use toml_edit::{Array, DocumentMut, value};

use super::config::meant;
use super::failure::{Failure, shown};
use super::pick::{Chosen, Pick};
use super::places;
use super::shared::Shared;
use crate::terminal::{NewFile, config_file};
use crate::voice::{commands as words, listed};

/// Adds places to the config file and removes others; all else in it stays as it is. Returns what to say.
pub(super) fn change(
    add: &[PathBuf],
    remove: &[PathBuf],
    shared: &Shared,
) -> Result<String, Failure> {
    let (path, _) = config_file().ok_or_else(|| Failure::unusable(words::NO_CONFIG_FOLDER))?;
    let text = match fs::read_to_string(&path) {
        Err(error) if error.kind() == ErrorKind::NotFound => String::new(),
        read => read.map_err(|error| Failure::other_file(&path, "a file in TOML", &error))?,
    };
    let mut document: DocumentMut = text.parse().map_err(|error| Failure::at(&path, error))?;
    let games = document.entry("games").or_insert(value(Array::new()));
    if let Some(one) = games.as_str() {
        *games = value(Array::from_iter([one]));
    }
    let list = games
        .as_array_mut()
        .ok_or_else(|| Failure::at(&path, words::NO_TEXTS))?;
    let folder = path.parent().unwrap_or(Path::new(""));
    let is_at = |text: &str, place: &Path| {
        settled(&meant(Path::new(text), folder)).is_ok_and(|kept| kept == place)
    };
    for place in remove {
        let place = settled(place).map_err(|error| Failure::file(place, &error))?;
        let before = list.len();
        list.retain(|kept| !kept.as_str().is_some_and(|text| is_at(text, &place)));
        if list.len() == before {
            return Err(Failure::at(&place, words::NONE_OF_YOUR_GAMES));
        }
    }
    for place in add {
        let failed = |error| Failure::file(place, &error);
        let place = settled(place).map_err(failed)?;
        places::own_files(&place)?;
        let mut holds = false;
        Pick::of_file(&place, None).walk(shared, |Chosen { reading, .. }| {
            holds |= reading.plies > 0 || reading.game.tags.iter().next().is_some();
            Ok(!holds)
        })?;
        if !holds {
            return Err(Failure::at(&place, words::NO_GAME_IN));
        }
        let text = place
            .to_str()
            .ok_or_else(|| Failure::at(&place, words::NAME_IS_NO_TEXT))?;
        if !list
            .iter()
            .any(|kept| kept.as_str().is_some_and(|kept| is_at(kept, &place)))
        {
            list.push(text);
        }
    }
    let places = list.iter().filter_map(|kept| kept.as_str());
    let said = listed::own_games(
        &places
            .map(|place| shown(Path::new(place)))
            .collect::<Vec<_>>(),
    );
    if list.is_empty() {
        document.remove("games");
    }
    fs::create_dir_all(folder).map_err(|error| Failure::file(folder, &error))?;
    // A link stays one.
    let path = fs::canonicalize(&path).unwrap_or(path);
    let mut file = NewFile::in_place(path)?;
    file.write(&document.to_string())?;
    file.finish()?;
    Ok(said)
}

/// A place as it is found from every folder, without steps back up.
fn settled(place: &Path) -> io::Result<PathBuf> {
    let absolute = absolute(place)?;
    let steps_up = absolute
        .components()
        .any(|part| part == Component::ParentDir);
    let straight = steps_up.then(|| fs::canonicalize(&absolute).ok()).flatten();
    Ok(straight.unwrap_or(absolute))
}
