//! The search itself: one good move for the mating side, every reply of the other.

use shakmaty::{Chess, Color, Move, MoveList, Position};

use super::check::{CheckWays, takes};
use super::table::Table;

/// How many positions are visited between two questions to the budget.
const STRIDE: u32 = 256;

/// The budget was spent.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spent;

/// A search on behalf of one side; what it learns serves all its further questions.
pub(super) struct Search<'a, B> {
    side: Color,
    budget: &'a mut B,
    visited: u32,
    table: Table,
    /// By the moves left to the mating side, the replies that refuted last, the latest first.
    refutations: Vec<[Option<Move>; 2]>,
}

impl<'a, B: FnMut() -> bool> Search<'a, B> {
    pub(super) fn new(side: Color, budget: &'a mut B) -> Search<'a, B> {
        Search {
            side,
            budget,
            visited: 0,
            table: Table::default(),
            refutations: Vec::new(),
        }
    }

    /// Returns every move that forces mate within `left` moves, itself counted.
    pub(super) fn keys(&mut self, position: &Chess, left: u32) -> Result<Vec<Move>, Spent> {
        let mut keys = Vec::new();
        for mv in position.legal_moves() {
            if self.forces(position, mv, left)? {
                keys.push(mv);
            }
        }
        Ok(keys)
    }

    /// Tells whether a legal move forces mate within `left` moves, itself counted.
    pub(super) fn forces(&mut self, position: &Chess, mv: Move, left: u32) -> Result<bool, Spent> {
        debug_assert_eq!(position.turn(), self.side);
        let mut after = position.clone();
        after.play_unchecked(mv);
        self.is_lost(&after, left - 1)
    }

    /// Tells whether the side to move, which defends, is mated already or within `left` more moves
    /// of the other side, whatever it replies.
    fn is_lost(&mut self, position: &Chess, left: u32) -> Result<bool, Spent> {
        self.visit()?;
        let mut replies = position.legal_moves();
        if replies.is_empty() {
            return Ok(position.is_check());
        }
        if left == 0 {
            return Ok(false);
        }
        self.likely_refutations_first(&mut replies, left);
        for reply in replies {
            let mut after = position.clone();
            after.play_unchecked(reply);
            if !self.mates(&after, left)? {
                self.remember(reply, left);
                return Ok(false);
            }
        }
        Ok(true)
    }

    /// Tells whether the mating side, to move, mates within `left` moves.
    pub(super) fn mates(&mut self, position: &Chess, left: u32) -> Result<bool, Spent> {
        self.visit()?;
        if left == 1 {
            return Ok(mates_at_once(position));
        }
        let key = Table::key(position);
        if let Some(mates) = self.table.mates(key, left) {
            return Ok(mates);
        }
        let mut mates = mates_at_once(position);
        if !mates {
            for after in by_promise(position) {
                if self.is_lost(&after, left - 1)? {
                    mates = true;
                    break;
                }
            }
        }
        self.table.note(key, left, mates);
        Ok(mates)
    }

    fn visit(&mut self) -> Result<(), Spent> {
        self.visited += 1;
        if self.visited < STRIDE {
            return Ok(());
        }
        self.visited = 0;
        if (self.budget)() { Ok(()) } else { Err(Spent) }
    }

    /// Brings the replies that refuted other moves to the front, then captures.
    fn likely_refutations_first(&self, replies: &mut MoveList, left: u32) {
        let known = self.refutations.get(left as usize);
        let known = known.copied().unwrap_or_default();
        replies.sort_by_key(|reply| {
            let refuted = known.iter().position(|other| *other == Some(*reply));
            (refuted.unwrap_or(known.len()), !takes(*reply))
        });
    }

    fn remember(&mut self, reply: Move, left: u32) {
        let left = left as usize;
        if self.refutations.len() <= left {
            self.refutations.resize(left + 1, [None; 2]);
        }
        let latest = &mut self.refutations[left];
        if latest[0] != Some(reply) {
            *latest = [Some(reply), latest[0]];
        }
    }
}

/// Tells whether the side to move has a move that mates; only a check can.
fn mates_at_once(position: &Chess) -> bool {
    let ways = CheckWays::new(position);
    position.legal_moves().into_iter().any(|mv| {
        ways.may(mv) && {
            let mut after = position.clone();
            after.play_unchecked(mv);
            after.is_checkmate()
        }
    })
}

/// Every position that one move leads to: checks first, then those with the fewest replies. None is
/// left out, for a quiet move may be the only one.
fn by_promise(position: &Chess) -> Vec<Chess> {
    let mut successors: Vec<(bool, usize, Chess)> = position
        .legal_moves()
        .into_iter()
        .map(|mv| {
            let mut after = position.clone();
            after.play_unchecked(mv);
            (!after.is_check(), after.legal_moves().len(), after)
        })
        .collect();
    successors.sort_by_key(|(quiet, replies, _)| (*quiet, *replies));
    successors.into_iter().map(|(_, _, after)| after).collect()
}
