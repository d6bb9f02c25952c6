//! The pieces on the board as a list in words, for those who do not look.

use serde::Deserialize;
use shakmaty::{Bitboard, Board, Color, Rank, Role};

use super::naming::{role, roles, side};

/// The order in which pieces are told: the king first, the pawns last.
const ORDER: [Role; 6] = [
    Role::King,
    Role::Queen,
    Role::Rook,
    Role::Bishop,
    Role::Knight,
    Role::Pawn,
];

/// How pieces are listed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum List {
    /// White's pieces and then Black's, each side's by its pieces.
    #[default]
    Piece,
    /// Rank by rank, from the eighth down to the first; ranks without pieces are left out.
    Rank,
}

/// Lists the pieces on a board, a line for each side or each rank.
#[must_use]
pub fn pieces_listed(board: &Board, list: List) -> Vec<String> {
    match list {
        List::Piece => pieces(board),
        List::Rank => pieces_by_rank(board),
    }
}

/// Lists the pieces rank by rank: "Rank 2. White: king e2, pawns a2 b2. Black: rook h2."
fn pieces_by_rank(board: &Board) -> Vec<String> {
    let mut ranks = Rank::ALL;
    ranks.reverse();
    ranks
        .into_iter()
        .filter_map(|rank| {
            let row = Bitboard::from_rank(rank);
            let sides: Vec<String> = Color::ALL
                .into_iter()
                .filter(|color| (board.by_color(*color) & row).any())
                .map(|color| format!("{}: {}.", side(color), pieces_of(board, color, row)))
                .collect();
            (!sides.is_empty()).then(|| format!("Rank {}. {}", rank.char(), sides.join(" ")))
        })
        .collect()
}

/// Lists White's pieces and Black's, a line each: "White: king g1, rooks a1 f1, pawns a2 b2."
#[must_use]
pub fn pieces(board: &Board) -> Vec<String> {
    Color::ALL
        .into_iter()
        .map(|color| {
            format!(
                "{}: {}.",
                side(color),
                pieces_of(board, color, Bitboard::FULL)
            )
        })
        .collect()
}

fn pieces_of(board: &Board, color: Color, among: Bitboard) -> String {
    let groups: Vec<String> = ORDER
        .into_iter()
        .filter_map(|kind| group(board.by_piece(kind.of(color)) & among, kind))
        .collect();
    if groups.is_empty() {
        return "no pieces".to_owned();
    }
    groups.join(", ")
}

fn group(pieces: Bitboard, kind: Role) -> Option<String> {
    let mut said = Vec::new();
    for square in pieces {
        said.push(square.to_string());
    }
    let name = match said.len() {
        0 => return None,
        1 => role(kind),
        _ => roles(kind),
    };
    Some(format!("{name} {}", said.join(" ")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_usual_array_is_told_king_first() {
        assert_eq!(
            pieces(&Board::new()),
            [
                "White: king e1, queen d1, rooks a1 h1, bishops c1 f1, knights b1 g1, \
                 pawns a2 b2 c2 d2 e2 f2 g2 h2.",
                "Black: king e8, queen d8, rooks a8 h8, bishops c8 f8, knights b8 g8, \
                 pawns a7 b7 c7 d7 e7 f7 g7 h7.",
            ]
        );
    }

    #[test]
    fn pieces_are_told_rank_by_rank_from_the_top() {
        let board = Board::from_ascii_board_fen(b"4k3/8/8/8/8/8/PP2K2r/8").unwrap();
        assert_eq!(
            pieces_listed(&board, List::Rank),
            [
                "Rank 8. Black: king e8.",
                "Rank 2. White: king e2, pawns a2 b2. Black: rook h2.",
            ]
        );
        assert_eq!(pieces_listed(&board, List::Piece), pieces(&board));
    }

    #[test]
    fn one_man_is_told_in_the_singular_and_no_piece_is_told_as_none() {
        let board = Board::from_ascii_board_fen(b"8/8/1KP5/3R4/8/8/8/R7").unwrap();
        assert_eq!(
            pieces(&board),
            ["White: king b6, rooks a1 d5, pawn c6.", "Black: no pieces."]
        );
    }
}
