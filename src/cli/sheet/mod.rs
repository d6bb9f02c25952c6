//! `sheet`: the questions of an exercise on paper or as data.

mod enter;
mod form;
mod work;

use std::path::Path;

use clap::error::{ContextKind, ContextValue, ErrorKind};

use super::failure::{Failure, tell};
use super::shared::{Shared, records};
use super::values::{CommandWords, quoted};
use crate::report::sheet::{self, Cue, Marks, Sheet, SheetPart, Side, cues, script};
use crate::terminal::{Sound, SoundError};
use crate::voice::{asides, clean_line, commands as words, paper};
use form::{Format, Paper};
use work::Work;

pub(super) use form::Arguments;

pub(super) fn run(arguments: &Arguments, shared: &Shared) -> Result<(), Failure> {
    if let Paper::Enter { file } = &arguments.paper {
        return enter::run(file, shared);
    }
    arguments.check()?;
    let records = match &arguments.paper {
        Paper::Ask(_) => records(&shared.journal()?)?,
        _ => Vec::new(),
    };
    let Some(work) = Work::of(&arguments.paper, shared, &records)? else {
        return Ok(());
    };
    let (parts, _) = work.hold(shared, |_, _| None)?;
    let name = sheet::name(&parts);
    if matches!(&arguments.paper, Paper::Ask(request) if request.takes_input()) {
        tell(asides::SHEET_FROM_INPUT);
    }
    let write: fn(&Sheet, Side) -> String = match arguments.format() {
        Format::Json => return arguments.write(&sheet::json(&parts), None),
        Format::Script | Format::Wav => return write_heard(arguments, shared, &parts),
        Format::Markdown => |sheet, side| sheet::text(sheet, side, Marks::Markdown),
        Format::Text => |sheet, side| sheet::text(sheet, side, Marks::None),
        Format::Html => |sheet, side| sheet::html(sheet, side, false),
        Format::Large => |sheet, side| sheet::html(sheet, side, true),
    };
    let again = form::named(&quoted(&command(arguments, &work, shared)?), &name);
    let known_as = paper::known_as(&name, work.seed);
    let sheet = Sheet::new(work.title(), &parts, known_as, clean_line(&again));
    if arguments.key.is_none() {
        return arguments.write(&write(&sheet, Side::Both), None);
    }
    let (questions, key) = (write(&sheet, Side::Questions), write(&sheet, Side::Key));
    arguments.write(&questions, Some(&key))
}

/// Returns the words of the command that makes a sheet again.
fn command(
    arguments: &Arguments,
    work: &Work<'_>,
    shared: &Shared,
) -> Result<Vec<String>, Failure> {
    let mut command: Vec<String> = ["sansvoir", "sheet"].map(str::to_owned).into();
    if arguments.format() != Format::Html {
        let format: &str = arguments.format().into();
        command.extend(["--format", format].map(str::to_owned));
    }
    if shared.plain {
        command.push("--plain".to_owned());
    }
    command.extend(["--seed".to_owned(), work.seed.to_string()]);
    if let Paper::Lesson { file } = &arguments.paper {
        command.extend(["lesson".to_owned(), file.to_string_lossy().into_owned()]);
    }
    for part in &work.parts {
        if let Some(request) = part.request {
            command.extend(request.words(&part.exercise)?);
        }
    }
    Ok(command)
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
fn write_heard(arguments: &Arguments, shared: &Shared, parts: &[SheetPart]) -> Result<(), Failure> {
    let config = &shared.config;
    let cues = cues(parts, config.sheet_twice, config.sheet_why);
    if arguments.format() == Format::Script {
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
