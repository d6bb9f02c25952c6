//! What an opponent overlooks, and how far off its judgment is. Both follow from the position and the seed, so
//! that what is overlooked once is overlooked whenever the search comes by, as people do.

use shakmaty::zobrist::Zobrist64;
use shakmaty::{Chess, EnPassantMode, Move, MoveList, Position, Square};

use super::evaluation::evaluate;
use super::strength::Limits;

/// The eyes of one opponent for one move.
#[derive(Clone, Copy, Debug)]
pub(super) struct Sight {
    /// Of 1000 moves, how many are overlooked.
    blind: u64,
    /// The standard deviation of a judgment, in hundredths of a pawn.
    noise: i32,
    seed: u64,
}

impl Sight {
    pub(super) const fn new(limits: &Limits, seed: u64) -> Sight {
        Sight {
            blind: limits.blind,
            noise: limits.noise,
            seed,
        }
    }

    /// Leaves out the moves that are overlooked; `moved_to` is where the last move went. In check, and where
    /// all would be overlooked, all are seen.
    pub(super) fn seen(
        &self,
        position: &Chess,
        moves: &MoveList,
        moved_to: Option<Square>,
    ) -> Vec<Move> {
        if self.blind == 0 || position.is_check() {
            return moves.to_vec();
        }
        let seen = moves.iter().copied();
        let key = key(position);
        let seen: Vec<Move> = seen.filter(|mv| self.sees(*mv, key, moved_to)).collect();
        if seen.is_empty() {
            moves.to_vec()
        } else {
            seen
        }
    }

    /// Short moves and captures are seen more often than others, and most of all what takes back.
    fn sees(&self, mv: Move, key: u64, moved_to: Option<Square>) -> bool {
        let is_short = mv.from().is_some_and(|from| from.distance(mv.to()) == 1);
        let mut blind = self.blind;
        if is_short {
            blind = blind * 2 / 3;
        }
        if mv.is_capture() {
            let takes_back = moved_to == Some(mv.to());
            blind = if takes_back { blind / 4 } else { blind * 2 / 3 };
        }
        let from = mv.from().map_or(64, u64::from);
        let promotion = mv.promotion().map_or(0, |role| role as u64);
        let code = from << 16 | u64::from(mv.to()) << 8 | promotion;
        mixed(key ^ mixed(code ^ self.seed)) % 1000 >= blind
    }

    /// What the position is worth to the side to move by rules of thumb, as far off as this opponent is: about
    /// a bell curve of three throws.
    pub(super) fn judged(&self, position: &Chess) -> i32 {
        let sharp = evaluate(position);
        if self.noise == 0 {
            return sharp;
        }
        let bits = mixed(key(position) ^ self.seed.rotate_left(17));
        let throws = [bits, bits >> 20, bits >> 40].map(|bits| (bits % 1024).cast_signed());
        // The sum of three even throws of 1024 has a standard deviation of 512.
        let off = (throws.iter().sum::<i64>() - 1536) * i64::from(self.noise) / 512;
        sharp + i32::try_from(off).unwrap_or_default()
    }

    /// A number by chance for this position.
    pub(super) fn chance(&self, position: &Chess) -> u64 {
        mixed(key(position) ^ mixed(self.seed))
    }
}

/// A number that stands for a position.
pub(super) fn key(position: &Chess) -> u64 {
    position.zobrist_hash::<Zobrist64>(EnPassantMode::Legal).0
}

/// Mixes bits so that each depends on all (the finalizer of `SplitMix64`, Steele, Lea and Flood 2014).
const fn mixed(bits: u64) -> u64 {
    let bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    bits ^ (bits >> 31)
}
