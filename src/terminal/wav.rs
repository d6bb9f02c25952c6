//! Sound as samples: a sentence that a command wrote, and the file that it is added to.

use std::fs::File;
use std::io::{self, BufReader, BufWriter, ErrorKind, Seek, SeekFrom, Write};
use std::path::Path;

use hound::{SampleFormat, WavReader, WavSpec};

use super::files::open_regular;

/// No sentence's sound has more bytes.
const LONGEST_SENTENCE: u64 = 64 << 20;
/// The bytes before the first sample of a file that is written here (WAVE format).
const HEADER: u32 = 44;
/// A WAV file holds no more samples of 16 bits.
pub(super) const MOST_SAMPLES: u64 = (u32::MAX as u64 - 100) / 2;

/// The sound of a sentence, its channels brought to one.
pub(super) struct Sentence {
    frames: Vec<f32>,
    /// Frames in a second.
    pub(super) rate: u32,
}

impl Sentence {
    /// Reads a sound of any number of channels, bits and rate.
    pub(super) fn read(path: &Path) -> Result<Sentence, hound::Error> {
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
        Ok(Sentence {
            frames: frames
                .map(|frame| frame.iter().sum::<f32>() / f32::from(channels))
                .collect(),
            rate: spec.sample_rate,
        })
    }

    /// How many samples it has at another rate.
    pub(super) fn length(&self, rate: u32) -> u64 {
        (self.frames.len() as u64 * u64::from(rate)).div_ceil(u64::from(self.rate))
    }

    /// A sample at another rate, on a straight line between two frames.
    pub(super) fn sample(&self, n: u64, rate: u32) -> i16 {
        let place = n * u64::from(self.rate);
        let (at, behind) = (place / u64::from(rate), place % u64::from(rate));
        let at = usize::try_from(at).unwrap_or(usize::MAX);
        let before = self.frames.get(at).copied().unwrap_or_default();
        let next = self.frames.get(at + 1).copied().unwrap_or(before);
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_precision_loss,
            reason = "a share of one, and a value that is clamped before"
        )]
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

/// Adds samples to a WAV file that holds `kept` of them, and brings its header up to them. After a failure it
/// holds what it held before.
pub(super) fn append(
    file: &File,
    rate: u32,
    kept: u64,
    samples: impl Iterator<Item = i16>,
) -> io::Result<()> {
    let written = write_behind(file, rate, kept, samples);
    if written.is_err() {
        // Shortening a file needs no room on the disk; where even that fails, the error tells.
        let _ = file.set_len(u64::from(HEADER) + 2 * kept);
    }
    written
}

fn write_behind(
    mut file: &File,
    rate: u32,
    kept: u64,
    samples: impl Iterator<Item = i16>,
) -> io::Result<()> {
    file.seek(SeekFrom::Start(u64::from(HEADER) + 2 * kept))?;
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
