//! A sheet to be heard.

use std::path::Path;

use super::super::aloud::Words;
use super::super::shared::Shared;
use super::{Arguments, Failure, Format, Prepared, usage};
use crate::report::sheet::{Cue, SheetItem, cues, script};
use crate::terminal::{Sound, SoundError};
use crate::voice::{asides, paper};

/// Writes a sheet as a script or as a sound file.
pub(super) fn write(
    arguments: &Arguments,
    shared: &Shared,
    exercise: &Prepared,
    items: &[SheetItem],
) -> Result<(), Failure> {
    let (voice, think) = (exercise.telling.voice(shared), exercise.plan.think_millis());
    let cues = cues(items, voice, think, arguments.why);
    if arguments.format == Format::Script {
        return arguments.write(&script(&cues), None);
    }
    let Some(path) = &arguments.out else {
        return Err(usage(
            "a sound needs a file: name one with --out, as in --out drill.wav",
        ));
    };
    if path.extension().is_some_and(|ending| ending == "txt") {
        return Err(usage(
            "the text file of that name is for where each question begins: name the sound as in \
             --out drill.wav",
        ));
    }
    let named = arguments.speech_file.clone().map(|Words(words)| words);
    let command = named.or_else(|| shared.config.speech_file.clone());
    let mut sound = Sound::begin(path, arguments.force, command)?;
    let mut asked = 0;
    for cue in &cues {
        if let Err(error) = play(&mut sound, cue, &mut asked) {
            return Err(cut_short(path, &sound, asked, &error));
        }
    }
    let millis = sound.millis();
    sound.finish()?;
    super::tell(&asides::sound_made(asked, millis));
    Ok(())
}

fn play(sound: &mut Sound, cue: &Cue, asked: &mut usize) -> Result<(), SoundError> {
    match cue {
        Cue::Chapter(number) => {
            *asked = *number;
            sound.chapter(&paper::chapter(*number, sound.millis()))
        }
        Cue::Say(sentence) => sound.say(sentence),
        Cue::Pause(millis) => sound.pause(*millis),
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
