//! Floor 1: the chess text of a learner's reply: squares, pieces, moves, points, yes and no, whole
//! placements.
//!
//! Everything is read without regard to upper and lower case where chess leaves that open; `N` and
//! `n` alone are White's and Black's knight, as in FEN.

mod bare;
mod counts;
pub mod mouth;
mod moves;
mod placement;
mod wish;

pub use bare::{color, distance, line, one_square, place, route};
pub use counts::{pieces, points, wings};
pub use moves::{MoveSaid, arrival, move_said_or_none, moves_said, one_move, one_move_said};
pub use placement::placement;
pub use wish::wish;

use shakmaty::{Bitboard, Color, Piece, Role, Square};

use crate::rules::MoveFault;

/// A reply that cannot be read, and the first word that is to blame.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unread {
    /// Nothing was said.
    Nothing,
    /// The word names no square.
    NoSquare(String),
    /// One square is wanted, and several were named.
    OneSquareWanted(usize),
    /// The word names no piece.
    NoMan(String),
    /// The word is neither legal nor illegal.
    NeitherLegalNorIllegal(String),
    /// The word is neither a piece with its square nor a FEN.
    NoPlacement(String),
    /// The word is no move of the position, or not one alone.
    NoMove(String, MoveFault),
    /// One move is wanted, and another number was named.
    OneMoveWanted(usize),
    /// The text is no number of points.
    NoPoints(String),
    /// The word names no wing.
    NoWing(String),
    /// Two pieces were put on one square.
    SquareTwice(Square),
    /// The pieces of Black were not told apart from those of White.
    NoSides,
    /// The text does not give two numbers from 1 to 8.
    NoPlace(String),
    /// The word is neither light nor dark.
    NeitherLightNorDark(String),
    /// The word names no line: file, rank, diagonal or none.
    NoLine(String),
    /// The text is neither a number of moves nor `never`.
    NoDistance(String),
    /// The word names several pieces and does not say how many.
    HowMany(String),
    /// The learner seems to give the question up.
    GivesUp,
    /// The learner seems to want to leave.
    Leaves,
}

/// A piece as a reply may name it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PieceSaid {
    /// A piece with its side.
    Whole(Piece),
    /// A piece whose side was left unsaid.
    Role(Role),
    /// No piece.
    Empty,
}

/// Splits a reply into its words: by white space, slashes, commas, semicolons and the word "and".
fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '.' | '/' | '!'))
        .filter(|word| !word.is_empty() && !word.eq_ignore_ascii_case("and"))
}

/// Brings the text of one short answer into small letters, without the stop at its end and without
/// the words around what it says: "It is a diagonal." becomes "diagonal".
fn plain(text: &str) -> String {
    const AROUND: [&str; 15] = [
        "it", "it's", "its", "is", "was", "has", "been", "they", "are", "a", "an", "the", "same",
        "on", "in",
    ];
    let small = text.to_lowercase();
    let small = small.trim().trim_end_matches(['.', '!']);
    let telling = small
        .split_whitespace()
        .filter(|word| !AROUND.contains(word));
    let telling: Vec<&str> = telling.collect();
    if telling.is_empty() {
        small.to_owned()
    } else {
        telling.join(" ")
    }
}

/// Tells whether a text says no, which answers no question of where or what.
fn refuses(text: &str) -> bool {
    ["no", "nope", "nein"].contains(&plain(text).as_str())
}

fn means_none(text: &str) -> bool {
    const WORDS: [&str; 10] = [
        "none",
        "-",
        "\u{2013}",
        "\u{2014}",
        "nothing",
        "nowhere",
        "gone",
        "taken",
        "captured",
        "not check",
    ];
    const WHAT: [&str; 16] = [
        "check", "checks", "mate", "mates", "capture", "captures", "move", "moves", "square",
        "squares", "man", "men", "piece", "pieces", "one", "wing",
    ];
    let said = plain(text);
    refuses(text)
        || WORDS.contains(&said.as_str())
        || said
            .strip_prefix("no ")
            .is_some_and(|what| WHAT.contains(&what))
}

/// Tells whether a text says that something has not moved.
#[must_use]
pub fn still_there(text: &str) -> bool {
    const WORDS: [&str; 11] = [
        "still there",
        "there",
        "there still",
        "square",
        "still square",
        "unmoved",
        "not moved",
        "never moved",
        "hasn't moved",
        "still at home",
        "at home",
    ];
    WORDS.contains(&plain(text).as_str())
}

/// Reads a square, with or without the letter of a piece before it.
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

/// Reads one square, or `None` for a piece that has left the board.
///
/// # Errors
///
/// As for [`squares`], and [`Unread::OneSquareWanted`].
pub fn square_or_none(text: &str) -> Result<Option<Square>, Unread> {
    if ["off", "off board", "dead"].contains(&plain(text).as_str()) {
        return Ok(None);
    }
    if refuses(text) {
        return Err(Unread::NoSquare(text.trim().into()));
    }
    let set = squares(text)?;
    match set.single_square() {
        None if set.any() => Err(Unread::OneSquareWanted(set.count())),
        square => Ok(square),
    }
}

/// Reads a piece: `knight`, `N`, `white knight`, `wN`, `n` (Black's, as in FEN) or `empty`.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NoMan`].
pub fn piece(text: &str) -> Result<PieceSaid, Unread> {
    if means_none(text) || plain(text) == "empty" {
        return Ok(PieceSaid::Empty);
    }
    let mut side = None;
    let mut said = None;
    for word in words(text) {
        let unread = || Unread::NoMan(word.into());
        if let Some(named) = side_word(word) {
            side = Some(named);
        } else if said.is_none() {
            said = Some(one_piece(word, side).ok_or_else(unread)?);
        } else {
            return Err(unread());
        }
    }
    match (said, side) {
        (None, None) => Err(Unread::Nothing),
        (None, Some(_)) => Err(Unread::NoMan(text.trim().into())),
        (Some(PieceSaid::Whole(piece)), Some(side)) => Ok(PieceSaid::Whole(piece.role.of(side))),
        (Some(PieceSaid::Role(role)), Some(side)) => Ok(PieceSaid::Whole(role.of(side))),
        (Some(said), _) => Ok(said),
    }
}

/// Reads the name of a side; a small b alone is a bishop.
fn side_word(word: &str) -> Option<Color> {
    if word.eq_ignore_ascii_case("w") {
        return Some(Color::White);
    }
    mouth::side(word)
}

fn one_piece(word: &str, side: Option<Color>) -> Option<PieceSaid> {
    if let Some(role) = role_word(word) {
        return Some(PieceSaid::Role(role));
    }
    let mut letters = word.chars();
    match (letters.next()?, letters.next(), letters.next()) {
        (letter, None, _) => {
            let piece = Piece::from_char(letter)?;
            Some(side.map_or(PieceSaid::Whole(piece), |_| PieceSaid::Role(piece.role)))
        }
        (side, Some(letter), None) => {
            let color = match side.to_ascii_lowercase() {
                'w' => Color::White,
                'b' => Color::Black,
                _ => return None,
            };
            Some(PieceSaid::Whole(
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
    if text.trim().is_empty() {
        return Err(Unread::Nothing);
    }
    match plain(text).as_str() {
        "legal" | "l" | "yes" | "y" | "yep" | "yeah" | "ja" | "j" | "possible" => Ok(true),
        "illegal" | "i" | "no" | "n" | "nope" | "nein" | "not legal" | "not possible"
        | "impossible" => Ok(false),
        _ => Err(Unread::NeitherLegalNorIllegal(text.trim().into())),
    }
}
