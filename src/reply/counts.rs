//! Points, wings and pieces by their roles in a reply.

use shakmaty::Role;

use super::{Unread, means_none, plain, role_word, words};

/// Reads a number of points with or without its sign: `2`, `+2`, `-2`, `minus 2`, `even`.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NoPoints`].
pub fn points(text: &str) -> Result<i32, Unread> {
    let said = plain(text);
    if said.is_empty() {
        return Err(Unread::Nothing);
    }
    if ["even", "equal", "level", "nothing", "none"].contains(&said.as_str()) {
        return Ok(0);
    }
    let unread = || Unread::NoPoints(text.trim().into());
    let number = said
        .trim_end_matches("points")
        .trim_end_matches("point")
        .trim();
    let (sign, digits) = ["minus", "-", "\u{2212}", "\u{2013}", "\u{2014}"]
        .iter()
        .find_map(|minus| Some((-1, number.strip_prefix(minus)?)))
        .or_else(|| {
            let plus = ["plus", "+"].iter();
            { plus }.find_map(|plus| Some((1, number.strip_prefix(plus)?)))
        })
        .unwrap_or((1, number));
    let digits = digits.trim_start();
    if digits.is_empty() || digits.len() > 4 || !digits.bytes().all(|b| b.is_ascii_digit()) {
        return Err(unread());
    }
    digits
        .parse::<i32>()
        .map(|points| sign * points)
        .map_err(|_| unread())
}

/// Reads wings, the short one first: `short`, `long`, `both`, `O-O`, `O-O-O` or `none`.
///
/// # Errors
///
/// [`Unread::Nothing`] or [`Unread::NoWing`].
pub fn wings(text: &str) -> Result<[bool; 2], Unread> {
    if means_none(text) {
        return Ok([false, false]);
    }
    let mut wings = [false, false];
    for word in words(text) {
        match word.to_ascii_lowercase().as_str() {
            "short" | "o-o" | "0-0" => wings[0] = true,
            "long" | "o-o-o" | "0-0-0" => wings[1] = true,
            "both" => wings = [true, true],
            _ => return Err(Unread::NoWing(word.into())),
        }
    }
    if wings == [false, false] {
        return Err(Unread::Nothing);
    }
    Ok(wings)
}

/// Reads pieces by their roles: `NPP`, `n p p`, `knight, two pawns`; `none` or `-` for no piece.
///
/// # Errors
///
/// [`Unread::Nothing`], [`Unread::NoMan`] with the word, a king among them, or [`Unread::HowMany`].
pub fn pieces(text: &str) -> Result<Vec<Role>, Unread> {
    if means_none(text) {
        return Ok(Vec::new());
    }
    let mut pieces = Vec::new();
    let mut times = None;
    for word in words(text) {
        if let (Some(number), None) = (number(word), times) {
            times = Some((word, number));
            continue;
        }
        let roles = roles(word).ok_or_else(|| Unread::NoMan(word.into()))?;
        if times.is_none() && is_plural(word) {
            return Err(Unread::HowMany(word.into()));
        }
        match (times.take(), roles.as_slice()) {
            (None, _) => pieces.extend(roles),
            (Some((_, times)), [role]) => pieces.extend(std::iter::repeat_n(*role, times)),
            (Some(_), _) => return Err(Unread::NoMan(word.into())),
        }
    }
    match times {
        Some((word, _)) => Err(Unread::NoMan(word.into())),
        None if pieces.is_empty() => Err(Unread::Nothing),
        None => Ok(pieces),
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
