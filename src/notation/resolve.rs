//! From a move's text and the position to the move.

use shakmaty::{
    Bitboard, CastlingMode, CastlingSide, Chess, Color, File, Move, Position, Rank, Role, Square,
    attacks,
};

use super::letters::LetterSet;
use super::wording::{Said, Wording, wording};

/// Why a text is not a move of the position.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MoveFault {
    /// The text is no move in any way of writing that is known here.
    #[error("this is no move: write it as in Nf3, exd5, O-O or e8=Q")]
    Unreadable,
    /// No man of the side to move that the text can mean exists.
    #[error("{} has no such {} there: look at the moves before", side(*color), name(*role))]
    NoSuchMan {
        /// The side to move.
        color: Color,
        /// The man that the text names.
        role: Role,
    },
    /// Such a man exists, but it cannot go there.
    #[error("no {} of {} can go to {to}: look at the moves before", name(*role), side(*color))]
    CannotGo {
        /// The side to move.
        color: Color,
        /// The man that the text names.
        role: Role,
        /// Where it should go.
        to: Square,
    },
    /// A man could go there, but its king would stand in check.
    #[error("the {} cannot go to {to}, because {}'s king would be in check", name(*role), side(*color))]
    KingInCheck {
        /// The side to move.
        color: Color,
        /// The man that the text names.
        role: Role,
        /// Where it should go.
        to: Square,
    },
    /// Two men can make the move.
    #[error("two men can do that, from {one} and from {other}: write which")]
    Ambiguous {
        /// The square of one of them.
        one: Square,
        /// The square of another.
        other: Square,
    },
    /// A pawn arrives on the last rank and nothing is said of what it becomes.
    #[error("a pawn that reaches {to} is promoted: write what it becomes, as in {to}=Q")]
    NoPromotion {
        /// Where the pawn arrives.
        to: Square,
    },
    /// A promotion is named that cannot be.
    #[error("no promotion is possible with this move: delete it")]
    NeedlessPromotion,
    /// Castling is not possible here.
    #[error("{} cannot castle {} here", side(*color), match wing {
        CastlingSide::KingSide => "short",
        CastlingSide::QueenSide => "long",
    })]
    CannotCastle {
        /// The side to move.
        color: Color,
        /// Where the king would go.
        wing: CastlingSide,
    },
    /// The text passes, and here nobody may.
    #[error("a side in check cannot pass")]
    Pass,
}

const fn side(color: Color) -> &'static str {
    match color {
        Color::White => "White",
        Color::Black => "Black",
    }
}

const fn name(role: Role) -> &'static str {
    match role {
        Role::Pawn => "pawn",
        Role::Knight => "knight",
        Role::Bishop => "bishop",
        Role::Rook => "rook",
        Role::Queen => "queen",
        Role::King => "king",
    }
}

/// Reads one move in a position, as people write it: standard algebraic notation with or without
/// its marks, long algebraic, UCI, figurines, zeros for castling. With `mode` Chess960, a king that
/// takes its own rook castles; the king's move of two squares or more castles in both modes.
///
/// A small `b` means the file, and the bishop only where no pawn's move is legal.
///
/// # Errors
///
/// [`MoveFault`] when the text is no move or not one legal move.
pub fn resolve_move(text: &str, position: &Chess, mode: CastlingMode) -> Result<Move, MoveFault> {
    match wording(text.trim(), LetterSet::ENGLISH) {
        None | Some(Wording::Null) => Err(MoveFault::Unreadable),
        Some(said) => resolve(said, position, mode).map(|resolved| resolved.mv),
    }
}

/// A move, and whether a small `b` had to be a bishop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Resolved {
    pub(super) mv: Move,
    pub(super) small_bishop: bool,
}

/// Finds the move that a text means in a position. Nobody passes here.
pub(super) fn resolve(
    said: Wording,
    position: &Chess,
    mode: CastlingMode,
) -> Result<Resolved, MoveFault> {
    let mv = match said {
        Wording::Null => Err(MoveFault::Pass),
        Wording::Castle(wing) => castle(position, wing),
        Wording::Man(said) => match man(said, position, mode) {
            Err(fault) => {
                let bishop = said
                    .as_bishop()
                    .and_then(|said| man(said, position, mode).ok());
                let Some(mv) = bishop else {
                    return Err(fault);
                };
                return Ok(Resolved {
                    mv,
                    small_bishop: true,
                });
            }
            found => found,
        },
    };
    mv.map(|mv| Resolved {
        mv,
        small_bishop: false,
    })
}

fn castle(position: &Chess, wing: CastlingSide) -> Result<Move, MoveFault> {
    let color = position.turn();
    let moves = position.castling_moves(wing);
    moves
        .first()
        .copied()
        .ok_or(MoveFault::CannotCastle { color, wing })
}

fn man(said: Said, position: &Chess, mode: CastlingMode) -> Result<Move, MoveFault> {
    let color = position.turn();
    let board = position.board();
    let role = match (said.role, said.from()) {
        (Some(role), _) => role,
        (None, Some(from)) => board.role_at(from).unwrap_or(Role::Pawn),
        (None, None) => Role::Pawn,
    };
    if let Some(mv) = only_one(said, role, position) {
        return Ok(mv);
    }
    let mut found = None;
    let mut unpromoted = false;
    let mut overpromoted = false;
    // The list is large: it is borrowed, so that it stays where it is.
    for &mv in &position.san_candidates(role, said.to) {
        let Some(from) = mv.from().filter(|from| fits(said, role, *from)) else {
            continue;
        };
        if mv.promotion() != said.promotion {
            unpromoted |= said.promotion.is_none();
            overpromoted |= mv.promotion().is_none();
            continue;
        }
        match found {
            None => found = Some(mv),
            Some(other) => {
                let one = other.from().unwrap_or(from);
                return Err(MoveFault::Ambiguous { one, other: from });
            }
        }
    }
    if let Some(mv) = found {
        return Ok(mv);
    }
    if unpromoted {
        return Err(MoveFault::NoPromotion { to: said.to });
    }
    if overpromoted {
        return Err(MoveFault::NeedlessPromotion);
    }
    if role == Role::King
        && let Some(wing) = castling_wing(said, position, mode)
    {
        return castle(position, wing);
    }
    Err(why_not(said, role, position, color))
}

/// Finds the move quickly where one man alone reaches the square at all; `None` where there is more to
/// look at, as with en passant.
fn only_one(said: Said, role: Role, position: &Chess) -> Option<Move> {
    let (to, color) = (said.to, position.turn());
    let board = position.board();
    if board.by_color(color).contains(to) {
        return None;
    }
    let reach = if role == Role::Pawn {
        pawns_that_reach(to, position)?
    } else {
        // These men reach a square from wherever they would be reached standing there.
        attacks::attacks(to, role.of(color), board.occupied()) & board.by_piece(role.of(color))
    };
    let is_promotion = role == Role::Pawn && to.rank() == color.fold_wb(Rank::Eighth, Rank::First);
    let promotes = match said.promotion {
        None => false,
        Some(Role::Pawn | Role::King) => return None,
        Some(Role::Knight | Role::Bishop | Role::Rook | Role::Queen) => true,
    };
    let mut from = reach.into_iter().filter(|from| fits(said, role, *from));
    let (from, None) = (from.next()?, from.next()) else {
        return None;
    };
    let king = board.king_of(color)?;
    let is_sound = is_promotion == promotes && leaves_king_safe(from, to, king, position);
    is_sound.then_some(Move::Normal {
        role,
        from,
        capture: board.role_at(to),
        to,
        promotion: said.promotion,
    })
}

/// Returns the pawns of the side to move that could go to a square, if their king were safe; `None` where
/// one could come there en passant.
fn pawns_that_reach(to: Square, position: &Chess) -> Option<Bitboard> {
    let (color, board) = (position.turn(), position.board());
    let pawns = position.our(Role::Pawn);
    if board.occupied().contains(to) {
        return Some(attacks::pawn_attacks(!color, to) & pawns);
    }
    if position.maybe_ep_square() == Some(to) {
        return None;
    }
    let back = color.fold_wb(-8, 8);
    let Some(one) = to.offset(back) else {
        return Some(Bitboard::EMPTY);
    };
    let is_double = to.rank() == color.fold_wb(Rank::Fourth, Rank::Fifth);
    let from = match one.offset(back) {
        Some(two) if is_double && !board.occupied().contains(one) => two,
        _ => one,
    };
    Some(pawns & Bitboard::from_square(from))
}

/// Tells whether the king of the side to move stands safe after a man has gone from one square to the other.
fn leaves_king_safe(from: Square, to: Square, king: Square, position: &Chess) -> bool {
    let (color, board) = (position.turn(), position.board());
    let occupied = board.occupied().without(from).with(to);
    let king = if from == king { to } else { king };
    let attackers = board.attacks_to(king, !color, occupied);
    // Who stands there is captured.
    attackers.without(to).is_empty()
}

/// Tells whether a move from `from` is one that the text can mean.
fn fits(said: Said, role: Role, from: Square) -> bool {
    said.file.is_none_or(|file| file == from.file())
        && said.rank.is_none_or(|rank| rank == from.rank())
        // A pawn's capture is told from its step by the file, or by the x alone.
        && (role != Role::Pawn
            || said.file.is_some()
            || said.capture == (from.file() != said.to.file()))
}

/// Returns the wing when the text names the king's way in castling.
fn castling_wing(said: Said, position: &Chess, mode: CastlingMode) -> Option<CastlingSide> {
    let king = said.from()?;
    let to = said.to;
    let own_rook = position.board().by_color(position.turn()).contains(to)
        && position.board().role_at(to) == Some(Role::Rook);
    let home_rank = position.turn().fold_wb(Rank::First, Rank::Eighth);
    let goes = king.rank() == home_rank
        && to.rank() == home_rank
        && position.our(Role::King).contains(king)
        && match mode {
            CastlingMode::Standard => king.file() == File::E && king.distance(to) == 2,
            CastlingMode::Chess960 => {
                own_rook || (king.distance(to) > 1 && matches!(to.file(), File::C | File::G))
            }
        };
    goes.then(|| CastlingSide::from_king_side(king.file() < to.file()))
}

fn why_not(said: Said, role: Role, position: &Chess, color: Color) -> MoveFault {
    let to = said.to;
    let board = position.board();
    let men = board.by_piece(role.of(color));
    let named: Vec<Square> = men
        .into_iter()
        .filter(|from| said.file.is_none_or(|file| file == from.file()))
        .filter(|from| said.rank.is_none_or(|rank| rank == from.rank()))
        .collect();
    if named.is_empty() {
        return MoveFault::NoSuchMan { color, role };
    }
    let reaches = |from: &Square| {
        let occupied = board.occupied();
        let captures = attacks::attacks(*from, role.of(color), occupied).contains(to)
            && !board.by_color(color).contains(to);
        if role != Role::Pawn {
            return captures;
        }
        let steps = from.file() == to.file()
            && !occupied.contains(to)
            && (attacks::between(*from, to) & occupied).is_empty()
            && pawn_steps(color, *from, to);
        steps || (captures && occupied.contains(to))
    };
    if named.iter().any(reaches) {
        MoveFault::KingInCheck { color, role, to }
    } else {
        MoveFault::CannotGo { color, role, to }
    }
}

fn pawn_steps(color: Color, from: Square, to: Square) -> bool {
    let rank = |square: Square| square.rank().to_u32();
    let (from_rank, to_rank) =
        color.fold_wb((rank(from), rank(to)), (7 - rank(from), 7 - rank(to)));
    to_rank == from_rank + 1 || (from_rank == 1 && to_rank == 3)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A walk of legal moves that depends on `seed` alone, and every square asked for every role on it, and
    /// for pawns from every file.
    #[test]
    fn the_quick_way_finds_the_only_legal_move_or_leaves_it_to_the_rules() {
        let (mut quick, mut left) = (0, 0);
        for seed in 1..40_u64 {
            let mut position = Chess::default();
            let mut chance = seed.wrapping_mul(0x9e37_79b9_7f4a_7c15);
            for _ in 0..120 {
                for (said, role) in every_wording() {
                    let candidates = position.san_candidates(role, said.to);
                    let mut legal = candidates.into_iter().filter(|mv| {
                        mv.promotion() == said.promotion
                            && mv.from().is_some_and(|from| fits(said, role, from))
                    });
                    let only = legal.next().filter(|_| legal.next().is_none());
                    match only_one(said, role, &position) {
                        Some(mv) => {
                            quick += 1;
                            assert_eq!(only, Some(mv), "{position:?} {said:?}");
                        }
                        None => left += usize::from(only.is_some()),
                    }
                }
                let moves = position.legal_moves();
                if moves.is_empty() {
                    break;
                }
                chance ^= chance << 13;
                chance ^= chance >> 7;
                chance ^= chance << 17;
                let pick = usize::try_from(chance % moves.len() as u64).unwrap();
                position.play_unchecked(moves[pick]);
            }
        }
        // Left to the rules are those where a pinned man reaches the square too, and en passant.
        assert!(quick > 50_000 && left * 20 < quick, "{quick} {left}");
    }

    fn every_wording() -> impl Iterator<Item = (Said, Role)> {
        let of_role = |role| {
            let files = if role == Role::Pawn {
                &File::ALL[..]
            } else {
                &[]
            };
            let files = files.iter().map(|file| Some(*file)).chain([None]);
            let promotions = [None, Some(Role::Queen), Some(Role::Knight)];
            let promotions = if role == Role::Pawn {
                &promotions[..]
            } else {
                &promotions[..1]
            };
            files
                .flat_map(move |file| {
                    promotions.iter().flat_map(move |promotion| {
                        Square::ALL.into_iter().map(move |to| Said {
                            role: Some(role),
                            file,
                            rank: None,
                            to,
                            capture: file.is_some_and(|file| file != to.file()),
                            promotion: *promotion,
                        })
                    })
                })
                .map(move |said| (said, role))
                .collect::<Vec<_>>()
        };
        Role::ALL.into_iter().flat_map(of_role)
    }
}
