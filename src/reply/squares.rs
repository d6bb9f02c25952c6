//! Squares in a reply: one, several, none, and a route of them.

use shakmaty::{Bitboard, Role, Square};

use super::meaning::{Reply, Unread};
use super::words::{means_never, means_none, plain, refuses, words};

/// Reads a square, with or without the letter of a piece before it.
pub(super) fn square(word: &str) -> Option<Square> {
    let word = word.to_ascii_lowercase();
    let name = match word.len() {
        2 => word.as_str(),
        3 if word.starts_with(|c| Role::from_char(c).is_some()) => &word[1..],
        _ => return None,
    };
    name.parse().ok()
}

/// Reads the squares of one word in their order, also without a space, as in `d5e6`.
fn each_square(word: &str) -> Result<Vec<Square>, Unread> {
    if let Some(square) = square(word) {
        return Ok(vec![square]);
    }
    let names = word.to_ascii_lowercase();
    { names.as_bytes().chunks(2) }
        .map(|name| Square::from_ascii(name).map_err(|_| Unread::NoSquare(word.into())))
        .collect()
}

/// Reads any number of squares in any order; `none` or `-` is the empty set.
///
/// # Errors
///
/// [`Unread::NoSquare`].
pub(super) fn squares(text: &str) -> Result<Bitboard, Unread> {
    if means_none(text) {
        return Ok(Bitboard::EMPTY);
    }
    let mut set = Bitboard::EMPTY;
    for word in words(text) {
        set.extend(each_square(word)?);
    }
    Ok(set)
}

fn at_most_one(text: &str) -> Result<Option<Square>, Unread> {
    let set = squares(text)?;
    match set.single_square() {
        None if set.any() => Err(Unread::OneSquareWanted(set.count())),
        square => Ok(square),
    }
}

/// Reads one square, or that a piece has left the board.
///
/// # Errors
///
/// As for [`squares`], and [`Unread::OneSquareWanted`].
pub(super) fn square_or_gone(text: &str) -> Result<Reply, Unread> {
    if matches!(plain(text).as_str(), "off" | "off board" | "dead") {
        return Ok(Reply::Gone);
    }
    if refuses(text) {
        return Err(Unread::NoSquare(text.trim().into()));
    }
    let said = plain(text);
    let square = at_most_one(said.strip_prefix("piece ").unwrap_or(text))?;
    Ok(square.map_or(Reply::Gone, Reply::Square))
}

/// Reads exactly one square.
///
/// # Errors
///
/// [`Unread::NoSquare`] or [`Unread::OneSquareWanted`].
pub(super) fn one_square(text: &str) -> Result<Square, Unread> {
    at_most_one(text)?.ok_or_else(|| Unread::NoSquare(text.trim().into()))
}

/// Reads a route as its squares in order, or that a piece never gets there: `b3 c5 d7`,
/// `Na1-b3-c5-d7`, `a1b3c5d7`.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NoSquare`].
pub(super) fn route(text: &str) -> Result<Reply, Unread> {
    if means_never(text) {
        return Ok(Reply::Never);
    }
    let mut route = Vec::new();
    for word in words(text).flat_map(|word| word.split(['-', '>', '→', '–'])) {
        route.extend(each_square(word)?);
    }
    if route.is_empty() {
        return Err(Unread::Nothing);
    }
    Ok(Reply::Route(route))
}
