//! An opponent that plays at a rating: its moves follow from the position and a seed alone.

mod evaluation;
mod search;
mod strength;

use shakmaty::{Chess, Move, Position};

use search::{Limits, Search};
use strength::Strength;

pub use search::Mind;
pub use strength::{RATINGS, nearest_rating};

/// An opponent of one strength. The same seed makes it play the same moves in the same game.
#[derive(Clone, Debug)]
pub struct Opponent {
    strength: Strength,
    seed: u64,
}

impl Opponent {
    /// Makes an opponent of about this rating, on the scale of [`RATINGS`].
    pub fn new(rating: u32, seed: u64) -> Opponent {
        let strength = Strength::of(rating);
        Opponent { strength, seed }
    }

    /// Chooses a move; `before` are the positions of the game that led here, which may not come up a third
    /// time unnoticed. `None` where the game is over.
    pub fn choose(&self, position: &Chess, before: &[Chess]) -> Option<Move> {
        let mind = Mind::remembering(before);
        let seed = self.seed ^ u64::from(position.fullmoves().get()) << 32;
        let limits = self.limits_in(position);
        let mut search = Search::new(&mind, limits, seed);
        let scored = if limits.temperature > 0 {
            search.every_move(position)
        } else {
            search.deepening(position)
        };
        let best = scored.iter().map(|(_, score)| *score).max()?;
        let weight = |score: i32| match (limits.temperature, best - score) {
            (0, behind) => u64::from(behind == 0),
            (_, behind) if behind > limits.cap => 0,
            // Each `temperature` halves the weight.
            (temperature, behind) => (1_u64 << 40) >> (behind / temperature).min(40),
        };
        let sum: u64 = scored.iter().map(|(_, score)| weight(*score)).sum();
        let mut draw = search.chance(position) % sum.max(1);
        let drawn = scored.iter().find(|(_, score)| {
            let weight = weight(*score);
            let is_it = draw < weight;
            draw = draw.saturating_sub(weight);
            is_it
        });
        drawn.map(|(mv, _)| *mv)
    }

    /// Where the other side attacks with few pieces, the opponent defends as well as it can: else such
    /// endings would teach nothing.
    fn limits_in(&self, position: &Chess) -> Limits {
        let board = position.board();
        let own = board.by_color(position.turn()) & !board.kings();
        if own.is_empty() {
            Strength::top().limits()
        } else {
            self.strength.limits()
        }
    }
}

/// Looks for the best move in a position as well as the strongest opponent does, and returns what it is worth
/// to the side to move, in hundredths of a pawn.
pub fn best_move(position: &Chess, before: &[Chess]) -> Option<(Move, i32)> {
    let mind = Mind::remembering(before);
    let mut search = Search::new(&mind, Strength::top().limits(), 0);
    let scored = search.deepening(position);
    scored.into_iter().max_by_key(|(_, score)| *score)
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
