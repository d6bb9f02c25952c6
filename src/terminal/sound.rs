//! A sound file that is written as it goes: sentences by the user's own command, exact silences between.

use std::fs::{self, File, OpenOptions};
use std::io::{self, BufWriter, ErrorKind, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use hound::{SampleFormat, WavReader, WavSpec, WavWriter};
use tempfile::TempDir;

use super::attend::{PATIENCE, Spoken, attend};
use super::samples::mono;
use super::speaker::Speaker;
use super::{PageError, SpeechTrouble};
use crate::voice::SpokenLanguage;

/// The word of a command that stands for the file that it is to write.
const FILE: &str = "FILE";

/// A sound file of 16-bit mono samples, and a text file of its chapters beside it.
pub struct Sound {
    path: PathBuf,
    chapters: (PathBuf, File),
    speaker: Speaker,
    is_usual: bool,
    folder: TempDir,
    /// There is none until the first sentence has told the rate.
    writer: Option<Writer>,
    /// Whether a sentence is whole in the file.
    says_something: bool,
    /// A silence that comes before the first sentence.
    leading_millis: u64,
}

struct Writer {
    wav: WavWriter<BufWriter<File>>,
    rate: u32,
    header: u64,
    /// All samples that were handed over.
    samples: u64,
    /// Those that are on the disk, with a header that tells so.
    kept: u64,
}

/// Why a sound file ends early or cannot be begun.
#[derive(Debug, thiserror::Error)]
pub enum SoundError {
    /// The file cannot be begun.
    #[error(transparent)]
    Page(#[from] PageError),
    /// The speech command does not do what it should.
    #[error("{0}")]
    Speech(SpeechTrouble),
    /// No program of the usual name is there.
    #[error(
        "no espeak-ng is installed to make the sound: install it, or name another command in the \
         config file, as in speech_file = [\"my-voice\", \"--output\", \"FILE\"]"
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
        let usual = || {
            ["espeak-ng", "--stdin", "-w", FILE]
                .map(str::to_owned)
                .into()
        };
        let chapters = path.with_extension("txt");
        for path in [path, &chapters] {
            if !overwrite && path.exists() {
                let path = path.to_owned();
                return Err(PageError::Exists { path }.into());
            }
        }
        let unwritable = |path: &Path| {
            let path = path.to_owned();
            |reason| PageError::Unwritable { path, reason }
        };
        create(path, overwrite).map_err(unwritable(path))?;
        let chapters_file = create(&chapters, overwrite).map_err(|reason| {
            // Nothing is left of a sound that cannot be begun.
            let _ = fs::remove_file(path);
            unwritable(&chapters)(reason)
        })?;
        Ok(Sound {
            folder: TempDir::new().map_err(unwritable(&std::env::temp_dir()))?,
            path: path.to_owned(),
            chapters: (chapters, chapters_file),
            is_usual: command.is_none(),
            speaker: Speaker::new(command.unwrap_or_else(usual)),
            writer: None,
            says_something: false,
            leading_millis: 0,
        })
    }

    /// Returns how long the sound is so far, in milliseconds.
    #[must_use]
    pub fn millis(&self) -> u64 {
        self.writer.as_ref().map_or(self.leading_millis, |writer| {
            writer.samples * 1000 / u64::from(writer.rate)
        })
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
        writeln!(file, "{line}").map_err(|reason| SoundError::Unwritable {
            path: path.clone(),
            reason,
        })
    }

    /// Adds a silence, exact to a sample.
    ///
    /// # Errors
    ///
    /// [`SoundError::Unwritable`] or [`SoundError::Full`]; what was written before is a whole file.
    pub fn pause(&mut self, millis: u64) -> Result<(), SoundError> {
        match &mut self.writer {
            None => {
                self.leading_millis += millis;
                Ok(())
            }
            Some(writer) => {
                let samples = millis * u64::from(writer.rate) / 1000;
                let written = writer.write((0..samples).map(|_| Ok(0)));
                self.settle(written)
            }
        }
    }

    /// Adds a sentence.
    ///
    /// # Errors
    ///
    /// [`SoundError`]; what was written before is a whole file.
    pub fn say(&mut self, sentence: &str) -> Result<(), SoundError> {
        for (spoken_language, said) in self.speaker.parts(sentence) {
            let is_foreign = spoken_language == SpokenLanguage::German;
            match self.spoken(spoken_language, &said) {
                // No German voice is no reason to fall silent.
                Err(SoundError::Speech(_)) if is_foreign && self.speaker.forget_german() => {
                    self.spoken(spoken_language, &said)?;
                }
                spoken => spoken?,
            }
        }
        self.says_something = true;
        Ok(())
    }

    /// Has the command speak some words into a file, and adds that.
    fn spoken(&mut self, spoken_language: SpokenLanguage, said: &str) -> Result<(), SoundError> {
        let file = self.folder.path().join("sentence.wav");
        let _ = fs::remove_file(&file);
        let name = file.to_string_lossy();
        let words = self.speaker.words(spoken_language).iter();
        let words: Vec<String> = words.map(|word| word.replace(FILE, &name)).collect();
        match attend(&words, said, PATIENCE, || false) {
            Spoken::Done | Spoken::Doubtful(_) | Spoken::CutOff => {}
            Spoken::Trouble(SpeechTrouble::NotRun { .. }) if self.is_usual => {
                return Err(SoundError::NoCommand);
            }
            Spoken::Trouble(trouble) => return Err(SoundError::Speech(trouble)),
        }
        let reader = WavReader::open(&file).map_err(|error| self.no_sound(&error))?;
        let rate = reader.spec().sample_rate;
        if rate == 0 {
            return Err(self.no_sound(&hound::Error::FormatError("no sample rate")));
        }
        if self.writer.is_none() {
            let begun = Writer::begin(&self.path, rate);
            self.writer = Some(begun.map_err(|error| self.unwritable(error))?);
            let leading = self.leading_millis;
            self.pause(leading)?;
        }
        let Some(writer) = &mut self.writer else {
            return Ok(());
        };
        let written = writer.write(mono(reader, writer.rate));
        self.settle(written)
    }

    /// Ends the file.
    ///
    /// # Errors
    ///
    /// [`SoundError::Unwritable`]
    pub fn finish(mut self) -> Result<(), SoundError> {
        let path = self.path.clone();
        let unwritable = |reason| SoundError::Unwritable {
            path: path.clone(),
            reason,
        };
        if let Some(writer) = self.writer.take() {
            writer
                .wav
                .finalize()
                .map_err(io_error)
                .map_err(unwritable)?;
        }
        File::open(&self.path)
            .and_then(|file| file.sync_all())
            .map_err(unwritable)
    }

    /// Sees to it that after a failure the file ends with what was whole.
    fn settle(&mut self, written: Result<(), WriteFault>) -> Result<(), SoundError> {
        let Err(fault) = written else {
            return Ok(());
        };
        if let Some(writer) = self.writer.take() {
            let (header, kept) = (writer.header, writer.kept);
            drop(writer);
            // Shortening a file needs no room on the disk; where even that fails, the fault below tells.
            let _ = mend(&self.path, header, kept);
        }
        Err(match fault {
            WriteFault::Full => SoundError::Full {
                path: self.path.clone(),
            },
            WriteFault::Sentence(error) => self.no_sound(&error),
            WriteFault::Disk(error) => self.unwritable(error),
        })
    }

    fn no_sound(&self, error: &hound::Error) -> SoundError {
        SoundError::NoSound {
            command: self.speaker.words(SpokenLanguage::English).join(" "),
            reason: error.to_string(),
        }
    }

    fn unwritable(&self, reason: io::Error) -> SoundError {
        SoundError::Unwritable {
            path: self.path.clone(),
            reason,
        }
    }
}

enum WriteFault {
    Full,
    /// The sound of the sentence cannot be read.
    Sentence(hound::Error),
    Disk(io::Error),
}

impl Writer {
    fn begin(path: &Path, rate: u32) -> io::Result<Writer> {
        let spec = WavSpec {
            channels: 1,
            sample_rate: rate,
            bits_per_sample: 16,
            sample_format: SampleFormat::Int,
        };
        let file = OpenOptions::new().write(true).open(path)?;
        let mut wav = WavWriter::new(BufWriter::new(file), spec).map_err(io_error)?;
        wav.flush().map_err(io_error)?;
        Ok(Writer {
            wav,
            rate,
            header: fs::metadata(path)?.len(),
            samples: 0,
            kept: 0,
        })
    }

    /// Writes samples, and brings the header up to them.
    fn write(
        &mut self,
        samples: impl Iterator<Item = Result<i16, hound::Error>>,
    ) -> Result<(), WriteFault> {
        const MOST: u64 = (u32::MAX as u64 - 100) / 2;
        let disk = |error| WriteFault::Disk(io_error(error));
        for sample in samples {
            if self.samples == MOST {
                return Err(WriteFault::Full);
            }
            let sample = sample.map_err(WriteFault::Sentence)?;
            self.wav.write_sample(sample).map_err(disk)?;
            self.samples += 1;
        }
        self.wav.flush().map_err(disk)?;
        self.kept = self.samples;
        Ok(())
    }
}

fn io_error(error: hound::Error) -> io::Error {
    match error {
        hound::Error::IoError(error) => error,
        other => io::Error::other(other),
    }
}

fn create(path: &Path, overwrite: bool) -> io::Result<File> {
    let mut options = OpenOptions::new();
    options.write(true);
    if overwrite {
        options.create(true).truncate(true);
    } else {
        options.create_new(true);
    }
    options.open(path)
}

/// Cuts a sound file behind its first samples and writes their number into its header: the lengths
/// stand behind `RIFF` at byte 4 and before the first sample (WAVE format).
fn mend(path: &Path, header: u64, samples: u64) -> io::Result<()> {
    let mut file = OpenOptions::new().write(true).open(path)?;
    let sound = samples * 2;
    file.set_len(header + sound)?;
    let size = |bytes: u64| {
        let size = u32::try_from(bytes).map_err(|_| io::Error::from(ErrorKind::FileTooLarge));
        size.map(u32::to_le_bytes)
    };
    file.seek(SeekFrom::Start(4))?;
    file.write_all(&size(header + sound - 8)?)?;
    file.seek(SeekFrom::Start(header - 4))?;
    file.write_all(&size(sound)?)
}
