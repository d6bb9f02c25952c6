//! Plies that make sense enough to be followed: something is taken, attacked or saved.

use shakmaty::{Chess, Move, Position, Role, Square};

use super::super::dice::Dice;
use super::exposure::{Exposure, value};
use crate::game::{Line, Start};

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
#[must_use]
pub fn play_on(start: &Start, plies: usize, dice: &mut Dice) -> Line {
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
    /// Points won at once, less what the other side can win next.
    balance: isize,
    /// How much happens.
    interest: usize,
}

impl Look {
    fn new(position: &Chess, mv: Move) -> Look {
        let us = position.turn();
        let mut after = position.clone();
        after.play_unchecked(mv);
        let won = mv.capture().map_or(0, value)
            + mv.promotion()
                .map_or(0, |role| value(role) - value(Role::Pawn));
        let ours = Exposure::of(after.board(), us);
        let ours_before = Exposure::of(position.board(), us);
        let theirs = Exposure::of(after.board(), !us);
        let theirs_before = Exposure::of(position.board(), !us);
        let attacked = theirs.all.saturating_sub(theirs_before.all);
        let saved = ours_before.all.saturating_sub(ours.all);
        let happening = [mv.is_capture(), after.is_check(), mv.is_promotion()];
        let advance = usize::from(mv.role() == Role::Pawn);
        Look {
            from: mv.from(),
            balance: won.cast_signed() - ours.worst.cast_signed(),
            interest: 14 * happening.into_iter().filter(|it| *it).count()
                + 3 * attacked.min(9)
                + 2 * saved.min(9)
                + 2 * advance,
        }
    }

    /// The worse a move is than the best balance, the rarer it comes; a piece that has just moved
    /// rests more often than not.
    fn weight(&self, best: isize, rested: Option<Square>) -> usize {
        let quality = match best - self.balance {
            ..=0 => 64,
            1 => 24,
            2 => 6,
            _ => 1,
        };
        let weight = quality * (4 + self.interest);
        if rested.is_some() && self.from == rested {
            weight.div_ceil(3)
        } else {
            weight
        }
    }
}
