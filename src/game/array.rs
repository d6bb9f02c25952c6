//! The arrays of Chess960 (FIDE Laws, Guidelines II).

use shakmaty::CastlingMode;

use super::Start;

/// How many arrays there are.
pub const ARRAYS: u32 = 960;

/// Returns the array of a number below [`ARRAYS`], by the numbering of Reinhard Scharnagl, in which 518 is the usual
/// one; a larger number begins again.
///
/// # Panics
///
/// Never: a game can begin with every array.
pub fn array(number: u32) -> Start {
    let number = (number % ARRAYS) as usize;
    let mut row = ['.'; 8];
    row[number % 4 * 2 + 1] = 'B';
    row[number / 4 % 4 * 2] = 'B';
    let put = |row: &mut [char; 8], nth: usize, piece: char| {
        let mut free = row.iter_mut().filter(|square| **square == '.');
        if let Some(square) = free.nth(nth) {
            *square = piece;
        }
    };
    put(&mut row, number / 16 % 6, 'Q');
    // The two knights among the five squares that are left.
    let mut pairs = (0..5).flat_map(|first| (first + 1..5).map(move |second| (first, second)));
    if let Some((first, second)) = pairs.nth(number / 96) {
        put(&mut row, second, 'N');
        put(&mut row, first, 'N');
    }
    for piece in ['R', 'K', 'R'] {
        put(&mut row, 0, piece);
    }
    let white: String = row.iter().collect();
    let black = white.to_lowercase();
    let fen = format!("{black}/pppppppp/8/8/8/8/PPPPPPPP/{white} w KQkq - 0 1");
    Start::from_fen(&fen, CastlingMode::Chess960).expect("every array is one to begin from")
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn there_are_960_arrays_and_518_is_the_usual_one() {
        let fens: HashSet<String> = (0..ARRAYS).map(|number| array(number).fen()).collect();
        assert_eq!(fens.len(), 960);
        let row = |number| array(number).fen()[..8].to_owned();
        // Published numbers: the usual array, the first, and the last.
        assert_eq!(
            [row(518), row(0), row(959)],
            ["rnbqkbnr", "bbqnnrkr", "rkrnnqbb"]
        );
    }
}
