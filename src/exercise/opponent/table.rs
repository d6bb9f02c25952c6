//! What a search has found out about positions that it may meet again.

use shakmaty::Move;

/// More than any position is worth; to be mated after n plies costs n less.
pub(super) const MATED: i32 = 30_000;
/// Beyond this, a score tells of a mate.
pub(super) const MATE_IN_SIGHT: i32 = MATED - 1_000;

/// How a score stands to the truth.
#[derive(Clone, Copy, Debug, Default)]
pub(super) enum Bound {
    #[default]
    Exact,
    AtLeast,
    AtMost,
}

/// What is known of one position.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Entry {
    pub(super) key: u64,
    /// The best move, or the one that was too good.
    pub(super) mv: Option<Move>,
    pub(super) score: i32,
    pub(super) bound: Bound,
    /// How deep it was searched.
    pub(super) depth: i32,
}

impl Entry {
    /// The score, where it makes another search to this depth within these bounds needless.
    pub(super) fn settled(&self, depth: i32, alpha: i32, beta: i32, ply: i32) -> Option<i32> {
        let score = shifted(self.score, -ply);
        let is_enough = match self.bound {
            Bound::Exact => true,
            Bound::AtLeast => score >= beta,
            Bound::AtMost => score <= alpha,
        };
        (self.depth >= depth && is_enough).then_some(score)
    }
}

/// A table of positions by their keys; the last one of those that share a place stays.
pub(super) struct Table(Vec<Entry>);

impl Table {
    /// Makes a table for a search of so many positions.
    pub(super) fn for_search(nodes: u32) -> Table {
        let places = nodes.next_power_of_two();
        Table((0..places).map(|_| Entry::default()).collect())
    }

    pub(super) fn find(&self, key: u64) -> Option<Entry> {
        Some(self.0[self.place(key)]).filter(|entry| entry.key == key)
    }

    /// Keeps what was found `ply` plies from the root.
    pub(super) fn keep(&mut self, entry: Entry, ply: i32) {
        let (place, score) = (self.place(entry.key), shifted(entry.score, ply));
        self.0[place] = Entry { score, ..entry };
    }

    fn place(&self, key: u64) -> usize {
        usize::try_from(key % self.0.len() as u64).unwrap_or_default()
    }
}

/// A mate is kept by its distance from the position itself, not from the root.
const fn shifted(score: i32, plies: i32) -> i32 {
    if score > MATE_IN_SIGHT {
        score + plies
    } else if score < -MATE_IN_SIGHT {
        score - plies
    } else {
        score
    }
}
