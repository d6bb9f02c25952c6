//! Text that comes in piece by piece, UTF-16 turned into UTF-8 on the way.

use std::io::{self, BufRead};

use encoding_rs::{CoderResult, Decoder, UTF_16BE, UTF_16LE};

/// How much of a file is looked at to tell whether it is text, in bytes.
const HEAD: usize = 1024;

/// Why a file is not read at all; it comes wrapped in an [`io::Error`] of kind
/// [`InvalidData`](io::ErrorKind::InvalidData).
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotPgn {
    /// The file begins with bytes that no text holds.
    #[error("this is no PGN but a binary file: give a file of PGN text")]
    Binary,
}

/// The text of a file that has been read and not yet used.
#[derive(Debug)]
pub(super) struct Source<R> {
    reader: R,
    decoder: Option<Decoder>,
    text: Vec<u8>,
    /// Where the part begins that is not used yet.
    start: usize,
    complete: bool,
    begun: bool,
}

impl<R: BufRead> Source<R> {
    pub(super) const fn new(reader: R) -> Source<R> {
        Source {
            reader,
            decoder: None,
            text: Vec::new(),
            start: 0,
            complete: false,
            begun: false,
        }
    }

    /// Returns the text that is not used yet.
    pub(super) fn text(&self) -> &[u8] {
        &self.text[self.start..]
    }

    /// Tells whether all there is has been read.
    pub(super) const fn is_complete(&self) -> bool {
        self.complete
    }

    /// Marks the next `len` bytes as used.
    pub(super) fn consume(&mut self, len: usize) {
        self.start += len;
    }

    /// Reads on until `more` more bytes are there, or all.
    ///
    /// # Errors
    ///
    /// What the reader says, or [`NotPgn`].
    pub(super) fn fill(&mut self, more: usize) -> io::Result<()> {
        self.text.drain(..self.start);
        self.start = 0;
        let wanted = self.text.len() + more.max(1);
        while self.text.len() < wanted && !self.complete {
            self.fill_once()?;
            if !self.begun && (self.text.len() >= HEAD || self.complete) {
                self.begun = true;
                if is_binary(&self.text[..self.text.len().min(HEAD)]) {
                    return Err(io::Error::new(io::ErrorKind::InvalidData, NotPgn::Binary));
                }
            }
        }
        Ok(())
    }

    fn fill_once(&mut self) -> io::Result<()> {
        let chunk = loop {
            match self.reader.fill_buf() {
                Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
                other => break other?,
            }
        };
        let len = chunk.len();
        self.complete = len == 0;
        match &mut self.decoder {
            Some(decoder) => decode_on(decoder, chunk, &mut self.text),
            None => self.text.extend_from_slice(chunk),
        }
        self.reader.consume(len);
        if self.decoder.is_none() && !self.begun {
            let utf16 = match self.text.as_slice() {
                [0xff, 0xfe, ..] => Some(UTF_16LE),
                [0xfe, 0xff, ..] => Some(UTF_16BE),
                _ => None,
            };
            if let Some(encoding) = utf16 {
                let raw = std::mem::take(&mut self.text);
                let decoder = self.decoder.insert(encoding.new_decoder_with_bom_removal());
                decode_on(decoder, &raw, &mut self.text);
            }
        }
        Ok(())
    }
}

fn decode_on(decoder: &mut Decoder, mut raw: &[u8], text: &mut Vec<u8>) {
    let last = raw.is_empty();
    let mut piece = [0; 1 << 12];
    loop {
        let (result, read, written, _) = decoder.decode_to_utf8(raw, &mut piece, last);
        text.extend_from_slice(&piece[..written]);
        raw = &raw[read..];
        match result {
            CoderResult::InputEmpty => return,
            CoderResult::OutputFull => {}
        }
    }
}

fn is_binary(head: &[u8]) -> bool {
    let odd = |byte: &&u8| matches!(byte, 0..=8 | 14..=25 | 28..=31);
    head.contains(&0) || head.iter().filter(odd).count() * 10 > head.len()
}
