//! Forced mates in few moves, found by trying everything.
//!
//! A mate in `n` moves is forced when the side to move has a move after which every legal reply, if
//! there is one, allows a mate in `n - 1`; a position without a legal reply counts only when it is
//! checkmate (FIDE 1.4.1), never when it is stalemate (FIDE 5.2.1). Draws that depend on the moves
//! before the position (FIDE 9.2, 9.3, 9.6) are left out, as is the custom in problems.

mod search;

use std::cmp::Reverse;

use shakmaty::{Chess, Move, Position};

use search::{Search, Spent, order};

pub(super) use search::{after, checks};

/// What a search for a forced mate found.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Mating {
    /// The side to move forces mate.
    Mates {
        /// Every first move that forces mate within `in_moves`, ordered by the square it leaves, the
        /// square it arrives on and the promotion.
        keys: Vec<Move>,
        /// The fewest moves of the mating side that suffice against every reply, the first included.
        in_moves: u32,
    },
    /// The side to move cannot force mate in time.
    NoMate {
        /// The number of moves within which there is no mate.
        searched: u32,
    },
    /// The budget was spent before the search was through.
    Stopped,
}

/// Searches for the shortest forced mate of the side to move within `moves` of its moves.
///
/// The keys are those of the shortest mate; whether a slower move still mates in time,
/// [`keys`] tells. `budget` is asked once before the search and then after every
/// 256 positions; the search ends with [`Mating::Stopped`] when it says `false`. The positions are
/// visited in the same order every time, so that a budget of a number of calls is the same
/// everywhere.
///
/// ```
/// use sansvoir::game::Start;
/// use sansvoir::question::mating::{Mating, search};
/// use shakmaty::CastlingMode;
///
/// let start = Start::from_fen("7k/R7/8/8/8/8/8/1R4K1 w - - 0 1", CastlingMode::Standard)?;
/// let Mating::Mates { keys, in_moves } = search(start.position(), 2, &mut || true) else {
///     panic!("two rooks on neighboring files mate");
/// };
/// assert_eq!((keys.len(), in_moves), (1, 1));
/// assert_eq!(keys[0].to_string(), "Rb1-b8");
/// # Ok::<(), sansvoir::game::StartError>(())
/// ```
pub fn search(position: &Chess, moves: u32, budget: &mut impl FnMut() -> bool) -> Mating {
    if !budget() {
        return Mating::Stopped;
    }
    let mut search = Search::new(budget);
    for in_moves in 1..=moves {
        match search.keys(position, in_moves) {
            Ok(keys) if keys.is_empty() => {}
            Ok(keys) => return Mating::Mates { keys, in_moves },
            Err(_) => return Mating::Stopped,
        }
    }
    Mating::NoMate { searched: moves }
}

/// Returns every move that forces mate within `moves` moves of the side to move, itself counted, ordered
/// by the square it leaves, the square it arrives on and the promotion; none where there is no mate in
/// time.
pub fn keys(position: &Chess, moves: u32) -> Vec<Move> {
    if moves == 0 {
        return Vec::new();
    }
    to_the_end(|search| search.keys(position, moves))
}

/// Searches with a budget that is never spent.
fn to_the_end<T>(run: impl FnOnce(&mut Search<'_, fn() -> bool>) -> Result<T, Spent>) -> T {
    let mut endless: fn() -> bool = || true;
    run(&mut Search::new(&mut endless)).expect("an endless budget does not stop")
}

/// Returns a reply of the side to move after which the other side cannot mate within `left` moves: the
/// first by the square it leaves, the square it arrives on and the promotion; `None` where every
/// reply loses in time, or there is none.
pub fn escape(position: &Chess, left: u32) -> Option<Move> {
    let mut replies = position.legal_moves();
    replies.sort_by_key(|reply| order(*reply));
    to_the_end(|search| {
        for reply in replies {
            if left == 0 || !search.mates(&after(position, reply), left)? {
                return Ok(Some(reply));
            }
        }
        Ok(None)
    })
}

/// Returns the moves of both sides up to the mate that the side to move forces within `moves` of its
/// moves: the first of the [`keys`] of the shortest mate each time, and the [`best_defence`]; nothing where
/// there is no mate in time.
pub fn way(position: &Chess, moves: u32) -> Vec<Move> {
    let mut way = Vec::new();
    let mut position = position.clone();
    for left in (0..moves).rev() {
        let Mating::Mates { keys, .. } = search(&position, left + 1, &mut || true) else {
            break;
        };
        let Some(key) = keys.first() else { break };
        way.push(*key);
        position.play_unchecked(*key);
        let Some(reply) = best_defence(&position, left) else {
            break;
        };
        way.push(reply);
        position.play_unchecked(reply);
    }
    way
}

/// Returns the reply of the side to move that holds out longest against mate within `left` moves of
/// the other side; `None` where there is no legal reply.
///
/// A reply that escapes is longer than any. Of replies that hold out equally long, it is the one
/// that leaves the other side the fewest moves to mate in time with, and of these the first by the
/// square it leaves, the square it arrives on and the promotion.
pub fn best_defence(position: &Chess, left: u32) -> Option<Move> {
    let replies = position.legal_moves().into_iter();
    let ranked = to_the_end(|search| {
        let mut holds_out = |reply| {
            let after = after(position, reply);
            for in_moves in 1..=left {
                let keys = search.keys(&after, in_moves)?;
                if !keys.is_empty() {
                    return Ok((in_moves, Reverse(keys.len())));
                }
            }
            Ok((u32::MAX, Reverse(0)))
        };
        let ranked = replies.map(|reply| Ok((holds_out(reply)?, Reverse(order(reply)), reply)));
        ranked.collect::<Result<Vec<_>, Spent>>()
    });
    let best = ranked
        .into_iter()
        .max_by_key(|(rank, order, _)| (*rank, *order));
    best.map(|(_, _, reply)| reply)
}
