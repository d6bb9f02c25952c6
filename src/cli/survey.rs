//! The walk through the games of a file that fit.

use std::num::NonZeroUsize;
use std::ops::{ControlFlow, RangeInclusive};
use std::path::Path;
use std::sync::atomic::Ordering;
use std::thread::available_parallelism;

use super::failure::Failure;
use super::opened::Opened;
use crate::pgn::{Block, Finder, Heading, Passage, Span, each_block};
use crate::terminal::Progress;
use crate::voice::asides;

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
}

/// What is looked for, and how.
pub(super) struct Survey<'a> {
    pub(super) finder: &'a Finder,
    pub(super) numbers: RangeInclusive<usize>,
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
        work: impl Fn(Found<'_>) -> T + Sync,
        mut take: impl FnMut(Found<'_>, T) -> Result<bool, Failure>,
        pause: impl Fn() -> usize,
    ) -> Result<Walked, Failure> {
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
            self.numbers.contains(&span.number) && self.finder.finds(&block.heading(span))
        };
        let read = each_block(
            opened.collection(),
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
        Ok(walked)
    }
}

fn tell_progress(opened: &Opened, progress: &Progress, games: usize, faults: usize) {
    let read = opened.read.load(Ordering::Relaxed);
    let left = opened
        .size
        .and_then(|size| progress.seconds_left(read, size));
    super::tell(&asides::read_so_far(read, opened.size, games, faults, left));
}
