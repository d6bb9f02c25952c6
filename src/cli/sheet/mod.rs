//! `sheet`: the questions of an exercise on paper or as data.

mod enter;
mod form;

use std::path::Path;

use clap::error::{ContextKind, ContextValue, ErrorKind};

use super::failure::{Failure, tell};
use super::prepared::Prepared;
use super::shared::{Shared, records};
use super::values::{CommandWords, quoted};
use crate::exercise::Rules;
use crate::report::sheet::{self, Cue, Sheet, SheetItem, Side, cues, script};
use crate::terminal::{Sound, SoundError};
use crate::voice::{asides, clean_line, commands as words, paper};
use form::{Format, Paper};

pub(super) use form::Arguments;

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    let request = match &arguments.paper {
        Paper::Enter { file } => return enter::run(file, shared),
        Paper::Ask(request) => request,
    };
    arguments.check()?;
    let records = records(&shared.journal()?)?;
    let exercise = request.on_paper(shared, &records)?;
    let mut held = exercise.plan.on_paper()?;
    let items = sheet::items(&mut held);
    let name = sheet::name(&items);
    if request.takes_input() {
        tell(asides::SHEET_FROM_INPUT);
    }
    let write = match arguments.format {
        Format::Json => {
            let name = exercise.plan.exercise();
            let json = sheet::json(name, exercise.game().as_ref(), &items);
            return arguments.write(&json, None);
        }
        Format::Script | Format::Wav => {
            return write_heard(arguments, shared, &exercise, held.rules(), &items);
        }
        Format::Markdown => sheet::markdown,
        Format::Html => sheet::html,
    };
    let mut command: Vec<String> = ["sansvoir", "sheet"].map(str::to_owned).into();
    if arguments.format == Format::Markdown {
        command.extend(["--format", "markdown"].map(str::to_owned));
    }
    if shared.plain {
        command.push("--plain".to_owned());
    }
    command.extend(["--seed".to_owned(), exercise.seed.to_string()]);
    command.extend(request.words(&exercise)?);
    let again = form::named(&quoted(&command), &name);
    let known_as = paper::known_as(&name, exercise.seed);
    let voice = exercise.telling.voice(shared);
    let sheet = Sheet::new(&items, voice, known_as, clean_line(&again));
    if arguments.key.is_none() {
        return arguments.write(&write(&sheet, Side::Both), None);
    }
    let (questions, key) = (write(&sheet, Side::Questions), write(&sheet, Side::Key));
    arguments.write(&questions, Some(&key))
}

/// Tells of an option of the sheet that stands behind the exercise where it belongs.
pub(super) fn advise(mut error: clap::Error) -> clap::Error {
    const OWN: [&str; 3] = ["--format", "--out", "--key"];
    if error.kind() == ErrorKind::UnknownArgument
        && let Some(ContextValue::String(option)) = error.get(ContextKind::InvalidArg)
        && OWN.contains(&option.split([' ', '=']).next().unwrap_or(option))
    {
        let advice = ContextValue::StyledStrs(vec![words::BEFORE_THE_EXERCISE.into()]);
        error.insert(ContextKind::Suggested, advice);
    }
    error
}

/// Writes a sheet as a script or as a sound file.
fn write_heard(
    arguments: &Arguments,
    shared: &Shared,
    exercise: &Prepared,
    rules: &Rules,
    items: &[SheetItem],
) -> Result<(), Failure> {
    let voice = exercise.telling.voice(shared);
    let cues = cues(items, voice, rules.think_millis, shared.config.sheet_why);
    if arguments.format == Format::Script {
        return arguments.write(&script(&cues), None);
    }
    let Some(path) = &arguments.out else {
        return Err(Failure::usage(words::SOUND_NEEDS_A_FILE));
    };
    if path.extension().is_some_and(|ending| ending == "txt") {
        return Err(Failure::usage(words::SOUND_IS_NO_TEXT));
    }
    let command = shared.config.speech_file.clone();
    let command = command.map(|CommandWords(words)| words);
    let mut sound = Sound::begin(path, command)?;
    let mut asked = 0;
    for cue in &cues {
        let added = match cue {
            Cue::Chapter(number) => {
                asked = *number;
                sound.chapter(&paper::chapter(asked, sound.millis()))
            }
            Cue::Say(sentence) => sound.say(sentence),
            Cue::Pause(millis) => sound.pause(*millis),
        };
        added.map_err(|error| cut_short(path, &sound, asked, &error))?;
    }
    let millis = sound.millis();
    sound.finish()?;
    tell(&asides::sound_made(asked, millis));
    Ok(())
}

/// Says what is kept of a sound that could not be finished; where that is nothing, no file is left.
fn cut_short(path: &Path, sound: &Sound, asked: usize, error: &SoundError) -> Failure {
    if sound.is_empty() {
        let _ = std::fs::remove_file(path);
        let _ = std::fs::remove_file(path.with_extension("txt"));
        return Failure::unusable(error);
    }
    Failure::Unusable(format!("{error}. {}", asides::sound_cut_short(asked)))
}
