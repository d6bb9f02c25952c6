//! Boards and the pieces on them: drawn for those who look, listed in words for the others.

use serde::Deserialize;
use shakmaty::{
    Bitboard, Board, CastlingSide, Color, EnPassantMode, File, Position, Rank, Role, Square,
};

use super::naming::{list, role, roles, side, wing};
use crate::game::Start;

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

/// Lists the pieces on a board, a line for each side or each rank: "Rank 2. White: king e2, pawns a2 b2.
/// Black: rook h2."
pub(super) fn pieces_listed(board: &Board, list: List) -> Vec<String> {
    if list == List::Piece {
        return pieces(board);
    }
    let ranks = Rank::ALL.into_iter().rev();
    let told = ranks.map(|rank| {
        let row = Bitboard::from_rank(rank);
        let sides = Color::ALL.map(|color| pieces_of(board, color, row));
        let sides: Vec<String> = sides.into_iter().flatten().collect();
        (!sides.is_empty()).then(|| format!("Rank {}. {}", rank.char(), sides.join(" ")))
    });
    told.flatten().collect()
}

/// Says what the pieces do not show: who may still castle, by which rules, and which pawn could be taken en passant.
pub(super) fn beside_the_pieces(start: &Start) -> Vec<String> {
    let position = start.position();
    let (castles, turn) = (position.castles(), position.turn());
    let rights = Color::ALL.into_iter().filter_map(|color| {
        let wings = CastlingSide::ALL.into_iter();
        let wings = list(wings.filter(|on| castles.has(color, *on)).map(wing));
        let side = side(color);
        (!wings.is_empty()).then(|| format!("{side} still has the right to castle {wings}."))
    });
    let are_others = start.mode().is_chess960() && castles.any();
    let rules = are_others.then(|| "The rules are those of Chess960.".to_owned());
    let passed = position.ep_square(EnPassantMode::PseudoLegal);
    let passed = passed.map(|square| {
        let [from, to] = turn.fold_wb([Rank::Seventh, Rank::Fifth], [Rank::Second, Rank::Fourth]);
        let [from, to] = [from, to].map(|rank| Square::from_coords(square.file(), rank));
        format!(
            "The last move was {}'s pawn from {from} to {to}.",
            side(!turn)
        )
    });
    rules.into_iter().chain(rights).chain(passed).collect()
}

/// Lists White's pieces and Black's, a line each: "White: king g1, rooks a1 f1, pawns a2 b2."
pub fn pieces(board: &Board) -> Vec<String> {
    let told = Color::ALL.map(|color| {
        pieces_of(board, color, Bitboard::FULL)
            .unwrap_or_else(|| format!("{}: no pieces.", side(color)))
    });
    told.into()
}

/// Lists a side's pieces on some squares, the king first, the pawns last; `None` where there is none.
fn pieces_of(board: &Board, color: Color, among: Bitboard) -> Option<String> {
    let groups = Role::ALL.into_iter().rev().filter_map(|kind| {
        let squares = board.by_piece(kind.of(color)) & among;
        let name = match squares.count() {
            0 => return None,
            1 => role(kind).to_owned(),
            _ => roles(kind),
        };
        let squares: Vec<String> = squares.into_iter().map(|at| at.to_string()).collect();
        Some(format!("{name} {}", squares.join(" ")))
    });
    let groups: Vec<String> = groups.collect();
    (!groups.is_empty()).then(|| format!("{}: {}.", side(color), groups.join(", ")))
}

/// Returns the squares as `view` sees them: rows from the top down, each from the left.
pub(crate) fn rows(view: Color) -> [[Square; 8]; 8] {
    let mut ranks = Rank::ALL;
    ranks.reverse();
    ranks.map(|rank| {
        File::ALL.map(|file| {
            let square = Square::from_coords(file, rank);
            view.fold_wb(square, square.rotate_180())
        })
    })
}

/// Draws a board as `view` sees it, top row first, with the ranks' numbers at the left and the files'
/// letters below. Nine rows.
pub(super) fn drawn(
    view: Color,
    margin: &str,
    cell: impl Fn(Square) -> String,
    letter: impl Fn(char) -> String,
) -> Vec<String> {
    let rows = rows(view);
    let line = |name: char, cells: [String; 8]| {
        let line = format!("{name}{margin}{}", cells.concat());
        line.trim_end().to_owned()
    };
    let ranks = rows.map(|row| line(row[0].rank().char(), row.map(&cell)));
    let files = line(' ', rows[7].map(|square| letter(square.file().char())));
    ranks.into_iter().chain([files]).collect()
}

/// Draws the board as `view` sees it, top row first: capital letters are White's pieces, small letters
/// Black's, a dark square has colons around it. Eight rows of at most 27 columns, file letters below.
///
/// The near corner on each player's right is light (FIDE 2.1).
pub(crate) fn diagram(board: &Board, view: Color) -> Vec<String> {
    let cell = |square: Square| {
        let piece = board.piece_at(square).map_or(' ', shakmaty::Piece::char);
        let edge = if square.is_dark() { ':' } else { ' ' };
        format!("{edge}{piece}{edge}")
    };
    drawn(view, "  ", cell, |letter| format!(" {letter} "))
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
    fn one_piece_is_told_in_the_singular_and_none_is_told_as_none() {
        let board = Board::from_ascii_board_fen(b"8/8/1KP5/3R4/8/8/8/R7").unwrap();
        assert_eq!(
            pieces(&board),
            ["White: king b6, rooks a1 d5, pawn c6.", "Black: no pieces."]
        );
    }

    #[test]
    fn white_sees_the_usual_array_from_rank_1_up() {
        assert_eq!(
            diagram(&Board::new(), Color::White),
            [
                "8   r :n: b :q: k :b: n :r:",
                "7  :p: p :p: p :p: p :p: p",
                "6     : :   : :   : :   : :",
                "5  : :   : :   : :   : :",
                "4     : :   : :   : :   : :",
                "3  : :   : :   : :   : :",
                "2   P :P: P :P: P :P: P :P:",
                "1  :R: N :B: Q :K: B :N: R",
                "    a  b  c  d  e  f  g  h",
            ]
        );
    }

    #[test]
    fn black_sees_the_usual_array_from_rank_8_down() {
        assert_eq!(
            diagram(&Board::new(), Color::Black),
            [
                "1   R :N: B :K: Q :B: N :R:",
                "2  :P: P :P: P :P: P :P: P",
                "3     : :   : :   : :   : :",
                "4  : :   : :   : :   : :",
                "5     : :   : :   : :   : :",
                "6  : :   : :   : :   : :",
                "7   p :p: p :p: p :p: p :p:",
                "8  :r: n :b: k :q: b :n: r",
                "    h  g  f  e  d  c  b  a",
            ]
        );
    }

    /// FIDE 2.1: the near corner square on each player's right is light, so h1 and a8 are light, a1
    /// and h8 dark.
    #[test]
    fn the_near_right_corner_is_light_from_both_sides() {
        let corners = Board::from_ascii_board_fen(b"r6n/8/8/8/8/8/8/R6N").unwrap();
        for (view, near_left, near_right) in [(Color::White, 'R', 'N'), (Color::Black, 'n', 'r')] {
            let rows = diagram(&corners, view);
            let near = &rows[7];
            assert!(near[1..].starts_with(&format!("  :{near_left}:")), "{near}");
            assert!(near.ends_with(&format!(": {near_right}")), "{near}");
        }
    }

    #[test]
    fn a_diagram_is_at_most_60_columns_wide() {
        for view in Color::ALL {
            for row in diagram(&Board::new(), view) {
                assert!(row.chars().count() <= 60);
            }
        }
    }
}
