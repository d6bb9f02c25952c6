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
use strength::{FULL, Limits, limits_of};

pub(super) use strength::REVIEW;
pub use strength::{RATINGS, follow, nearest_rating};

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
            FULL
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
    let is_behind = behind(position) >= 100;
    position.us().count() == 1 || (position.them().count() <= FEW && is_behind)
}

/// Tells whether the side to move is lost beyond hope: fifteen pawns behind, against more than a few pieces. With few
/// pieces the other side has still to show how it wins.
pub(super) fn is_lost(position: &Chess) -> bool {
    position.them().count() > FEW && behind(position) >= 1_500
}

/// By how much the side to move has less material, in hundredths of a pawn.
fn behind(position: &Chess) -> i32 {
    let worth = |pieces: Bitboard| -> i32 {
        let roles = pieces
            .into_iter()
            .filter_map(|at| position.board().role_at(at));
        roles.map(value).sum()
    };
    worth(position.them()) - worth(position.us())
}

/// Looks for the best move in a position as well as an opponent defends, and returns what it is worth
/// to the side to move, in hundredths of a pawn.
pub fn best_move(position: &Chess, before: &[Chess]) -> Option<(Move, i32)> {
    best_move_within(position, before, FULL)
}

/// The same within other limits.
pub(super) fn best_move_within(
    position: &Chess,
    before: &[Chess],
    limits: Limits,
) -> Option<(Move, i32)> {
    let sight = Sight::new(&limits, 0);
    let rated = Search::new(before, position, limits, sight).rated(position);
    rated.into_iter().max_by_key(|(_, score)| *score)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::game::Start;
    use crate::question::Dice;
    use shakmaty::san::{San, SanPlus};
    use shakmaty::{CastlingMode, Color};

    fn position_in(mode: CastlingMode, fen: &str) -> Chess {
        Start::from_fen(fen, mode).unwrap().position().clone()
    }

    fn position(fen: &str) -> Chess {
        position_in(CastlingMode::Standard, fen)
    }

    /// Plays so many plies, or to the end; returns the moves and where they lead.
    fn game(start: Chess, players: [&Opponent; 2], plies: usize) -> (Vec<Move>, Chess) {
        let (mut position, mut before, mut moves) = (start, Vec::new(), Vec::new());
        while moves.len() < plies && !position.is_game_over() {
            let player = position.turn().fold_wb(players[0], players[1]);
            let mv = player.choose(&position, &before).unwrap();
            assert!(position.is_legal(mv));
            before.push(position.clone());
            position.play_unchecked(mv);
            moves.push(mv);
        }
        (moves, position)
    }

    #[test]
    fn the_same_seed_plays_the_same_game_and_another_one_another() {
        let play = |rating, seed| {
            let opponent = Opponent::new(rating, seed);
            game(Chess::default(), [&opponent, &opponent], 10).0
        };
        for rating in RATINGS {
            assert_eq!(play(rating, 1), play(rating, 1), "{rating}");
        }
        for rating in [RATINGS[0], RATINGS[6], RATINGS[14]] {
            assert_ne!(play(rating, 1), play(rating, 2), "{rating}");
        }
    }

    /// The compositions are those of the mate search's tests, whose sources stand there.
    #[test]
    fn the_strongest_finds_mates_in_one_and_two() {
        let strongest = Opponent::new(1900, 1);
        for (fen, key) in [
            ("6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 1", "Rd8"),
            ("kbK5/pp6/1P6/8/8/8/8/R7 w - - 0 1", "Ra6"),
            ("2brrb2/8/p7/7Q/1p1kpPp1/1P1pN1K1/3P4/8 w - - 0 1", "Qa5"),
            ("5k1K/3R4/6B1/5r1n/8/5b2/5Q2/8 w - - 0 1", "Qa2"),
            ("R7/7q/7r/Pp6/5p1r/7P/4Q3/k3K2R w K b6 0 1", "axb6"),
        ] {
            let position = position(fen);
            let (mv, score) = best_move(&position, &[]).unwrap();
            assert_eq!(San::from_move(&position, mv).to_string(), key, "{fen}");
            assert!(score > 29_000, "{fen}: {score}");
            assert_eq!(strongest.choose(&position, &[]), Some(mv));
        }
    }

    #[test]
    fn the_strongest_castles_to_mate_in_chess960() {
        let fen = "8/8/8/8/8/8/1R4P1/k2K1R2 w F - 0 1";
        let position = position_in(CastlingMode::Chess960, fen);
        let (mv, score) = best_move(&position, &[]).unwrap();
        let san = SanPlus::from_move(position, mv).to_string();
        assert!(san.ends_with('#') && score > 29_000, "{san}");
    }

    #[test]
    fn games_of_chess960_are_legal_and_castle() {
        let fen = "bqnbrnkr/pppppppp/8/8/8/8/PPPPPPPP/BQNBRNKR w HEhe - 0 1";
        let mut castled = 0;
        for rating in [500, 1250, 1370] {
            for seed in 0..4 {
                let opponent = Opponent::new(rating, seed);
                let start = position_in(CastlingMode::Chess960, fen);
                let (moves, _) = game(start, [&opponent, &opponent], 40);
                castled += moves.iter().filter(|mv| mv.is_castle()).count();
            }
        }
        assert!(castled > 0);
    }

    #[test]
    fn even_the_weakest_mostly_takes_what_hangs_and_takes_back() {
        let captures = |position: &Chess, before: &[Chess]| {
            let chosen =
                (0..50).filter_map(|seed| Opponent::new(500, seed).choose(position, before));
            chosen.filter(|mv| mv.is_capture()).count()
        };
        let hanging = position("rnb1kbnr/ppp1pppp/8/3q4/8/2N5/PPPP1PPP/R1BQKBNR w KQkq - 0 3");
        assert!(captures(&hanging, &[]) >= 30);
        let before =
            position("r1bqkb1r/pppp1ppp/2n2n2/4p3/4P3/2N2N2/PPPP1PPP/R1BQKB1R w KQkq - 4 4");
        let mut taken = before.clone();
        let mv = San::from_ascii(b"Nxe5").unwrap().to_move(&before).unwrap();
        taken.play_unchecked(mv);
        assert!(captures(&taken, &[before]) >= 35);
    }

    #[test]
    fn few_attackers_meet_the_best_defence_whatever_the_rating() {
        let pressed = |fen: &str| is_pressed(&position(fen));
        for fen in [
            "8/8/8/4k3/8/8/3QK3/8 b - - 0 1",
            "8/8/8/4k3/4P3/4K3/8/8 b - - 0 1",
            // Lucena's and Philidor's positions, and a queen against a rook.
            "1K1k4/1P6/8/8/8/8/r7/2R5 b - - 0 1",
            "4k3/R7/8/3KP3/8/1r6/8/8 b - - 0 1",
            "8/8/8/4k3/3r4/8/4K2Q/8 b - - 0 1",
            "4k3/pp6/8/8/8/8/PPPP4/4K3 b - - 0 1",
        ] {
            assert!(pressed(fen), "{fen}");
            let chosen = |rating| Opponent::new(rating, 3).choose(&position(fen), &[]);
            assert_eq!(chosen(500), chosen(1900), "{fen}");
        }
        for fen in [
            // It is not behind, or not by so much, or it attacks itself, or there is much on the board.
            "4k3/pp6/8/8/8/8/PP6/4K3 b - - 0 1",
            "4k3/1b6/8/8/8/8/1N6/4K3 b - - 0 1",
            "8/8/8/4k3/8/8/3QK3/8 w - - 0 1",
            "rnb1kbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR b KQkq - 0 1",
        ] {
            assert!(!pressed(fen), "{fen}");
        }
    }

    #[test]
    fn where_the_game_is_over_there_is_no_move() {
        let mated = position("3R2k1/5ppp/8/8/8/8/5PPP/6K1 b - - 0 1");
        assert_eq!(Opponent::new(500, 1).choose(&mated, &[]), None);
        assert_eq!(best_move(&mated, &[]), None);
    }

    #[test]
    fn the_strongest_mates_with_a_queen_a_rook_and_two_bishops() {
        for fen in [
            "7k/8/8/8/8/8/2Q5/K7 w - - 0 1",
            "8/8/8/4k3/8/8/8/K6R w - - 0 1",
            "8/8/8/4k3/8/8/8/K4BB1 w - - 0 1",
        ] {
            let opponent = Opponent::new(1900, 1);
            let (_, end) = game(position(fen), [&opponent, &opponent], 100);
            assert!(end.is_checkmate(), "{fen}");
        }
    }

    #[test]
    fn an_opponent_follows_results_by_a_step_whoever_was_played() {
        let after = |games: &[(u32, Option<bool>)]| follow(games.iter().copied());
        assert_eq!(after(&[]), 720);
        assert_eq!(after(&[(720, Some(true))]), 830);
        assert_eq!(after(&[(720, Some(false)), (610, Some(false))]), 500);
        assert_eq!(after(&[(720, None)]), 720);
        // A loss to a stronger one and a win against a weaker one tell nothing.
        assert_eq!(after(&[(1900, Some(false))]), 720);
        assert_eq!(after(&[(500, Some(true))]), 720);
        assert_eq!(after(&[(1900, Some(true))]), 830);
    }

    #[test]
    fn a_stronger_one_wins_more() {
        let mut wins = [0, 0];
        for seed in 0..6 {
            let [weak, strong] = [500, 1250].map(|rating| Opponent::new(rating, seed));
            let mut dice = Dice::new(seed, 0);
            let is_white = dice.chance(1, 2);
            let players = if is_white {
                [&strong, &weak]
            } else {
                [&weak, &strong]
            };
            let (_, end) = game(Chess::default(), players, 200);
            if let Some(winner) = end.outcome().winner() {
                wins[usize::from((winner == Color::White) == is_white)] += 1;
            }
        }
        assert!(wins[1] > 3 * wins[0], "{wins:?}");
    }
}
