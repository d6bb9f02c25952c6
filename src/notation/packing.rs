//! Packed files: told by their first bytes and unpacked on the way, all streams of them.

use std::fmt;
use std::io::{self, BufRead, BufReader, Cursor, ErrorKind, Read};

use bzip2::read::MultiBzDecoder;
use flate2::bufread::MultiGzDecoder;
use liblzma::bufread::XzDecoder;
use liblzma::stream::{CONCATENATED, Stream};
use ruzstd::decoding::errors::{FrameDecoderError, ReadFrameHeaderError};
use ruzstd::decoding::{BlockDecodingStrategy, FrameDecoder};

/// The most memory that unpacking .xz may take, in bytes; `xz -9` asks for 65 MiB.
const MOST_XZ: u64 = 256 << 20;

/// How a file is packed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Packing {
    /// Not at all.
    Plain,
    /// gzip (RFC 1952).
    Gzip,
    /// bzip2.
    Bzip2,
    /// xz (The .xz File Format, 1.2).
    Xz,
    /// Zstandard (RFC 8878).
    Zstandard,
}

impl Packing {
    /// Tells the packing by the first bytes of a file.
    #[must_use]
    pub const fn of(head: &[u8]) -> Packing {
        match head {
            [0x1f, 0x8b, ..] => Packing::Gzip,
            [b'B', b'Z', b'h', b'1'..=b'9', ..] => Packing::Bzip2,
            [0xfd, b'7', b'z', b'X', b'Z', 0, ..] => Packing::Xz,
            [0x28, 0xb5, 0x2f, 0xfd, ..] | [0x50..=0x5f, 0x2a, 0x4d, 0x18, ..] => {
                Packing::Zstandard
            }
            _ => Packing::Plain,
        }
    }
}

impl fmt::Display for Packing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Packing::Plain => "plain",
            Packing::Gzip => "gzip",
            Packing::Bzip2 => "bzip2",
            Packing::Xz => "xz",
            Packing::Zstandard => "Zstandard",
        })
    }
}

/// Looks at the first bytes and returns the packing, and a reader of what is packed. Several streams
/// that were joined are read one after the other.
///
/// # Errors
///
/// What the reader says of its first bytes.
pub fn unpacked<'a>(
    mut reader: impl Read + Send + 'a,
) -> io::Result<(Packing, Box<dyn Read + Send + 'a>)> {
    let mut head = Vec::new();
    reader.by_ref().take(6).read_to_end(&mut head)?;
    let packing = Packing::of(&head);
    let whole = Cursor::new(head).chain(reader);
    let buffered = |whole| BufReader::with_capacity(1 << 16, whole);
    let unpacked: Box<dyn Read + Send> = match packing {
        Packing::Plain => Box::new(whole),
        Packing::Gzip => Box::new(MultiGzDecoder::new(buffered(whole))),
        Packing::Bzip2 => Box::new(MultiBzDecoder::new(buffered(whole))),
        Packing::Xz => {
            let stream = Stream::new_stream_decoder(MOST_XZ, CONCATENATED)?;
            Box::new(XzDecoder::new_stream(buffered(whole), stream))
        }
        Packing::Zstandard => Box::new(Frames {
            reader: buffered(whole),
            decoder: FrameDecoder::new(),
            open: false,
        }),
    };
    Ok((packing, unpacked))
}

/// The frames of a Zstandard file, one after the other (RFC 8878, 3).
struct Frames<R> {
    reader: R,
    decoder: FrameDecoder,
    /// Whether a frame is at hand.
    open: bool,
}

impl<R: BufRead> Frames<R> {
    /// Begins the next frame that holds data, and tells whether there is one.
    fn begin(&mut self) -> io::Result<bool> {
        while !self.reader.fill_buf()?.is_empty() {
            match self.decoder.reset(&mut self.reader) {
                Ok(()) => return Ok(true),
                Err(FrameDecoderError::ReadFrameHeaderError(ReadFrameHeaderError::SkipFrame {
                    length,
                    ..
                })) => {
                    let mut skipped = self.reader.by_ref().take(length.into());
                    if io::copy(&mut skipped, &mut io::sink())? < length.into() {
                        return Err(ErrorKind::UnexpectedEof.into());
                    }
                }
                Err(error) => return Err(io::Error::new(ErrorKind::InvalidData, error)),
            }
        }
        Ok(false)
    }

    /// Ends a frame whose data have all been read.
    fn end(&mut self) -> io::Result<()> {
        self.open = false;
        let said = self.decoder.get_checksum_from_data();
        if said.is_some() && said != self.decoder.get_calculated_checksum() {
            return Err(io::Error::new(
                ErrorKind::InvalidData,
                "the checksum does not agree",
            ));
        }
        Ok(())
    }
}

impl<R: BufRead> Read for Frames<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        while !buffer.is_empty() {
            if !self.open {
                self.open = self.begin()?;
                if !self.open {
                    return Ok(0);
                }
            }
            while self.decoder.can_collect() == 0 && !self.decoder.is_finished() {
                self.decoder
                    .decode_blocks(&mut self.reader, BlockDecodingStrategy::UptoBlocks(1))
                    .map_err(|error| io::Error::new(ErrorKind::InvalidData, error))?;
            }
            match self.decoder.read(buffer)? {
                0 => self.end()?,
                read => return Ok(read),
            }
        }
        Ok(0)
    }
}
