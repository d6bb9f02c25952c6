//! The samples of any sound, brought to one channel, 16 bits and one rate.

use std::fs::File;
use std::io::{BufReader, ErrorKind};

use hound::{SampleFormat, WavReader};

/// Reads the sound of a sentence as 16-bit samples of one channel at `rate`, a sample at a time.
pub(super) fn mono(
    reader: WavReader<BufReader<File>>,
    rate: u32,
) -> Box<dyn Iterator<Item = Result<i16, hound::Error>>> {
    let spec = reader.spec();
    let bits = u32::from(spec.bits_per_sample).clamp(1, 32);
    let samples: Box<dyn Iterator<Item = Result<f64, hound::Error>>> = match spec.sample_format {
        SampleFormat::Float => Box::new(
            reader
                .into_samples::<f32>()
                .map(|sample| sample.map(|sample| f64::from(sample) * 32_767.0)),
        ),
        SampleFormat::Int => {
            let scale = 2_f64.powi(16 - i32::try_from(bits).unwrap_or(16));
            let samples = reader.into_samples::<i32>();
            Box::new(samples.map(move |sample| sample.map(|sample| f64::from(sample) * scale)))
        }
    };
    let whole = samples.map_while(|sample| match sample {
        // A command that writes into a pipe cannot know the length in its header.
        Err(hound::Error::IoError(error)) if error.kind() == ErrorKind::UnexpectedEof => None,
        Err(hound::Error::FormatError("Failed to read enough bytes.")) => None,
        other => Some(other),
    });
    let one = Channels {
        samples: whole,
        channels: spec.channels.max(1),
    };
    let rounded = |sample: f64| {
        #[expect(
            clippy::cast_possible_truncation,
            reason = "the value is clamped before"
        )]
        let sample = sample.round().clamp(-32_768.0, 32_767.0) as i16;
        sample
    };
    if spec.sample_rate == rate {
        Box::new(one.map(move |sample| sample.map(rounded)))
    } else {
        let step = f64::from(spec.sample_rate) / f64::from(rate);
        let stretched = Stretched::new(one, step);
        Box::new(stretched.map(move |sample| sample.map(rounded)))
    }
}

/// The mean of all channels.
struct Channels<I> {
    samples: I,
    channels: u16,
}

impl<I: Iterator<Item = Result<f64, hound::Error>>> Iterator for Channels<I> {
    type Item = I::Item;

    fn next(&mut self) -> Option<I::Item> {
        let mut sum = 0.0;
        for _ in 0..self.channels {
            match self.samples.next()? {
                Ok(sample) => sum += sample,
                Err(error) => return Some(Err(error)),
            }
        }
        Some(Ok(sum / f64::from(self.channels)))
    }
}

/// The same sound at another rate, straight lines between its samples.
struct Stretched<I> {
    samples: I,
    step: f64,
    /// How far behind `before` the next sample lies, in samples of the source.
    at: f64,
    before: f64,
    behind: Option<f64>,
}

impl<I: Iterator<Item = Result<f64, hound::Error>>> Stretched<I> {
    fn new(samples: I, step: f64) -> Stretched<I> {
        Stretched {
            samples,
            step,
            // The first sample of the source is read by the first step.
            at: 1.0,
            before: 0.0,
            behind: Some(0.0),
        }
    }
}

impl<I: Iterator<Item = Result<f64, hound::Error>>> Iterator for Stretched<I> {
    type Item = I::Item;

    fn next(&mut self) -> Option<I::Item> {
        while self.at >= 1.0 {
            self.before = self.behind?;
            self.behind = match self.samples.next() {
                None => None,
                Some(Ok(sample)) => Some(sample),
                Some(Err(error)) => return Some(Err(error)),
            };
            self.at -= 1.0;
        }
        let behind = self.behind.unwrap_or(self.before);
        let sample = self.before + (behind - self.before) * self.at;
        self.at += self.step;
        Some(Ok(sample))
    }
}
