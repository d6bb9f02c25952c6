//! One of a few words in a reply: legal or not, light or dark, a line, wings.

use crate::board::{Alignment, SquareColor};

use super::unread::Unread;
use super::wings::Wings;
use super::words::{means_none, plain, words};

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
