//! Replies of a word or a number or two: points, moves, counts of files and rows, legal or not, light or dark, a
//! line, wings.

use crate::board::{Alignment, Seen, SquareColor};

use super::meaning::{Reply, Unread, Wings};
use super::words::{means_never, means_none, plain, words};

/// Reads a number of points with or without its sign: `2`, `+2`, `-2`, `minus 2`, `wins 2`, `loses 2`, `white +2`, `Black
/// is 2 ahead`, `even`.
pub(super) fn points(text: &str) -> Option<Reply> {
    let said = plain(text);
    let said = match said.as_str() {
        "even" | "equal" | "level" | "nothing" | "none" => return Some(Reply::Points(0)),
        said => without_unit(said),
    };
    // The points of a side that is ahead have no minus of their own.
    let ahead = said.strip_suffix(" ahead").map(without_unit);
    let said = ahead.unwrap_or(said);
    let whose = [("white", "+"), ("black", "-")]
        .into_iter()
        .find_map(|(side, sign)| {
            let rest = said.strip_prefix(side)?.trim_start();
            let plus = rest.strip_prefix("plus ").or(rest.strip_prefix('+'));
            let count = plus.or(ahead.map(|_| rest))?;
            Some(format!("{sign}{}", count.trim_start()))
        });
    let said = whose.as_deref().unwrap_or(said);
    let signs = ["minus", "-", "\u{2212}", "\u{2013}", "\u{2014}", "loses "];
    let minus = signs.iter().find_map(|sign| said.strip_prefix(sign));
    let plus = ["plus", "+", "wins "]
        .iter()
        .find_map(|sign| said.strip_prefix(sign));
    let digits = minus.or(plus).unwrap_or(said).trim_start();
    let small = digits.len() <= 4 && digits.bytes().all(|b| b.is_ascii_digit());
    let points: i32 = digits.parse().ok().filter(|_| small)?;
    Some(Reply::Points(if minus.is_some() {
        -points
    } else {
        points
    }))
}

fn without_unit(said: &str) -> &str {
    said.trim_end_matches("points")
        .trim_end_matches("point")
        .trim()
}

/// Reads how many files from the left and rows from the bottom, in this order: `6 3`, `6/3`, `6,3`,
/// `63`.
pub(super) fn place(text: &str) -> Option<Reply> {
    let clean = words(text).all(|word| !word.contains(char::is_alphabetic));
    let counts: Vec<u32> = text.chars().filter_map(|c| c.to_digit(10)).collect();
    match counts.as_slice() {
        [from_left, from_bottom] if clean => Seen::at(*from_left, *from_bottom).map(Reply::Place),
        _ => None,
    }
}

/// Reads a number of moves, or that a piece never gets there: `6`, `6 moves`, `never`.
pub(super) fn distance(text: &str) -> Option<Reply> {
    if means_never(text) {
        return Some(Reply::Never);
    }
    let small = text.to_lowercase();
    match words(&small).collect::<Vec<_>>().as_slice() {
        [number] | [number, "move" | "moves"] => number.parse().ok().map(Reply::Distance),
        _ => None,
    }
}

/// Reads whether a move is legal: `legal`, `illegal`, `yes`, `no`, or their first letters; a reason may follow, as in
/// `illegal, pinned`, which says neither again.
pub(super) fn legal(text: &str) -> Option<Reply> {
    let said = plain(text);
    let said = said.strip_prefix("i think ").unwrap_or(&said);
    let (verdict, reason) = said.split_once(',').unwrap_or((said, ""));
    let is_clear = !words(reason).any(|word| is_legal(word).is_some());
    is_legal(verdict).filter(|_| is_clear).map(Reply::Legal)
}

fn is_legal(said: &str) -> Option<bool> {
    match said {
        "legal" | "l" | "yes" | "y" | "yep" | "yeah" | "ja" | "j" | "possible" => Some(true),
        "illegal" | "i" | "no" | "n" | "nope" | "nein" | "not legal" | "not possible"
        | "impossible" => Some(false),
        _ => None,
    }
}

/// Reads the color of a square: `light` or `dark`, `white` or `black`, or their first letters.
pub(super) fn color(text: &str) -> Option<Reply> {
    let said = plain(text);
    let color = match said.strip_suffix(" square").unwrap_or(&said) {
        "light" | "l" | "white" | "w" | "hell" | "wei\u{df}" | "weiss" => SquareColor::Light,
        "dark" | "d" | "black" | "b" | "dunkel" | "schwarz" => SquareColor::Dark,
        _ => return None,
    };
    Some(Reply::Color(color))
}

/// Reads which line two squares share: `file`, `rank`, `diagonal` or `none`, or their first letters.
pub(super) fn line(text: &str) -> Option<Reply> {
    let line = match plain(text).as_str() {
        "file" | "f" | "column" => Alignment::File,
        "rank" | "r" | "row" => Alignment::Rank,
        "diagonal" | "d" => Alignment::Diagonal,
        "none" | "n" | "-" | "\u{2013}" | "\u{2014}" | "no" | "nope" | "nein" | "no line"
        | "neither" => Alignment::None,
        _ => return None,
    };
    Some(Reply::Line(line))
}

/// Reads wings: `short`, `long`, `both`, `O-O`, `O-O-O`, `KQ` as in FEN, or `none`.
///
/// # Errors
///
/// [`Unread::NoWing`] with the word.
pub(super) fn wings(text: &str) -> Result<Wings, Unread> {
    let mut wings = Wings::default();
    if means_none(text) || plain(text) == "neither" {
        return Ok(wings);
    }
    for word in words(text) {
        match word.to_ascii_lowercase().as_str() {
            "short" | "o-o" | "0-0" | "k" => wings.short = true,
            "long" | "o-o-o" | "0-0-0" | "q" => wings.long = true,
            "both" | "kq" => (wings.short, wings.long) = (true, true),
            _ => return Err(Unread::NoWing(word.into())),
        }
    }
    Ok(wings)
}
