//! A handful of pieces put on the board at random, so that a legal game can go on from there.

use shakmaty::{CastlingMode, Chess, Color, FromSetup, Piece, Position, Rank, Role, Setup, Square};

use crate::game::Start;
use crate::question::{Dice, worth};

/// How many points the sides may differ by, where both have more than a king: enough for a queen
/// against a knight, not for a queen against a pawn.
const GAP: u32 = 6;

/// What each side draws from, like cards: a full set but for half of the pawns, so that most pieces are
/// such that see far.
const SET: [Role; 11] = [
    Role::Queen,
    Role::Rook,
    Role::Rook,
    Role::Bishop,
    Role::Bishop,
    Role::Knight,
    Role::Knight,
    Role::Pawn,
    Role::Pawn,
    Role::Pawn,
    Role::Pawn,
];

/// Draws a position of so many pieces, the kings counted.
///
/// Either side is to move, it has a legal move, and the game is neither over nor dead (FIDE 5.2.2).
/// Nobody has a right to castle and no pawn can be taken en passant, so that whoever hears the pieces
/// and the side to move knows everything. The same dice draw the same position.
pub(super) fn draw(pieces: usize, dice: &mut Dice) -> Start {
    loop {
        // A test sees that luck comes soon.
        if let Some(position) = attempt(pieces, dice) {
            return Start::new(position);
        }
    }
}

fn attempt(pieces: usize, dice: &mut Dice) -> Option<Chess> {
    let others = pieces - 2;
    let least = (others.div_ceil(2) - 1).max(usize::from(others >= 2));
    let white = least + dice.below(others - 2 * least + 1);
    let hands = [hand(white, dice), hand(others - white, dice)];
    if others >= 2 && points(&hands[0]).abs_diff(points(&hands[1])) > GAP {
        return None;
    }
    let mut setup = Setup::empty();
    setup.turn = *dice.pick(&Color::ALL)?;
    for (color, hand) in Color::ALL.into_iter().zip(&hands) {
        for role in std::iter::once(&Role::King).chain(hand) {
            put(&mut setup, role.of(color), dice)?;
        }
    }
    // What the rules library accepts strictly, and where there is something to play for.
    let position = Chess::from_setup(setup, CastlingMode::Standard).ok()?;
    // A check makes the first ply for the learner: such positions come, but seldom.
    let is_wanted = !position.is_game_over() && (!position.is_check() || dice.chance(1, 3));
    is_wanted.then_some(position)
}

fn hand(pieces: usize, dice: &mut Dice) -> Vec<Role> {
    let mut set = SET;
    dice.shuffle(&mut set);
    set[..pieces].to_vec()
}

fn points(hand: &[Role]) -> i32 {
    hand.iter().map(|role| worth(*role)).sum()
}

/// Puts a piece on a square where it may stand, or gives the whole attempt up.
fn put(setup: &mut Setup, piece: Piece, dice: &mut Dice) -> Option<()> {
    let square = *dice.pick(&Square::ALL)?;
    let pawn_off_its_ranks =
        piece.role == Role::Pawn && matches!(square.rank(), Rank::First | Rank::Eighth);
    let twin = piece.role == Role::Bishop
        && (setup.board.by_piece(piece).into_iter())
            .any(|other| other.is_light() == square.is_light());
    if setup.board.piece_at(square).is_some() || pawn_off_its_ranks || twin {
        return None;
    }
    setup.board.set_piece_at(square, piece);
    Some(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exercise::MOST_DRAWN;
    use crate::exercise::bound::FewPieces;

    #[test]
    fn luck_never_runs_out() {
        let tries = (FewPieces::LEAST..=MOST_DRAWN).flat_map(|pieces| {
            (0..5000).map(move |seed| {
                let mut dice = Dice::new(seed, 0);
                (1..=500).find(|_| attempt(pieces, &mut dice).is_some())
            })
        });
        let most = tries.map(|tries| tries.unwrap_or(usize::MAX)).max();
        assert!(most.is_some_and(|most| most <= 500), "{most:?}");
    }
}
