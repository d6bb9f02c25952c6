//! A search for the best move, and how it can be made to overlook things as people do.

use shakmaty::zobrist::Zobrist64;
use shakmaty::{Chess, EnPassantMode, Move, MoveList, Position, Role};

use super::evaluation::{evaluate, value};
use crate::game::after_null;

/// More than any position is worth; being mated after n plies costs this less n.
const MATED: i32 = 30_000;
/// Beyond this, a score tells of a mate.
const MATE_IN_SIGHT: i32 = MATED - 1_000;
/// The positions that a table holds.
const TABLE: usize = 1 << 16;
/// No line is searched beyond so many plies.
const LONGEST: usize = 96;

/// What a search may do, and how it errs.
#[derive(Clone, Copy, Debug)]
pub(super) struct Limits {
    /// How many positions it looks at.
    pub(super) nodes: u32,
    /// How many plies it looks ahead.
    pub(super) depth: u8,
    /// How many plies of captures it follows from there.
    pub(super) captures: u8,
    /// Hundredths of a pawn that halve the chance of a move; 0 for the best move always.
    pub(super) temperature: i32,
    /// A move that is so much worse than the best is never chosen.
    pub(super) cap: i32,
    /// How far off its judgment of a position is, about, in hundredths of a pawn.
    pub(super) noise: i32,
    /// Of 1000 moves, how many it overlooks.
    pub(super) blind: u64,
}

/// The positions of a game so far: what came twice and comes again is a draw.
#[derive(Clone, Debug, Default)]
pub struct Mind(Vec<u64>);

impl Mind {
    /// Keeps the positions that came before.
    pub fn remembering(before: &[Chess]) -> Mind {
        Mind(before.iter().map(key).collect())
    }
}

fn key(position: &Chess) -> u64 {
    position.zobrist_hash::<Zobrist64>(EnPassantMode::Legal).0
}

/// Mixes bits so that each depends on all (the finalizer of `SplitMix64`, Steele, Lea and Flood 2014).
const fn mixed(bits: u64) -> u64 {
    let bits = (bits ^ (bits >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    let bits = (bits ^ (bits >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    bits ^ (bits >> 31)
}

fn code(mv: Move) -> u64 {
    let from = mv.from().map_or(64, u64::from);
    from << 16 | u64::from(mv.to()) << 8 | mv.promotion().map_or(0, |role| role as u64)
}

/// What is known of a position that was searched.
#[derive(Clone, Copy, Default)]
struct Entry {
    key: u64,
    mv: u64,
    score: i32,
    depth: i8,
    bound: Bound,
}

#[derive(Clone, Copy, Default, PartialEq, Eq)]
enum Bound {
    #[default]
    None,
    Exact,
    AtLeast,
    AtMost,
}

/// One search; its table is its own, so that nothing of an earlier one has a part in it.
pub(super) struct Search {
    limits: Limits,
    seed: u64,
    nodes: u32,
    table: Vec<Entry>,
    /// The positions before the one that is looked at, those of the game first.
    path: Vec<u64>,
    killers: [[u64; 2]; LONGEST],
    history: Vec<i32>,
}

/// The search has looked at as many positions as it may.
struct OutOfNodes;

impl Search {
    pub(super) fn new(mind: &Mind, limits: Limits, seed: u64) -> Search {
        Search {
            limits,
            seed,
            nodes: 0,
            table: vec![Entry::default(); TABLE],
            path: mind.0.clone(),
            killers: [[0; 2]; LONGEST],
            history: vec![0; 64 * 64],
        }
    }

    /// A number by chance, from the position and the seed.
    pub(super) fn chance(&self, position: &Chess) -> u64 {
        mixed(key(position) ^ mixed(self.seed))
    }

    /// Rates each move that is not overlooked, all to the same depth.
    pub(super) fn every_move(&mut self, position: &Chess) -> Vec<(Move, i32)> {
        let key = key(position);
        let moves = self.seen_moves(position, key, position.legal_moves());
        let mut scored = Vec::new();
        for mv in moves {
            let depth = self.limits.depth.cast_signed() - 1;
            let score = self.after(position, mv, key, |search, after| {
                search.alpha_beta(after, depth, -MATED, MATED, 1, false)
            });
            match score {
                Ok(score) => scored.push((mv, -score)),
                // What was not reached is rated by the position alone.
                Err(OutOfNodes) => scored.push((mv, -evaluate(&played(position, mv)))),
            }
        }
        scored
    }

    /// Looks deeper and deeper, as far as it may; returns the best move of the last depth that was finished
    /// or that has found a better one, with its score.
    pub(super) fn deepening(&mut self, position: &Chess) -> Vec<(Move, i32)> {
        let key = key(position);
        let mut moves = self.seen_moves(position, key, position.legal_moves());
        self.order(&mut moves, 0, 0);
        let mut best: Option<(Move, i32)> = moves.first().map(|mv| (*mv, evaluate(position)));
        for depth in 1..=self.limits.depth.cast_signed() {
            let mut alpha = -MATED;
            let mut found = None;
            for (number, mv) in moves.iter().enumerate() {
                let score = self.after(position, *mv, key, |search, after| {
                    if number > 0 {
                        let guess =
                            search.alpha_beta(after, depth - 1, -alpha - 1, -alpha, 1, true)?;
                        if -guess <= alpha {
                            return Ok(guess);
                        }
                    }
                    search.alpha_beta(after, depth - 1, -MATED, -alpha, 1, true)
                });
                match score {
                    Ok(score) if -score > alpha => {
                        alpha = -score;
                        found = Some((*mv, alpha));
                    }
                    Ok(_) => {}
                    Err(OutOfNodes) => {
                        best = found.or(best);
                        return best.into_iter().collect();
                    }
                }
            }
            best = found.or(best);
            if let Some((mv, score)) = found {
                moves.retain(|other| *other != mv);
                moves.insert(0, mv);
                if score.abs() > MATE_IN_SIGHT {
                    break;
                }
            }
            if moves.len() < 2 {
                break;
            }
        }
        best.into_iter().collect()
    }

    /// Plays a move, looks on from there, and comes back.
    fn after<T>(
        &mut self,
        position: &Chess,
        mv: Move,
        key: u64,
        look: impl FnOnce(&mut Search, &Chess) -> T,
    ) -> T {
        self.path.push(key);
        let looked = look(self, &played(position, mv));
        self.path.pop();
        looked
    }

    /// The moves that are not overlooked. In check, and where all would be overlooked, all are seen.
    fn seen_moves(&self, position: &Chess, key: u64, moves: MoveList) -> Vec<Move> {
        let all = moves.into_iter().collect::<Vec<Move>>();
        if self.limits.blind == 0 || position.is_check() {
            return all;
        }
        let seen: Vec<Move> = all
            .iter()
            .copied()
            .filter(|mv| self.is_seen(*mv, key))
            .collect();
        if seen.is_empty() { all } else { seen }
    }

    /// Whether a move is seen: short ones and captures more often than others. What is overlooked in a
    /// position is overlooked there whenever the search comes by.
    fn is_seen(&self, mv: Move, key: u64) -> bool {
        let is_short = mv.from().is_some_and(|from| from.distance(mv.to()) == 1);
        let mut blind = self.limits.blind;
        if is_short {
            blind = blind * 2 / 3;
        }
        if mv.is_capture() {
            blind = blind * 2 / 3;
        }
        mixed(key ^ mixed(code(mv) ^ self.seed)) % 1000 >= blind
    }

    /// The position by rules of thumb, as far off as the limits say: about a bell curve of three throws.
    fn judged(&self, position: &Chess, key: u64) -> i32 {
        let sharp = evaluate(position);
        if self.limits.noise == 0 {
            return sharp;
        }
        let bits = mixed(key ^ self.seed.rotate_left(17));
        let throws =
            [bits, bits >> 20, bits >> 40].map(|bits| i32::try_from(bits & 1023).unwrap_or(0));
        // The sum of three even throws of 1024 has a standard deviation of 512.
        sharp + (throws.iter().sum::<i32>() - 1536) * self.limits.noise / 512
    }

    fn is_draw(&self, position: &Chess, key: u64) -> bool {
        let halfmoves = position.halfmoves() as usize;
        halfmoves >= 100
            || position.is_insufficient_material()
            || self
                .path
                .iter()
                .rev()
                .take(halfmoves)
                .skip(1)
                .step_by(2)
                .any(|before| *before == key)
    }

    fn alpha_beta(
        &mut self,
        position: &Chess,
        depth: i8,
        mut alpha: i32,
        beta: i32,
        ply: usize,
        may_pass: bool,
    ) -> Result<i32, OutOfNodes> {
        let key = key(position);
        if self.is_draw(position, key) {
            return Ok(0);
        }
        let is_check = position.is_check();
        let depth = if is_check { depth + 1 } else { depth };
        if depth <= 0 || ply >= LONGEST {
            return self.captures(position, key, self.limits.captures, alpha, beta, ply);
        }
        self.count()?;
        let slot = usize::try_from(key % TABLE as u64).unwrap_or(0);
        let entry = self.table[slot];
        let known = (entry.key == key && entry.bound != Bound::None).then_some(entry);
        if let Some(entry) = known.filter(|entry| entry.depth >= depth) {
            let score = from_table(entry.score, ply);
            match entry.bound {
                Bound::Exact => return Ok(score),
                Bound::AtLeast if score >= beta => return Ok(score),
                Bound::AtMost if score <= alpha => return Ok(score),
                Bound::AtLeast | Bound::AtMost | Bound::None => {}
            }
        }
        if may_pass && depth >= 3 && !is_check && beta < MATE_IN_SIGHT && has_pieces(position) {
            // Whoever stands so well that even passing would be enough need not look further.
            if let Some(passed) = after_null(position).filter(|_| evaluate(position) >= beta) {
                self.path.push(key);
                let score = self.alpha_beta(&passed, depth - 3, -beta, -beta + 1, ply + 1, false);
                self.path.pop();
                if -score? >= beta {
                    return Ok(beta);
                }
            }
        }
        let legal = position.legal_moves();
        if legal.is_empty() {
            return Ok(if is_check { mated(ply) } else { 0 });
        }
        let mut moves = self.seen_moves(position, key, legal);
        self.order(&mut moves, known.map_or(0, |entry| entry.mv), ply);
        let first_alpha = alpha;
        let mut best = (-MATED, 0);
        for (number, mv) in moves.into_iter().enumerate() {
            let is_quiet = !mv.is_capture() && mv.promotion().is_none();
            let less = i8::from(depth >= 3 && number >= 4 && is_quiet && !is_check);
            let floor = alpha;
            let score = self.after(position, mv, key, |search, after| {
                if number > 0 {
                    let guess = search.alpha_beta(
                        after,
                        depth - 1 - less,
                        -floor - 1,
                        -floor,
                        ply + 1,
                        true,
                    )?;
                    if -guess <= floor {
                        return Ok(guess);
                    }
                }
                search.alpha_beta(after, depth - 1, -beta, -floor, ply + 1, true)
            });
            let score = -score?;
            if score > best.0 {
                best = (score, code(mv));
            }
            alpha = alpha.max(score);
            if alpha >= beta {
                if is_quiet {
                    self.note_quiet(mv, depth, ply);
                }
                break;
            }
        }
        let bound = if best.0 >= beta {
            Bound::AtLeast
        } else if best.0 > first_alpha {
            Bound::Exact
        } else {
            Bound::AtMost
        };
        self.table[slot] = Entry {
            key,
            mv: best.1,
            score: to_table(best.0, ply),
            depth,
            bound,
        };
        Ok(best.0)
    }

    /// Follows captures, and in check every move, until the position is quiet.
    fn captures(
        &mut self,
        position: &Chess,
        key: u64,
        left: u8,
        mut alpha: i32,
        beta: i32,
        ply: usize,
    ) -> Result<i32, OutOfNodes> {
        self.count()?;
        let is_check = position.is_check();
        if left == 0 || ply >= LONGEST {
            return Ok(self.judged(position, key));
        }
        let moves = if is_check {
            let evasions = position.legal_moves();
            if evasions.is_empty() {
                return Ok(mated(ply));
            }
            evasions
        } else {
            alpha = alpha.max(self.judged(position, key));
            if alpha >= beta {
                return Ok(alpha);
            }
            position.capture_moves()
        };
        let is_seen = |mv: &Move| is_check || self.limits.blind == 0 || self.is_seen(*mv, key);
        let mut moves: Vec<Move> = moves.into_iter().filter(is_seen).collect();
        self.order(&mut moves, 0, ply);
        for mv in moves {
            let after = played(position, mv);
            let next = self::key(&after);
            let score = -self.captures(&after, next, left - 1, -beta, -alpha, ply + 1)?;
            alpha = alpha.max(score);
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

    /// Brings the moves that are likely to be good to the front.
    fn order(&self, moves: &mut [Move], first: u64, ply: usize) {
        let killers = self.killers[ply.min(LONGEST - 1)];
        moves.sort_by_cached_key(|mv| {
            let code = code(*mv);
            let promoted = mv.promotion().map_or(0, value);
            -if code == first && first != 0 {
                1_000_000
            } else if let Some(taken) = mv.capture() {
                100_000 + 10 * value(taken) - value(mv.role()) / 10 + promoted
            } else if promoted > 0 {
                90_000 + promoted
            } else if killers.contains(&code) {
                80_000
            } else {
                self.history[slot_of(*mv)].min(70_000)
            }
        });
    }

    fn note_quiet(&mut self, mv: Move, depth: i8, ply: usize) {
        let killers = &mut self.killers[ply.min(LONGEST - 1)];
        if killers[0] != code(mv) {
            killers[1] = killers[0];
            killers[0] = code(mv);
        }
        self.history[slot_of(mv)] += i32::from(depth) * i32::from(depth);
    }
}

fn slot_of(mv: Move) -> usize {
    mv.from().map_or(0, usize::from) * 64 + usize::from(mv.to())
}

fn played(position: &Chess, mv: Move) -> Chess {
    let mut after = position.clone();
    after.play_unchecked(mv);
    after
}

fn mated(ply: usize) -> i32 {
    i32::try_from(ply).unwrap_or(0) - MATED
}

/// A mate is kept by its distance from the position itself, not from the root.
fn to_table(score: i32, ply: usize) -> i32 {
    let ply = i32::try_from(ply).unwrap_or(0);
    match score {
        MATE_IN_SIGHT.. => score + ply,
        ..=-29_000 => score - ply,
        _ => score,
    }
}

fn from_table(score: i32, ply: usize) -> i32 {
    let ply = i32::try_from(ply).unwrap_or(0);
    match score {
        MATE_IN_SIGHT.. => score - ply,
        ..=-29_000 => score + ply,
        _ => score,
    }
}

/// Whether the side to move has more than its king and pawns: with those alone, passing may be the best move.
fn has_pieces(position: &Chess) -> bool {
    let board = position.board();
    (position.us() & !board.pawns() & !board.by_role(Role::King)).any()
}
