//! The search itself: one good move for the mating side, every reply of the other.

use std::collections::HashMap;

use shakmaty::zobrist::Zobrist128;
use shakmaty::{
    Bitboard, ByRole, Chess, EnPassantMode, Move, MoveList, Position, Role, Square, attacks,
};

/// How many positions are visited between two questions to the budget.
const STRIDE: u64 = 256;

/// The budget was spent.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spent;

/// A search on behalf of one side; what it learns serves all its further questions.
pub(super) struct Search<'a, B> {
    budget: &'a mut B,
    visited: u64,
    table: Table,
    /// By the moves left to the mating side, the replies that refuted last, the latest first.
    refutations: HashMap<u32, [Option<Move>; 2]>,
}

impl<'a, B: FnMut() -> bool> Search<'a, B> {
    pub(super) fn new(budget: &'a mut B) -> Search<'a, B> {
        Search {
            budget,
            visited: 0,
            table: Table::default(),
            refutations: HashMap::new(),
        }
    }

    /// Returns every move that forces mate within `left` moves, itself counted, in [`order`].
    pub(super) fn keys(&mut self, position: &Chess, left: u32) -> Result<Vec<Move>, Spent> {
        let mut keys = Vec::new();
        for mv in position.legal_moves() {
            if self.is_lost(&after(position, mv), left - 1)? {
                keys.push(mv);
            }
        }
        keys.sort_by_key(|key| order(*key));
        Ok(keys)
    }

    /// Tells whether the side to move, which defends, is mated already or within `left` more moves
    /// of the other side, whatever it replies.
    fn is_lost(&mut self, position: &Chess, left: u32) -> Result<bool, Spent> {
        self.visit()?;
        // What refuted last is tried before the other replies are looked for at all.
        let known = match left {
            0 => [None; 2],
            _ => self.refutations.get(&left).copied().unwrap_or_default(),
        };
        for reply in known.into_iter().flatten() {
            if position.is_legal(reply) && self.escapes(position, reply, left)? {
                return Ok(false);
            }
        }
        let replies = position.legal_moves();
        if replies.is_empty() {
            return Ok(position.is_check());
        }
        if left == 0 {
            return Ok(false);
        }
        let (captures, others): (MoveList, MoveList) = replies
            .into_iter()
            .filter(|reply| !known.contains(&Some(*reply)))
            .partition(|reply| takes(*reply));
        for reply in captures.into_iter().chain(others) {
            if self.escapes(position, reply, left)? {
                return Ok(false);
            }
        }
        Ok(true)
    }

    /// Tells whether the mating side has no mate in time after a reply, and remembers it then.
    fn escapes(&mut self, position: &Chess, reply: Move, left: u32) -> Result<bool, Spent> {
        let escapes = !self.mates(&after(position, reply), left)?;
        if escapes {
            let latest = self.refutations.entry(left).or_default();
            if latest[0] != Some(reply) {
                *latest = [Some(reply), latest[0]];
            }
        }
        Ok(escapes)
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
            for after in by_promise(position, left) {
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
        let goes_on = !self.visited.is_multiple_of(STRIDE) || (self.budget)();
        goes_on.then_some(()).ok_or(Spent)
    }
}

/// Tells whether the side to move has a move that mates; only a check can.
fn mates_at_once(position: &Chess) -> bool {
    checks(position).any(|(_, after)| after.is_checkmate())
}

/// The legal moves that give check, each with the position after it.
pub(crate) fn checks(position: &Chess) -> impl Iterator<Item = (Move, Chess)> {
    let ways = CheckWays::new(position);
    let moves = position.legal_moves().into_iter();
    moves
        .filter(move |mv| ways.may(*mv))
        .map(|mv| (mv, after(position, mv)))
        .filter(|(_, after)| after.is_check())
}

/// Every position that one move leads to: checks first, then, where more than one move is left behind it,
/// those with the fewest replies. None is left out, for a quiet move may be the only one.
fn by_promise(position: &Chess, left: u32) -> Vec<Chess> {
    let moves = position.legal_moves().into_iter();
    let mut successors: Vec<Chess> = moves.map(|mv| after(position, mv)).collect();
    successors.sort_by_cached_key(|after| match left {
        0..=2 => (!after.is_check(), 0),
        _ => (!after.is_check(), after.legal_moves().len()),
    });
    successors
}

/// The position after a legal move.
pub(crate) fn after(position: &Chess, mv: Move) -> Chess {
    let mut after = position.clone();
    after.play_unchecked(mv);
    after
}

/// An order of the legal moves of a position that does not hang on how they were generated.
pub(super) fn order(mv: Move) -> (Option<Square>, Square, Option<Role>) {
    (mv.from(), mv.to(), mv.promotion())
}

/// The ways in which the side to move of one position can give check.
struct CheckWays {
    /// The squares from which a piece of each role attacks the enemy king.
    squares: ByRole<Bitboard>,
    /// The pieces that alone stand between a long-range piece of their side and the enemy king.
    screens: Bitboard,
}

impl CheckWays {
    fn new(position: &Chess) -> CheckWays {
        let board = position.board();
        let occupied = board.occupied();
        let king = board
            .king_of(!position.turn())
            .expect("each side has its king");
        let bishop = attacks::bishop_attacks(king, occupied);
        let rook = attacks::rook_attacks(king, occupied);
        let ours = position.us();
        let far = Bitboard::EMPTY;
        let snipers = ours
            & (attacks::rook_attacks(king, far) & board.rooks_and_queens()
                | attacks::bishop_attacks(king, far) & board.bishops_and_queens());
        let screens = snipers
            .into_iter()
            .map(|sniper| attacks::between(king, sniper) & occupied)
            .filter(|between| between.count() == 1)
            .fold(Bitboard::EMPTY, |screens, between| screens | between);
        CheckWays {
            squares: ByRole {
                pawn: attacks::pawn_attacks(!position.turn(), king),
                knight: attacks::knight_attacks(king),
                bishop,
                rook,
                queen: bishop | rook,
                king: Bitboard::EMPTY,
            },
            screens: screens & ours,
        }
    }

    /// Tells whether a legal move may give check: `true` for every one that does, and for some that
    /// do not.
    fn may(&self, mv: Move) -> bool {
        match mv {
            Move::Normal {
                role,
                from,
                to,
                promotion: None,
                ..
            } => self.screens.contains(from) || self.squares[role].contains(to),
            // These change the lines of the board in more than one place.
            Move::Normal { .. } | Move::EnPassant { .. } | Move::Castle { .. } => true,
            // Not a move of chess.
            Move::Put { .. } => false,
        }
    }
}

/// Tells whether the piece that moves takes one.
fn takes(mv: Move) -> bool {
    mv.is_capture() || mv.promotion() == Some(Role::Queen)
}

/// The most positions that are kept; then the table starts afresh. About 40 MB.
const MOST: usize = 1 << 20;

/// Positions with the mating side to move, by their Zobrist keys.
///
/// The keys hold the side to move, the castling rights and a legal en passant capture. They have
/// 128 bits, so that two positions with the same key need not be reckoned with.
#[derive(Default)]
struct Table(HashMap<Zobrist128, Known>);

/// What is known of one position: all that its numbers say is proved.
#[derive(Clone, Copy, Default)]
struct Known {
    /// There is no mate within this many moves.
    none_within: u32,
    /// There is a mate within this many moves; 0 where none is known.
    within: u32,
}

impl Table {
    fn key(position: &Chess) -> Zobrist128 {
        position.zobrist_hash(EnPassantMode::Legal)
    }

    /// Tells whether there is a mate within `moves`, if that is known.
    fn mates(&self, key: Zobrist128, moves: u32) -> Option<bool> {
        let known = self.0.get(&key)?;
        if moves <= known.none_within {
            Some(false)
        } else if known.within != 0 && known.within <= moves {
            Some(true)
        } else {
            None
        }
    }

    /// Notes whether there is a mate within `moves`.
    fn note(&mut self, key: Zobrist128, moves: u32, mates: bool) {
        if self.0.len() >= MOST && !self.0.contains_key(&key) {
            self.0.clear();
        }
        let known = self.0.entry(key).or_default();
        if !mates {
            known.none_within = known.none_within.max(moves);
        } else if known.within == 0 || moves < known.within {
            known.within = moves;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::game::Start;
    use shakmaty::CastlingMode;

    fn key(rights: &str) -> Zobrist128 {
        let fen = format!("4k3/8/8/3pP3/8/8/8/4K2R {rights} 0 1");
        let start = Start::from_fen(&fen, CastlingMode::Standard).unwrap();
        Table::key(start.position())
    }

    #[test]
    fn positions_of_different_rights_have_different_keys() {
        let keys = [
            key("w K d6"),
            key("w K -"),
            key("w - d6"),
            key("w - -"),
            key("b K -"),
        ];
        for (at, one) in keys.iter().enumerate() {
            assert!(!keys[at + 1..].contains(one), "{at}");
        }
    }

    #[test]
    fn what_is_known_within_some_moves_says_nothing_of_those_between() {
        let mut table = Table::default();
        let key = key("w K -");
        table.note(key, 2, false);
        table.note(key, 5, true);
        table.note(key, 4, true);
        table.note(key, 1, false);
        let known: Vec<Option<bool>> = (1..=5).map(|moves| table.mates(key, moves)).collect();
        let expected = [Some(false), Some(false), None, Some(true), Some(true)];
        assert_eq!(known, expected);
    }
}
