//! A sheet to be heard.

use std::path::Path;

use super::form::{Arguments, Format};
use crate::cli::failure::Failure;
use crate::cli::prepared::Prepared;
use crate::cli::shared::Shared;
use crate::cli::stderr::tell;
use crate::cli::values::CommandWords;
use crate::report::sheet::{Beat, Part, Pauses, beats, script};
use crate::terminal::{Sound, SoundError};
use crate::voice::{asides, commands as words, paper};

/// Writes a sheet as a script or as a sound file.
pub(super) fn write(
    arguments: &Arguments,
    shared: &Shared,
    exercise: &Prepared,
    parts: &[Part],
) -> Result<(), Failure> {
    let pauses = Pauses {
        think_millis: exercise.plan.think_millis(),
    };
    let beats = beats(
        parts,
        exercise.telling.voice(shared),
        pauses,
        shared.config.sheet_why,
    );
    if arguments.format == Format::Script {
        return arguments.write(&script(&beats), None);
    }
    let Some(path) = &arguments.out else {
        return Err(Failure::usage(words::SOUND_NEEDS_A_FILE));
    };
    if path.extension().is_some_and(|ending| ending == "txt") {
        return Err(Failure::usage(words::SOUND_IS_NO_TEXT));
    }
    let command = shared.config.speech_file.clone();
    let command = command.map(|CommandWords(words)| words);
    let mut sound = Sound::begin(path, arguments.force, command)?;
    let mut asked = 0;
    for beat in &beats {
        if let Err(error) = play(&mut sound, beat, &mut asked) {
            return Err(cut_short(path, &sound, asked, &error));
        }
    }
    let millis = sound.millis();
    sound.finish()?;
    tell(&asides::sound_made(asked, millis));
    Ok(())
}

fn play(sound: &mut Sound, beat: &Beat, asked: &mut usize) -> Result<(), SoundError> {
    match beat {
        Beat::Chapter(number) => {
            *asked = *number;
            sound.chapter(&paper::chapter(*number, sound.millis()))
        }
        Beat::Say(sentence) => sound.say(sentence),
        Beat::Pause(millis) => sound.pause(*millis),
    }
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
