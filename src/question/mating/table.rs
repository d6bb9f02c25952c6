//! What a search has found out about the positions it came through.

use std::collections::HashMap;
use std::hash::{BuildHasherDefault, Hasher};

use shakmaty::zobrist::Zobrist128;
use shakmaty::{Chess, EnPassantMode, Position};

/// The most positions that are kept; then the table starts afresh. About 40 MB.
const MOST: usize = 1 << 20;

/// Positions with the mating side to move, by their Zobrist keys.
///
/// The keys hold the side to move, the castling rights and a legal en passant capture. They have
/// 128 bits, so that two positions with the same key need not be reckoned with.
#[derive(Default)]
pub(super) struct Table(HashMap<Zobrist128, Known, BuildHasherDefault<AsItIs>>);

/// What is known of one position: all that its numbers say is proved.
#[derive(Clone, Copy, Default)]
struct Known {
    /// There is no mate within this many moves.
    none_within: u32,
    /// There is a mate within this many moves; 0 where none is known.
    within: u32,
}

impl Table {
    pub(super) fn key(position: &Chess) -> Zobrist128 {
        position.zobrist_hash(EnPassantMode::Legal)
    }

    /// Tells whether there is a mate within `moves`, if that is known.
    pub(super) fn mates(&self, key: Zobrist128, moves: u32) -> Option<bool> {
        let known = self.0.get(&key)?;
        if moves <= known.none_within {
            Some(false)
        } else if known.within != 0 && known.within <= moves {
            Some(true)
        } else {
            None
        }
    }

    /// Notes whether there is a mate within `moves`.
    pub(super) fn note(&mut self, key: Zobrist128, moves: u32, mates: bool) {
        if self.0.len() >= MOST && !self.0.contains_key(&key) {
            self.0.clear();
        }
        let known = self.0.entry(key).or_default();
        if !mates {
            known.none_within = known.none_within.max(moves);
        } else if known.within == 0 || moves < known.within {
            known.within = moves;
        }
    }
}

/// Takes a Zobrist key, which is well mixed already, as its own hash.
#[derive(Default)]
struct AsItIs(u64);

impl Hasher for AsItIs {
    fn finish(&self) -> u64 {
        self.0
    }

    fn write(&mut self, bytes: &[u8]) {
        for byte in bytes {
            self.write_u64(u64::from(*byte));
        }
    }

    fn write_u64(&mut self, word: u64) {
        self.0 = self.0.rotate_left(8) ^ word;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::game::Start;
    use shakmaty::CastlingMode;

    fn key(rights: &str) -> Zobrist128 {
        let fen = format!("4k3/8/8/3pP3/8/8/8/4K2R {rights} 0 1");
        let start = Start::from_fen(&fen, CastlingMode::Standard).unwrap();
        Table::key(start.position())
    }

    #[test]
    fn positions_of_different_rights_have_different_keys() {
        let keys = [
            key("w K d6"),
            key("w K -"),
            key("w - d6"),
            key("w - -"),
            key("b K -"),
        ];
        for (at, one) in keys.iter().enumerate() {
            assert!(!keys[at + 1..].contains(one), "{at}");
        }
    }

    #[test]
    fn what_is_known_within_some_moves_says_nothing_of_those_between() {
        let mut table = Table::default();
        let key = key("w K -");
        table.note(key, 2, false);
        table.note(key, 5, true);
        table.note(key, 4, true);
        table.note(key, 1, false);
        let known: Vec<Option<bool>> = (1..=5).map(|moves| table.mates(key, moves)).collect();
        let expected = [Some(false), Some(false), None, Some(true), Some(true)];
        assert_eq!(known, expected);
    }
}
