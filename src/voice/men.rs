//! The men on the board as a list in words, for those who do not look.

use shakmaty::{Board, Color, Role};

use super::naming::{role, roles, side};

/// The order in which men are told: the king first, the pawns last.
const ORDER: [Role; 6] = [
    Role::King,
    Role::Queen,
    Role::Rook,
    Role::Bishop,
    Role::Knight,
    Role::Pawn,
];

/// Lists White's men and Black's, a line each: "White: king g1, rooks a1 f1, pawns a2 b2."
#[must_use]
pub fn men(board: &Board) -> Vec<String> {
    Color::ALL
        .into_iter()
        .map(|color| format!("{}: {}.", side(color), men_of(board, color)))
        .collect()
}

fn men_of(board: &Board, color: Color) -> String {
    let groups: Vec<String> = ORDER
        .into_iter()
        .filter_map(|kind| group(board, kind, color))
        .collect();
    if groups.is_empty() {
        return "no men".to_owned();
    }
    groups.join(", ")
}

fn group(board: &Board, kind: Role, color: Color) -> Option<String> {
    let mut said = Vec::new();
    for square in board.by_piece(kind.of(color)) {
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
            men(&Board::new()),
            [
                "White: king e1, queen d1, rooks a1 h1, bishops c1 f1, knights b1 g1, \
                 pawns a2 b2 c2 d2 e2 f2 g2 h2.",
                "Black: king e8, queen d8, rooks a8 h8, bishops c8 f8, knights b8 g8, \
                 pawns a7 b7 c7 d7 e7 f7 g7 h7.",
            ]
        );
    }

    #[test]
    fn one_man_is_told_in_the_singular_and_no_man_is_told_as_none() {
        let board = Board::from_ascii_board_fen(b"8/8/1KP5/3R4/8/8/8/R7").unwrap();
        assert_eq!(
            men(&board),
            ["White: king b6, rooks a1 d5, pawn c6.", "Black: no men."]
        );
    }
}
