//! Pieces in a reply: one, all that were taken, or all with their squares.

use shakmaty::{Board, Color, Piece, Role, Square};

use super::meaning::{CapturedPieces, Reply, Unread};
use super::spoken::{self, role_word};
use super::squares::square;
use super::words::{means_none, plain, words};

/// Reads a piece: `knight`, `N`, `white knight`, `wN`, `n` (Black's, as in FEN) or `empty`.
///
/// # Errors
///
/// [`Unread::NoPiece`].
pub(super) fn piece(text: &str) -> Result<Reply, Unread> {
    if means_none(text) || matches!(&*plain(text), "empty" | "empty square") {
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
    let (role, letter) = said.ok_or_else(|| Unread::NoPiece(text.trim().into()))?;
    Ok(match side.or(letter) {
        Some(side) => Reply::Piece(Some(role.of(side))),
        None => Reply::Role(role),
    })
}

/// Reads the name of a side; a small b alone is a bishop.
fn side_word(word: &str) -> Option<Color> {
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

/// Reads pieces by their roles: `NPP`, `n p p`, `knight, two pawns`, `N 2P`; `none` or `-` for no piece.
///
/// # Errors
///
/// [`Unread::NoPiece`] with the word, a king among them, or [`Unread::HowMany`].
pub(super) fn captured(text: &str) -> Result<CapturedPieces, Unread> {
    if means_none(text) {
        return Ok(CapturedPieces::default());
    }
    let mut pieces = Vec::new();
    let mut times = None;
    let parts = words(text).flat_map(|word| {
        let letters = word.trim_start_matches(|c: char| c.is_ascii_digit());
        let (digits, letters) = word.split_at(word.len() - letters.len());
        [digits, letters]
    });
    for word in parts.filter(|part| !part.is_empty()) {
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
        None => Ok(pieces.into_iter().collect()),
    }
}

/// Reads how many pieces of a role are meant; no side has more than nine.
fn number(word: &str) -> Option<usize> {
    match word.to_ascii_lowercase().as_str() {
        "a" => Some(1),
        "both" => Some(2),
        word => spoken::number(word).filter(|number| (1..10).contains(number)),
    }
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

/// The pieces behind a side's name or a slash, as far as the text says whose they are.
#[derive(Default)]
struct Group {
    side: Option<Color>,
    pieces: Vec<(Square, Role)>,
}

/// Reads a whole placement: a FEN (its first field counts), or pieces with their squares, the sides told
/// apart by their names in either order, or by a slash, White's before it: `Kg1 Qd1 a2 b2 / Ke8 a7`,
/// `Black: Ke8 a7, White: Kg1 Qd1 a2 b2`.
///
/// # Errors
///
/// [`Unread::NoPlacement`], [`Unread::SquareTwice`] or [`Unread::NoSides`].
pub(super) fn placement(text: &str) -> Result<Board, Unread> {
    let first = text.split_whitespace().next().unwrap_or_default();
    if first.matches('/').count() == 7 {
        return Board::from_ascii_board_fen(first.as_bytes())
            .map_err(|_| Unread::NoPlacement(first.into()));
    }
    let mut groups = groups(text)?;
    tell_apart(&mut groups)?;
    let mut board = Board::empty();
    for group in &groups {
        let side = group.side.ok_or(Unread::NoSides)?;
        for (square, role) in &group.pieces {
            if board.role_at(*square).is_some() {
                return Err(Unread::SquareTwice(*square));
            }
            board.set_piece_at(*square, role.of(side));
        }
    }
    Ok(board)
}

/// A group begins at each slash and at each name of a side.
fn groups(text: &str) -> Result<Vec<Group>, Unread> {
    let spaced = text.replace('/', " / ");
    let words = spaced
        .split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '.' | ':'))
        .filter(|word| !word.is_empty() && !word.eq_ignore_ascii_case("and"));
    let mut groups = Vec::new();
    let mut group = Group::default();
    for word in words {
        if word == "/" {
            groups.push(std::mem::take(&mut group));
        } else if let Some(side) = side_word(word) {
            if group.side.is_some() || !group.pieces.is_empty() {
                groups.push(std::mem::take(&mut group));
            }
            group.side = Some(side);
        } else {
            let piece = piece_with_square(word).ok_or_else(|| Unread::NoPlacement(word.into()))?;
            group.pieces.push(piece);
        }
    }
    groups.push(group);
    if groups.len() > 2 {
        groups.retain(|group| group.side.is_some() || !group.pieces.is_empty());
    }
    Ok(groups)
}

/// Finds whose pieces a group without a name has: of two groups the other side's, or White's first.
fn tell_apart(groups: &mut [Group]) -> Result<(), Unread> {
    if let [one, other] = groups {
        let first = one.side.or(other.side.map(|side| !side));
        let first = first.unwrap_or(Color::White);
        one.side = Some(first);
        other.side = other.side.or(Some(!first));
    }
    let is_there = |side: Color| groups.iter().any(|group| group.side == Some(side));
    if Color::ALL.into_iter().all(is_there) {
        Ok(())
    } else {
        Err(Unread::NoSides)
    }
}

fn piece_with_square(word: &str) -> Option<(Square, Role)> {
    let square = square(word)?;
    let role = match word.len() {
        2 => Role::Pawn,
        _ => Role::from_char(word.chars().next()?.to_ascii_lowercase())?,
    };
    Some((square, role))
}
