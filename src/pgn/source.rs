//! Text that comes in piece by piece, UTF-16 turned into UTF-8 on the way.

use std::io::{self, Read};

use encoding_rs::{CoderResult, Decoder, Encoding, UTF_16BE, UTF_16LE};

/// How much of a file is looked at to tell whether it is text, in bytes.
const HEAD: usize = 1024;

/// Why a file is not read at all.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
enum NotPgn {
    /// The file begins with bytes that no text holds.
    #[error("this is no PGN but a binary file: give a file of PGN text")]
    Binary,
    /// UTF-16 that does not say so.
    #[error("this looks like UTF-16 without its mark: read it with --encoding {0}")]
    Unmarked(&'static str),
}

/// How much is asked of the reader at once, in bytes.
const CHUNK: usize = 1 << 18;

/// A buffer that is larger has seen an uncommonly long game and is not kept, in bytes.
const LARGE: usize = 1 << 20;

/// The text of a file that has been read and not yet used.
#[derive(Debug)]
pub(super) struct Source<R> {
    reader: R,
    decoder: Option<Decoder>,
    /// What the decoder has not been given yet.
    raw: Vec<u8>,
    /// All of it is initialized, so that a reader can write into it; the text is `start..end`, and what stands
    /// before has been used.
    text: Vec<u8>,
    pub(super) start: usize,
    end: usize,
    /// Whether all there is has been read.
    pub(super) complete: bool,
    begun: bool,
    /// Why the text breaks off although there should be more.
    pub(super) broken: Option<io::Error>,
}

impl<R: Read> Source<R> {
    pub(super) const fn new(reader: R) -> Source<R> {
        Source {
            reader,
            decoder: None,
            raw: Vec::new(),
            text: Vec::new(),
            start: 0,
            end: 0,
            complete: false,
            begun: false,
            broken: None,
        }
    }

    /// Reads the text in an encoding that is none that could be told from the text itself.
    pub(super) fn decode_as(&mut self, encoding: &'static Encoding) {
        self.decoder = Some(encoding.new_decoder_with_bom_removal());
    }

    /// Returns the text that is not used yet.
    pub(super) fn text(&self) -> &[u8] {
        &self.text[self.start..self.end]
    }

    /// Hands the used bytes over and goes on in `spare`.
    pub(super) fn hand_over(&mut self, mut spare: Vec<u8>) -> Vec<u8> {
        let rest = self.end - self.start;
        if rest > LARGE {
            // What stands behind is much, and stays where it is.
            return self.text[..self.start].to_vec();
        }
        if spare.len() > LARGE {
            spare = Vec::new();
        }
        if spare.len() < rest {
            spare.resize(rest, 0);
        }
        spare[..rest].copy_from_slice(&self.text[self.start..self.end]);
        let mut used = std::mem::replace(&mut self.text, spare);
        if used.len() > LARGE && self.start * 2 < used.len() {
            used = used[..self.start].to_vec();
        }
        (self.start, self.end) = (0, rest);
        used
    }

    /// Reads on until `more` more bytes are there, or all. Where the reader fails, the text ends, and
    /// `broken` says why.
    ///
    /// # Errors
    ///
    /// That the text is none, as a [`NotPgn`].
    pub(super) fn fill(&mut self, more: usize) -> io::Result<()> {
        self.text.copy_within(self.start..self.end, 0);
        self.end -= self.start;
        self.start = 0;
        let head = if self.begun { 0 } else { HEAD };
        let wanted = (self.end + more.max(1)).max(head);
        while self.end < wanted && !self.complete {
            self.read_once(wanted - self.end);
        }
        let head = &self.text[..self.end.min(HEAD)];
        if !std::mem::replace(&mut self.begun, true) && is_binary(head) {
            let error = unmarked(head).map_or(NotPgn::Binary, NotPgn::Unmarked);
            return Err(io::Error::new(io::ErrorKind::InvalidData, error));
        }
        Ok(())
    }

    fn read_once(&mut self, more: usize) {
        let decodes = self.decoder.is_some();
        let room = more.max(CHUNK);
        let space = if decodes {
            self.raw.resize(CHUNK, 0);
            self.raw.as_mut_slice()
        } else {
            if self.text.len() < self.end + room {
                self.text.resize(self.end + room, 0);
            }
            &mut self.text[self.end..self.end + room]
        };
        let read = loop {
            match self.reader.read(space) {
                Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
                Ok(read) => break read,
                Err(error) => {
                    self.broken = Some(error);
                    break 0;
                }
            }
        };
        self.complete = read == 0;
        if decodes {
            self.decode(read);
            return;
        }
        self.end += read;
        if !self.begun {
            let utf16 = match self.text[..self.end] {
                [0xff, 0xfe, ..] => Some(UTF_16LE),
                [0xfe, 0xff, ..] => Some(UTF_16BE),
                _ => None,
            };
            if let Some(encoding) = utf16 {
                self.raw = self.text[..self.end].to_vec();
                self.decode_as(encoding);
                let read = std::mem::take(&mut self.end);
                self.decode(read);
            }
        }
    }

    /// Turns the first `read` raw bytes into text; none at all end it.
    fn decode(&mut self, read: usize) {
        let Some(decoder) = &mut self.decoder else {
            return;
        };
        let mut raw = &self.raw[..read];
        loop {
            let most = decoder.max_utf8_buffer_length(raw.len()).unwrap_or(CHUNK);
            if self.text.len() < self.end + most {
                self.text.resize(self.end + most, 0);
            }
            let space = &mut self.text[self.end..];
            let (result, read, written, _) = decoder.decode_to_utf8(raw, space, self.complete);
            self.end += written;
            raw = &raw[read..];
            if result == CoderResult::InputEmpty {
                return;
            }
        }
    }
}

/// Tells whether one byte in twenty, and one more, is none of a text. Of bytes by chance it is one in ten.
fn is_binary(head: &[u8]) -> bool {
    let odd = |byte: &&u8| matches!(byte, 0..=8 | 14..=25 | 28..=31);
    // A text may be filled up with zeros in front, at its end, and before a game.
    let runs: Vec<&[u8]> = head.chunk_by(|a, b| (*a == 0) == (*b == 0)).collect();
    let is_filling = |at: &usize| {
        let ends = at + 1 == runs.len() || runs[at + 1][0] == b'[';
        runs[*at][0] == 0 && (*at == 0 || ends)
    };
    let text = || {
        (0..runs.len())
            .filter(|at| !is_filling(at))
            .flat_map(|at| runs[at])
    };
    text().filter(odd).skip(1).count() * 20 > text().count()
}

/// Tells UTF-16 by its ASCII letters, of which one byte is zero.
fn unmarked(head: &[u8]) -> Option<&'static str> {
    let (pairs, _) = head.as_chunks::<2>();
    let is_zero_at = |zero: usize| {
        let letters = pairs
            .iter()
            .filter(|pair| pair[zero] == 0 && pair[1 - zero] != 0);
        letters.count() * 2 > pairs.len()
    };
    let encodings = [("utf-16le", 1), ("utf-16be", 0)].into_iter();
    let mut fitting = encodings.filter(|(_, zero)| is_zero_at(*zero));
    fitting.next().map(|(name, _)| name)
}
