//! Replies over the bare board: places, colors, lines, numbers of moves and routes.

use shakmaty::Square;

use super::{Unread, plain, refuses, square, squares, words};
use crate::board::{Alignment, Seen, SquareColor};

/// Reads exactly one square.
///
/// # Errors
///
/// [`Unread::Nothing`], [`Unread::NoSquare`] or [`Unread::OneSquareWanted`].
pub fn one_square(text: &str) -> Result<Square, Unread> {
    let set = squares(text)?;
    match set.single_square() {
        Some(square) => Ok(square),
        None if set.is_empty() => Err(Unread::NoSquare(text.trim().into())),
        None => Err(Unread::OneSquareWanted(set.count())),
    }
}

/// Reads how many files from the left and rows from the bottom, in this order: `6 3`, `6/3`, `6,3`,
/// `63`.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NoPlace`].
pub fn place(text: &str) -> Result<Seen, Unread> {
    let text = text.trim();
    if text.is_empty() {
        return Err(Unread::Nothing);
    }
    let counts: Vec<u32> = text.chars().filter_map(|c| c.to_digit(10)).collect();
    let clean = words(text).all(|word| !word.contains(char::is_alphabetic));
    match counts.as_slice() {
        [from_left, from_bottom] if clean => Seen::at(*from_left, *from_bottom),
        _ => None,
    }
    .ok_or_else(|| Unread::NoPlace(text.into()))
}

/// Reads the color of a square: `light` or `dark`, `white` or `black`, or their first letters.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NeitherLightNorDark`].
pub fn color(text: &str) -> Result<SquareColor, Unread> {
    let said = plain(text);
    match said.strip_suffix(" square").unwrap_or(&said) {
        "" => Err(Unread::Nothing),
        "light" | "l" | "white" | "w" | "hell" | "wei\u{df}" | "weiss" => Ok(SquareColor::Light),
        "dark" | "d" | "black" | "b" | "dunkel" | "schwarz" => Ok(SquareColor::Dark),
        _ => Err(Unread::NeitherLightNorDark(text.trim().into())),
    }
}

/// Reads which line two squares share: `file`, `rank`, `diagonal` or `none`, or their first letters.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NoLine`].
pub fn line(text: &str) -> Result<Alignment, Unread> {
    match plain(text).as_str() {
        "" => Err(Unread::Nothing),
        "file" | "f" => Ok(Alignment::File),
        "rank" | "r" => Ok(Alignment::Rank),
        "diagonal" | "d" => Ok(Alignment::Diagonal),
        "none" | "n" | "-" | "\u{2013}" | "\u{2014}" | "no" | "nope" | "nein" | "no line"
        | "neither" => Ok(Alignment::None),
        _ => Err(Unread::NoLine(text.trim().into())),
    }
}

/// Reads a number of moves, or `None` for a piece that never gets there: `6`, `6 moves`, `never`.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NoDistance`].
pub fn distance(text: &str) -> Result<Option<u32>, Unread> {
    if means_never(text) {
        return Ok(None);
    }
    let mut said = words(text);
    let number = said.next().ok_or(Unread::Nothing)?;
    let unit = said.next().map(str::to_ascii_lowercase);
    let unit = matches!(unit.as_deref(), None | Some("move" | "moves"));
    number
        .parse()
        .ok()
        .filter(|_| unit && said.next().is_none())
        .map(Some)
        .ok_or_else(|| Unread::NoDistance(text.trim().into()))
}

/// Reads a route as its squares in order, or `None` for a piece that never gets there: `b3 c5 d7`,
/// `Na1-b3-c5-d7`, `a1b3c5d7`.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NoSquare`].
pub fn route(text: &str) -> Result<Option<Vec<Square>>, Unread> {
    if means_never(text) {
        return Ok(None);
    }
    let mut route = Vec::new();
    for word in words(text).flat_map(|word| word.split(['-', '>', '→', '–'])) {
        if let Some(square) = square(word) {
            route.push(square);
        } else {
            route.extend(glued(word).ok_or_else(|| Unread::NoSquare(word.into()))?);
        }
    }
    if route.is_empty() {
        return Err(Unread::Nothing);
    }
    Ok(Some(route))
}

/// Reads squares written without a space, in order; none in a word of separators alone.
fn glued(word: &str) -> Option<Vec<Square>> {
    let word = word.to_ascii_lowercase();
    word.as_bytes()
        .chunks(2)
        .map(|name| Square::from_ascii(name).ok())
        .collect()
}

fn means_never(text: &str) -> bool {
    const WORDS: [&str; 8] = [
        "never",
        "none",
        "-",
        "\u{2013}",
        "\u{2014}",
        "no way",
        "impossible",
        "nie",
    ];
    refuses(text) || WORDS.contains(&plain(text).as_str())
}
