//! From a move's text to the squares that it must mean, whether or not the move is legal.

use shakmaty::{
    Bitboard, CastlingMode, CastlingSide, Chess, Color, Position, Role, Square, attacks,
};

use super::letters::LetterSet;
use super::wording::{Said, Wording, wording};

/// The squares that a text names, or that the position leaves no choice about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Meant {
    /// Where the man stands.
    pub from: Square,
    /// Where it should go.
    pub to: Square,
    /// What it should become there.
    pub promotion: Option<Role>,
}

/// Finds the squares that a text means in a position. `None` where the text is no move, or where
/// several men of the side to move could be meant, or none.
#[must_use]
pub fn squares_meant(text: &str, position: &Chess, mode: CastlingMode) -> Option<Meant> {
    match wording(text.trim(), LetterSet::ENGLISH)? {
        Wording::Null => None,
        Wording::Castle(wing) => castling(position, wing, mode),
        Wording::Man(said) => {
            let from = said.from().or_else(|| only_man(said, position))?;
            Some(Meant {
                from,
                to: said.to,
                promotion: said.promotion,
            })
        }
    }
}

/// Castling as a question names it: in standard chess the king's move of two squares. In Chess960 the
/// rook may be gone, and then nobody can tell which one was meant.
fn castling(position: &Chess, wing: CastlingSide, mode: CastlingMode) -> Option<Meant> {
    let color = position.turn();
    let home = color.fold_wb(Square::E1, Square::E8);
    let king_stands_there = position.our(Role::King).contains(home);
    (mode == CastlingMode::Standard && king_stands_there).then_some(Meant {
        from: home,
        to: match (color, wing) {
            (Color::White, CastlingSide::KingSide) => Square::G1,
            (Color::White, CastlingSide::QueenSide) => Square::C1,
            (Color::Black, CastlingSide::KingSide) => Square::G8,
            (Color::Black, CastlingSide::QueenSide) => Square::C8,
        },
        promotion: None,
    })
}

/// The one man that the text can mean: the only one that it names, else the only one of them that sees
/// the square, else the only one whose way leads there over an empty board. So the bishop of the other
/// color is never meant.
fn only_man(said: Said, position: &Chess) -> Option<Square> {
    let role = said.role.unwrap_or(Role::Pawn);
    let color = position.turn();
    let board = position.board();
    let named: Vec<Square> = (board.by_piece(role.of(color)).into_iter())
        .filter(|from| said.file.is_none_or(|file| file == from.file()))
        .filter(|from| said.rank.is_none_or(|rank| rank == from.rank()))
        .filter(|from| role != Role::Pawn || said.file.is_some() || from.file() == said.to.file())
        .collect();
    let reach = |occupied: Bitboard| {
        let reaches =
            |from: &Square| attacks::attacks(*from, role.of(color), occupied).contains(said.to);
        only(named.iter().copied().filter(reaches))
    };
    only(named.iter().copied())
        .or_else(|| reach(board.occupied()))
        .or_else(|| reach(Bitboard::EMPTY))
}

fn only(mut men: impl Iterator<Item = Square>) -> Option<Square> {
    let man = men.next()?;
    men.next().is_none().then_some(man)
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
    fn a_text_means_the_squares_that_it_names_or_the_only_man_that_it_can_mean() {
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
