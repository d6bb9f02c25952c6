//! A sound file that is written as it goes: sentences by the user's own command, exact silences between.

use std::fs::{self, File};
use std::io::{self, BufReader, BufWriter, ErrorKind, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use hound::{SampleFormat, WavReader, WavSpec};
use tempfile::TempDir;

use super::files::{WriteError, open_regular};
use super::speaker::{Speaker, SpeechError, Spoken, run};
use super::speech::Speech;
use crate::voice::SpokenLanguage;

/// The word of a command that stands for the file that it is to write.
const FILE: &str = "FILE";
/// No sentence's sound has more bytes.
const LONGEST_SENTENCE: u64 = 64 << 20;
/// The bytes before the first sample of a file that is written here (WAVE format).
const HEADER: u32 = 44;
/// A WAV file holds no more samples of 16 bits.
const MOST_SAMPLES: u64 = (u32::MAX as u64 - 100) / 2;

/// A sound file of 16-bit mono samples, and a text file of its chapters beside it.
pub(crate) struct Sound {
    path: PathBuf,
    file: File,
    chapters: File,
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
pub(crate) enum SoundError {
    /// The file cannot be begun.
    #[error(transparent)]
    File(#[from] WriteError),
    /// The speech command does not do what it should.
    #[error("{0}")]
    Speech(SpeechError),
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
    #[error("{path}: it cannot be written any further ({reason}): see whether the disk is full", path = .0.display(), reason = .1)]
    Unwritable(PathBuf, io::Error),
    /// A WAV file cannot be longer than 4 GiB.
    #[error("{}: a WAV file holds 4 GiB, and this one is full: make it of fewer questions", .0.display())]
    Full(PathBuf),
}

impl Sound {
    /// Begins a sound file and its chapters, whose file has the same name with the ending `txt`. Without
    /// a command, `espeak-ng` speaks.
    ///
    /// # Errors
    ///
    /// [`SoundError::File`] when a file is there already, or when it cannot be written.
    pub(crate) fn begin(path: &Path, command: Option<Vec<String>>) -> Result<Sound, SoundError> {
        let file = create(path)?;
        let chapters = create(&path.with_extension("txt")).inspect_err(|_| {
            // Nothing is left of a sound that cannot be begun.
            let _ = fs::remove_file(path);
        })?;
        let usual = ["espeak-ng", "--stdin", "-w", FILE];
        Ok(Sound {
            folder: TempDir::new().map_err(WriteError::unwritable(&std::env::temp_dir()))?,
            path: path.to_owned(),
            file,
            chapters,
            is_usual: command.is_none(),
            speaker: Speaker::new(command.unwrap_or_else(|| usual.map(str::to_owned).into())),
            rate: None,
            samples: 0,
            says_something: false,
            leading_millis: 0,
        })
    }

    /// Returns how long the sound is so far, in milliseconds.
    pub(crate) fn millis(&self) -> u64 {
        let of_rate = |rate| self.samples * 1000 / u64::from(rate);
        self.rate.map_or(self.leading_millis, of_rate)
    }

    /// Tells whether there is no sound in the file yet.
    pub(crate) fn is_empty(&self) -> bool {
        !self.says_something
    }

    /// Writes down where a chapter begins.
    ///
    /// # Errors
    ///
    /// [`SoundError::Unwritable`]
    pub(crate) fn chapter(&mut self, line: &str) -> Result<(), SoundError> {
        writeln!(self.chapters, "{line}")
            .map_err(|reason| SoundError::Unwritable(self.path.with_extension("txt"), reason))
    }

    /// Adds a silence, exact to a sample.
    ///
    /// # Errors
    ///
    /// [`SoundError::Unwritable`] or [`SoundError::Full`]; what was written before is a whole file.
    pub(crate) fn pause(&mut self, millis: u64) -> Result<(), SoundError> {
        if let Some(rate) = self.rate {
            return self.add(rate, millis * u64::from(rate) / 1000, |_| 0);
        }
        self.leading_millis += millis;
        Ok(())
    }

    /// Adds a sentence.
    ///
    /// # Errors
    ///
    /// [`SoundError`]; what was written before is a whole file.
    pub(crate) fn say(&mut self, sentence: &str) -> Result<(), SoundError> {
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
            let sentence = SentenceSound::read(&file).map_err(|error| SoundError::NoSound {
                command: self.speaker.command(SpokenLanguage::English).join(" "),
                reason: error.to_string(),
            })?;
            if self.rate.is_none() {
                self.rate = Some(sentence.rate);
                self.pause(self.leading_millis)?;
            }
            let rate = self.rate.unwrap_or(sentence.rate);
            self.add(rate, sentence.length(rate), |n| sentence.sample(n, rate))?;
        }
        self.says_something = true;
        Ok(())
    }

    /// Adds samples; after a failure the file holds what it held before.
    fn add(
        &mut self,
        rate: u32,
        count: u64,
        sample: impl Fn(u64) -> i16,
    ) -> Result<(), SoundError> {
        if count > MOST_SAMPLES - self.samples {
            return Err(SoundError::Full(self.path.clone()));
        }
        if let Err(reason) = self.write(rate, (0..count).map(sample)) {
            // Shortening a file needs no room on the disk; where even that fails, the error tells.
            let _ = self.file.set_len(u64::from(HEADER) + 2 * self.samples);
            return Err(SoundError::Unwritable(self.path.clone(), reason));
        }
        self.samples += count;
        Ok(())
    }

    /// Writes samples behind those that are whole in the file, and brings its header up to them.
    fn write(&self, rate: u32, samples: impl Iterator<Item = i16>) -> io::Result<()> {
        let mut file = &self.file;
        file.seek(SeekFrom::Start(u64::from(HEADER) + 2 * self.samples))?;
        let mut out = BufWriter::new(file);
        for sample in samples {
            out.write_all(&sample.to_le_bytes())?;
        }
        out.flush()?;
        let end = file.stream_position()?;
        let end = u32::try_from(end).map_err(|_| io::Error::from(ErrorKind::FileTooLarge))?;
        let spec = WavSpec {
            channels: 1,
            sample_rate: rate,
            bits_per_sample: 16,
            sample_format: SampleFormat::Int,
        };
        // The lengths stand behind `RIFF` at byte 4 and before the first sample.
        let mut header = spec.into_header_for_infinite_file();
        header[4..8].copy_from_slice(&(end - 8).to_le_bytes());
        header[40..].copy_from_slice(&(end - HEADER).to_le_bytes());
        file.rewind()?;
        file.write_all(&header)
    }

    /// Ends the file.
    ///
    /// # Errors
    ///
    /// [`SoundError::Unwritable`]
    pub(crate) fn finish(self) -> Result<(), SoundError> {
        let synced = self.file.sync_all();
        synced.map_err(|reason| SoundError::Unwritable(self.path, reason))
    }
}

fn create(path: &Path) -> Result<File, WriteError> {
    File::create_new(path).map_err(|error| match error.kind() {
        ErrorKind::AlreadyExists => WriteError::Exists(path.to_owned()),
        _ => WriteError::unwritable(path)(error),
    })
}

/// The sound of a sentence, its channels brought to one.
struct SentenceSound {
    frames: Vec<f32>,
    /// Frames in a second.
    rate: u32,
}

impl SentenceSound {
    /// Reads a sound of any number of channels, bits and rate.
    fn read(path: &Path) -> Result<SentenceSound, hound::Error> {
        let file = open_regular(path, LONGEST_SENTENCE)?;
        let reader = WavReader::new(BufReader::new(file))?;
        let spec = reader.spec();
        if spec.sample_rate == 0 {
            return Err(hound::Error::FormatError("no sample rate"));
        }
        let samples = match spec.sample_format {
            SampleFormat::Float => {
                let samples = reader.into_samples::<f32>();
                to_the_end(samples.map(|sample| Ok(sample? * 32_767.0)))?
            }
            SampleFormat::Int => {
                let scale = 2_f32.powi(16 - i32::from(spec.bits_per_sample.clamp(1, 32)));
                let samples = reader.into_samples::<i32>();
                #[expect(clippy::cast_precision_loss, reason = "16 bits are kept")]
                to_the_end(samples.map(|sample| Ok(sample? as f32 * scale)))?
            }
        };
        let channels = spec.channels.max(1);
        let frames = samples.chunks_exact(usize::from(channels));
        Ok(SentenceSound {
            frames: frames
                .map(|frame| frame.iter().sum::<f32>() / f32::from(channels))
                .collect(),
            rate: spec.sample_rate,
        })
    }

    /// How many samples it has at another rate.
    fn length(&self, rate: u32) -> u64 {
        (self.frames.len() as u64 * u64::from(rate)).div_ceil(u64::from(self.rate))
    }

    /// A sample at another rate, on a straight line between two frames.
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_precision_loss,
        reason = "a share of one, and a value that is clamped before"
    )]
    fn sample(&self, n: u64, rate: u32) -> i16 {
        let place = n * u64::from(self.rate);
        let (at, behind) = (place / u64::from(rate), place % u64::from(rate));
        let at = usize::try_from(at).unwrap_or(usize::MAX);
        let before = self.frames.get(at).copied().unwrap_or_default();
        let next = self.frames.get(at + 1).copied().unwrap_or(before);
        let sample = before + (next - before) * (behind as f32 / rate as f32);
        sample.round().clamp(-32_768.0, 32_767.0) as i16
    }
}

/// Takes the samples up to the end of the file: a command that writes into a pipe cannot know the length in
/// its header.
fn to_the_end(
    samples: impl Iterator<Item = Result<f32, hound::Error>>,
) -> Result<Vec<f32>, hound::Error> {
    samples
        .map_while(|sample| match sample {
            Err(hound::Error::IoError(error)) if error.kind() == ErrorKind::UnexpectedEof => None,
            Err(hound::Error::FormatError("Failed to read enough bytes.")) => None,
            other => Some(other),
        })
        .collect()
}
