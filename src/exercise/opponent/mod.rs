//! An opponent that plays at a rating: its moves follow from the game and a seed alone.

mod evaluation;
mod search;
mod sight;
mod strength;
mod table;

use shakmaty::{Bitboard, Chess, Move, Position};

use evaluation::value;
use search::Search;
use sight::Sight;
use strength::{Limits, TOP, limits_of};

pub use strength::{RATINGS, nearest_rating};

/// A side attacks with few pieces where it has no more than these, its king counted.
const FEW: usize = 5;

/// An opponent of one strength. The same seed makes it play the same moves in the same game.
#[derive(Clone, Debug)]
pub struct Opponent {
    limits: Limits,
    seed: u64,
}

impl Opponent {
    /// Makes an opponent of the nearest of [`RATINGS`].
    pub fn new(rating: u32, seed: u64) -> Opponent {
        let limits = limits_of(rating);
        Opponent { limits, seed }
    }

    /// Chooses a move; `before` are the positions of the game that led here. `None` where there is no legal
    /// move.
    pub fn choose(&self, position: &Chess, before: &[Chess]) -> Option<Move> {
        let limits = if is_pressed(position) {
            TOP
        } else {
            self.limits
        };
        // Otherwise than in the same position at another time.
        let seed = self.seed ^ u64::from(position.fullmoves().get()) << 32;
        let sight = Sight::new(&limits, seed);
        let rated = Search::new(before, position, limits, sight).rated(position);
        let best = rated.iter().map(|(_, score)| *score).max()?;
        let weight = |score: i32| match (limits.temperature, best - score) {
            (0, behind) => u64::from(behind == 0),
            (_, behind) if behind > limits.cap => 0,
            // Each `temperature` halves the weight.
            (temperature, behind) => (1_u64 << 40) >> (behind / temperature).min(40),
        };
        let sum: u64 = rated.iter().map(|(_, score)| weight(*score)).sum();
        let mut draw = sight.chance(position) % sum;
        let drawn = rated.iter().find(|(_, score)| {
            let weight = weight(*score);
            let is_it = draw < weight;
            draw = draw.saturating_sub(weight);
            is_it
        });
        drawn.map(|(mv, _)| *mv)
    }
}

/// Whether the other side attacks with few pieces: then any opponent defends as well as it can, or endings
/// would teach nothing. It does where it has few and a pawn's worth more than the side to move, or where that
/// has only its king.
fn is_pressed(position: &Chess) -> bool {
    let board = position.board();
    let worth = |pieces: Bitboard| -> i32 {
        let roles = pieces
            .into_iter()
            .filter_map(|square| board.role_at(square));
        roles.map(value).sum()
    };
    let (own, theirs) = (position.us(), position.them());
    let is_behind = worth(theirs) >= worth(own) + 100;
    own.count() == 1 || (theirs.count() <= FEW && is_behind)
}

/// Looks for the best move in a position as well as the strongest opponent does, and returns what it is worth
/// to the side to move, in hundredths of a pawn.
pub fn best_move(position: &Chess, before: &[Chess]) -> Option<(Move, i32)> {
    let sight = Sight::new(&TOP, 0);
    let rated = Search::new(before, position, TOP, sight).rated(position);
    rated.into_iter().max_by_key(|(_, score)| *score)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::game::Start;
    use shakmaty::CastlingMode;
    use shakmaty::san::SanPlus;

    fn position(fen: &str) -> Chess {
        let start = Start::from_fen(fen, CastlingMode::Standard).unwrap();
        start.position().clone()
    }

    fn game(rating: u32, seed: u64, plies: usize) -> Vec<Move> {
        let opponent = Opponent::new(rating, seed);
        let (mut position, mut before, mut moves) = (Chess::default(), Vec::new(), Vec::new());
        for _ in 0..plies {
            let Some(mv) = opponent.choose(&position, &before) else {
                break;
            };
            assert!(position.is_legal(mv));
            before.push(position.clone());
            position.play_unchecked(mv);
            moves.push(mv);
        }
        moves
    }

    #[test]
    fn the_same_seed_plays_the_same_game_and_another_one_another() {
        for rating in RATINGS {
            assert_eq!(game(rating, 1, 8), game(rating, 1, 8), "{rating}");
        }
        for rating in [RATINGS[0], RATINGS[6]] {
            assert_ne!(game(rating, 1, 12), game(rating, 2, 12), "{rating}");
        }
    }

    /// The compositions are those of the mate search's tests, whose sources stand there.
    #[test]
    fn the_strongest_finds_a_mate_and_lets_nothing_hang() {
        for (fen, best) in [
            ("6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1", "Rd8#"),
            ("kbK5/pp6/1P6/8/8/8/8/R7 w - - 0 1", "Ra6"),
            ("4k3/p7/8/3q4/8/2N5/P7/4K3 w - - 0 1", "Nxd5"),
        ] {
            let position = position(fen);
            let (mv, score) = best_move(&position, &[]).unwrap();
            assert_eq!(SanPlus::from_move(position, mv).to_string(), best);
            assert!(score > 200, "{score}");
        }
    }

    #[test]
    fn a_lone_king_is_defended_as_well_as_can_be_whatever_the_rating() {
        let lone = position("8/8/8/4k3/8/8/3QK3/8 b - - 0 1");
        let [weak, strong] = [500, 1900].map(|rating| Opponent::new(rating, 3).choose(&lone, &[]));
        assert_eq!(weak, strong);
    }

    #[test]
    fn where_the_game_is_over_there_is_no_move() {
        let mated = position("3R2k1/5ppp/8/8/8/8/5PPP/6K1 b - - 0 1");
        assert_eq!(Opponent::new(500, 1).choose(&mated, &[]), None);
        assert_eq!(best_move(&mated, &[]), None);
    }

    #[test]
    fn a_winner_does_not_repeat_the_position() {
        let mut position = position("7k/8/8/8/8/8/2Q5/K7 w - - 0 1");
        let opponent = Opponent::new(1900, 1);
        let mut before: Vec<Chess> = Vec::new();
        for _ in 0..60 {
            if position.is_game_over() {
                break;
            }
            let mv = opponent.choose(&position, &before).unwrap();
            before.push(position.clone());
            position.play_unchecked(mv);
        }
        assert!(position.is_checkmate());
    }
}
