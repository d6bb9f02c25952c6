//! The walk through the games that fit: by the index where there is one, else through the whole file.

use std::cell::RefCell;
use std::fs::File;
use std::io::{self, Read, Seek, SeekFrom};
use std::num::NonZeroUsize;
use std::ops::{ControlFlow, RangeInclusive};
use std::path::Path;
use std::sync::atomic::Ordering;
use std::thread::available_parallelism;

use super::failure::Failure;
use super::opened::Opened;
use super::shelf::{self, NewIndex};
use crate::notation::{Block, Finder, Heading, Index, Packing, Passage, Span, each_block};
use crate::terminal::Progress;
use crate::voice::asides;

/// A game that fits.
pub(super) enum Found<'a> {
    /// It has been read.
    Read(&'a Block, &'a Span),
    /// The index knows where it stands.
    Listed(&'a RefCell<File>, Span),
    /// It was kept.
    Kept(Passage),
}

impl Found<'_> {
    /// Returns the number of the game in its file.
    pub(super) const fn number(&self) -> usize {
        match self {
            Found::Read(_, span) => span.number,
            Found::Listed(_, span) => span.number,
            Found::Kept(passage) => passage.number,
        }
    }

    /// Returns the game's text.
    ///
    /// # Errors
    ///
    /// When it has to be read first and cannot be.
    pub(super) fn passage(&self) -> io::Result<Passage> {
        match self {
            Found::Read(block, span) => Ok(block.passage(span)),
            Found::Kept(passage) => Ok(passage.clone()),
            Found::Listed(file, span) => {
                let mut file = file.borrow_mut();
                let mut text = vec![0; span.len()];
                file.seek(SeekFrom::Start(span.offset))?;
                file.read_exact(&mut text)?;
                Ok(span.passage(text))
            }
        }
    }
}

/// What is looked for, and how.
pub(super) struct Survey<'a> {
    pub(super) finder: &'a Finder,
    pub(super) numbers: RangeInclusive<usize>,
    /// Whether the text of the games is wanted, and not their headings only.
    pub(super) wants_text: bool,
    /// Whether games are read ahead of their use, on all cores.
    pub(super) ahead: bool,
}

/// How a walk through a file ended.
pub(super) struct Walked {
    /// How many games were seen.
    pub(super) games: usize,
    /// Whether the walk was broken off by who takes the games.
    pub(super) stopped: bool,
}

impl Survey<'_> {
    /// Walks through one file, does `work` on each game that fits and gives it to `take`, in the order of
    /// the file, until that returns false. `pause` is called when the games that were there are done, and
    /// tells how many faults have been found so far.
    pub(super) fn walk<T: Send>(
        &self,
        file: &Path,
        mut opened: Opened,
        work: impl Fn(&Found<'_>, &Heading<'_>) -> T + Sync,
        mut take: impl FnMut(&Found<'_>, T) -> Result<bool, Failure>,
        pause: impl Fn() -> usize,
    ) -> Result<Walked, Failure> {
        let mut given = 0;
        let index = shelf::find(&opened);
        let has_index = index.is_some();
        if let Some(mut index) = index
            && self.is_for_the_index(&mut index, &opened)
        {
            let mut counted = |found: &Found<'_>, done| {
                given = found.number();
                take(found, done)
            };
            // A damaged index gives what it can; the file itself gives the rest.
            if let Some(walked) = self.by_index(&opened, &mut index, &work, &mut counted)? {
                return Ok(walked);
            }
        }
        // To check or to write out all games needs no index, and is work enough.
        let looks_up = !self.wants_text || !self.finder.finds_all();
        let mut new_index = if has_index || self.ends_early() || !looks_up {
            None
        } else {
            NewIndex::begin(&opened)
        };
        let mut progress = Progress::begin();
        let mut walked = Walked {
            games: 0,
            stopped: false,
        };
        let mut failure = None;
        let workers = if self.ahead {
            available_parallelism().unwrap_or(NonZeroUsize::MIN)
        } else {
            NonZeroUsize::MIN
        };
        let fits = |block: &Block, span: &Span| {
            span.number > given
                && self.numbers.contains(&span.number)
                && block.is_found(span, self.finder)
        };
        let read = each_block(
            opened.collection(),
            workers,
            |block| {
                let mut done = Vec::new();
                for (at, span) in block.games().iter().enumerate() {
                    if fits(block, span) {
                        let found = Found::Read(block, span);
                        done.push((at, work(&found, &block.heading(span))));
                    }
                }
                done
            },
            |block, done| {
                new_index = new_index.take().and_then(|index| index.add(block));
                for (at, done) in done {
                    let found = Found::Read(block, &block.games()[at]);
                    match take(&found, done) {
                        Ok(true) => {}
                        Ok(false) => walked.stopped = true,
                        Err(error) => failure = Some(error),
                    }
                    if walked.stopped || failure.is_some() {
                        return ControlFlow::Break(());
                    }
                }
                walked.games = block.games().last().map_or(0, |span| span.number);
                let faults = pause();
                if progress.is_due() {
                    tell_progress(&opened, &progress, walked.games, faults);
                }
                if walked.games >= *self.numbers.end() {
                    return ControlFlow::Break(());
                }
                ControlFlow::Continue(())
            },
        );
        if let Some(failure) = failure {
            return Err(failure);
        }
        read.map_err(|error| Failure::broken(file, opened.packing, walked.games, &error))?;
        if !walked.stopped
            && walked.games < *self.numbers.end()
            && let Some(index) = new_index
        {
            // Where it cannot be kept, the next time goes without it.
            let _ = index.finish(&opened);
        }
        Ok(walked)
    }

    /// Tells whether the file will hardly be read to its end.
    fn ends_early(&self) -> bool {
        *self.numbers.end() < usize::MAX || !self.ahead
    }

    /// Tells whether the index serves better than the whole file.
    fn is_for_the_index(&self, index: &mut Index<File>, opened: &Opened) -> bool {
        if !self.wants_text {
            return true;
        }
        if opened.packing != Packing::Plain || !index.is_as_written() {
            return false;
        }
        // To read much of a file one game after the other takes longer than to read all of it on all cores.
        let most = index.games() / 8;
        let mut found = 0;
        let read = index.find(self.finder, &self.numbers, false, |_| {
            found += 1;
            if found > most && self.ahead {
                ControlFlow::Break(())
            } else {
                ControlFlow::Continue(())
            }
        });
        read.is_ok() && (found <= most || !self.ahead)
    }

    /// Walks by the index; `None` when it turns out to be damaged, or the file is another by now.
    fn by_index<T>(
        &self,
        opened: &Opened,
        index: &mut Index<File>,
        work: &impl Fn(&Found<'_>, &Heading<'_>) -> T,
        take: &mut impl FnMut(&Found<'_>, T) -> Result<bool, Failure>,
    ) -> Result<Option<Walked>, Failure> {
        let games = index.games();
        let path = &opened.path;
        let file = File::open(path).map_err(|error| Failure::file(path, &error))?;
        if !file.metadata().is_ok_and(|now| opened.is_of(&now)) {
            return Ok(None);
        }
        let file = RefCell::new(file);
        let mut stopped = false;
        let mut failure = None;
        let read = index.find(self.finder, &self.numbers, self.wants_text, |entry| {
            let found = Found::Listed(&file, entry.span.clone());
            match take(&found, work(&found, &entry.heading)) {
                Ok(true) => return ControlFlow::Continue(()),
                Ok(false) => stopped = true,
                Err(error) => failure = Some(error),
            }
            ControlFlow::Break(())
        });
        match failure {
            Some(failure) => Err(failure),
            None => Ok(read.is_ok().then_some(Walked { games, stopped })),
        }
    }
}

fn tell_progress(opened: &Opened, progress: &Progress, games: usize, faults: usize) {
    let read = opened.read.load(Ordering::Relaxed);
    let left = opened
        .size
        .and_then(|size| progress.seconds_left(read, size));
    super::tell(&asides::read_so_far(read, opened.size, games, faults, left));
}
