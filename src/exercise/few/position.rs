//! A handful of pieces put on the board at random, so that a legal game can go on from there.

use std::ops::RangeInclusive;

use shakmaty::{CastlingMode, Chess, Color, FromSetup, Piece, Position, Rank, Role, Setup, Square};

use super::super::bound::FewPieces;
use super::super::dice::Dice;
use super::exposure::value;
use crate::game::Start;

/// How many pieces can be drawn, the two kings counted.
pub const PIECES: RangeInclusive<usize> = FewPieces::LEAST..=FewPieces::MOST;

/// How often pieces are put up before a sure position is taken; a test sees that it never comes to that.
const TRIES: usize = 1000;

/// How many points the sides may differ by, where both have more than a king: enough for a queen
/// against a knight, not for a queen against a pawn.
const GAP: usize = 6;

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
///
/// # Panics
///
/// When `pieces` is not one of [`PIECES`].
#[must_use]
pub fn draw(pieces: usize, dice: &mut Dice) -> Start {
    assert!(PIECES.contains(&pieces), "from 3 to 10 pieces can be drawn");
    let position = (0..TRIES)
        .find_map(|_| attempt(pieces, dice))
        .unwrap_or_else(|| sure(pieces));
    Start::new(CastlingMode::Standard, position)
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
    // A check makes the first ply for the learner: such positions come, but seldom.
    accept(setup).filter(|position| !position.is_check() || dice.chance(1, 3))
}

fn hand(pieces: usize, dice: &mut Dice) -> Vec<Role> {
    let mut set = SET;
    dice.shuffle(&mut set);
    set[..pieces].to_vec()
}

fn points(hand: &[Role]) -> usize {
    hand.iter().map(|role| value(*role)).sum()
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

/// Accepts what the rules library accepts strictly and where there is something to play for.
fn accept(setup: Setup) -> Option<Chess> {
    Chess::from_setup(setup, CastlingMode::Standard)
        .ok()
        .filter(|position| !position.is_game_over())
}

/// Puts up castled kings and pawns at home: always legal, whatever the dice did.
fn sure(pieces: usize) -> Chess {
    const HOMES: [Square; 8] = [
        Square::A2,
        Square::A7,
        Square::B2,
        Square::B7,
        Square::C2,
        Square::C7,
        Square::D2,
        Square::D7,
    ];
    let mut setup = Setup::empty();
    (setup.board).set_piece_at(Square::G1, Role::King.of(Color::White));
    (setup.board).set_piece_at(Square::G8, Role::King.of(Color::Black));
    for home in &HOMES[..pieces - 2] {
        let color = Color::from_white(home.rank() == Rank::Second);
        setup.board.set_piece_at(*home, Role::Pawn.of(color));
    }
    accept(setup).expect("castled kings and pawns at home are a game")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_position_that_needs_no_luck_is_a_game_for_every_count_of_pieces() {
        for pieces in PIECES {
            assert_eq!(sure(pieces).board().occupied().count(), pieces);
        }
    }

    #[test]
    fn luck_never_runs_out() {
        let tries = PIECES.flat_map(|pieces| {
            (0..5000).map(move |seed| {
                let mut dice = Dice::new(seed, 0);
                (1..=TRIES).find(|_| attempt(pieces, &mut dice).is_some())
            })
        });
        let most = tries.map(|tries| tries.unwrap_or(usize::MAX)).max();
        assert!(most.is_some_and(|most| most <= TRIES / 2), "{most:?}");
    }
}
