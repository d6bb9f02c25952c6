//! From a move's text and the position to the move.

use shakmaty::{
    CastlingMode, CastlingSide, Chess, Color, File, Move, Position, Rank, Role, Square,
};

use super::letters::LetterSet;
use super::only_one;
use super::wording::{Said, Wording, wording};

/// Why a text is not a move of the position.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MoveFault {
    /// The text is no move in any way of writing that is known here.
    #[error("this is no move: write it as in Nf3, exd5, O-O or e8=Q")]
    Unreadable,
    /// No piece of the side to move that the text can mean exists.
    #[error("{} has no such {} there: look at the moves before", side(*color), name(*role))]
    NoSuchMan {
        /// The side to move.
        color: Color,
        /// The piece that the text names.
        role: Role,
    },
    /// Such a piece exists, but it cannot go there.
    #[error("no {} of {} can go to {to}: look at the moves before", name(*role), side(*color))]
    CannotGo {
        /// The side to move.
        color: Color,
        /// The piece that the text names.
        role: Role,
        /// Where it should go.
        to: Square,
    },
    /// Two pieces can make the move.
    #[error("two pieces can do that, from {one} and from {other}: write which")]
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
    /// The king's way in castling is written as if it were another move.
    #[error("a king moves like that only in castling: write {}", match wing {
        CastlingSide::KingSide => "O-O",
        CastlingSide::QueenSide => "O-O-O",
    })]
    OnlyCastling {
        /// The wing on which castling is possible.
        wing: CastlingSide,
    },
    /// The text passes, and here nobody may.
    #[error("a side in check cannot pass")]
    Pass,
}

pub(crate) const fn side(color: Color) -> &'static str {
    match color {
        Color::White => "White",
        Color::Black => "Black",
    }
}

pub(crate) const fn name(role: Role) -> &'static str {
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
pub(crate) struct Resolved {
    pub(crate) mv: Move,
    pub(crate) small_bishop: bool,
}

/// Finds the move that a text means in a position. Nobody passes here.
pub(crate) fn resolve(
    said: Wording,
    position: &Chess,
    mode: CastlingMode,
) -> Result<Resolved, MoveFault> {
    let mv = match said {
        Wording::Null => Err(MoveFault::Pass),
        Wording::Castle(wing) => castle(position, wing),
        Wording::Piece(said) => match piece(said, position, mode) {
            Err(fault) => {
                let bishop = said
                    .as_bishop()
                    .and_then(|said| piece(said, position, mode).ok());
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

fn piece(said: Said, position: &Chess, mode: CastlingMode) -> Result<Move, MoveFault> {
    let color = position.turn();
    let board = position.board();
    let role = match (said.role, said.from()) {
        (Some(role), _) => role,
        (None, Some(from)) => board.role_at(from).unwrap_or(Role::Pawn),
        (None, None) => Role::Pawn,
    };
    if let Some(mv) = only_one::find(said, role, position) {
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
        && let Some(king) = said.from().or(board.king_of(color))
        && let Some(wing) = castling_wing(king, said.to, position, mode)
    {
        let castles = castle(position, wing);
        return match castles {
            Ok(_) if said.from().is_none() => Err(MoveFault::OnlyCastling { wing }),
            castles => castles,
        };
    }
    Err(why_not(said, role, position, color))
}

/// Tells whether a move from `from` is one that the text can mean.
pub(super) fn fits(said: Said, role: Role, from: Square) -> bool {
    said.file.is_none_or(|file| file == from.file())
        && said.rank.is_none_or(|rank| rank == from.rank())
        // A pawn's capture is told from its step by the file, or by the x alone.
        && (role != Role::Pawn
            || said.file.is_some()
            || said.capture == (from.file() != said.to.file()))
}

/// Returns the wing when a king goes so in castling.
fn castling_wing(
    king: Square,
    to: Square,
    position: &Chess,
    mode: CastlingMode,
) -> Option<CastlingSide> {
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
    let of_role = position.board().by_piece(role.of(color));
    let is_named = |from: Square| {
        said.file.is_none_or(|file| file == from.file())
            && said.rank.is_none_or(|rank| rank == from.rank())
    };
    if of_role.into_iter().any(is_named) {
        let to = said.to;
        MoveFault::CannotGo { color, role, to }
    } else {
        MoveFault::NoSuchMan { color, role }
    }
}
