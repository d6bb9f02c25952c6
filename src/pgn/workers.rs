//! Many games at once: one thread splits, others work, and the results come in the order of the file.

use std::any::Any;
use std::collections::BTreeMap;
use std::io::{self, Read};
use std::num::NonZeroUsize;
use std::ops::ControlFlow;
use std::panic::{AssertUnwindSafe, catch_unwind, resume_unwind};
use std::sync::mpsc::{Receiver, SyncSender, sync_channel};
use std::sync::{Mutex, PoisonError};
use std::thread;

use super::block::Block;
use super::collection::Collection;

/// A block with its place in the file.
type Job = (usize, Block);
/// The same with what came of it, or the panic that it caused.
type Done<T> = (usize, Block, Result<T, Box<dyn Any + Send>>);

/// Lets `workers` threads `work` on the blocks of a collection while another one splits it, and gives
/// each block and what came of it to `take`, in the order of the file, until that breaks off.
///
/// The games are those of the collection read alone. No more than a few blocks are held at a time,
/// however slow `take` is.
///
/// # Errors
///
/// What the reader says, when all games before have been taken.
///
/// ```
/// use std::num::NonZeroUsize;
/// use std::ops::ControlFlow;
/// use sansvoir::pgn::{Collection, each_block};
///
/// let file = "[Event \"Club evening\"]\n\n1. e4 e5 *\n\n[Event \"Return game\"]\n\n1. d4 *\n";
/// let mut games = 0;
/// each_block(
///     Collection::new(file.as_bytes()),
///     NonZeroUsize::MIN,
///     |block| block.games().len(),
///     |_, found| {
///         games += found;
///         ControlFlow::Continue(())
///     },
/// )?;
/// assert_eq!(games, 2);
/// # Ok::<_, std::io::Error>(())
/// ```
pub fn each_block<R: Read + Send, T: Send>(
    mut collection: Collection<R>,
    workers: NonZeroUsize,
    work: impl Fn(&Block) -> T + Sync,
    mut take: impl FnMut(&Block, T) -> ControlFlow<()>,
) -> io::Result<()> {
    let Some(first) = collection.block(Vec::new()).transpose()? else {
        return Ok(());
    };
    if workers.get() == 1 || collection.is_done() {
        return split(collection, first, |block| {
            let result = work(&block);
            take(&block, result)
                .is_continue()
                .then(|| block.into_spare())
        });
    }
    // As many blocks are under way as there are buffers.
    let most = workers.get() * 2 + 2;
    let (spares, spare) = sync_channel(most);
    let (jobs, job) = sync_channel(most);
    let (results, result) = sync_channel(most);
    for _ in 1..most {
        // The channel has room for all of them.
        let _ = spares.send(Vec::new());
    }
    let job = Mutex::new(job);
    thread::scope(|scope| {
        let splitter = scope.spawn(move || {
            let mut number = 0;
            split(collection, first, |block| {
                jobs.send((number, block)).ok()?;
                number += 1;
                spare.recv().ok()
            })
        });
        for _ in 0..workers.get() {
            let results = results.clone();
            let (job, work) = (&job, &work);
            scope.spawn(move || work_on(job, &results, work));
        }
        drop(results);
        let broke_off = in_order(&result, &spares, &mut take);
        // Whoever still waits is let go.
        drop((result, spares));
        let read = splitter.join().unwrap_or_else(|panic| resume_unwind(panic));
        if broke_off { Ok(()) } else { read }
    })
}

/// Gives each block to `hand_over`, which returns a buffer for the next one until it wants no more.
fn split<R: Read>(
    mut collection: Collection<R>,
    first: Block,
    mut hand_over: impl FnMut(Block) -> Option<Vec<u8>>,
) -> io::Result<()> {
    let mut next = Some(first);
    while let Some(block) = next {
        let Some(spare) = hand_over(block) else { break };
        next = collection.block(spare).transpose()?;
    }
    Ok(())
}

fn work_on<T>(
    job: &Mutex<Receiver<Job>>,
    results: &SyncSender<Done<T>>,
    work: &impl Fn(&Block) -> T,
) {
    loop {
        let next = job.lock().unwrap_or_else(PoisonError::into_inner).recv();
        let Ok((number, block)) = next else { break };
        // A panic is handed on: otherwise everybody would wait for this block.
        let result = catch_unwind(AssertUnwindSafe(|| work(&block)));
        if results.send((number, block, result)).is_err() {
            break;
        }
    }
}

/// Takes the results in order, and tells whether that broke off.
fn in_order<T>(
    results: &Receiver<Done<T>>,
    spares: &SyncSender<Vec<u8>>,
    take: &mut impl FnMut(&Block, T) -> ControlFlow<()>,
) -> bool {
    let mut early = BTreeMap::new();
    let mut due = 0;
    for (number, block, result) in results {
        early.insert(number, (block, result));
        while let Some((block, result)) = early.remove(&due) {
            due += 1;
            let result = result.unwrap_or_else(|panic| resume_unwind(panic));
            if take(&block, result).is_break() {
                return true;
            }
            // Where the splitter has come to the end, nobody needs it.
            let _ = spares.send(block.into_spare());
        }
    }
    false
}
