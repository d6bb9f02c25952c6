//! What each word means that is said.

use shakmaty::{CastlingSide, Color, File, Rank, Role, Square};

use crate::rules::role_name;

/// One thing that was said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::reply) enum Word {
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
    /// Adds nothing.
    Filler,
    /// In writing already, or unknown here.
    Other(String),
}

/// What words mean: the rule of the grammar that they stand in, as they are said in English, and in German and by
/// the Laws; then what means the same and is only written, or said in no grammar.
pub(in crate::reply) const TABLE: [(&str, Word, &str, &str, &str); 33] = [
    ("piece", Word::Piece(Role::Pawn), "pawn", "bauer", ""),
    ("piece", Word::Piece(Role::Knight), "knight", "springer", ""),
    (
        "piece",
        Word::Piece(Role::Bishop),
        "bishop",
        "laeufer",
        "läufer",
    ),
    ("piece", Word::Piece(Role::Rook), "rook", "turm", ""),
    ("piece", Word::Piece(Role::Queen), "queen", "dame", ""),
    ("piece", Word::Piece(Role::King), "king", "koenig", "könig"),
    ("pieces", Word::Pieces(Role::Pawn), "pawns", "bauern", ""),
    ("pieces", Word::Pieces(Role::Knight), "knights", "", ""),
    ("pieces", Word::Pieces(Role::Bishop), "bishops", "", ""),
    (
        "pieces",
        Word::Pieces(Role::Rook),
        "rooks",
        "tuerme",
        "türme",
    ),
    ("pieces", Word::Pieces(Role::Queen), "queens", "damen", ""),
    ("pieces", Word::Pieces(Role::King), "kings", "", ""),
    ("file", Word::File(File::A), "anna", "", "a"),
    ("file", Word::File(File::B), "bella", "", "b"),
    ("file", Word::File(File::C), "cesar", "", "c cäsar caesar"),
    ("file", Word::File(File::D), "david", "", "d"),
    ("file", Word::File(File::E), "eva", "", "e"),
    ("file", Word::File(File::F), "felix", "", "f"),
    ("file", Word::File(File::G), "gustav", "", "g"),
    ("file", Word::File(File::H), "hector", "", "h hektor"),
    (
        "takes",
        Word::Takes,
        "takes captures",
        "schlaegt",
        "take x × schlägt nimmt",
    ),
    ("to", Word::To, "to", "nach", "="),
    (
        "becomes",
        Word::To,
        "becomes promotes",
        "wird",
        "becoming equals",
    ),
    ("from", Word::From, "from", "von", ""),
    (
        "castles",
        Word::Castles,
        "castles",
        "rochade",
        "castle castling",
    ),
    (
        "short",
        Word::Wing(CastlingSide::KingSide),
        "short",
        "kurze",
        "kurz kingside",
    ),
    (
        "long",
        Word::Wing(CastlingSide::QueenSide),
        "long",
        "lange",
        "lang queenside",
    ),
    (
        "white",
        Word::Side(Color::White),
        "white",
        "weiss",
        "weiß weisser weißer weisse weiße",
    ),
    (
        "black",
        Word::Side(Color::Black),
        "black",
        "schwarz",
        "schwarzer schwarze",
    ),
    ("and", Word::Stop, "and then", "und", ","),
    (
        "slash",
        Word::Slash,
        "slash",
        "schraegstrich",
        "/ schrägstrich",
    ),
    (
        "on",
        Word::Filler,
        "on",
        "auf",
        "goes an the ein eine stands rank it is still at en passant",
    ),
    (
        "end",
        Word::Filler,
        "check checkmate mate",
        "schach matt",
        "schachmatt + #",
    ),
];

/// Numbers from nought on, in English and in German.
pub(in crate::reply) const NUMBERS: [&str; 2] = [
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen",
    "null eins zwei drei vier fuenf sechs sieben acht neun zehn elf zwoelf dreizehn vierzehn fuenfzehn",
];

/// Returns what one word means, or `None` for one that adds nothing.
pub(super) fn one_word(said: &str) -> Option<Word> {
    let small = said.to_lowercase();
    let small = small.strip_suffix("'s").unwrap_or(&small);
    if let Some(role) = piece_letter(said) {
        return Some(Word::Piece(role));
    }
    // "The e-pawn takes d5", "knight from the b-file to d2".
    let of_file = ["-pawn", "-file"];
    let of_file = of_file.iter().find_map(|end| small.strip_suffix(end));
    let word = match meaning(of_file.unwrap_or(small)) {
        Some(file @ Word::File(_)) => file,
        Some(word) if of_file.is_none() => word,
        _ => {
            let rank = number(small).and_then(|number| Rank::ALL.get(number.checked_sub(1)?));
            let square = || small.parse().ok().map(Word::Square);
            let rank = rank.map(|rank| Word::Rank(*rank)).or_else(square);
            rank.unwrap_or_else(|| Word::Other(said.to_owned()))
        }
    };
    (word != Word::Filler).then_some(word)
}

/// Finds a word in the table.
fn meaning(small: &str) -> Option<Word> {
    let mut rows = TABLE.iter();
    let row = rows.find(|(_, _, english, german, written)| {
        [english, german, written]
            .iter()
            .any(|words| words.split(' ').any(|word| word == small))
    });
    row.map(|(_, word, ..)| word.clone())
        .filter(|_| !small.is_empty())
}

/// Reads the English name of a role.
pub(in crate::reply) fn role_word(word: &str) -> Option<Role> {
    { Role::ALL.into_iter() }.find(|role| role_name(*role).eq_ignore_ascii_case(word))
}

/// A piece's letter that stands alone; a small b is the file.
fn piece_letter(word: &str) -> Option<Role> {
    let letter: char = word.parse().ok().filter(|letter| *letter != 'b')?;
    Role::from_char(letter.to_ascii_lowercase())
}

/// Reads a number in digits or words.
pub(in crate::reply) fn number(word: &str) -> Option<usize> {
    let digit = word.parse().ok().filter(|number| *number < 10);
    let plain = word.replace('ü', "ue").replace('ö', "oe");
    let said = |numbers: &str| numbers.split(' ').position(|number| number == plain);
    digit.or_else(|| NUMBERS.into_iter().find_map(said))
}
