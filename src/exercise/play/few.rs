//! A game that begins with a few pieces a side.

use shakmaty::{CastlingMode, Chess, Color, FromSetup, Position, Role, Setup, Square};

use crate::exercise::opponent::best_move;
use crate::game::Start;
use crate::question::Dice;

/// A side stands no better than this, in hundredths of a pawn, by the opponent's own search.
const BALANCED: i32 = 90;

/// Draws a position with so many pieces a side, the kings counted, from 2 to 11: the same ones on both sides, on
/// their own half, White to move, and neither side better by much. The same dice draw the same position.
pub fn few(pieces: usize, dice: &mut Dice) -> Start {
    loop {
        if let Some(position) = attempt(pieces, dice).filter(is_balanced) {
            return Start::new(position);
        }
    }
}

fn is_balanced(position: &Chess) -> bool {
    best_move(position, &[]).is_some_and(|(_, score)| score.abs() <= BALANCED)
}

/// A king, a piece or two, and pawns.
fn hand(pieces: usize, dice: &mut Dice) -> Vec<Role> {
    let officers = match pieces {
        0..=2 => 0,
        3..=5 => 1,
        _ => 2,
    };
    let mut set = [Role::Queen, Role::Rook, Role::Bishop, Role::Knight];
    dice.shuffle(&mut set);
    let pawns = std::iter::repeat(Role::Pawn);
    let others = set[..officers].iter().copied().chain(pawns);
    std::iter::once(Role::King)
        .chain(others)
        .take(pieces)
        .collect()
}

fn attempt(pieces: usize, dice: &mut Dice) -> Option<Chess> {
    let hand = hand(pieces, dice);
    let mut setup = Setup::empty();
    for color in Color::ALL {
        for role in &hand {
            let own_pawns = setup.board.pawns() & setup.board.by_color(color);
            let fits = |square: &Square| {
                let rank = u32::from(color.fold_wb(square.rank(), square.rank().flip_vertical()));
                let is_home = match role {
                    Role::Pawn => (1..=3).contains(&rank),
                    _ => rank <= 2,
                };
                let is_doubled = *role == Role::Pawn
                    && own_pawns.into_iter().any(|own| own.file() == square.file());
                is_home && !is_doubled && setup.board.piece_at(*square).is_none()
            };
            let squares: Vec<Square> = Square::ALL.into_iter().filter(fits).collect();
            let square = *dice.pick(&squares)?;
            setup.board.set_piece_at(square, role.of(color));
        }
    }
    let position = Chess::from_setup(setup, CastlingMode::Standard).ok()?;
    (!position.is_game_over() && !position.is_check()).then_some(position)
}

#[cfg(test)]
mod tests {
    use super::*;
    use shakmaty::Rank;

    #[test]
    fn both_sides_have_as_many_pieces_of_each_role_and_the_game_is_open() {
        for pieces in 2..=11 {
            let start = few(pieces, &mut Dice::new(1, pieces as u64));
            let board = start.position().board();
            let material = board.material();
            assert_eq!(material.white, material.black);
            assert_eq!(board.white().count(), pieces);
            assert!(start.position().legal_moves().len() > 2, "{}", start.fen());
            let home = |square: Square| square.rank() <= Rank::Fourth;
            assert!(board.white().into_iter().all(home));
        }
        let draw = |seed| few(5, &mut Dice::new(seed, 0));
        assert_eq!(draw(1), draw(1));
        assert_ne!(draw(1), draw(2));
    }

    #[test]
    fn neither_side_is_lost_ten_plies_on() {
        for pieces in [3, 6] {
            let start = few(pieces, &mut Dice::new(7, pieces as u64));
            let (mut position, mut before) = (start.position().clone(), Vec::new());
            for _ in 0..10 {
                let Some((mv, _)) = best_move(&position, &before) else {
                    break;
                };
                before.push(position.clone());
                position.play_unchecked(mv);
            }
            assert!(!position.is_checkmate(), "{}", start.fen());
            if let Some((_, score)) = best_move(&position, &before) {
                assert!(score.abs() < 300, "{}: {score}", start.fen());
            }
        }
    }
}
