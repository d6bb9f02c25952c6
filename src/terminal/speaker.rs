//! A speech command: how it is called, in which spoken languages, one run of it with its misbehavior, and how
//! what it started is silenced.

use std::collections::VecDeque;
use std::io::{self, PipeReader, Read, Write};
use std::path::Path;
use std::process::{Child, Stdio};
use std::sync::{Arc, Mutex};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use super::process::{command, end, named};
use crate::voice::{SpokenLanguage, clean_name, spoken_languages};

/// A sentence takes no longer than its patience and so much for each letter: five times what the slowest
/// voice needs.
const PATIENCE_PER_LETTER: Duration = Duration::from_millis(500);
/// No voice speaks a letter in less.
const LEAST_PER_LETTER: Duration = Duration::from_millis(5);
/// How often a speaking command is looked at.
const GLANCE: Duration = Duration::from_millis(5);
/// A command may write so many bytes beside speaking.
const FLOOD: usize = 64 * 1024;
/// So many bytes of what it writes are told.
const WORDS_TOLD: usize = 400;

/// Has the speech service of Windows speak what comes through standard input. (Source: the documentation of
/// .NET's `System.Speech.Synthesis.SpeechSynthesizer`.)
const WINDOWS: [&str; 5] = [
    "powershell",
    "-NoProfile",
    "-NonInteractive",
    "-Command",
    "Add-Type -AssemblyName System.Speech; [Console]::InputEncoding = [Text.Encoding]::UTF8; \
     (New-Object System.Speech.Synthesis.SpeechSynthesizer).Speak([Console]::In.ReadToEnd())",
];

/// Why nothing more is spoken, or perhaps not heard. It is told once; the session goes on.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SpeechError {
    /// None of the usual commands is there.
    #[error(
        "Nothing is spoken: no speech command is installed. Install espeak-ng or speech-dispatcher, or \
         name another command with --speech."
    )]
    NoCommand,
    /// The user's command cannot be run.
    #[error("Nothing is spoken: {command} cannot be run ({reason}). See what --speech names.")]
    NotRun {
        /// The command.
        command: String,
        /// What the system says.
        reason: String,
    },
    /// The command ended with an error.
    #[error("Nothing more is spoken: {command} failed ({reason}). Try the command alone.")]
    Failed {
        /// The command.
        command: String,
        /// How it ended, and its own words.
        reason: String,
    },
    /// The command does not end.
    #[error(
        "Nothing more is spoken: {command} did not end in {seconds} seconds. Try the command alone."
    )]
    Hung {
        /// The command.
        command: String,
        /// How long it was waited for.
        seconds: u64,
    },
    /// The command ends well, but at once, and complains: as where there is no sound device.
    #[error(
        "Perhaps nothing is heard: {command} ended at once and wrote \"{words}\". See whether there is \
         a sound device."
    )]
    Unheard {
        /// The command.
        command: String,
        /// The first line that it wrote.
        words: String,
    },
    /// The command writes without end.
    #[error("Nothing more is spoken: {command} writes without end. Try the command alone.")]
    Flooded {
        /// The command.
        command: String,
    },
}

/// How the speaking of one sentence ended.
pub(super) enum Spoken {
    Done,
    /// The command ended well, but so soon and with such words that perhaps nothing was heard.
    Doubtful(SpeechError),
    CutOff,
    Failed(SpeechError),
}

/// A command that speaks what comes through its standard input.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Speaker {
    /// The program and its arguments.
    words: Vec<String>,
    /// The same with a German voice, where one is known; it is forgotten where it fails.
    german: Option<Vec<String>>,
    /// The command that silences what goes on in another process.
    silence: Option<Vec<String>>,
}

impl Speaker {
    /// Knows the manners of a command by its program's name. What `spd-say` speaks goes on in another
    /// process. (Sources: the manual pages of spd-say 0.11.4, `--language`, `--cancel`, and espeak-ng
    /// 1.51, `-v`.)
    pub(super) fn new(words: Vec<String>) -> Speaker {
        let program = words.first().map(Path::new).and_then(Path::file_stem);
        let with = |more: [&str; 2]| {
            let more = more.map(str::to_owned);
            Some(words.iter().cloned().chain(more).collect())
        };
        let (german, silence) = match program.and_then(|name| name.to_str()) {
            Some("espeak-ng" | "espeak") => (with(["-v", "de"]), None),
            Some("spd-say") => (
                with(["--language", "de"]),
                Some(["spd-say", "--cancel"].map(str::to_owned).into()),
            ),
            Some(_) | None => (None, None),
        };
        Speaker {
            words,
            german,
            silence,
        }
    }

    /// The commands that are tried in turn where the user names none. (Sources: the manual pages of
    /// spd-say 0.11.4, `--wait` and `--pipe-mode`, and espeak-ng 1.51, `--stdin`. `say` comes with macOS and
    /// PowerShell with Windows, on which neither was run.)
    pub(super) fn usual() -> VecDeque<Speaker> {
        let usual = ["spd-say --wait --pipe-mode", "espeak-ng --stdin", "say"];
        let words = usual.map(|words| words.split(' ').map(str::to_owned).collect());
        let windows = cfg!(windows).then(|| WINDOWS.map(str::to_owned).into());
        words.into_iter().chain(windows).map(Speaker::new).collect()
    }

    /// Has a sentence spoken, each part of it by the voice of its spoken language where there is one; `run`
    /// runs a command with some words.
    pub(super) fn speak(
        &mut self,
        sentence: &str,
        mut run: impl FnMut(&[String], &str) -> Spoken,
    ) -> Spoken {
        let mut whole = Spoken::Done;
        for (spoken_language, words) in self.parts(sentence) {
            let mut spoken = run(self.command(spoken_language), &words);
            // No German voice is no reason to fall silent.
            if let (SpokenLanguage::German, Spoken::Failed(_)) = (spoken_language, &spoken)
                && self.german.take().is_some()
            {
                spoken = run(self.command(spoken_language), &words);
            }
            match spoken {
                Spoken::Done => {}
                Spoken::Doubtful(_) => whole = spoken,
                Spoken::CutOff | Spoken::Failed(_) => return spoken,
            }
        }
        whole
    }

    /// Parts a sentence by its spoken languages, where there is a voice for each of them.
    fn parts(&self, sentence: &str) -> Vec<(SpokenLanguage, String)> {
        if self.german.is_some() {
            spoken_languages(sentence)
        } else {
            vec![(SpokenLanguage::English, sentence.to_owned())]
        }
    }

    /// The command for words of a spoken language.
    pub(super) fn command(&self, spoken_language: SpokenLanguage) -> &[String] {
        match (spoken_language, &self.german) {
            (SpokenLanguage::German, Some(german)) => german,
            (SpokenLanguage::German, None) | (SpokenLanguage::English, _) => &self.words,
        }
    }

    /// Silences what the command started, and does not wait for it.
    pub(super) fn silence(&self) {
        let Some(Ok(mut command)) = self.silence.as_deref().map(command) else {
            return;
        };
        command
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null());
        if let Ok(mut child) = command.spawn() {
            thread::spawn(move || child.wait());
        }
    }
}

/// Runs a command with a sentence on its standard input, until it ends, is to stop, or does not behave.
pub(super) fn run(
    words: &[String],
    sentence: &str,
    patience: Duration,
    is_to_stop: impl Fn() -> bool,
) -> Spoken {
    let command = named(words);
    let (mut child, output) = match start(words, sentence) {
        Ok(started) => started,
        Err(error) => {
            let reason = error.to_string();
            return Spoken::Failed(SpeechError::NotRun { command, reason });
        }
    };
    let letters = u32::try_from(sentence.chars().count()).unwrap_or(u32::MAX);
    let limit = patience + PATIENCE_PER_LETTER.saturating_mul(letters);
    let begun = Instant::now();
    let spoken = loop {
        match child.try_wait() {
            _ if output.is_flood() => break Spoken::Failed(SpeechError::Flooded { command }),
            Ok(Some(status)) if status.success() => {
                let at_once = begun.elapsed() < LEAST_PER_LETTER.saturating_mul(letters);
                return match output.complaint(sentence).filter(|_| at_once) {
                    Some(words) => Spoken::Doubtful(SpeechError::Unheard { command, words }),
                    None => Spoken::Done,
                };
            }
            Ok(Some(status)) => {
                let said = clean_name(&output.text());
                let reason = match said.trim_end_matches(['.', '!']) {
                    _ if said.is_empty() => status.to_string(),
                    said => format!("{status}: {said}"),
                };
                return Spoken::Failed(SpeechError::Failed { command, reason });
            }
            Err(error) => {
                let reason = error.to_string();
                return Spoken::Failed(SpeechError::Failed { command, reason });
            }
            Ok(None) if is_to_stop() => break Spoken::CutOff,
            Ok(None) if begun.elapsed() > limit => break Spoken::Failed(hung(words, limit)),
            Ok(None) => thread::sleep(GLANCE),
        }
    };
    end(&mut child);
    spoken
}

/// What a command writes beside speaking.
struct CommandOutput {
    bytes: Arc<Mutex<Vec<u8>>>,
    reader: JoinHandle<()>,
}

impl CommandOutput {
    /// Reads in a thread of its own, to the end or until it is a flood.
    fn of(mut pipe: PipeReader) -> CommandOutput {
        let bytes = Arc::new(Mutex::new(Vec::new()));
        let kept = Arc::clone(&bytes);
        let reader = thread::spawn(move || {
            let mut buffer = [0; 4096];
            while let Ok(read @ 1..) = pipe.read(&mut buffer)
                && let Ok(mut kept) = kept.lock()
                && kept.len() <= FLOOD
            {
                kept.extend_from_slice(&buffer[..read]);
            }
        });
        CommandOutput { bytes, reader }
    }

    fn is_flood(&self) -> bool {
        self.bytes.lock().is_ok_and(|bytes| bytes.len() > FLOOD)
    }

    /// The first line that a command wrote, where it was not the sentence itself.
    fn complaint(&self, sentence: &str) -> Option<String> {
        let text = self.text();
        let first = clean_name(text.lines().find(|line| !line.trim().is_empty())?);
        (!text.contains(sentence)).then_some(first)
    }

    /// The beginning of what a command wrote.
    fn text(&self) -> String {
        // Another process may hold the pipe open for good: its end is not waited for.
        for _ in 0..10 {
            if self.reader.is_finished() {
                break;
            }
            thread::sleep(GLANCE);
        }
        let Ok(bytes) = self.bytes.lock() else {
            return String::new();
        };
        String::from_utf8_lossy(&bytes[..bytes.len().min(WORDS_TOLD)]).into_owned()
    }
}

/// Tells of a command that never came to an end in all the time that it was left.
pub(super) fn hung(words: &[String], limit: Duration) -> SpeechError {
    SpeechError::Hung {
        command: named(words),
        seconds: limit.as_secs(),
    }
}

/// Starts a command with a sentence on its standard input, whose output is read here alone.
fn start(words: &[String], sentence: &str) -> io::Result<(Child, CommandOutput)> {
    let (reader, writer) = io::pipe()?;
    let mut command = command(words)?;
    command
        .stdin(Stdio::piped())
        .stdout(writer.try_clone()?)
        .stderr(writer);
    let mut child = command.spawn()?;
    if let Some(mut input) = child.stdin.take() {
        let sentence = format!("{sentence}\n");
        // A command may end without reading all; how it ends tells whether that was right. One that reads
        // nothing would hold up a long sentence.
        thread::spawn(move || input.write_all(sentence.as_bytes()));
    }
    // Our own ends of the pipe must be gone before its end can be read.
    drop(command);
    Ok((child, CommandOutput::of(reader)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn speaker(words: &str) -> Speaker {
        Speaker::new(words.split(' ').map(str::to_owned).collect())
    }

    #[test]
    fn a_known_program_gets_a_german_voice_for_german_words_wherever_it_lies() {
        let table = [
            ("espeak-ng -s 150", "espeak-ng -s 150 -v de"),
            (
                "/usr/bin/espeak-ng --stdin",
                "/usr/bin/espeak-ng --stdin -v de",
            ),
            ("spd-say -e", "spd-say -e --language de"),
        ];
        for (words, german) in table {
            let speaker = speaker(words);
            assert_eq!(speaker.command(SpokenLanguage::German).join(" "), german);
            assert_eq!(speaker.command(SpokenLanguage::English).join(" "), words);
            assert_eq!(speaker.parts("Turm to Anna eins.").len(), 3);
        }
    }

    #[test]
    fn a_command_without_a_known_german_voice_gets_sentences_whole() {
        let mut espeak = speaker("espeak-ng");
        let mut runs = 0;
        let spoken = espeak.speak("Turm to Anna eins.", |words, _| {
            runs += 1;
            if words.ends_with(&["de".to_owned()]) {
                Spoken::Failed(SpeechError::NoCommand)
            } else {
                Spoken::Done
            }
        });
        assert!(matches!(spoken, Spoken::Done));
        assert_eq!(runs, 4, "the German voice is tried once");
        for speaker in [espeak, speaker("my-voice"), speaker("say")] {
            let whole = (SpokenLanguage::English, "Turm to Anna eins.".to_owned());
            assert_eq!(speaker.parts("Turm to Anna eins."), [whole]);
        }
    }
}
