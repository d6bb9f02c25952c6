//! Replies of a word or a number or two: points, moves, counts of files and rows, legal or not, light or dark, a
//! line, wings.

use crate::board::{Alignment, Seen, SquareColor};

use super::meaning::{Reply, Wings};
use super::unread::Unread;
use super::words::{means_never, means_none, plain, words};

/// Reads a number of points with or without its sign: `2`, `+2`, `-2`, `minus 2`, `even`.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NoPoints`].
pub(super) fn points(text: &str) -> Result<i32, Unread> {
    let said = plain(text);
    if said.is_empty() {
        return Err(Unread::Nothing);
    }
    if matches!(
        said.as_str(),
        "even" | "equal" | "level" | "nothing" | "none"
    ) {
        return Ok(0);
    }
    let number = said
        .trim_end_matches("points")
        .trim_end_matches("point")
        .trim();
    let (sign, digits) = ["minus", "-", "\u{2212}", "\u{2013}", "\u{2014}"]
        .iter()
        .find_map(|minus| Some((-1, number.strip_prefix(minus)?)))
        .unwrap_or_else(|| {
            let plus = number.strip_prefix("plus").or(number.strip_prefix('+'));
            (1, plus.unwrap_or(number))
        });
    let digits = digits.trim_start();
    let small = digits.len() <= 4 && digits.bytes().all(|b| b.is_ascii_digit());
    let points = digits.parse::<i32>().ok().filter(|_| small);
    points
        .map(|points| sign * points)
        .ok_or_else(|| Unread::NoPoints(text.trim().into()))
}

/// Reads how many files from the left and rows from the bottom, in this order: `6 3`, `6/3`, `6,3`,
/// `63`.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NoPlace`].
pub(super) fn place(text: &str) -> Result<Seen, Unread> {
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

/// Reads a number of moves, or that a piece never gets there: `6`, `6 moves`, `never`.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NoDistance`].
pub(super) fn distance(text: &str) -> Result<Reply, Unread> {
    if means_never(text) {
        return Ok(Reply::Never);
    }
    let mut said = words(text);
    let number = said.next().ok_or(Unread::Nothing)?;
    let unit = said.next().map(str::to_ascii_lowercase);
    let unit = matches!(unit.as_deref(), None | Some("move" | "moves"));
    number
        .parse()
        .ok()
        .filter(|_| unit && said.next().is_none())
        .map(Reply::Distance)
        .ok_or_else(|| Unread::NoDistance(text.trim().into()))
}

/// Reads whether a move is legal: `legal`, `illegal`, `yes`, `no`, or their first letters.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NeitherLegalNorIllegal`].
pub(super) fn legal(text: &str) -> Result<bool, Unread> {
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

/// Reads the color of a square: `light` or `dark`, `white` or `black`, or their first letters.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NeitherLightNorDark`].
pub(super) fn color(text: &str) -> Result<SquareColor, Unread> {
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
pub(super) fn line(text: &str) -> Result<Alignment, Unread> {
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

/// Reads wings: `short`, `long`, `both`, `O-O`, `O-O-O` or `none`.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NoWing`].
pub(super) fn wings(text: &str) -> Result<Wings, Unread> {
    let mut wings = Wings::default();
    if means_none(text) {
        return Ok(wings);
    }
    for word in words(text) {
        match word.to_ascii_lowercase().as_str() {
            "short" | "o-o" | "0-0" => wings.short = true,
            "long" | "o-o-o" | "0-0-0" => wings.long = true,
            "both" => (wings.short, wings.long) = (true, true),
            _ => return Err(Unread::NoWing(word.into())),
        }
    }
    if wings == Wings::default() {
        return Err(Unread::Nothing);
    }
    Ok(wings)
}
