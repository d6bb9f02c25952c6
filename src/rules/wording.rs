//! What a move's text says, before anyone looks at the position.

use shakmaty::{CastlingSide, File, Rank, Role, Square};

use super::dialect::standardize;
use super::letters::LetterSet;

/// A move as far as its text names it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Wording {
    Castle(CastlingSide),
    /// The side to move passes.
    Null,
    Piece(Said),
}

/// A piece's move as far as its text names it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Said {
    /// `None` where two squares stand without a letter: then the piece is whoever stands there.
    pub(crate) role: Option<Role>,
    pub(crate) file: Option<File>,
    pub(crate) rank: Option<Rank>,
    pub(crate) to: Square,
    pub(crate) capture: bool,
    pub(crate) promotion: Option<Role>,
}

impl Said {
    /// Returns the from-square where it is named in full.
    pub(crate) fn from(self) -> Option<Square> {
        Some(Square::from_coords(self.file?, self.rank?))
    }

    /// Returns the other reading of a small b at the head: the bishop instead of the file.
    pub(super) fn as_bishop(self) -> Option<Said> {
        let small_b = self.role == Some(Role::Pawn) && self.file == Some(File::B);
        small_b.then_some(Said {
            role: Some(Role::Bishop),
            file: None,
            ..self
        })
    }
}

/// Reads a move's text with the piece letters of `letters`, in any dialect.
pub(crate) fn wording(text: &str, letters: LetterSet) -> Option<Wording> {
    if letters.is_english() {
        // Nearly every move is standard notation; the dialects are asked for the others only.
        return standard(text).or_else(|| standard(&standardize(text)));
    }
    let plain = standard(&standardize(text));
    match (plain, letters.to_english(text)) {
        // Castling has capitals that are no piece's.
        (Some(Wording::Castle(_) | Wording::Null), _) => plain,
        (_, Some(english)) => standard(&standardize(&english)),
        (_, None) => None,
    }
}

fn standard(text: &str) -> Option<Wording> {
    match text {
        "O-O" => return Some(Wording::Castle(CastlingSide::KingSide)),
        "O-O-O" => return Some(Wording::Castle(CastlingSide::QueenSide)),
        "--" | "Z0" => return Some(Wording::Null),
        _ => {}
    }
    let bytes = match text.as_bytes() {
        [rest @ .., b'+' | b'#'] => rest,
        all => all,
    };
    if matches!(bytes, b"O-O" | b"O-O-O") {
        return standard(&text[..bytes.len()]);
    }
    let (bytes, promotion) = match bytes {
        [rest @ .., b'=', piece] => (rest, Some(role(*piece)?)),
        all => (all, None),
    };
    let (letter, bytes) = match bytes {
        [letter @ b'A'..=b'Z', rest @ ..] => (Some(role(*letter)?), rest),
        all => (None, all),
    };
    let [before @ .., file, rank] = bytes else {
        return None;
    };
    let to = Square::from_coords(file_of(*file)?, rank_of(*rank)?);
    let (before, capture) = match before {
        [rest @ .., b'x'] => (rest, true),
        all => (all, false),
    };
    let (file, rank) = match *before {
        [] => (None, None),
        [one] => match file_of(one) {
            Some(file) => (Some(file), None),
            None => (None, Some(rank_of(one)?)),
        },
        [file, rank] => (Some(file_of(file)?), Some(rank_of(rank)?)),
        _ => return None,
    };
    let role = match (letter, file, rank) {
        (Some(role), ..) => Some(role),
        (None, Some(_), Some(_)) => None,
        (None, None, Some(_)) => return None,
        (None, _, None) => Some(Role::Pawn),
    };
    Some(Wording::Piece(Said {
        role,
        file,
        rank,
        to,
        capture,
        promotion,
    }))
}

fn role(letter: u8) -> Option<Role> {
    match letter {
        b'N' => Some(Role::Knight),
        b'B' => Some(Role::Bishop),
        b'R' => Some(Role::Rook),
        b'Q' => Some(Role::Queen),
        b'K' => Some(Role::King),
        _ => None,
    }
}

fn file_of(byte: u8) -> Option<File> {
    File::from_char(char::from(byte))
}

fn rank_of(byte: u8) -> Option<Rank> {
    Rank::from_char(char::from(byte))
}
