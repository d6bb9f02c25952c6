//! Pieces in a reply: one, or all that were taken.

use shakmaty::{Color, Piece, Role};

use super::captured::CapturedPieces;
use super::meaning::Reply;
use super::spoken::{self, role_word};
use super::unread::Unread;
use super::words::{means_none, plain, words};

/// Reads a piece: `knight`, `N`, `white knight`, `wN`, `n` (Black's, as in FEN) or `empty`.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NoPiece`].
pub(super) fn piece(text: &str) -> Result<Reply, Unread> {
    if means_none(text) || plain(text) == "empty" {
        return Ok(Reply::Piece(None));
    }
    let mut side = None;
    let mut said = None;
    for word in words(text) {
        let unread = || Unread::NoPiece(word.into());
        if let Some(named) = side_word(word) {
            side = Some(named);
        } else if said.is_none() {
            said = Some(one_piece(word).ok_or_else(unread)?);
        } else {
            return Err(unread());
        }
    }
    match (said, side) {
        (None, None) => Err(Unread::Nothing),
        (None, Some(_)) => Err(Unread::NoPiece(text.trim().into())),
        (Some((role, letter)), side) => Ok(match side.or(letter) {
            Some(side) => Reply::Piece(Some(role.of(side))),
            None => Reply::Role(role),
        }),
    }
}

/// Reads the name of a side; a small b alone is a bishop.
pub(super) fn side_word(word: &str) -> Option<Color> {
    if word.eq_ignore_ascii_case("w") {
        return Some(Color::White);
    }
    spoken::side(word)
}

/// Reads the role of a piece, and its side where its letters tell.
fn one_piece(word: &str) -> Option<(Role, Option<Color>)> {
    if let Some(role) = role_word(word) {
        return Some((role, None));
    }
    let mut letters = word.chars();
    match (letters.next()?, letters.next(), letters.next()) {
        (letter, None, _) => {
            let piece = Piece::from_char(letter)?;
            Some((piece.role, Some(piece.color)))
        }
        (side, Some(letter), None) => {
            let side = Color::from_char(side.to_ascii_lowercase())?;
            Some((Role::from_char(letter.to_ascii_lowercase())?, Some(side)))
        }
        _ => None,
    }
}

/// Reads pieces by their roles: `NPP`, `n p p`, `knight, two pawns`; `none` or `-` for no piece.
///
/// # Errors
///
/// [`Unread::Nothing`], [`Unread::NoPiece`] with the word, a king among them, or [`Unread::HowMany`].
pub(super) fn captured(text: &str) -> Result<CapturedPieces, Unread> {
    if means_none(text) {
        return Ok(CapturedPieces::default());
    }
    let mut pieces = Vec::new();
    let mut times = None;
    for word in words(text) {
        if let (Some(number), None) = (number(word), times) {
            times = Some((word, number));
            continue;
        }
        let roles = roles(word).ok_or_else(|| Unread::NoPiece(word.into()))?;
        match (times.take(), roles.as_slice()) {
            (None, _) if is_plural(word) => return Err(Unread::HowMany(word.into())),
            (None, _) => pieces.extend(roles),
            (Some((_, times)), [role]) => pieces.extend(std::iter::repeat_n(*role, times)),
            (Some(_), _) => return Err(Unread::NoPiece(word.into())),
        }
    }
    match times {
        Some((word, _)) => Err(Unread::NoPiece(word.into())),
        None if pieces.is_empty() => Err(Unread::Nothing),
        None => Ok(pieces.into_iter().collect()),
    }
}

/// Reads how many pieces of a role are meant; no side has more than nine.
fn number(word: &str) -> Option<usize> {
    const WORDS: [&str; 10] = [
        "a", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine",
    ];
    let word = word.to_ascii_lowercase();
    if word == "both" {
        return Some(2);
    }
    let digit = word.parse().ok().filter(|number| (1..=9).contains(number));
    digit.or_else(|| {
        let place = WORDS.iter().position(|other| *other == word);
        place.map(|place| place.max(1))
    })
}

fn is_plural(word: &str) -> bool {
    word.strip_suffix(['s', 'S']).and_then(role_word).is_some()
}

/// Reads the name of a role, also of several, or letters without a space.
fn roles(word: &str) -> Option<Vec<Role>> {
    let singular = word.strip_suffix(['s', 'S']).unwrap_or(word);
    let can_be_taken = |role: &Role| *role != Role::King;
    if let Some(role) = role_word(word).or_else(|| role_word(singular)) {
        return Some(role).filter(can_be_taken).map(|role| vec![role]);
    }
    word.chars()
        .map(|letter| Role::from_char(letter.to_ascii_lowercase()).filter(can_be_taken))
        .collect()
}
