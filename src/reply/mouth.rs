//! Replies as one would say them: "knight f3", "castles short", "bella vier", "e four".
//!
//! What is said is brought into writing here, and read like anything that is written. The words for
//! files, ranks, pieces and castling are the English ones and those of the FIDE Laws of Chess 2023,
//! Appendix D.2.1 (there without umlauts; with them they are read too). All other words are common
//! English and German, no source.

mod grammar;
mod vocabulary;

use shakmaty::{CastlingSide, Color, File, Rank, Role, Square};

use grammar::all_moves;
use vocabulary::{number, one_word};

/// One thing that was said.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Word {
    Piece(Role),
    /// Several pieces; how many, another word says.
    Pieces(Role),
    File(File),
    Rank(Rank),
    Square(Square),
    Takes,
    /// The way to a square, or to what a pawn becomes.
    To,
    From,
    Castles,
    Wing(CastlingSide),
    White,
    Black,
    /// Parts one reply from the next.
    Stop,
    /// A slash parts White's pieces from Black's.
    Slash,
    /// In writing already, or unknown here.
    Other(String),
}

/// Brings moves into writing. Two squares in a row may be one move or two: each way is returned, and
/// at most one of them is legal, because the first square is either where a piece of the mover stands
/// or where one goes.
pub(in super::super) fn moves(text: &str) -> Vec<String> {
    let one = |word| match word {
        Word::Pieces(role) => Word::Piece(role),
        word => word,
    };
    let words: Vec<Word> = heard(text).into_iter().map(one).collect();
    let mut written: Vec<String> = [true, false]
        .into_iter()
        .filter_map(|joined| all_moves(&words, joined))
        .collect();
    written.dedup();
    written
}

/// Reads the name of a side, alone or with what belongs to it.
pub(super) fn side(word: &str) -> Option<Color> {
    let said = one_word(word)?;
    [(Color::White, Word::White), (Color::Black, Word::Black)]
        .into_iter()
        .find(|(_, name)| *name == said)
        .map(|(side, _)| side)
}

/// Brings squares into writing; pieces that are named before them are left out.
#[must_use]
pub fn squares(text: &str) -> Option<String> {
    let mut written = Vec::new();
    for word in heard(text) {
        match word {
            Word::Square(square) => written.push(square.to_string()),
            Word::Other(word) => written.push(word),
            Word::Piece(_)
            | Word::Pieces(_)
            | Word::To
            | Word::From
            | Word::Stop
            | Word::Takes
            | Word::White
            | Word::Black => {}
            Word::File(_) | Word::Rank(_) | Word::Castles | Word::Wing(_) | Word::Slash => {
                return None;
            }
        }
    }
    joined(&written)
}

/// Brings pieces without squares, and their number, into English words.
#[must_use]
pub fn pieces(text: &str) -> Option<String> {
    let mut written = Vec::new();
    for word in heard(text) {
        written.push(match word {
            Word::Piece(role) => name(role).to_owned(),
            Word::Pieces(role) => format!("{}s", name(role)),
            Word::Rank(number) => number.char().to_string(),
            Word::White => "white".to_owned(),
            Word::Black => "black".to_owned(),
            Word::Other(word) => word,
            Word::Stop => ",".to_owned(),
            Word::File(_)
            | Word::Square(_)
            | Word::Takes
            | Word::To
            | Word::From
            | Word::Castles
            | Word::Wing(_)
            | Word::Slash => return None,
        });
    }
    joined(&written)
}

/// Brings a whole placement into writing, as a list of pieces says it: "White: king g1, pawns a2 b2.
/// Black: king e8."
#[must_use]
pub fn placement(text: &str) -> Option<String> {
    let mut written = Vec::new();
    let mut letter = "";
    for word in heard(text) {
        match word {
            Word::Piece(role) | Word::Pieces(role) => letter = self::letter(role),
            Word::Square(square) => written.push(format!("{letter}{square}")),
            Word::Other(word) => written.push(word),
            Word::White => {
                letter = "";
                written.push("white".to_owned());
            }
            Word::Black => {
                letter = "";
                written.push("black".to_owned());
            }
            Word::Slash => {
                letter = "";
                written.push("/".to_owned());
            }
            Word::Stop => {}
            Word::File(_)
            | Word::Rank(_)
            | Word::Takes
            | Word::To
            | Word::From
            | Word::Castles
            | Word::Wing(_) => return None,
        }
    }
    joined(&written)
}

/// Brings wings into writing.
#[must_use]
pub fn wings(text: &str) -> Option<String> {
    let mut written = Vec::new();
    for word in heard(text) {
        match word {
            Word::Wing(CastlingSide::KingSide) => written.push("short".to_owned()),
            Word::Wing(CastlingSide::QueenSide) => written.push("long".to_owned()),
            Word::Other(word) => written.push(word),
            Word::Castles | Word::Stop => {}
            Word::Piece(_)
            | Word::Pieces(_)
            | Word::File(_)
            | Word::Rank(_)
            | Word::Square(_)
            | Word::Takes
            | Word::To
            | Word::From
            | Word::White
            | Word::Black
            | Word::Slash => return None,
        }
    }
    joined(&written)
}

/// Brings numbers into digits and leaves all other words as they are.
#[must_use]
pub fn numbers(text: &str) -> Option<String> {
    let written: Vec<String> = text
        .split_whitespace()
        .map(|word| {
            let bare = word.trim_matches([',', '.']).to_lowercase();
            number(&bare).map_or_else(|| word.to_owned(), |number| number.to_string())
        })
        .collect();
    joined(&written)
}

fn joined(written: &[String]) -> Option<String> {
    (!written.is_empty()).then(|| written.join(" "))
}

/// Brings every word into its meaning; a file and a rank behind it become a square.
fn heard(text: &str) -> Vec<Word> {
    let spaced = text
        .replace([',', ';', '.', ':', '!', '?'], " , ")
        .replace('/', " / ");
    let said: Vec<&str> = spaced.split_whitespace().collect();
    let mut words: Vec<Word> = Vec::new();
    for (at, word) in said.iter().enumerate() {
        let next = said.get(at + 1).map(|next| one_word(next));
        let word = match one_word(word) {
            // "A" before a piece or its side is no file.
            Some(Word::File(File::A))
                if matches!(
                    next,
                    Some(Some(
                        Word::Piece(_) | Word::Pieces(_) | Word::White | Word::Black
                    ))
                ) =>
            {
                continue;
            }
            Some(word) => word,
            None => continue,
        };
        match (words.last(), word) {
            (Some(Word::File(file)), Word::Rank(rank)) => {
                let square = Square::from_coords(*file, rank);
                words.pop();
                words.push(Word::Square(square));
            }
            // "King side" is the short wing, "queen side" the long one.
            (Some(Word::Piece(role)), Word::Other(side)) if side == "side" => {
                let wing = CastlingSide::from_king_side(*role == Role::King);
                words.pop();
                words.push(Word::Wing(wing));
            }
            (_, word) => words.push(word),
        }
    }
    words
}

const fn name(role: Role) -> &'static str {
    match role {
        Role::Pawn => "pawn",
        Role::Knight => "knight",
        Role::Bishop => "bishop",
        Role::Rook => "rook",
        Role::Queen => "queen",
        Role::King => "king",
    }
}

const fn letter(role: Role) -> &'static str {
    match role {
        Role::Pawn => "",
        Role::Knight => "N",
        Role::Bishop => "B",
        Role::Rook => "R",
        Role::Queen => "Q",
        Role::King => "K",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moves_are_brought_into_writing() {
        let table = [
            ("knight f3", "Nf3"),
            ("Knight to f3, check.", "Nf3"),
            ("bishop takes c3", "Bxc3"),
            ("bishop takes on c3", "Bxc3"),
            ("castles short", "O-O"),
            ("castle queen side", "O-O-O"),
            ("Kurze Rochade", "O-O"),
            ("lange rochade", "O-O-O"),
            ("pawn e8 queen", "e8=Q"),
            ("e8 becomes a knight", "e8=N"),
            ("pawn from e7 takes on d8, becomes a rook, check", "e7xd8=R"),
            ("pawn to e8, becomes a queen", "e8=Q"),
            ("e8 promotes to a bishop", "e8=B"),
            ("bella vier", "b4"),
            ("e four", "e4"),
            ("Springer Felix drei", "Nf3"),
            ("Läufer nach Gustav fünf", "Bg5"),
            ("knight b d2", "Nbd2"),
            ("knight from b to d2", "Nbd2"),
            ("rook eins anna drei", "R1a3"),
            ("d takes e five", "dxe5"),
            ("the d-pawn takes e5", "dxe5"),
            ("knight from the b-file to d2", "Nbd2"),
            ("rook from rank 1 to a3", "R1a3"),
            ("pawn takes d5", "xd5"),
            ("pawn from h5 takes on g6, en passant, checkmate", "h5xg6"),
            ("e2 to e4", "e2e4"),
            ("N f3", "Nf3"),
            ("knight f3 and e takes d5", "Nf3 exd5"),
            ("rook a a1", "Raa1"),
        ];
        for (said, wanted) in table {
            assert_eq!(
                moves(said).first().map(String::as_str),
                Some(wanted),
                "{said}"
            );
        }
        assert_eq!(moves("knight f3 e5"), ["Nf3e5", "Nf3 e5"]);
        assert_eq!(moves("knight"), Vec::<String>::new());
        assert_eq!(moves("knight takes"), Vec::<String>::new());
    }

    #[test]
    fn squares_and_pieces_are_brought_into_writing() {
        assert_eq!(squares("bella vier, Eva acht").as_deref(), Some("b4 e8"));
        assert_eq!(squares("a 6 and knight f three").as_deref(), Some("a6 f3"));
        assert_eq!(squares("bella"), None);
        assert_eq!(
            pieces("schwarzer Springer").as_deref(),
            Some("black knight")
        );
        assert_eq!(
            pieces("Dame, zwei Bauern").as_deref(),
            Some("queen , 2 pawns")
        );
        assert_eq!(
            placement("White: king g1, rooks a1 f1. Black: Koenig Eva acht, pawn a7.").as_deref(),
            Some("white Kg1 Ra1 Rf1 black Ke8 a7")
        );
        assert_eq!(wings("castles short").as_deref(), Some("short"));
        assert_eq!(
            wings("king side and queen side").as_deref(),
            Some("short long")
        );
        assert_eq!(numbers("minus two").as_deref(), Some("minus 2"));
        assert_eq!(numbers("six, three").as_deref(), Some("6 3"));
    }

    /// FIDE Laws of Chess 2023, Appendix D.2.1: the eight files, the eight ranks, the six pieces and both
    /// castlings, in the Laws' own spelling.
    #[test]
    fn every_word_of_the_laws_appendix_is_read() {
        let files = "Anna Bella Cesar David Eva Felix Gustav Hector";
        let ranks = "eins zwei drei vier fuenf sechs sieben acht";
        for (file, name) in File::ALL.into_iter().zip(files.split(' ')) {
            for (rank, number) in Rank::ALL.into_iter().zip(ranks.split(' ')) {
                let square = Square::from_coords(file, rank).to_string();
                let said = format!("{name} {number}");
                assert_eq!(squares(&said), Some(square.clone()));
                assert_eq!(moves(&said), [square]);
            }
        }
        let pieces = "Koenig Dame Turm Laeufer Springer Bauer".split(' ');
        for (piece, letter) in pieces.zip(["K", "Q", "R", "B", "N", ""]) {
            assert_eq!(moves(&format!("{piece} Eva vier")), [format!("{letter}e4")]);
        }
        assert_eq!(moves("Kurze Rochade"), ["O-O"]);
        assert_eq!(moves("Lange Rochade"), ["O-O-O"]);
    }
}
