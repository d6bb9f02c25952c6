//! What each word means that is said.

use shakmaty::{CastlingSide, File, Rank, Role};

use super::Word;

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
        "white" | "weiss" | "weiß" | "weisser" | "weißer" | "weisse" | "weiße" => Word::White,
        "black" | "schwarz" | "schwarzer" | "schwarze" => Word::Black,
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

/// Names a piece as the Laws and as English do.
fn piece(word: &str) -> Option<Role> {
    Some(match word {
        "pawn" | "bauer" => Role::Pawn,
        "knight" | "springer" => Role::Knight,
        "bishop" | "laeufer" | "läufer" => Role::Bishop,
        "rook" | "turm" => Role::Rook,
        "queen" | "dame" => Role::Queen,
        "king" | "koenig" | "könig" => Role::King,
        _ => return None,
    })
}

/// Names several pieces, where the word is not that of one.
fn pieces(word: &str) -> Option<Role> {
    Some(match word {
        "pawns" | "bauern" => Role::Pawn,
        "knights" => Role::Knight,
        "bishops" => Role::Bishop,
        "rooks" | "tuerme" | "türme" => Role::Rook,
        "queens" | "damen" => Role::Queen,
        "kings" => Role::King,
        _ => return None,
    })
}

/// A piece's letter that stands alone; a small b is the file.
fn piece_letter(word: &str) -> Option<Role> {
    let [letter] = word.as_bytes() else {
        return None;
    };
    match letter {
        b'b' => None,
        letter => Role::from_char(char::from(letter.to_ascii_lowercase())),
    }
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

pub(super) fn number(word: &str) -> Option<usize> {
    const WORDS: [(&str, &str, &str); 10] = [
        ("0", "zero", "null"),
        ("1", "one", "eins"),
        ("2", "two", "zwei"),
        ("3", "three", "drei"),
        ("4", "four", "vier"),
        ("5", "five", "fuenf"),
        ("6", "six", "sechs"),
        ("7", "seven", "sieben"),
        ("8", "eight", "acht"),
        ("9", "nine", "neun"),
    ];
    if word == "fünf" {
        return Some(5);
    }
    WORDS
        .iter()
        .position(|(digit, english, german)| [*digit, *english, *german].contains(&word))
}
