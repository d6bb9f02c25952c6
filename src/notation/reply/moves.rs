//! Moves in a reply, read in the position in which they would be played.

use shakmaty::{CastlingMode, Chess, Move};

use super::super::{MoveFault, resolve_move};
use super::{Unread, means_none, mouth};

/// Reads any number of legal moves in any order, each as people write it or say it; `none` or `-` is
/// the empty set. Move numbers and `e.p.` may stand among them.
///
/// # Errors
///
/// [`Unread::Nothing`], or [`Unread::NoMove`] with the reason.
pub fn moves(text: &str, position: &Chess, mode: CastlingMode) -> Result<Vec<Move>, Unread> {
    if means_none(text) {
        return Ok(Vec::new());
    }
    let mut read = written(text, position, mode);
    for said in mouth::moves(text) {
        if read.is_ok() {
            break;
        }
        match written(&said, position, mode) {
            // That it is no move in any writing is told of what was typed.
            Err(Unread::Nothing | Unread::NoMove(_, MoveFault::Unreadable)) => {}
            heard => read = heard,
        }
    }
    read
}

/// Reads moves as people write them.
fn written(text: &str, position: &Chess, mode: CastlingMode) -> Result<Vec<Move>, Unread> {
    let moves: Vec<Move> = words(text)
        .map(|word| {
            resolve_move(word, position, mode).map_err(|fault| Unread::NoMove(word.into(), fault))
        })
        .collect::<Result<_, _>>()?;
    if moves.is_empty() {
        return Err(Unread::Nothing);
    }
    Ok(moves)
}

/// Reads one legal move, or `None` where there is none.
///
/// # Errors
///
/// As for [`moves`], and [`Unread::OneMoveWanted`].
pub fn move_or_none(
    text: &str,
    position: &Chess,
    mode: CastlingMode,
) -> Result<Option<Move>, Unread> {
    let moves = moves(text, position, mode)?;
    match moves.as_slice() {
        [] => Ok(None),
        [mv] => Ok(Some(*mv)),
        _ => Err(Unread::OneMoveWanted(moves.len())),
    }
}

/// Reads one legal move.
///
/// # Errors
///
/// As for [`move_or_none`]; `none` is [`Unread::OneMoveWanted`] too.
pub fn one_move(text: &str, position: &Chess, mode: CastlingMode) -> Result<Move, Unread> {
    move_or_none(text, position, mode)?.ok_or(Unread::OneMoveWanted(0))
}

/// Splits a reply into the texts of its moves, without move numbers.
fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| c.is_whitespace() || matches!(c, ',' | ';'))
        .map(without_number)
        .map(|word| word.trim_end_matches('.'))
        .filter(|word| {
            let passed_over = ["", "and", "e.p", "ep"];
            !passed_over
                .iter()
                .any(|other| other.eq_ignore_ascii_case(word))
        })
}

/// Takes `12.` or `12...` off the front of a move, and leaves `0-0` whole.
fn without_number(word: &str) -> &str {
    let rest = word.trim_start_matches(|c: char| c.is_ascii_digit());
    if rest.starts_with('.') {
        rest.trim_start_matches('.')
    } else {
        word
    }
}
