//! The walk through the games of a file: it is opened, unpacked and split, and those that fit are taken.

use std::fs::File;
use std::io::{self, Cursor, Read};
use std::num::NonZeroUsize;
use std::ops::{ControlFlow, RangeInclusive};
use std::path::Path;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::thread::available_parallelism;

use super::archives;
use super::failure::{Failure, tell};
use super::places;
use crate::pgn::{
    Block, Collection, Encoding, Finder, Heading, Packing, Passage, Reading, Span, each_block,
    positions_as_games, unpacked,
};
use crate::terminal::{Progress, games_from_input};
use crate::voice::listed;

/// A file of games.
struct Opened {
    packing: Packing,
    /// The size in bytes, as it lies there; `None` for what is no file on a disk.
    size: Option<u64>,
    /// How many bytes have been read.
    read: Arc<AtomicU64>,
    games: Collection<Box<dyn Read + Send>>,
}

impl Opened {
    /// Opens a file, or a text in its place; `-` is standard input.
    fn new(
        path: &Path,
        written: Option<String>,
        encoding: Option<&'static Encoding>,
    ) -> Result<Opened, Failure> {
        let failed = |error| Failure::file(path, &error);
        let mut size = None;
        let raw: Box<dyn Read + Send> = if let Some(text) = written {
            Box::new(Cursor::new(text))
        } else if path == Path::new("-") {
            games_from_input().map_err(failed)?
        } else if let Some(text) = places::demo_text(path) {
            Box::new(text.as_bytes())
        } else if !path.exists()
            && let Some((packed, reader)) = archives::open(path).map_err(failed)?
        {
            size = Some(packed);
            reader
        } else {
            let file = File::open(path).map_err(failed)?;
            let metadata = file.metadata().map_err(failed)?;
            if metadata.is_dir() {
                return Err(failed(io::ErrorKind::IsADirectory.into()));
            }
            size = metadata.is_file().then_some(metadata.len());
            Box::new(file)
        };
        let read = Arc::new(AtomicU64::new(0));
        let counted = Counted {
            reader: raw,
            read: Arc::clone(&read),
        };
        let (packing, mut reader) = unpacked(counted).map_err(failed)?;
        if archives::is_named_as_positions(path) {
            let mut bytes = Vec::new();
            reader.read_to_end(&mut bytes).map_err(failed)?;
            let games = positions_as_games(&String::from_utf8_lossy(&bytes));
            reader = Box::new(Cursor::new(games));
        }
        let games = Collection::new(reader);
        Ok(Opened {
            packing,
            size,
            read,
            games: match encoding {
                None => games,
                Some(encoding) => games.encoded_in(encoding),
            },
        })
    }
}

/// A reader that counts.
struct Counted<R> {
    reader: R,
    read: Arc<AtomicU64>,
}

impl<R: Read> Read for Counted<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let read = self.reader.read(buffer)?;
        self.read.fetch_add(read as u64, Ordering::Relaxed);
        Ok(read)
    }
}

/// A game that fits.
#[derive(Clone, Copy, Debug)]
pub(super) struct Found<'a> {
    pub(super) block: &'a Block,
    pub(super) span: &'a Span,
}

impl Found<'_> {
    /// Returns the number of the game in its file.
    pub(super) const fn number(self) -> usize {
        self.span.number
    }

    /// Returns the fields by which the game is listed.
    pub(super) fn heading(&self) -> Heading<'_> {
        self.block.heading(self.span)
    }

    /// Returns the game's text.
    pub(super) fn passage(self) -> Passage {
        self.block.passage(self.span)
    }

    /// Returns the game's text and what it is read as; where its piece letters are in doubt, the games beside it
    /// may decide.
    pub(super) fn read(self, how: impl Fn(&Passage) -> Reading) -> (Passage, Reading) {
        let mut passage = self.passage();
        let reading = how(&passage);
        if reading.doubtful {
            passage.letters = self.block.letters_beside(self.span);
        }
        let again = passage.letters.is_some().then(|| how(&passage));
        (passage, again.unwrap_or(reading))
    }
}

/// What is looked for, and how.
pub(super) struct Survey<'a> {
    pub(super) finder: &'a Finder,
    pub(super) numbers: RangeInclusive<usize>,
    /// The text that is read in place of the file.
    pub(super) written: Option<String>,
    pub(super) encoding: Option<&'static Encoding>,
    /// Whether games are read ahead of their use, on all cores.
    pub(super) ahead: bool,
}

impl Survey<'_> {
    /// Walks through one file, does `work` on each game that fits and gives it to `take`, in the order of
    /// the file, until that returns false. `pause` is called when the games that were there are done, and
    /// tells how many faults have been found so far. Returns how many games were seen.
    pub(super) fn walk<T: Send>(
        &self,
        file: &Path,
        work: &(dyn Fn(Found<'_>) -> T + Sync),
        take: &mut dyn FnMut(Found<'_>, T) -> Result<bool, Failure>,
        pause: &dyn Fn() -> usize,
    ) -> Result<usize, Failure> {
        let mut progress = Progress::begin();
        let opened = Opened::new(file, self.written.clone(), self.encoding)?;
        let mut seen = 0;
        let mut failure = None;
        // A pipe is not read further than the games that are asked for.
        let waits = opened.size.is_none() && *self.numbers.end() < usize::MAX;
        let workers = if self.ahead && !waits {
            available_parallelism().unwrap_or(NonZeroUsize::MIN)
        } else {
            NonZeroUsize::MIN
        };
        let fits = |block: &Block, span: &Span| {
            self.numbers.contains(&span.number)
                && (self.finder).finds(&block.heading(span), || block.passage(span))
        };
        let read = each_block(
            opened.games,
            workers,
            |block| {
                let games = block.games().iter().enumerate();
                games
                    .filter(|(_, span)| fits(block, span))
                    .map(|(at, span)| (at, work(Found { block, span })))
                    .collect::<Vec<_>>()
            },
            |block, done| {
                for (at, done) in done {
                    let span = &block.games()[at];
                    match take(Found { block, span }, done) {
                        Ok(true) => {}
                        Ok(false) => return ControlFlow::Break(()),
                        Err(error) => {
                            failure = Some(error);
                            return ControlFlow::Break(());
                        }
                    }
                }
                seen = block.games().last().map_or(0, |span| span.number);
                let faults = pause();
                if progress.is_due() {
                    let read = opened.read.load(Ordering::Relaxed);
                    let left = opened
                        .size
                        .and_then(|size| progress.seconds_left(read, size));
                    tell(&listed::read_so_far(read, opened.size, seen, faults, left));
                }
                if seen >= *self.numbers.end() {
                    return ControlFlow::Break(());
                }
                ControlFlow::Continue(())
            },
        );
        if let Some(failure) = failure {
            return Err(failure);
        }
        read.map_err(|error| Failure::broken(file, opened.packing, seen, &error))?;
        Ok(seen)
    }
}
