//! Every piece's square in a reply.

use shakmaty::{Board, Color, Role, Square};

use super::pieces::side_word;
use super::squares::square;
use super::unread::Unread;

/// The pieces behind a side's name or a slash, as far as the text says whose they are.
#[derive(Default)]
struct Part {
    side: Option<Color>,
    pieces: Vec<(Square, Role)>,
}

/// Reads a whole placement: a FEN (its first field counts), or pieces with their squares, the sides told
/// apart by their names in either order, or by a slash, White's before it: `Kg1 Qd1 a2 b2 / Ke8 a7`,
/// `Black: Ke8 a7, White: Kg1 Qd1 a2 b2`.
///
/// # Errors
///
/// [`Unread::Nothing`], [`Unread::NoPlacement`], [`Unread::SquareTwice`] or [`Unread::NoSides`].
pub(super) fn placement(text: &str) -> Result<Board, Unread> {
    let first = text.split_whitespace().next().ok_or(Unread::Nothing)?;
    if first.matches('/').count() == 7 {
        return Board::from_ascii_board_fen(first.as_bytes())
            .map_err(|_| Unread::NoPlacement(first.into()));
    }
    let mut parts = parts(text)?;
    tell_apart(&mut parts)?;
    let mut board = Board::empty();
    for part in &parts {
        let side = part.side.ok_or(Unread::NoSides)?;
        for (square, role) in &part.pieces {
            if board.role_at(*square).is_some() {
                return Err(Unread::SquareTwice(*square));
            }
            board.set_piece_at(*square, role.of(side));
        }
    }
    Ok(board)
}

/// A part begins at each slash and at each name of a side.
fn parts(text: &str) -> Result<Vec<Part>, Unread> {
    let spaced = text.replace('/', " / ");
    let words = spaced
        .split(|c: char| c.is_whitespace() || matches!(c, ',' | ';' | '.' | ':'))
        .filter(|word| !word.is_empty() && !word.eq_ignore_ascii_case("and"));
    let mut parts = Vec::new();
    let mut part = Part::default();
    for word in words {
        if word == "/" {
            parts.push(std::mem::take(&mut part));
        } else if let Some(side) = side_word(word) {
            if part.side.is_some() || !part.pieces.is_empty() {
                parts.push(std::mem::take(&mut part));
            }
            part.side = Some(side);
        } else {
            let piece = piece_with_square(word).ok_or_else(|| Unread::NoPlacement(word.into()))?;
            part.pieces.push(piece);
        }
    }
    parts.push(part);
    if parts.len() > 2 {
        parts.retain(|part| part.side.is_some() || !part.pieces.is_empty());
    }
    Ok(parts)
}

/// Finds whose pieces a part without a name has: of two parts the other side's, or White's first.
fn tell_apart(parts: &mut [Part]) -> Result<(), Unread> {
    if let [one, other] = parts {
        let first = one.side.or(other.side.map(|side| !side));
        let first = first.unwrap_or(Color::White);
        one.side = Some(first);
        other.side = other.side.or(Some(!first));
    }
    let is_there = |side: Color| parts.iter().any(|part| part.side == Some(side));
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
