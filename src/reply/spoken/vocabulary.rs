//! What each word means that is said.

use shakmaty::{CastlingSide, Color, File, Rank, Role, Square};

use crate::rules::role_name;

/// One thing that was said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Word {
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
    Side(Color),
    /// Parts one reply from the next.
    Stop,
    /// A slash parts White's pieces from Black's.
    Slash,
    /// In writing already, or unknown here.
    Other(String),
}

/// Returns what one word means, or `None` for one that adds nothing.
pub(super) fn one_word(said: &str) -> Option<Word> {
    let small = said.to_lowercase();
    let small = small.strip_suffix("'s").unwrap_or(&small);
    if let Some(role) = piece(small).or_else(|| piece_letter(said)) {
        return Some(Word::Piece(role));
    }
    if let Some(role) = pieces(small) {
        return Some(Word::Pieces(role));
    }
    // "The e-pawn takes d5", "knight from the b-file to d2".
    let of_file = ["-pawn", "-file"]
        .iter()
        .find_map(|end| small.strip_suffix(end));
    if let Some(file) = file(of_file.unwrap_or(small)) {
        return Some(Word::File(file));
    }
    if let Some(rank) = number(small).and_then(|number| Rank::ALL.get(number.checked_sub(1)?)) {
        return Some(Word::Rank(*rank));
    }
    if let Ok(square) = small.parse() {
        return Some(Word::Square(square));
    }
    Some(match small {
        "takes" | "take" | "captures" | "x" | "×" | "schlägt" | "schlaegt" | "nimmt" => {
            Word::Takes
        }
        "to" | "=" | "becomes" | "becoming" | "equals" | "promotes" | "nach" | "wird" => Word::To,
        "from" | "von" => Word::From,
        "castles" | "castle" | "castling" | "rochade" => Word::Castles,
        "short" | "kurz" | "kurze" | "kingside" => Word::Wing(CastlingSide::KingSide),
        "long" | "lang" | "lange" | "queenside" => Word::Wing(CastlingSide::QueenSide),
        "white" | "weiss" | "weiß" | "weisser" | "weißer" | "weisse" | "weiße" => {
            Word::Side(Color::White)
        }
        "black" | "schwarz" | "schwarzer" | "schwarze" => Word::Side(Color::Black),
        "," | "and" | "und" | "then" => Word::Stop,
        "/" | "slash" | "schraegstrich" | "schrägstrich" => Word::Slash,
        "on" | "auf" | "goes" | "an" | "the" | "ein" | "eine" | "check" | "checkmate" | "mate"
        | "schach" | "matt" | "schachmatt" | "+" | "#" | "en" | "passant" | "stands" | "rank"
        | "it" | "is" | "still" | "at" => {
            return None;
        }
        _ => Word::Other(said.to_owned()),
    })
}

/// Reads the English name of a role.
pub(crate) fn role_word(word: &str) -> Option<Role> {
    { Role::ALL.into_iter() }.find(|role| role_name(*role).eq_ignore_ascii_case(word))
}

/// Names a piece as the Laws and as English do.
fn piece(word: &str) -> Option<Role> {
    Some(match word {
        "bauer" => Role::Pawn,
        "springer" => Role::Knight,
        "laeufer" | "läufer" => Role::Bishop,
        "turm" => Role::Rook,
        "dame" => Role::Queen,
        "koenig" | "könig" => Role::King,
        _ => return role_word(word),
    })
}

/// Names several pieces, where the word is not that of one.
fn pieces(word: &str) -> Option<Role> {
    match word {
        "bauern" => Some(Role::Pawn),
        "tuerme" | "türme" => Some(Role::Rook),
        "damen" => Some(Role::Queen),
        _ => word.strip_suffix('s').and_then(role_word),
    }
}

/// A piece's letter that stands alone; a small b is the file.
fn piece_letter(word: &str) -> Option<Role> {
    let letter: char = word.parse().ok().filter(|letter| *letter != 'b')?;
    Role::from_char(letter.to_ascii_lowercase())
}

fn file(word: &str) -> Option<File> {
    Some(match word {
        "a" | "anna" => File::A,
        "b" | "bella" => File::B,
        "c" | "cesar" | "cäsar" | "caesar" => File::C,
        "d" | "david" => File::D,
        "e" | "eva" => File::E,
        "f" | "felix" => File::F,
        "g" | "gustav" => File::G,
        "h" | "hector" | "hektor" => File::H,
        _ => return None,
    })
}

/// Reads a number in digits or words; no side has more than nine pieces of a role.
pub(crate) fn number(word: &str) -> Option<usize> {
    Some(match word {
        "0" | "zero" | "null" => 0,
        "1" | "one" | "eins" => 1,
        "2" | "two" | "zwei" => 2,
        "3" | "three" | "drei" => 3,
        "4" | "four" | "vier" => 4,
        "5" | "five" | "fuenf" | "fünf" => 5,
        "6" | "six" | "sechs" => 6,
        "7" | "seven" | "sieben" => 7,
        "8" | "eight" | "acht" => 8,
        "9" | "nine" | "neun" => 9,
        _ => return None,
    })
}
