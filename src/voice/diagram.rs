//! The board as text, for those who look.

use shakmaty::{Board, Color, File, Rank, Square};

/// Draws the board as `view` sees it, top row first: capital letters are White's pieces, small letters
/// Black's, a dark square has colons around it. Eight rows of at most 27 columns, file letters below.
///
/// The near corner on each player's right is light (FIDE 2.1).
#[must_use]
pub fn diagram(board: &Board, view: Color) -> Vec<String> {
    let mut files: Vec<File> = File::ALL.to_vec();
    let mut ranks: Vec<Rank> = Rank::ALL.to_vec();
    match view {
        Color::White => ranks.reverse(),
        Color::Black => files.reverse(),
    }
    let mut rows: Vec<String> = ranks
        .into_iter()
        .map(|rank| row(board, rank, &files))
        .collect();
    let letters: Vec<String> = files.iter().map(|file| file.char().to_string()).collect();
    rows.push(format!("    {}", letters.join("  ")));
    rows
}

fn row(board: &Board, rank: Rank, files: &[File]) -> String {
    let cells: Vec<String> = files
        .iter()
        .map(|file| cell(board, Square::from_coords(*file, rank)))
        .collect();
    let cells = cells.concat();
    format!("{}  {cells}", rank.char()).trim_end().to_owned()
}

fn cell(board: &Board, square: Square) -> String {
    let piece = board.piece_at(square).map_or(' ', shakmaty::Piece::char);
    let edge = if square.is_dark() { ':' } else { ' ' };
    format!("{edge}{piece}{edge}")
}

#[cfg(test)]
mod tests {
    use super::*;

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
