//! A simple look at exchanges: what a side would lose if the other took next.

use shakmaty::{Board, Color, Role, Square};

/// Returns what a piece is worth in points (common practice, no source); a king is worth nothing,
/// because it is never taken.
pub(super) const fn value(role: Role) -> usize {
    match role {
        Role::King => 0,
        Role::Pawn => 1,
        Role::Knight | Role::Bishop => 3,
        Role::Rook => 5,
        Role::Queen => 9,
    }
}

/// What a side's pieces stand to lose.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Exposure {
    /// The most that one capture would win.
    pub(super) worst: usize,
    /// The sum over all pieces.
    pub(super) all: usize,
}

impl Exposure {
    pub(super) fn of(board: &Board, side: Color) -> Exposure {
        let mut exposure = Exposure::default();
        for square in board.by_color(side) {
            let risk = risk(board, square, side);
            exposure.worst = exposure.worst.max(risk);
            exposure.all += risk;
        }
        exposure
    }
}

/// What the piece on `square` stands to lose: all its worth where it can be taken for nothing, the
/// difference where a cheaper piece can take it. Pins and pieces behind pieces are not looked at.
fn risk(board: &Board, square: Square, side: Color) -> usize {
    let Some(role) = board.role_at(square).filter(|role| *role != Role::King) else {
        return 0;
    };
    let occupied = board.occupied();
    let takers = board.attacks_to(square, !side, occupied);
    let guards = board.attacks_to(square, side, occupied);
    let kings = board.kings();
    // A king takes what nobody guards; it takes back where nobody else can take again.
    let guarded = (guards & !kings).any() || (guards.any() && takers.count() == 1);
    let cheapest = (takers & !kings)
        .into_iter()
        .filter_map(|taker| board.role_at(taker))
        .map(value)
        .min();
    match cheapest {
        _ if takers.is_empty() => 0,
        _ if !guarded => value(role),
        Some(cheapest) => value(role).saturating_sub(cheapest),
        None => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn white(placement: &[u8]) -> Exposure {
        let board = Board::from_ascii_board_fen(placement).unwrap();
        Exposure::of(&board, Color::White)
    }

    #[test]
    fn a_hanging_piece_stands_to_lose_all_its_worth() {
        assert_eq!(white(b"3rk3/8/8/8/3N4/8/8/4K3").worst, 3);
    }

    #[test]
    fn a_guarded_piece_is_safe_from_a_dearer_one_and_not_from_a_cheaper_one() {
        assert_eq!(white(b"3rk3/8/8/8/3N4/8/8/3RK3").worst, 0);
        assert_eq!(white(b"4k3/8/8/2p5/3R4/8/8/3RK3").worst, 4);
    }

    #[test]
    fn a_king_takes_only_what_nobody_guards_and_guards_only_against_one_taker() {
        assert_eq!(white(b"8/8/8/2k5/3N4/3K4/8/8").worst, 0);
        assert_eq!(white(b"8/8/8/2k5/3N4/8/8/3K4").worst, 3);
        assert_eq!(white(b"3r4/8/8/2k5/3N4/3K4/8/8").worst, 3);
        assert_eq!(white(b"3r4/8/8/8/3N4/3K4/8/7k").worst, 0);
    }

    #[test]
    fn what_stands_to_be_lost_adds_up() {
        let both = white(b"3rk3/8/8/8/1b1N4/8/3R4/4K3");
        assert_eq!((both.worst, both.all), (2, 2));
        let hanging = white(b"3rk3/8/8/8/r2N4/8/P7/4K3");
        assert_eq!((hanging.worst, hanging.all), (3, 4));
    }
}
