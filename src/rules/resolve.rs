//! From a move's text and the position to the move, or to the squares that it must mean.

use shakmaty::san::San;
use shakmaty::{
    Bitboard, CastlingMode, CastlingSide, Chess, Color, File, Move, Piece, Position, Role, Square,
    attacks,
};

use super::attempt::Attempt;
use super::illegal::step_way;
use super::language::LetterSet;
use super::only_one;
use super::wording::{Said, Wording, wording};

/// Why a text is not a move of the position.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MoveFault {
    /// The text is no move in any way of writing that is known here.
    #[error("this is no move: write it as in Nf3, exd5, O-O or e8=Q")]
    Unreadable,
    /// No piece of the side to move that the text can mean exists.
    #[error("{} has no such {} there: look at the moves before", side_name(*color), role_name(*role))]
    NoSuchPiece {
        /// The side to move.
        color: Color,
        /// The piece that the text names.
        role: Role,
    },
    /// Such a piece exists, but it cannot go there.
    #[error("no {} of {} can go to {to}: look at the moves before", role_name(*role), side_name(*color))]
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
    #[error("{} cannot castle {} here", side_name(*color), wing_name(*wing))]
    CannotCastle {
        /// The side to move.
        color: Color,
        /// Where the king would go.
        wing: CastlingSide,
        /// Where the king stands.
        king: Square,
    },
    /// The king's way in castling is written as if it were another move.
    #[error("a king moves like that only in castling: write {}", San::Castle(*wing))]
    OnlyCastling {
        /// The wing on which castling is possible.
        wing: CastlingSide,
    },
    /// The text passes, and here nobody may.
    #[error("a side in check cannot pass")]
    Pass,
}

impl MoveFault {
    /// Tells whether the text leaves no doubt about what it says, so that it is an illegal move.
    pub const fn is_illegal(&self) -> bool {
        matches!(
            self,
            MoveFault::NoSuchPiece { .. }
                | MoveFault::CannotGo { .. }
                | MoveFault::CannotCastle { .. }
        )
    }
}

pub(crate) const fn wing_name(wing: CastlingSide) -> &'static str {
    match wing {
        CastlingSide::KingSide => "short",
        CastlingSide::QueenSide => "long",
    }
}

pub(crate) const fn side_name(color: Color) -> &'static str {
    match color {
        Color::White => "White",
        Color::Black => "Black",
    }
}

pub(crate) const fn role_name(role: Role) -> &'static str {
    match role {
        Role::Pawn => "pawn",
        Role::Knight => "knight",
        Role::Bishop => "bishop",
        Role::Rook => "rook",
        Role::Queen => "queen",
        Role::King => "king",
    }
}

/// Returns the letter with which a move names a piece; a pawn has none.
pub(crate) fn role_letter(role: Role) -> String {
    match role {
        Role::Pawn => String::new(),
        role => role.upper_char().to_string(),
    }
}

/// Reads one move in a position, as people write it: standard algebraic notation with or without
/// its marks, long algebraic, UCI, figurines, zeros for castling. In Chess960 a king that
/// takes its own rook castles; the king's move of two squares or more castles in both.
///
/// A small `b` means the file, and the bishop only where no pawn's move is legal.
///
/// # Errors
///
/// [`MoveFault`] when the text is no move or not one legal move.
pub fn resolve_move(text: &str, position: &Chess) -> Result<Move, MoveFault> {
    match wording(text.trim(), LetterSet::ENGLISH) {
        None | Some(Wording::Null) => Err(MoveFault::Unreadable),
        Some(said) => resolve(said, position),
    }
}

/// Finds the move that a text means in a position. Nobody passes here.
#[inline]
pub(crate) fn resolve(said: Wording, position: &Chess) -> Result<Move, MoveFault> {
    match said {
        Wording::Null => Err(MoveFault::Pass),
        Wording::Castle(wing) => castle(position, wing),
        Wording::Piece(said) => piece(said, position).or_else(|fault| {
            let bishop = said.as_bishop();
            let found = bishop.and_then(|said| piece(said, position).ok());
            found.ok_or(fault)
        }),
    }
}

fn castle(position: &Chess, wing: CastlingSide) -> Result<Move, MoveFault> {
    let castles = position.castling_moves(wing).first().copied();
    let color = position.turn();
    let king = position.board().king_of(color);
    let king = king.expect("each side has its king");
    castles.ok_or(MoveFault::CannotCastle { color, wing, king })
}

#[inline]
fn piece(said: Said, position: &Chess) -> Result<Move, MoveFault> {
    let color = position.turn();
    let board = position.board();
    let standing = || board.role_at(said.from()?);
    let role = said.role.or_else(standing).unwrap_or(Role::Pawn);
    if let Some(mv) = only_one::find(said, role, position) {
        return Ok(mv);
    }
    let mut candidates = position.san_candidates(role, said.to);
    candidates.retain(|mv| mv.from().is_some_and(|from| said.fits(role, from)));
    let mut promoted = candidates
        .iter()
        .filter(|mv| mv.promotion() == said.promotion);
    match (promoted.next(), promoted.next()) {
        (None, _) => {}
        (Some(mv), None) => return Ok(*mv),
        (Some(one), Some(other)) => {
            let [one, other] = [one, other].map(|mv| mv.from().unwrap_or(said.to));
            return Err(MoveFault::Ambiguous { one, other });
        }
    }
    match (candidates.first(), said.promotion) {
        (Some(_), None) => return Err(MoveFault::NoPromotion { to: said.to }),
        (Some(mv), Some(_)) if mv.promotion().is_none() => {
            return Err(MoveFault::NeedlessPromotion);
        }
        _ => {}
    }
    if role == Role::King
        && let Some(king) = said.from().or(board.king_of(color))
        && let Some(wing) = castling_wing(king, said.to, position)
    {
        return match castle(position, wing) {
            Ok(_) if said.from().is_none() => Err(MoveFault::OnlyCastling { wing }),
            castles => castles,
        };
    }
    let mut of_role = board.by_piece(role.of(color)).into_iter();
    Err(if of_role.any(|from| said.may_leave(from)) {
        let to = said.to;
        MoveFault::CannotGo { color, role, to }
    } else {
        MoveFault::NoSuchPiece { color, role }
    })
}

/// Returns the wing when a king goes so in castling.
fn castling_wing(king: Square, to: Square, position: &Chess) -> Option<CastlingSide> {
    let own_rook = position.our(Role::Rook).contains(to);
    let home_rank = position.turn().backrank();
    let goes = [king.rank(), to.rank()] == [home_rank; 2]
        && position.our(Role::King).contains(king)
        && match position.castles().mode() {
            CastlingMode::Standard => king.file() == File::E && king.distance(to) == 2,
            CastlingMode::Chess960 => {
                own_rook || (king.distance(to) > 1 && matches!(to.file(), File::C | File::G))
            }
        };
    goes.then(|| CastlingSide::from_king_side(king.file() < to.file()))
}

/// Finds the squares that a text means in a position. `None` where the text is no move, or where
/// several pieces of the side to move could be meant, or none.
pub fn squares_meant(text: &str, position: &Chess) -> Option<Attempt> {
    meant(wording(text.trim(), LetterSet::ENGLISH)?, position)
}

/// Does the same for a text that has been taken apart.
pub(crate) fn meant(said: Wording, position: &Chess) -> Option<Attempt> {
    match said {
        Wording::Null => None,
        Wording::Castle(wing) => castling(position, wing),
        Wording::Piece(said) => {
            let from = match said.from() {
                Some(from) => from,
                None => only_piece(said, position)?,
            };
            // Another piece may stand there than the text says.
            let standing = position.board().role_at(from);
            let agrees = said.role.is_none() || standing.is_none() || standing == said.role;
            agrees.then_some(Attempt {
                from,
                to: said.to,
                promotion: said.promotion,
            })
        }
    }
}

/// Castling as a question names it: in standard chess the king's move of two squares, in Chess960 onto
/// its rook. That rook may be gone with the right, and then nobody can tell which one was meant.
fn castling(position: &Chess, wing: CastlingSide) -> Option<Attempt> {
    let color = position.turn();
    let (from, to) = match position.castles().mode() {
        CastlingMode::Standard => {
            let home = color.fold_wb(Square::E1, Square::E8);
            let king = position.our(Role::King).contains(home);
            (king.then_some(home)?, wing.king_to(color))
        }
        CastlingMode::Chess960 => {
            let king = position.board().king_of(color)?;
            (king, position.castles().rook(color, wing)?)
        }
    };
    Some(Attempt {
        from,
        to,
        promotion: None,
    })
}

/// The one piece that the text can mean: the only one that it names, else the only one of them that sees
/// the square, else the only one whose way leads there over an empty board. So the bishop of the other
/// color is never meant, and a pawn's step is never taken for a capture.
fn only_piece(said: Said, position: &Chess) -> Option<Square> {
    let role = said.role.unwrap_or(Role::Pawn);
    let color = position.turn();
    let board = position.board();
    let named: Vec<Square> = (board.by_piece(role.of(color)).into_iter())
        .filter(|from| said.fits(role, *from))
        .collect();
    let reach = |occupied: Bitboard| {
        let reaches = |from: &Square| sees(role.of(color), *from, said.to, occupied);
        only(named.iter().copied().filter(reaches))
    };
    only(named.iter().copied())
        .or_else(|| reach(board.occupied()))
        .or_else(|| reach(Bitboard::EMPTY))
}

/// Tells whether a way of the piece leads from a square to another, over those that are not occupied; a pawn's
/// capture too, whether there is something to take or not.
pub(crate) fn sees(piece: Piece, from: Square, to: Square, occupied: Bitboard) -> bool {
    if piece.role != Role::Pawn || from.file() != to.file() {
        return attacks::attacks(from, piece, occupied).contains(to);
    }
    step_way(piece.color, from, to).is_some_and(|way| (way & occupied).is_empty())
}

fn only(mut pieces: impl Iterator<Item = Square>) -> Option<Square> {
    let piece = pieces.next()?;
    pieces.next().is_none().then_some(piece)
}

#[cfg(test)]
mod tests {
    use shakmaty::fen::Fen;

    use super::*;

    fn meant(fen: &str, text: &str) -> Option<String> {
        let position: Fen = fen.parse().unwrap();
        let position: Chess = position.into_position(CastlingMode::Standard).unwrap();
        squares_meant(text, &position).map(|meant| format!("{}{}", meant.from, meant.to))
    }

    #[test]
    fn a_text_means_the_squares_that_it_names_or_the_only_piece_that_it_can_mean() {
        let start = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1";
        let table = [
            ("e2e5", Some("e2e5")),
            ("Qd3", Some("d1d3")),
            ("O-O", Some("e1g1")),
            ("e5", Some("e2e5")),
            ("exd3", Some("e2d3")),
            ("Rd4", None),
            ("Ra3", Some("a1a3")),
            ("Bc4", Some("f1c4")),
            ("Bb2", Some("c1b2")),
            ("Nd5", None),
            ("Rha3", Some("h1a3")),
            ("what", None),
        ];
        for (text, squares) in table {
            assert_eq!(meant(start, text).as_deref(), squares, "{text}");
        }
        let two_rooks = "4k3/8/8/8/8/8/3r4/R3K2R w KQ - 0 1";
        assert_eq!(meant(two_rooks, "Ra8").as_deref(), Some("a1a8"));
    }
}
