//! How a game of chess ends (FIDE Laws of Chess, Articles 5 and 9).

use shakmaty::{Chess, Color, Position};
use strum::IntoStaticStr;

use super::GameResult;

/// How a game came to its end; as text it has a name in small letters and hyphens.
#[derive(Clone, Copy, Debug, PartialEq, Eq, IntoStaticStr)]
#[strum(serialize_all = "kebab-case")]
pub enum GameEnd {
    /// The side to move is mated (FIDE 5.1.1).
    Checkmate,
    /// The side to move is not in check and has no legal move (FIDE 5.2.1).
    Stalemate,
    /// Neither side has the material to mate (FIDE 5.2.2). Other dead positions are not recognized.
    DeadPosition,
    /// The position has come up for the fifth time (FIDE 9.6.1).
    Fivefold,
    /// Both sides made 75 moves without a capture or a pawn's move (FIDE 9.6.2).
    SeventyFiveMoves,
    /// A draw was claimed: the position has come up for the third time (FIDE 9.2).
    Threefold,
    /// A draw was claimed: both sides made 50 moves without a capture or a pawn's move (FIDE 9.3).
    FiftyMoves,
    /// Both sides agreed on a draw (FIDE 5.2.3).
    Agreed,
    /// A side resigned (FIDE 5.1.2).
    Resigned(Color),
}

impl GameEnd {
    /// Tells whether the game is over by itself in a position; `before` are the positions that led to it.
    pub fn of(position: &Chess, before: &[Chess]) -> Option<GameEnd> {
        if position.is_checkmate() {
            Some(GameEnd::Checkmate)
        } else if position.is_stalemate() {
            Some(GameEnd::Stalemate)
        } else if position.is_insufficient_material() {
            Some(GameEnd::DeadPosition)
        } else if times(position, before) >= 5 {
            Some(GameEnd::Fivefold)
        } else {
            (position.halfmoves() >= 150).then_some(GameEnd::SeventyFiveMoves)
        }
    }

    /// Tells by what right the side to move may claim a draw.
    pub fn claim(position: &Chess, before: &[Chess]) -> Option<GameEnd> {
        if times(position, before) >= 3 {
            Some(GameEnd::Threefold)
        } else {
            (position.halfmoves() >= 100).then_some(GameEnd::FiftyMoves)
        }
    }

    /// Returns the result of a game that ended so with `turn` to move.
    pub const fn result(self, turn: Color) -> GameResult {
        let loser = match self {
            GameEnd::Checkmate => turn,
            GameEnd::Resigned(side) => side,
            GameEnd::Stalemate
            | GameEnd::DeadPosition
            | GameEnd::Fivefold
            | GameEnd::SeventyFiveMoves
            | GameEnd::Threefold
            | GameEnd::FiftyMoves
            | GameEnd::Agreed => return GameResult::Draw,
        };
        match loser {
            Color::White => GameResult::BlackWins,
            Color::Black => GameResult::WhiteWins,
        }
    }
}

/// Counts how often a position has come up. Two are the same where the same side is to move and the same moves
/// are possible, castling some day and en passant now included (FIDE 9.2.3): so does the library compare them.
fn times(position: &Chess, before: &[Chess]) -> usize {
    // Nothing comes back over a capture or a pawn's move.
    let reversible = before.iter().rev().take(position.halfmoves() as usize);
    1 + reversible.filter(|other| *other == position).count()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::game::Start;

    fn played(fen: &str, moves: &str) -> (Chess, Vec<Chess>) {
        let start = Start::from_fen(fen, shakmaty::CastlingMode::Standard).unwrap();
        let mut position = start.position().clone();
        let mut before = Vec::new();
        for word in moves.split_whitespace() {
            let mv: shakmaty::uci::UciMove = word.parse().unwrap();
            let mv = mv.to_move(&position).unwrap();
            before.push(position.clone());
            position.play_unchecked(mv);
        }
        (position, before)
    }

    fn ending(fen: &str, moves: &str) -> (Option<GameEnd>, Option<GameEnd>) {
        let (position, before) = played(fen, moves);
        (
            GameEnd::of(&position, &before),
            GameEnd::claim(&position, &before),
        )
    }

    #[test]
    fn mate_stalemate_and_bare_kings_end_a_game_by_themselves() {
        let array = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";
        assert_eq!(
            ending(array, "f2f3 e7e5 g2g4 d8h4").0,
            Some(GameEnd::Checkmate)
        );
        assert_eq!(
            ending("k7/8/1K6/8/8/8/2Q5/8 w - - 0 1", "c2c7").0,
            Some(GameEnd::Stalemate)
        );
        assert_eq!(
            ending("k7/8/8/8/8/3b4/4K3/8 w - - 0 1", "e2d3").0,
            Some(GameEnd::DeadPosition)
        );
        assert_eq!(ending(array, "e2e4").0, None);
        assert_eq!(
            GameEnd::Checkmate.result(Color::White),
            GameResult::BlackWins
        );
        assert_eq!(
            GameEnd::Resigned(Color::Black).result(Color::White),
            GameResult::WhiteWins
        );
        assert_eq!(GameEnd::Fivefold.result(Color::White), GameResult::Draw);
    }

    #[test]
    fn what_comes_up_three_times_can_be_claimed_and_five_times_ends_the_game() {
        let array = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";
        let round = "g1f3 g8f6 f3g1 f6g8 ";
        assert_eq!(ending(array, round), (None, None));
        assert_eq!(
            ending(array, &round.repeat(2)),
            (None, Some(GameEnd::Threefold))
        );
        assert_eq!(ending(array, &round.repeat(3)).0, None);
        assert_eq!(ending(array, &round.repeat(4)).0, Some(GameEnd::Fivefold));
        // The right to castle makes the first position another one (9.2.3.2).
        let rook = "4k3/8/8/8/8/8/8/4K2R w K - 0 1";
        let round = "h1h2 e8d8 h2h1 d8e8 ";
        assert_eq!(ending(rook, &round.repeat(2)), (None, None));
        assert_eq!(ending(rook, &round.repeat(3)).1, Some(GameEnd::Threefold));
    }

    #[test]
    fn fifty_moves_can_be_claimed_and_seventy_five_end_the_game_unless_the_last_one_mates() {
        let with = |count: u32| format!("7k/8/8/8/8/8/8/K6R b - - {count} 90");
        assert_eq!(ending(&with(98), "h8g8"), (None, None));
        assert_eq!(ending(&with(99), "h8g8"), (None, Some(GameEnd::FiftyMoves)));
        assert_eq!(
            ending(&with(149), "h8g8").0,
            Some(GameEnd::SeventyFiveMoves)
        );
        let mating = "7k/R7/8/8/8/8/8/K5R1 w - - 149 90";
        assert_eq!(ending(mating, "a7h7").0, Some(GameEnd::SeventyFiveMoves));
        let mating = "7k/R7/6K1/8/8/8/8/8 w - - 149 90";
        assert_eq!(ending(mating, "a7a8").0, Some(GameEnd::Checkmate));
    }
}
