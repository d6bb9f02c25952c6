//! A sound file that is written as it goes: sentences by the user's own command, exact silences between.

use std::fs::{self, File};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

use tempfile::TempDir;

use super::files::PageError;
use super::speaker::{Speaker, SpeechError, Spoken, run};
use super::speech::Speech;
use super::wav::{MOST_SAMPLES, Sentence, append};
use crate::voice::SpokenLanguage;

/// The word of a command that stands for the file that it is to write.
const FILE: &str = "FILE";

/// A sound file of 16-bit mono samples, and a text file of its chapters beside it.
pub struct Sound {
    path: PathBuf,
    file: File,
    chapters: (PathBuf, File),
    speaker: Speaker,
    is_usual: bool,
    folder: TempDir,
    /// Samples in a second; there is none until the first sentence has told it.
    rate: Option<u32>,
    /// How many samples are whole in the file.
    samples: u64,
    /// Whether a sentence is whole in the file.
    says_something: bool,
    /// A silence that comes before the first sentence.
    leading_millis: u64,
}

/// Why a sound file ends early or cannot be begun.
#[derive(Debug, thiserror::Error)]
pub enum SoundError {
    /// The file cannot be begun.
    #[error(transparent)]
    Page(#[from] PageError),
    /// The speech command does not do what it should.
    #[error("{0}")]
    Speech(SpeechError),
    /// No program of the usual name is there.
    #[error(
        "no espeak-ng is installed to make the sound: install it, or name another command with \
         --speech-file, as in \"my-voice --output FILE\""
    )]
    NoCommand,
    /// The command ended well, and left no sound.
    #[error(
        "{command} wrote no sound that can be read ({reason}): it must write a WAV file to FILE"
    )]
    NoSound {
        /// The command.
        command: String,
        /// What is wrong with it.
        reason: String,
    },
    /// The file cannot be written any further.
    #[error("{}: it cannot be written any further ({reason}): see whether the disk is full", path.display())]
    Unwritable {
        /// The file.
        path: PathBuf,
        /// What the system says.
        reason: io::Error,
    },
    /// A WAV file cannot be longer than 4 GiB.
    #[error("{}: a WAV file holds 4 GiB, and this one is full: make it of fewer questions", path.display())]
    Full {
        /// The file.
        path: PathBuf,
    },
}

impl Sound {
    /// Begins a sound file and its chapters, whose file has the same name with the ending `txt`. Without
    /// a command, `espeak-ng` speaks.
    ///
    /// # Errors
    ///
    /// [`SoundError::Page`] when a file is there already and `overwrite` is not wished, or when it cannot
    /// be written.
    pub fn begin(
        path: &Path,
        overwrite: bool,
        command: Option<Vec<String>>,
    ) -> Result<Sound, SoundError> {
        let file = create(path, overwrite)?;
        let chapters = path.with_extension("txt");
        let chapters_file = create(&chapters, overwrite).inspect_err(|_| {
            // Nothing is left of a sound that cannot be begun.
            let _ = fs::remove_file(path);
        })?;
        let usual = ["espeak-ng", "--stdin", "-w", FILE];
        Ok(Sound {
            folder: TempDir::new().map_err(PageError::unwritable(&std::env::temp_dir()))?,
            path: path.to_owned(),
            file,
            chapters: (chapters, chapters_file),
            is_usual: command.is_none(),
            speaker: Speaker::new(command.unwrap_or_else(|| usual.map(str::to_owned).into())),
            rate: None,
            samples: 0,
            says_something: false,
            leading_millis: 0,
        })
    }

    /// Returns how long the sound is so far, in milliseconds.
    #[must_use]
    pub fn millis(&self) -> u64 {
        let of_rate = |rate| self.samples * 1000 / u64::from(rate);
        self.rate.map_or(self.leading_millis, of_rate)
    }

    /// Tells whether there is no sound in the file yet.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        !self.says_something
    }

    /// Writes down where a chapter begins.
    ///
    /// # Errors
    ///
    /// [`SoundError::Unwritable`]
    pub fn chapter(&mut self, line: &str) -> Result<(), SoundError> {
        let (path, file) = &mut self.chapters;
        writeln!(file, "{line}").map_err(|reason| unwritable(path, reason))
    }

    /// Adds a silence, exact to a sample.
    ///
    /// # Errors
    ///
    /// [`SoundError::Unwritable`] or [`SoundError::Full`]; what was written before is a whole file.
    pub fn pause(&mut self, millis: u64) -> Result<(), SoundError> {
        match self.rate {
            None => {
                self.leading_millis += millis;
                Ok(())
            }
            Some(rate) => self.add(rate, millis * u64::from(rate) / 1000, |_| 0),
        }
    }

    /// Adds a sentence.
    ///
    /// # Errors
    ///
    /// [`SoundError`]; what was written before is a whole file.
    pub fn say(&mut self, sentence: &str) -> Result<(), SoundError> {
        let mut files = Vec::new();
        let spoken = self.speaker.speak(sentence, |words, said| {
            let file = self.folder.path().join(format!("{}.wav", files.len()));
            let _ = fs::remove_file(&file);
            let name = file.to_string_lossy();
            let words: Vec<String> = words.iter().map(|word| word.replace(FILE, &name)).collect();
            let spoken = run(&words, said, Speech::PATIENCE, || false);
            if !matches!(spoken, Spoken::Failed(_)) {
                files.push(file);
            }
            spoken
        });
        match spoken {
            Spoken::Done | Spoken::Doubtful(_) | Spoken::CutOff => {}
            Spoken::Failed(SpeechError::NotRun { .. }) if self.is_usual => {
                return Err(SoundError::NoCommand);
            }
            Spoken::Failed(error) => return Err(SoundError::Speech(error)),
        }
        for file in files {
            let sentence = Sentence::read(&file).map_err(|error| SoundError::NoSound {
                command: self.speaker.command(SpokenLanguage::English).join(" "),
                reason: error.to_string(),
            })?;
            let rate = match self.rate {
                Some(rate) => rate,
                None => {
                    self.rate = Some(sentence.rate);
                    self.pause(self.leading_millis)?;
                    sentence.rate
                }
            };
            self.add(rate, sentence.length(rate), |n| sentence.sample(n, rate))?;
        }
        self.says_something = true;
        Ok(())
    }

    fn add(
        &mut self,
        rate: u32,
        count: u64,
        sample: impl Fn(u64) -> i16,
    ) -> Result<(), SoundError> {
        if count > MOST_SAMPLES - self.samples {
            let path = self.path.clone();
            return Err(SoundError::Full { path });
        }
        append(&self.file, rate, self.samples, (0..count).map(sample))
            .map_err(|reason| unwritable(&self.path, reason))?;
        self.samples += count;
        Ok(())
    }

    /// Ends the file.
    ///
    /// # Errors
    ///
    /// [`SoundError::Unwritable`]
    pub fn finish(self) -> Result<(), SoundError> {
        let synced = self.file.sync_all();
        synced.map_err(|reason| unwritable(&self.path, reason))
    }
}

fn unwritable(path: &Path, reason: io::Error) -> SoundError {
    SoundError::Unwritable {
        path: path.to_owned(),
        reason,
    }
}

fn create(path: &Path, overwrite: bool) -> Result<File, PageError> {
    let mut options = File::options();
    if overwrite {
        options.create(true).truncate(true);
    } else {
        options.create_new(true);
    }
    let created = options.write(true).open(path);
    created.map_err(|error| match error.kind() {
        ErrorKind::AlreadyExists => PageError::Exists {
            path: path.to_owned(),
        },
        _ => PageError::unwritable(path)(error),
    })
}
