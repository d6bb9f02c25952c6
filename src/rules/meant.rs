//! From a move's text to the squares that it must mean, whether or not the move is legal.

use shakmaty::{
    Bitboard, CastlingMode, CastlingSide, Chess, Piece, Position, Rank, Role, Square, attacks,
};

use super::Attempt;
use super::letters::LetterSet;
use super::resolve::fits;
use super::wording::{Said, Wording, wording};

/// Finds the squares that a text means in a position. `None` where the text is no move, or where
/// several pieces of the side to move could be meant, or none.
#[must_use]
pub fn squares_meant(text: &str, position: &Chess, mode: CastlingMode) -> Option<Attempt> {
    meant(wording(text.trim(), LetterSet::ENGLISH)?, position, mode)
}

/// Does the same for a text that has been taken apart.
pub(crate) fn meant(said: Wording, position: &Chess, mode: CastlingMode) -> Option<Attempt> {
    match said {
        Wording::Null => None,
        Wording::Castle(wing) => castling(position, wing, mode),
        Wording::Piece(said) => {
            let from = match said.from() {
                Some(from) => named(from, said, position)?,
                None => only_piece(said, position)?,
            };
            Some(Attempt {
                from,
                to: said.to,
                promotion: said.promotion,
            })
        }
    }
}

/// A from-square that is named, unless another piece stands there than the text says.
fn named(from: Square, said: Said, position: &Chess) -> Option<Square> {
    let standing = position.board().role_at(from);
    let agrees = said.role.is_none() || standing.is_none() || standing == said.role;
    agrees.then_some(from)
}

/// Castling as a question names it: in standard chess the king's move of two squares, in Chess960 onto
/// its rook. That rook may be gone with the right, and then nobody can tell which one was meant.
fn castling(position: &Chess, wing: CastlingSide, mode: CastlingMode) -> Option<Attempt> {
    let color = position.turn();
    let (from, to) = match mode {
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
        .filter(|from| fits(said, role, *from))
        .collect();
    let reach = |occupied: Bitboard| {
        let reaches = |from: &Square| sees(role.of(color), *from, said.to, occupied);
        only(named.iter().copied().filter(reaches))
    };
    only(named.iter().copied())
        .or_else(|| reach(board.occupied()))
        .or_else(|| reach(Bitboard::EMPTY))
}

/// Tells whether a way of the piece leads from a square to another, over those that are not occupied.
fn sees(piece: Piece, from: Square, to: Square, occupied: Bitboard) -> bool {
    if piece.role != Role::Pawn || from.file() != to.file() {
        return attacks::attacks(from, piece, occupied).contains(to);
    }
    let rank = |square: Square| piece.color.fold_wb(square, square.flip_vertical()).rank();
    let steps = i32::from(rank(to)) - i32::from(rank(from));
    let is_way = steps == 1 || steps == 2 && rank(from) == Rank::Second;
    is_way && (attacks::between(from, to).with(to) & occupied).is_empty()
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
        squares_meant(text, &position, CastlingMode::Standard)
            .map(|meant| format!("{}{}", meant.from, meant.to))
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
