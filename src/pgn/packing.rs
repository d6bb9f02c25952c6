//! Packed files: told by their first bytes and unpacked on the way, all streams of them.

use std::io::{self, BufRead, BufReader, Cursor, ErrorKind, Read};

use bzip2::read::MultiBzDecoder;
use flate2::bufread::MultiGzDecoder;
use lzma_rust2::{Action, Status, XzStream};
use ruzstd::decoding::errors::{FrameDecoderError, ReadFrameHeaderError};
use ruzstd::decoding::{BlockDecodingStrategy, FrameDecoder};

/// The most memory that unpacking .xz may take, in KiB; `xz -9` asks for 65 MiB.
const MOST_XZ: u32 = 68 << 10;

/// The largest window of a Zstandard frame, in bytes: what every decoder should support (RFC 8878,
/// 3.1.1.1.2), and what `zstd -19` asks for.
const MOST_ZSTANDARD: u64 = 8 << 20;

/// What ends a frame that breaks off: an empty last block (RFC 8878, 3.1.1.2), and a checksum.
const FRAME_END: [u8; 7] = [1, 0, 0, 0, 0, 0, 0];

/// Why a whole packed file is not unpacked; it comes wrapped in an [`io::Error`] of kind
/// [`OutOfMemory`](ErrorKind::OutOfMemory).
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "to unpack this {packing} file takes more memory than is given to it: unpack it yourself, as in \
     `{tool} FILE | sansvoir games -`"
)]
pub struct TooPacked {
    packing: Packing,
    /// What unpacks such a file.
    tool: &'static str,
}

/// How a file is packed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, strum::Display)]
#[strum(serialize_all = "lowercase")]
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
    #[strum(serialize = "Zstandard")]
    Zstandard,
}

impl Packing {
    /// Tells the packing by the first bytes of a file.
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
        Packing::Xz => Box::new(XzStreams {
            reader: buffered(whole),
            decoder: XzStream::new_mem_limit(true, MOST_XZ),
            ended: false,
            broken: None,
        }),
        Packing::Zstandard => {
            let mut decoder = FrameDecoder::new();
            decoder.set_max_window_size(MOST_ZSTANDARD);
            Box::new(ZstandardFrames {
                reader: buffered(whole),
                decoder,
                open: false,
                broken: None,
            })
        }
    };
    Ok((packing, unpacked))
}

/// The streams of an .xz file, one after the other (The .xz File Format, 2). They are fed by hand: the
/// crate's own reader gives nothing of the last 64 KiB of a file that breaks off.
struct XzStreams<R> {
    reader: R,
    decoder: XzStream,
    ended: bool,
    /// Why the stream at hand breaks off; what was unpacked of it comes first.
    broken: Option<io::Error>,
}

impl<R: BufRead> Read for XzStreams<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        while !buffer.is_empty() && !self.ended {
            if let Some(error) = self.broken.take() {
                return Err(error);
            }
            let packed = self.reader.fill_buf()?;
            let is_last = packed.is_empty();
            let action = if is_last { Action::Finish } else { Action::Run };
            let before = self.decoder.total_out();
            match self.decoder.process(packed, buffer, action) {
                Ok(done) => {
                    self.reader.consume(done.bytes_consumed);
                    self.ended = done.status == Status::StreamEnd;
                    if is_last && !self.ended && done.bytes_produced == 0 {
                        self.broken = Some(ErrorKind::UnexpectedEof.into());
                    }
                }
                Err(error) if error.kind() == ErrorKind::OutOfMemory => {
                    return Err(too_packed(Packing::Xz, "xz -dc"));
                }
                Err(error) => self.broken = Some(error),
            }
            let produced = usize::try_from(self.decoder.total_out() - before);
            let produced = produced.expect("no more than the buffer holds");
            if produced > 0 {
                return Ok(produced);
            }
        }
        Ok(0)
    }
}

fn too_packed(packing: Packing, tool: &'static str) -> io::Error {
    io::Error::new(ErrorKind::OutOfMemory, TooPacked { packing, tool })
}

/// The frames of a Zstandard file, one after the other (RFC 8878, 3).
struct ZstandardFrames<R> {
    reader: R,
    decoder: FrameDecoder,
    /// Whether a frame is at hand.
    open: bool,
    /// Why the frame at hand breaks off; what was unpacked of it comes first.
    broken: Option<io::Error>,
}

impl<R: BufRead> ZstandardFrames<R> {
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
                Err(FrameDecoderError::WindowSizeTooBig { .. }) => {
                    return Err(too_packed(Packing::Zstandard, "zstd -dc --long=31"));
                }
                Err(error) => return Err(self.why(error)?),
            }
        }
        Ok(false)
    }

    /// Unpacks the next block. Where that fails, the frame ends there, so that the decoder gives out the
    /// window that it has kept back.
    fn unpack_block(&mut self) -> io::Result<()> {
        let one = || BlockDecodingStrategy::UptoBlocks(1);
        let Err(error) = self.decoder.decode_blocks(&mut self.reader, one()) else {
            return Ok(());
        };
        let error = self.why(error)?;
        if (self.decoder.decode_blocks(&mut FRAME_END.as_slice(), one())).is_err() {
            return Err(error);
        }
        self.broken = Some(error);
        Ok(())
    }

    /// Tells a file that ends too early from one that is damaged.
    fn why(&mut self, error: FrameDecoderError) -> io::Result<io::Error> {
        let ends = self.reader.fill_buf()?.is_empty();
        Ok(if ends {
            ErrorKind::UnexpectedEof.into()
        } else {
            io::Error::new(ErrorKind::InvalidData, error)
        })
    }

    /// Ends a frame whose data have all been read.
    fn end(&mut self) -> io::Result<()> {
        if let Some(error) = self.broken.take() {
            return Err(error);
        }
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

impl<R: BufRead> Read for ZstandardFrames<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        while !buffer.is_empty() {
            if !self.open {
                self.open = self.begin()?;
                if !self.open {
                    return Ok(0);
                }
            }
            while self.decoder.can_collect() == 0 && !self.decoder.is_finished() {
                self.unpack_block()?;
            }
            match self.decoder.read(buffer)? {
                0 => self.end()?,
                read => return Ok(read),
            }
        }
        Ok(0)
    }
}
