//! Replies as one would say them: "knight f3", "castles short", "bella vier", "e four".
//!
//! What is said is brought into writing here, and read like anything that is written. The words for
//! files, ranks, pieces and castling are the English ones and those of the FIDE Laws of Chess 2023,
//! Appendix D.2.1 (there without umlauts; with them they are read too). All other words are common
//! English and German, no source.

mod vocabulary;

use shakmaty::san::San;
use shakmaty::{CastlingSide, Color, File, Role, Square};

use crate::rules::{role_letter as letter, role_name};
use vocabulary::one_word;
pub(super) use vocabulary::{NUMBERS, TABLE, Word, number, role_word};

/// Brings moves into writing. Two squares in a row may be one move or two: each way is returned, and
/// at most one of them is legal, because the first square is either where a piece of the mover stands
/// or where one goes.
pub(super) fn moves(text: &str) -> Vec<String> {
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
    match one_word(word)? {
        Word::Side(side) => Some(side),
        _ => None,
    }
}

/// Brings a text into writing word by word: `write` says nothing of a word that adds nothing, and is
/// `None` at one that does not belong there.
fn in_writing(text: &str, write: impl FnMut(Word) -> Option<String>) -> Option<String> {
    let written: Option<Vec<String>> = heard(text).into_iter().map(write).collect();
    let mut written = written?;
    written.retain(|word| !word.is_empty());
    (!written.is_empty()).then(|| written.join(" "))
}

/// Brings squares into writing; pieces that are named before them are left out.
pub(super) fn squares(text: &str) -> Option<String> {
    in_writing(text, |word| match word {
        Word::Square(square) => Some(square.to_string()),
        Word::Other(word) => Some(word),
        Word::File(_) | Word::Rank(_) | Word::Castles | Word::Wing(_) | Word::Slash => None,
        _ => Some(String::new()),
    })
}

/// Brings pieces without squares, and their number, into English words.
pub(super) fn pieces(text: &str) -> Option<String> {
    in_writing(text, |word| match word {
        Word::Piece(role) => Some(role_name(role).to_owned()),
        Word::Pieces(role) => Some(format!("{}s", role_name(role))),
        Word::Rank(number) => Some(number.char().to_string()),
        Word::Side(side) => Some(side.to_string()),
        Word::Other(word) => Some(word),
        Word::Stop => Some(",".to_owned()),
        _ => None,
    })
}

/// Brings a whole placement into writing, as a list of pieces says it: "White: king g1, pawns a2 b2.
/// Black: king e8."
pub(super) fn placement(text: &str) -> Option<String> {
    let mut role = Role::Pawn;
    in_writing(text, |word| {
        role = match word {
            Word::Piece(named) | Word::Pieces(named) => named,
            Word::Side(_) | Word::Slash => Role::Pawn,
            _ => role,
        };
        match word {
            Word::Square(square) => Some(format!("{}{square}", letter(role))),
            Word::Other(word) => Some(word),
            Word::Side(side) => Some(side.to_string()),
            Word::Slash => Some("/".to_owned()),
            Word::Piece(_) | Word::Pieces(_) | Word::Stop => Some(String::new()),
            _ => None,
        }
    })
}

/// Brings wings into writing.
pub(super) fn wings(text: &str) -> Option<String> {
    in_writing(text, |word| match word {
        Word::Wing(CastlingSide::KingSide) => Some("short".to_owned()),
        Word::Wing(CastlingSide::QueenSide) => Some("long".to_owned()),
        Word::Other(word) => Some(word),
        Word::Castles | Word::Stop => Some(String::new()),
        _ => None,
    })
}

/// Brings numbers into digits and leaves all other words as they are.
pub(crate) fn numbers(text: &str) -> Option<String> {
    let written: Vec<String> = text
        .split_whitespace()
        .map(|word| {
            let bare = word.trim_matches([',', '.']).to_lowercase();
            number(&bare).map_or_else(|| word.to_owned(), |number| number.to_string())
        })
        .collect();
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
                    Some(Some(Word::Piece(_) | Word::Pieces(_) | Word::Side(_)))
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

/// Brings moves into writing, where two squares in a row are one move if they are to be `joined`.
fn all_moves(words: &[Word], joined: bool) -> Option<String> {
    let mut written = Vec::new();
    let mut rest = words;
    while let Some(first) = rest.first() {
        if matches!(first, Word::Stop | Word::Side(_)) {
            rest = &rest[1..];
            continue;
        }
        let (mv, behind) = one_move(rest, joined)?;
        written.push(mv);
        rest = behind;
    }
    (!written.is_empty()).then(|| written.join(" "))
}

/// Brings the first of some moves into writing, and returns the words behind it.
fn one_move(words: &[Word], joined: bool) -> Option<(String, &[Word])> {
    match words {
        [Word::Castles, Word::Wing(wing), rest @ ..]
        | [Word::Wing(wing), Word::Castles, rest @ ..] => {
            return Some((San::Castle(*wing).to_string(), rest));
        }
        [Word::Other(word), rest @ ..] => return Some((word.clone(), rest)),
        _ => {}
    }
    let (mut written, rest) = match words {
        [Word::Piece(role), rest @ ..] => (letter(*role), rest),
        rest => (String::new(), rest),
    };
    let rest = without(rest, &Word::From);
    let (from, rest) = match rest {
        [
            Word::Square(from),
            Word::Takes | Word::To,
            Word::Square(_),
            ..,
        ] => (from.to_string(), &rest[1..]),
        [Word::Square(from), Word::Square(_), ..] if joined => (from.to_string(), &rest[1..]),
        [Word::File(file), rest @ ..] => (file.char().to_string(), rest),
        [Word::Rank(rank), rest @ ..] => (rank.char().to_string(), rest),
        rest => (String::new(), rest),
    };
    written.push_str(&from);
    let behind = without(rest, &Word::Takes);
    if behind.len() < rest.len() {
        written.push('x');
    }
    let rest = without(behind, &Word::To);
    let [Word::Square(to), rest @ ..] = rest else {
        return None;
    };
    written.push_str(&to.to_string());
    let (role, rest) = match rest {
        [
            Word::To | Word::Stop,
            Word::To,
            Word::Piece(role),
            rest @ ..,
        ]
        | [Word::To, Word::Piece(role), rest @ ..] => (Some(role), rest),
        // A piece without a place behind it is what the pawn becomes.
        [Word::Piece(role)] | [Word::Piece(role), Word::Stop, ..] => (Some(role), &rest[1..]),
        rest => (None, rest),
    };
    if let Some(role) = role {
        written.push('=');
        written.push_str(&letter(*role));
    }
    Some((written, rest))
}

/// Leaves out a word at the head, where it stands there.
fn without<'a>(words: &'a [Word], word: &Word) -> &'a [Word] {
    match words {
        [first, rest @ ..] if first == word => rest,
        all => all,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use shakmaty::Rank;

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
