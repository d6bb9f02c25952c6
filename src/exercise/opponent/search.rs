//! A search for the best move: alpha-beta with growing depth, a table, a passed turn, less depth for late quiet
//! moves, and captures followed to their end. All of it is common practice among chess programs; no source.

use shakmaty::{Chess, Move, Position, Square};

use super::evaluation::{evaluate, value};
use super::sight::{Sight, key};
use super::strength::Limits;
use super::table::{Bound, Entry, MATE_IN_SIGHT, MATED, Table};
use crate::game::after_null;

/// No line is searched beyond so many plies.
const LONGEST: i32 = 96;

/// One search; its table is its own, so that nothing of an earlier one has a part in it.
pub(super) struct Search {
    limits: Limits,
    sight: Sight,
    nodes: u32,
    table: Table,
    /// The positions before the one that is looked at, those of the game first.
    path: Vec<Passed>,
    /// How often a quiet move from one square to another was too good, and how deep.
    history: Vec<i32>,
    /// The moves of the root that are worth choosing, with what they are worth.
    rated: Vec<(Move, i32)>,
}

/// A position on the way, and where the move went that left it; `None` where the side passed.
struct Passed {
    key: u64,
    moved_to: Option<Square>,
}

/// The search has looked at as many positions as it may.
struct OutOfNodes;

impl Search {
    /// Prepares a search of `position`, which comes after those `before` it.
    pub(super) fn new(before: &[Chess], position: &Chess, limits: Limits, sight: Sight) -> Search {
        let after = before.iter().skip(1).chain([position]);
        let path = before.iter().zip(after).map(|(before, after)| {
            let movers = |position: &Chess| position.board().by_color(before.turn());
            Passed {
                key: key(before),
                moved_to: (movers(after) & !movers(before)).first(),
            }
        });
        Search {
            limits,
            sight,
            nodes: 0,
            table: Table::for_search(limits.nodes),
            path: path.collect(),
            history: vec![0; 64 * 64],
            rated: Vec::new(),
        }
    }

    /// Looks deeper and deeper, as far as it may; returns the best move of the last depth and those that are
    /// worse by no more than the limits say, each with its score.
    pub(super) fn rated(mut self, position: &Chess) -> Vec<(Move, i32)> {
        // Where not even one move can be looked at.
        let mut rated: Vec<(Move, i32)> = position
            .legal_moves()
            .first()
            .map(|mv| (*mv, 0))
            .into_iter()
            .collect();
        for depth in 1..=self.limits.depth {
            let searched = self.alpha_beta(position, depth, -MATED, MATED, 0);
            if !self.rated.is_empty() {
                rated = std::mem::take(&mut self.rated);
            }
            // A mate within this depth is the shortest one.
            if searched.is_ok_and(|score| score.abs() < MATED - depth) {
                continue;
            }
            break;
        }
        rated
    }

    fn alpha_beta(
        &mut self,
        position: &Chess,
        depth: i32,
        mut alpha: i32,
        beta: i32,
        ply: i32,
    ) -> Result<i32, OutOfNodes> {
        let is_root = ply == 0;
        let key = key(position);
        if !is_root && self.is_draw(position, key) {
            return Ok(0);
        }
        let is_check = position.is_check();
        let depth = depth + i32::from(is_check);
        if depth <= 0 || ply >= LONGEST {
            return self.captures(position, self.limits.captures, alpha, beta, ply);
        }
        self.count()?;
        let known = self.table.find(key);
        if let Some(score) = known.and_then(|entry| entry.settled(depth, alpha, beta, ply))
            && !is_root
        {
            return Ok(score);
        }
        let legal = position.legal_moves();
        if legal.is_empty() {
            return Ok(if is_check { ply - MATED } else { 0 });
        }
        let may_pass = !is_root && self.moved_to().is_some() && depth >= 3;
        if may_pass
            && beta < MATE_IN_SIGHT
            && has_pieces(position)
            && evaluate(position) >= beta
            && let Some(passed) = after_null(position)
        {
            // Whoever stands so well that even passing would be enough need not look further.
            let moved_to = None;
            self.path.push(Passed { key, moved_to });
            let score = self.alpha_beta(&passed, depth - 3, -beta, 1 - beta, ply + 1);
            self.path.pop();
            if -score? >= beta {
                return Ok(beta);
            }
        }
        let mut moves = self.sight.seen(position, &legal, self.moved_to());
        self.order(&mut moves, known.and_then(|entry| entry.mv));
        let cap = if is_root { self.limits.cap } else { 0 };
        let first_alpha = alpha;
        let mut best = (-MATED, None);
        for (number, mv) in moves.into_iter().enumerate() {
            let is_quiet = !mv.is_capture() && mv.promotion().is_none();
            // The first three plies are searched whole, so that no mate in two is missed.
            let is_late = depth >= 4 && number >= 4 && is_quiet && !is_check;
            let floor = alpha - cap;
            let mut after = position.clone();
            after.play_unchecked(mv);
            let moved_to = Some(mv.to());
            self.path.push(Passed { key, moved_to });
            let mut score = Ok(floor + 1);
            if number > 0 {
                // Is it better at all?
                let depth = depth - 1 - i32::from(is_late);
                score = self
                    .alpha_beta(&after, depth, -floor - 1, -floor, ply + 1)
                    .map(|score| -score);
            }
            if score.as_ref().is_ok_and(|score| *score > floor) {
                score = self
                    .alpha_beta(&after, depth - 1, -beta, -floor, ply + 1)
                    .map(|score| -score);
            }
            self.path.pop();
            let score = score?;
            if is_root && score > floor {
                self.rated.push((mv, score));
            }
            if score > best.0 {
                best = (score, Some(mv));
            }
            alpha = alpha.max(score);
            if alpha >= beta {
                if is_quiet {
                    self.history[line_of(mv)] += depth * depth;
                }
                break;
            }
        }
        let (score, mv) = best;
        let bound = if score >= beta {
            Bound::AtLeast
        } else if score > first_alpha {
            Bound::Exact
        } else {
            Bound::AtMost
        };
        let entry = Entry {
            key,
            mv,
            score,
            bound,
            depth,
        };
        self.table.keep(entry, ply);
        Ok(score)
    }

    /// Follows captures, and in check every move, until the position is quiet.
    fn captures(
        &mut self,
        position: &Chess,
        left: u8,
        mut alpha: i32,
        beta: i32,
        ply: i32,
    ) -> Result<i32, OutOfNodes> {
        self.count()?;
        if left == 0 || ply >= LONGEST {
            return Ok(self.sight.judged(position));
        }
        let moves = if position.is_check() {
            let evasions = position.legal_moves();
            if evasions.is_empty() {
                return Ok(ply - MATED);
            }
            evasions
        } else {
            alpha = alpha.max(self.sight.judged(position));
            if alpha >= beta {
                return Ok(alpha);
            }
            position.capture_moves()
        };
        let mut moves = self.sight.seen(position, &moves, self.moved_to());
        self.order(&mut moves, None);
        for mv in moves {
            let mut after = position.clone();
            after.play_unchecked(mv);
            let (key, moved_to) = (0, Some(mv.to()));
            self.path.push(Passed { key, moved_to });
            let score = self.captures(&after, left - 1, -beta, -alpha, ply + 1);
            self.path.pop();
            alpha = alpha.max(-score?);
            if alpha >= beta {
                break;
            }
        }
        Ok(alpha)
    }

    fn count(&mut self) -> Result<(), OutOfNodes> {
        self.nodes += 1;
        if self.nodes > self.limits.nodes {
            return Err(OutOfNodes);
        }
        Ok(())
    }

    /// Where the last move went.
    fn moved_to(&self) -> Option<Square> {
        self.path.last()?.moved_to
    }

    /// What came up before and comes again counts as a draw at once: it could come a third time.
    fn is_draw(&self, position: &Chess, key: u64) -> bool {
        let halfmoves = position.halfmoves() as usize;
        let mut same_side = self.path.iter().rev().take(halfmoves).skip(1).step_by(2);
        position.is_insufficient_material()
            || same_side.any(|before| before.key == key)
            || (halfmoves >= 100 && !position.is_checkmate())
    }

    /// Brings the moves that are likely to be good to the front.
    fn order(&self, moves: &mut [Move], first: Option<Move>) {
        moves.sort_by_cached_key(|mv| {
            let promoted = mv.promotion().map_or(0, value);
            -if Some(*mv) == first {
                1_000_000
            } else if let Some(taken) = mv.capture() {
                100_000 + 10 * value(taken) - value(mv.role()) / 10 + promoted
            } else if promoted > 0 {
                90_000 + promoted
            } else {
                self.history[line_of(*mv)].min(80_000)
            }
        });
    }
}

/// The place of a move's squares in the history.
fn line_of(mv: Move) -> usize {
    mv.from().map_or(0, usize::from) * 64 + usize::from(mv.to())
}

/// Whether the side to move has more than its king and pawns: with those alone, passing may be the best move.
fn has_pieces(position: &Chess) -> bool {
    let board = position.board();
    (position.us() & !board.pawns() & !board.kings()).any()
}
