//! Whether a fully named move is legal, and if not, the one reason why.

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use shakmaty::{
    Bitboard, CastlingMode, CastlingSide, Chess, Color, File, MoveList, Piece, Position, Rank,
    Role, Square, attacks,
};

use strum::{EnumCount, VariantArray};

use super::attempt::Attempt;
use super::past::Past;
use crate::board::Pair;

/// Why a move is illegal: the first reason of the list that applies, and the square to blame.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Illegal {
    /// The reason.
    pub reason: Reason,
    /// The square of the piece to blame, where the reason has one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[serde(serialize_with = "to_name", deserialize_with = "of_name")]
    pub by: Option<Square>,
}

/// The reasons that a move can be illegal for, in the order in which they are tried.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, EnumCount, VariantArray,
)]
#[serde(rename_all = "kebab-case")]
pub enum Reason {
    /// Nothing stands on the from-square.
    EmptySquare,
    /// The piece there is not of the side to move.
    WrongSide,
    /// Castling: the right is gone, or never was (FIDE 3.8.2.1).
    CastlingRightLost,
    /// A piece stands in the way; for castling, in the way of king or rook (FIDE 3.5, 3.7, 3.8.2.2).
    Blocked,
    /// Castling: the king is attacked (FIDE 3.8.2.2).
    CastlingInCheck,
    /// Castling: a square that the king crosses or reaches is attacked (FIDE 3.8.2.2).
    CastlingThroughAttack,
    /// A piece of the mover's own side holds the to-square (FIDE 3.1).
    #[serde(rename = "own-man-there")]
    OwnPieceThere,
    /// The pawn beside made its double step before the last ply (FIDE 3.7.3.2).
    EnPassantExpired,
    /// On no board could that piece go so (FIDE 3.2 to 3.8).
    NotItsWay,
    /// The piece shields its king from a line piece and leaves that line (FIDE 3.9.2).
    Pinned,
    /// En passant takes two pieces off a line to the king (FIDE 3.9.2).
    UncoversCheck,
    /// The king goes where an enemy piece would attack it (FIDE 3.9.2).
    StepsIntoCheck,
    /// The king is in check and the move does not meet it (FIDE 3.9.2).
    StaysInCheck,
}

impl Reason {
    /// Every reason, in the order in which they are tried.
    pub const ALL: [Reason; Reason::COUNT] = *Reason::VARIANTS.as_array().unwrap();
}

/// Judges moves in one position; it knows the legal ones beforehand.
pub struct Judge<'a> {
    position: &'a Chess,
    past: Past,
    legal: MoveList,
}

impl<'a> Judge<'a> {
    /// Prepares to judge moves in `position`, which `past` led to.
    pub fn new(position: &'a Chess, past: Past) -> Judge<'a> {
        Judge {
            position,
            past,
            legal: position.legal_moves(),
        }
    }

    /// Returns the legal moves, named as questions name them.
    pub fn legal(&self) -> impl Iterator<Item = Attempt> {
        let legal = self.legal.iter();
        legal.map(|mv| Attempt::of(*mv, self.position))
    }

    /// Returns why the move is illegal, or `None` when it is legal.
    pub fn illegal(&self, attempt: Attempt) -> Option<Illegal> {
        if self.legal().any(|legal| legal == attempt) {
            return None;
        }
        let (reason, by) = self.fault(attempt);
        Some(Illegal { reason, by })
    }

    /// The reasons in the order of the list; the move is known to be illegal.
    fn fault(&self, attempt: Attempt) -> (Reason, Option<Square>) {
        let Attempt { from, to, .. } = attempt;
        let board = self.position.board();
        let Some(piece) = board.piece_at(from) else {
            return (Reason::EmptySquare, None);
        };
        if piece.color != self.position.turn() {
            return (Reason::WrongSide, None);
        }
        if let Some(wing) = self.castling_wing(from, to, piece)
            && let Some(fault) = self.castling_fault(from, wing, to)
        {
            return fault;
        }
        if board.by_color(piece.color).contains(to) {
            return (Reason::OwnPieceThere, None);
        }
        if let Some(pawn) = self.expired_pawn(attempt, piece) {
            return (Reason::EnPassantExpired, Some(pawn));
        }
        if !self.could_go(attempt, piece) {
            return (Reason::NotItsWay, None);
        }
        if let Some(blocker) = blocker(piece, from, to, board.occupied()) {
            return (Reason::Blocked, Some(blocker));
        }
        if let Some(pinner) = self.pinner(from, to, piece) {
            return (Reason::Pinned, Some(pinner));
        }
        self.king_left_attacked(attempt, piece)
    }

    /// Tells on which wing the king tries to castle, if that is what it tries.
    fn castling_wing(&self, from: Square, to: Square, piece: Piece) -> Option<CastlingSide> {
        let sideways = from.rank() == to.rank();
        if piece.role != Role::King || !sideways {
            return None;
        }
        let tries = match self.position.castles().mode() {
            CastlingMode::Standard => {
                from == Square::from_coords(File::E, piece.color.backrank())
                    && from.file().distance(to.file()) == 2
            }
            CastlingMode::Chess960 => {
                let own_rook =
                    self.position.board().piece_at(to) == Some(Role::Rook.of(piece.color));
                own_rook && *self.past.castling_homes.get(piece.color) == Some(from)
            }
        };
        tries.then(|| CastlingSide::from_king_side(to > from))
    }

    fn castling_fault(
        &self,
        king: Square,
        wing: CastlingSide,
        to: Square,
    ) -> Option<(Reason, Option<Square>)> {
        let side = self.position.turn();
        let castles = self.position.castles();
        let rook = castles
            .rook(side, wing)
            .filter(|rook| castles.mode().is_standard() || *rook == to);
        let Some(rook) = rook else {
            return Some((Reason::CastlingRightLost, None));
        };
        let occupied = self.position.board().occupied();
        if let Some(piece) = nearest(king, castles.path(side, wing) & occupied) {
            return Some((Reason::Blocked, Some(piece)));
        }
        if let Some(checker) = self.attackers(king, occupied).first() {
            return Some((Reason::CastlingInCheck, Some(checker)));
        }
        let arrival = wing.king_to(side);
        let without_king = occupied.without(king);
        let after = without_king.without(rook).with(wing.rook_to(side));
        let crossed = Pair::new(king, arrival).into_iter().flat_map(Pair::between);
        crossed
            .map(|square| (square, without_king))
            .chain([(arrival, without_king), (arrival, after)])
            .find_map(|(square, occupied)| self.attackers(square, occupied).first())
            .map(|attacker| (Reason::CastlingThroughAttack, Some(attacker)))
    }

    /// Returns the enemy pieces that attack `square` when `occupied` squares are held.
    fn attackers(&self, square: Square, occupied: Bitboard) -> Bitboard {
        let enemy = !self.position.turn();
        self.position.board().attacks_to(square, enemy, occupied) & occupied
    }

    /// Finds the pawn that could have been taken en passant, had it been done at once.
    fn expired_pawn(&self, attempt: Attempt, piece: Piece) -> Option<Square> {
        let Attempt { from, to, .. } = attempt;
        let diagonal = attacks::pawn_attacks(piece.color, from).contains(to);
        if piece.role != Role::Pawn || !diagonal || self.position.board().role_at(to).is_some() {
            return None;
        }
        let beside = Square::from_coords(to.file(), from.rank());
        let enemy = self.position.board().piece_at(beside)? == Role::Pawn.of(!piece.color);
        let came_last = self.position.maybe_ep_square() == Some(to);
        (enemy && !came_last && self.past.double_steps.contains(beside)).then_some(beside)
    }

    /// Tells whether the piece could go so on some board: shape, direction, victim, promotion.
    fn could_go(&self, attempt: Attempt, piece: Piece) -> bool {
        let Attempt {
            from,
            to,
            promotion,
        } = attempt;
        if piece.role != Role::Pawn {
            return promotion.is_none()
                && attacks::attacks(from, piece, Bitboard::EMPTY).contains(to);
        }
        let promotes = to.rank() == piece.color.relative_rank(Rank::Eighth);
        let fit = match promotion {
            Some(role) => promotes && role != Role::Pawn && role != Role::King,
            None => !promotes,
        };
        fit && if attacks::pawn_attacks(piece.color, from).contains(to) {
            self.position.board().by_color(!piece.color).contains(to)
                || self.position.maybe_ep_square() == Some(to)
        } else {
            step_way(piece.color, from, to).is_some()
        }
    }

    /// Finds the line piece that holds the piece to the line to its king.
    fn pinner(&self, from: Square, to: Square, piece: Piece) -> Option<Square> {
        if piece.role == Role::King {
            return None;
        }
        let (line_piece, king) = pin(self.position, from)?;
        let line = attacks::between(king, line_piece).with(line_piece);
        (!line.contains(to)).then_some(line_piece)
    }

    /// All that is left: the piece could go so, and after the move the king would be attacked.
    fn king_left_attacked(&self, attempt: Attempt, piece: Piece) -> (Reason, Option<Square>) {
        let Attempt { from, to, .. } = attempt;
        let mut after = self.position.board().clone();
        let takes = piece.role == Role::Pawn && from.file() != to.file();
        let en_passant = takes && after.role_at(to).is_none();
        after.discard_piece_at(from);
        if en_passant {
            after.discard_piece_at(Square::from_coords(to.file(), from.rank()));
        }
        after.set_piece_at(to, piece);
        let king = after.king_of(piece.color).expect("each side has its king");
        let attackers = after.attacks_to(king, !piece.color, after.occupied());
        let uncovered = attackers & !self.position.checkers();
        if piece.role == Role::King {
            (Reason::StepsIntoCheck, attackers.first())
        } else if en_passant && uncovered.any() {
            (Reason::UncoversCheck, uncovered.first())
        } else {
            (Reason::StaysInCheck, attackers.first())
        }
    }
}

/// Tells whether the piece on `square` shields its king from a line piece.
pub fn pinned(position: &Chess, square: Square) -> bool {
    pin(position, square).is_some()
}

/// Finds the line piece that pins the piece on `square` to its king, and that king's square.
pub fn pin(position: &Chess, square: Square) -> Option<(Square, Square)> {
    let board = position.board();
    let side = board.color_at(square)?;
    let king = board.king_of(side).filter(|king| *king != square)?;
    let without = board.occupied().without(square);
    let seen = board.attacks_to(king, !side, without) & board.sliders();
    seen.into_iter()
        .find(|line_piece| attacks::between(king, *line_piece).contains(square))
        .map(|line_piece| (line_piece, king))
}

/// Finds the piece that stops a piece's way, nearest to where it stands. The way is known to be one that
/// it could go, and no piece of its own side holds the end of it.
fn blocker(piece: Piece, from: Square, to: Square, occupied: Bitboard) -> Option<Square> {
    let step = step_way(piece.color, from, to).filter(|_| piece.role == Role::Pawn);
    let way = step.unwrap_or_else(|| attacks::between(from, to));
    nearest(from, way & occupied)
}

/// Finds the nearest of some squares; of two, the first in the order a1, b1, … h8.
fn nearest(from: Square, squares: Bitboard) -> Option<Square> {
    squares
        .into_iter()
        .min_by_key(|square| square.distance(from))
}

/// Returns the squares that must be empty for a pawn's step of one or two squares, or `None` where a step
/// leads elsewhere.
pub(super) fn step_way(side: Color, from: Square, to: Square) -> Option<Bitboard> {
    let ahead = side.fold_wb(8, -8);
    let one = from.offset(ahead)?;
    let is_double =
        from.rank() == side.relative_rank(Rank::Second) && one.offset(ahead) == Some(to);
    (one == to || is_double).then(|| Bitboard::from(one).with(to))
}

/// Writes a square by its name, or nothing.
#[expect(
    clippy::ref_option,
    clippy::trivially_copy_pass_by_ref,
    reason = "serde hands every field over by reference"
)]
fn to_name<S: Serializer>(square: &Option<Square>, to: S) -> Result<S::Ok, S::Error> {
    square.map(|square| square.to_string()).serialize(to)
}

/// Reads a square by its name, or nothing.
fn of_name<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Square>, D::Error> {
    let name = Option::<String>::deserialize(from)?;
    let square = name.map(|name| name.parse()).transpose();
    square.map_err(de::Error::custom)
}
