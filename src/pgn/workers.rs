//! Many games at once: one thread splits, others work, and the results come in the order of the file.

use std::io::{self, Read};
use std::num::NonZeroUsize;
use std::ops::ControlFlow;
use std::panic::resume_unwind;
use std::sync::mpsc::{channel, sync_channel};
use std::thread;

use super::block::Block;
use super::collection::Collection;

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
    thread::scope(|scope| {
        let (mut jobs, mut results) = (Vec::new(), Vec::new());
        for _ in 0..workers.get() {
            let (job, given) = sync_channel(1);
            let (done, result) = sync_channel(1);
            let work = &work;
            scope.spawn(move || {
                for block in given {
                    let found = work(&block);
                    if done.send((block, found)).is_err() {
                        break;
                    }
                }
            });
            jobs.push(job);
            results.push(result);
        }
        let (spares, spare) = channel();
        let splitter = scope.spawn(move || {
            for job in jobs.iter().cycle() {
                let read = collection.block(spare.try_recv().unwrap_or_default());
                let Some(block) = read.transpose()? else {
                    break;
                };
                if job.send(block).is_err() {
                    break;
                }
            }
            Ok(())
        });
        // Each worker has its turn, so that the results come in order; the first without one is behind the end.
        for result in results.iter().cycle() {
            let Ok((block, found)) = result.recv() else {
                break;
            };
            if take(&block, found).is_break() {
                return Ok(());
            }
            // Where the splitter has come to the end, nobody needs it.
            let _ = spares.send(block.into_spare());
        }
        splitter.join().unwrap_or_else(|panic| resume_unwind(panic))
    })
}
