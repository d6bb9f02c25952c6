//! Plies that make sense enough to be followed: something is taken, attacked or saved.

use shakmaty::{Board, Chess, Color, Move, Position, Role, Square};

use crate::game::{Line, Start};
use crate::question::{Dice, gain, most_won, worth};

/// Plays up to `plies` plies from `start`, fewer only where the game is over before.
///
/// Captures, checks, promotions, attacks on pieces that can be won and rescues of own pieces come more
/// often than aimless moves; a piece is rarely put where it can be taken for nothing, and none goes
/// straight back to where it came from. No ply ends the game while another one is there to play.
/// The same start and dice play the same line.
///
/// # Panics
///
/// Never: only legal moves are chosen.
pub(super) fn play_on(start: &Start, plies: usize, dice: &mut Dice) -> Line {
    let mut line = Line::new(start.clone());
    while line.len() < plies {
        let Some(mv) = choose(&line, dice) else { break };
        line.push(mv).expect("a legal move was chosen");
    }
    line
}

fn choose(line: &Line, dice: &mut Dice) -> Option<Move> {
    let position = line.end();
    if position.is_game_over() {
        return None;
    }
    let mut moves = position.legal_moves().to_vec();
    // The order of the rules library is its own affair.
    moves.sort_by_key(|mv| (mv.from(), mv.to(), mv.promotion()));
    let own_last = line.len().checked_sub(2).map(|ply| line.plies()[ply]);
    let last_way = own_last.map(|ply| (ply.from(), ply.to()));
    prefer(&mut moves, |mv| {
        let mut after = position.clone();
        after.play_unchecked(*mv);
        !after.is_game_over()
    });
    prefer(&mut moves, |mv| {
        last_way.is_none_or(|(from, to)| (Some(to), from) != (mv.from(), mv.to()))
    });
    let looks: Vec<Look> = moves.iter().map(|mv| Look::new(position, *mv)).collect();
    let best = looks.iter().map(|look| look.balance).max()?;
    let rested = last_way.map(|(_, to)| to);
    let weights = looks.iter().map(|look| look.weight(best, rested));
    pick(&moves, &weights.collect::<Vec<_>>(), dice)
}

/// Keeps the moves that pass the test, where there are any.
fn prefer(moves: &mut Vec<Move>, test: impl Fn(&Move) -> bool) {
    if moves.iter().any(&test) {
        moves.retain(test);
    }
}

/// Picks a move, each as likely as its weight says.
fn pick(moves: &[Move], weights: &[usize], dice: &mut Dice) -> Option<Move> {
    let mut roll = dice.below(weights.iter().sum());
    for (mv, weight) in moves.iter().zip(weights) {
        if roll < *weight {
            return Some(*mv);
        }
        roll -= weight;
    }
    None
}

/// What can be said for and against a move at first sight.
struct Look {
    from: Option<Square>,
    /// Points won at once, less what the other side can win next on one square.
    balance: i32,
    /// How much happens.
    interest: usize,
}

impl Look {
    fn new(position: &Chess, mv: Move) -> Look {
        let us = position.turn();
        let mut after = position.clone();
        after.play_unchecked(mv);
        let ours = exposed(after.board(), us);
        let ours_before = exposed(position.board(), us);
        let theirs = exposed(after.board(), !us);
        let theirs_before = exposed(position.board(), !us);
        let points = |points: i32| points.clamp(0, 9).unsigned_abs() as usize;
        let attacked = points(theirs - theirs_before);
        let saved = points(ours_before - ours);
        let happening = [mv.is_capture(), after.is_check(), mv.is_promotion()];
        let advance = usize::from(mv.role() == Role::Pawn);
        Look {
            from: mv.from(),
            balance: gain(mv) - most_won(&after),
            interest: 14 * happening.into_iter().filter(|it| *it).count()
                + 3 * attacked
                + 2 * saved
                + 2 * advance,
        }
    }

    /// A move that is worse than the best balance by a point comes seldom, one that is worse than that never; a piece
    /// that has just moved rests more often than not.
    fn weight(&self, best: i32, rested: Option<Square>) -> usize {
        let quality = match best - self.balance {
            ..=0 => 64,
            1 => 24,
            _ => 0,
        };
        let weight = quality * (4 + self.interest);
        if rested.is_some() && self.from == rested {
            weight.div_ceil(3)
        } else {
            weight
        }
    }
}

/// What a side's pieces stand to lose at first sight, all of them together.
fn exposed(board: &Board, side: Color) -> i32 {
    let pieces = board.by_color(side).into_iter();
    pieces.map(|square| risk(board, square, side)).sum()
}

/// What the piece on `square` stands to lose: all its worth where it can be taken for nothing, the
/// difference where a cheaper piece can take it. Pins and pieces behind pieces are not looked at.
fn risk(board: &Board, square: Square, side: Color) -> i32 {
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
        .map(worth)
        .min();
    match cheapest {
        _ if takers.is_empty() => 0,
        _ if !guarded => worth(role),
        Some(cheapest) => (worth(role) - cheapest).max(0),
        None => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn white(placement: &[u8]) -> i32 {
        let board = Board::from_ascii_board_fen(placement).unwrap();
        exposed(&board, Color::White)
    }

    #[test]
    fn a_hanging_piece_stands_to_lose_all_its_worth() {
        assert_eq!(white(b"3rk3/8/8/8/3N4/8/8/4K3"), 3);
    }

    #[test]
    fn a_guarded_piece_is_safe_from_a_dearer_one_and_not_from_a_cheaper_one() {
        assert_eq!(white(b"3rk3/8/8/8/3N4/8/8/3RK3"), 0);
        assert_eq!(white(b"4k3/8/8/2p5/3R4/8/8/3RK3"), 4);
    }

    #[test]
    fn a_king_takes_only_what_nobody_guards_and_guards_only_against_one_taker() {
        assert_eq!(white(b"8/8/8/2k5/3N4/3K4/8/8"), 0);
        assert_eq!(white(b"8/8/8/2k5/3N4/8/8/3K4"), 3);
        assert_eq!(white(b"3r4/8/8/2k5/3N4/3K4/8/8"), 3);
        assert_eq!(white(b"3r4/8/8/8/3N4/3K4/8/7k"), 0);
    }

    #[test]
    fn what_stands_to_be_lost_adds_up() {
        assert_eq!(white(b"3rk3/8/8/8/1b1N4/8/3R4/4K3"), 2);
        assert_eq!(white(b"3rk3/8/8/8/r2N4/8/P7/4K3"), 4);
    }
}
