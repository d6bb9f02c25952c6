//! The chess text of a learner's reply: squares, men, moves, points, yes and no, whole
//! placements.
//!
//! Everything is read without regard to upper and lower case where chess leaves that open; `N` and
//! `n` alone are White's and Black's knight, as in FEN.

mod bare;
mod counts;
pub mod mouth;
mod moves;

pub use bare::{color, distance, line, one_square, place, route};
pub use counts::{men, points, wings};
pub use moves::{move_or_none, moves, one_move};

use shakmaty::{Bitboard, Board, Color, Piece, Role, Square};

use super::MoveFault;

/// A reply that cannot be read, and the first word that is to blame.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unread {
    /// Nothing was said.
    Nothing,
    /// The word names no square.
    NoSquare(String),
    /// One square is wanted, and several were named.
    OneSquareWanted(usize),
    /// The word names no man.
    NoMan(String),
    /// The word is neither legal nor illegal.
    NeitherLegalNorIllegal(String),
    /// The word is neither a man with its square nor a FEN.
    NoPlacement(String),
    /// The word is no move of the position, or not one alone.
    NoMove(String, MoveFault),
    /// One move is wanted, and another number was named.
    OneMoveWanted(usize),
    /// The text is no number of points.
    NoPoints(String),
    /// The word names no wing.
    NoWing(String),
    /// Two men were put on one square.
    SquareTwice(Square),
    /// The men of Black were not told apart from those of White.
    NoSides,
    /// The text does not give two numbers from 1 to 8.
    NoPlace(String),
    /// The word is neither light nor dark.
    NeitherLightNorDark(String),
    /// The word names no line: file, rank, diagonal or none.
    NoLine(String),
    /// The text is neither a number of moves nor `never`.
    NoDistance(String),
}

/// A man as a reply may name it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ManSaid {
    /// A man with its side.
    Whole(Piece),
    /// A man whose side was left unsaid.
    Role(Role),
    /// No man.
    Empty,
}

/// Splits a reply into its words: by white space, commas, semicolons and the word "and".
fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '.'))
        .filter(|word| !word.is_empty() && !word.eq_ignore_ascii_case("and"))
}

fn means_none(text: &str) -> bool {
    const WORDS: [&str; 8] = [
        "none", "-", "no", "nothing", "nowhere", "gone", "taken", "captured",
    ];
    let text = text.trim();
    WORDS.iter().any(|word| word.eq_ignore_ascii_case(text))
}

/// Reads a square, with or without the letter of a man before it.
fn square(word: &str) -> Option<Square> {
    let word = word.to_ascii_lowercase();
    let name = match word.len() {
        2 => word.as_str(),
        3 if word.starts_with(|c| Role::from_char(c).is_some()) => &word[1..],
        _ => return None,
    };
    name.parse().ok()
}

/// Reads any number of squares in any order; `none` or `-` is the empty set.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NoSquare`].
pub fn squares(text: &str) -> Result<Bitboard, Unread> {
    if means_none(text) {
        return Ok(Bitboard::EMPTY);
    }
    let mut set = Bitboard::EMPTY;
    for word in words(text) {
        match square(word) {
            Some(square) => set.add(square),
            None => set.add(glued_squares(word).ok_or_else(|| Unread::NoSquare(word.into()))?),
        }
    }
    if set.is_empty() {
        return Err(Unread::Nothing);
    }
    Ok(set)
}

/// Reads squares written without a space, as in `d5e6`.
fn glued_squares(word: &str) -> Option<Bitboard> {
    if !word.is_ascii() || !word.len().is_multiple_of(2) {
        return None;
    }
    let word = word.to_ascii_lowercase();
    word.as_bytes()
        .chunks(2)
        .map(|name| Square::from_ascii(name).ok())
        .collect()
}

/// Reads one square, or `None` for a man that has left the board.
///
/// # Errors
///
/// As for [`squares`], and [`Unread::OneSquareWanted`].
pub fn square_or_none(text: &str) -> Result<Option<Square>, Unread> {
    if ["off", "off the board", "dead"]
        .iter()
        .any(|word| word.eq_ignore_ascii_case(text.trim()))
    {
        return Ok(None);
    }
    let set = squares(text)?;
    match set.single_square() {
        None if set.any() => Err(Unread::OneSquareWanted(set.count())),
        square => Ok(square),
    }
}

/// Reads a man: `knight`, `N`, `white knight`, `wN`, `n` (Black's, as in FEN) or `empty`.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NoMan`].
pub fn man(text: &str) -> Result<ManSaid, Unread> {
    if means_none(text) || text.trim().eq_ignore_ascii_case("empty") {
        return Ok(ManSaid::Empty);
    }
    let mut side = None;
    let mut said = None;
    for word in words(text) {
        let unread = || Unread::NoMan(word.into());
        if let Some(named) = side_word(word) {
            side = Some(named);
        } else if said.is_none() {
            said = Some(one_man(word, side).ok_or_else(unread)?);
        } else {
            return Err(unread());
        }
    }
    match (said, side) {
        (None, None) => Err(Unread::Nothing),
        (None, Some(_)) => Err(Unread::NoMan(text.trim().into())),
        (Some(ManSaid::Whole(piece)), Some(side)) => Ok(ManSaid::Whole(piece.role.of(side))),
        (Some(ManSaid::Role(role)), Some(side)) => Ok(ManSaid::Whole(role.of(side))),
        (Some(said), _) => Ok(said),
    }
}

fn side_word(word: &str) -> Option<Color> {
    const WHITE: [&str; 3] = ["white", "white's", "w"];
    const BLACK: [&str; 2] = ["black", "black's"];
    let is = |names: &[&str]| names.iter().any(|name| name.eq_ignore_ascii_case(word));
    if is(&WHITE) {
        Some(Color::White)
    } else if is(&BLACK) {
        Some(Color::Black)
    } else {
        None
    }
}

fn one_man(word: &str, side: Option<Color>) -> Option<ManSaid> {
    if let Some(role) = role_word(word) {
        return Some(ManSaid::Role(role));
    }
    let mut letters = word.chars();
    match (letters.next()?, letters.next(), letters.next()) {
        (letter, None, _) => {
            let piece = Piece::from_char(letter)?;
            Some(side.map_or(ManSaid::Whole(piece), |_| ManSaid::Role(piece.role)))
        }
        (side, Some(letter), None) => {
            let color = match side.to_ascii_lowercase() {
                'w' => Color::White,
                'b' => Color::Black,
                _ => return None,
            };
            Some(ManSaid::Whole(
                Role::from_char(letter.to_ascii_lowercase())?.of(color),
            ))
        }
        _ => None,
    }
}

fn role_word(word: &str) -> Option<Role> {
    const NAMES: [(&str, Role); 6] = [
        ("pawn", Role::Pawn),
        ("knight", Role::Knight),
        ("bishop", Role::Bishop),
        ("rook", Role::Rook),
        ("queen", Role::Queen),
        ("king", Role::King),
    ];
    NAMES
        .into_iter()
        .find(|(name, _)| name.eq_ignore_ascii_case(word))
        .map(|(_, role)| role)
}

/// Reads whether a move is legal: `legal`, `illegal`, `yes`, `no`, or their first letters.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NeitherLegalNorIllegal`].
pub fn legal(text: &str) -> Result<bool, Unread> {
    match text.trim().to_ascii_lowercase().as_str() {
        "" => Err(Unread::Nothing),
        "legal" | "l" | "yes" | "y" => Ok(true),
        "illegal" | "i" | "no" | "n" | "not legal" => Ok(false),
        _ => Err(Unread::NeitherLegalNorIllegal(text.trim().into())),
    }
}

/// Reads a whole placement: a FEN (its first field counts), or men with their squares, White's
/// before a slash and Black's after it: `Kg1 Qd1 a2 b2 / Ke8 a7`.
///
/// # Errors
///
/// [`Unread::Nothing`], [`Unread::NoPlacement`], [`Unread::SquareTwice`] or [`Unread::NoSides`].
pub fn placement(text: &str) -> Result<Board, Unread> {
    let first = text.split_whitespace().next().ok_or(Unread::Nothing)?;
    if first.matches('/').count() == 7 {
        return Board::from_ascii_board_fen(first.as_bytes())
            .map_err(|_| Unread::NoPlacement(first.into()));
    }
    let mut sides = text.split('/');
    let (Some(white), Some(black), None) = (sides.next(), sides.next(), sides.next()) else {
        return Err(Unread::NoSides);
    };
    let mut board = Board::empty();
    for (men, side) in [(white, Color::White), (black, Color::Black)] {
        for word in words(men).filter(|word| side_word(word.trim_end_matches(':')).is_none()) {
            let (square, role) =
                man_with_square(word).ok_or_else(|| Unread::NoPlacement(word.into()))?;
            if board.role_at(square).is_some() {
                return Err(Unread::SquareTwice(square));
            }
            board.set_piece_at(square, role.of(side));
        }
    }
    Ok(board)
}

fn man_with_square(word: &str) -> Option<(Square, Role)> {
    let square = square(word)?;
    let role = match word.len() {
        2 => Role::Pawn,
        _ => Role::from_char(word.chars().next()?.to_ascii_lowercase())?,
    };
    Some((square, role))
}
