//! Moves in a reply, read in the position in which they would be played.

use shakmaty::{CastlingMode, CastlingSide, Chess, Move, Piece, Role, Square};

use super::{Unread, means_none, mouth, wish};
use crate::rules::Attempt;
use crate::rules::{LetterSet, MoveFault, Wording, resolve_move, squares_meant, wording};

/// A move that was said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MoveSaid {
    /// It is legal.
    Legal(Move),
    /// It is illegal.
    Illegal {
        /// The word.
        word: String,
        /// What is wrong with it.
        fault: MoveFault,
        /// The squares that it must mean; `None` where no piece or several pieces may be meant.
        meant: Option<Attempt>,
    },
}

/// Reads any number of moves in any order, legal or not, each as people write it or say it; `none` or
/// `-` is the empty set. Move numbers and `e.p.` may stand among them.
///
/// # Errors
///
/// [`Unread::Nothing`], what [`wish`] finds, or [`Unread::NoMove`] where a word is no move at all or
/// may be one of several.
pub fn moves_said(
    text: &str,
    position: &Chess,
    mode: CastlingMode,
) -> Result<Vec<MoveSaid>, Unread> {
    if means_none(text) {
        return Ok(Vec::new());
    }
    if let Some(wish) = wish(text) {
        return Err(wish);
    }
    let mut best = written(text, position, mode);
    for said in mouth::moves(text) {
        let heard = written(&said, position, mode);
        // That it is no move in any writing is told of what was typed.
        let worth_telling = !matches!(
            heard,
            Err(Unread::Nothing | Unread::NoMove(_, MoveFault::Unreadable))
        );
        if worth_telling && doubts(&heard) < doubts(&best) {
            best = heard;
        }
    }
    best
}

/// Of several ways to read a text, the one with the fewest illegal moves was meant.
fn doubts(read: &Result<Vec<MoveSaid>, Unread>) -> usize {
    match read {
        Ok(moves) => moves
            .iter()
            .filter(|said| !matches!(said, MoveSaid::Legal(_)))
            .count(),
        Err(Unread::NoMove(_, MoveFault::Unreadable)) => usize::MAX,
        Err(_) => usize::MAX - 1,
    }
}

/// Reads moves as people write them.
fn written(text: &str, position: &Chess, mode: CastlingMode) -> Result<Vec<MoveSaid>, Unread> {
    let moves: Vec<MoveSaid> = words(text)
        .map(|word| one_word(word, position, mode))
        .collect::<Result<_, _>>()?;
    if moves.is_empty() {
        return Err(Unread::Nothing);
    }
    Ok(moves)
}

fn one_word(word: &str, position: &Chess, mode: CastlingMode) -> Result<MoveSaid, Unread> {
    let fault = match resolve_move(word, position, mode) {
        Ok(mv) => return Ok(MoveSaid::Legal(mv)),
        Err(fault) => fault,
    };
    match fault {
        // No move at all, or one that is legal once it is said in full.
        MoveFault::Unreadable
        | MoveFault::Pass
        | MoveFault::OnlyCastling { .. }
        | MoveFault::Ambiguous { .. }
        | MoveFault::NoPromotion { .. } => Err(Unread::NoMove(word.into(), fault)),
        MoveFault::NoSuchPiece { .. }
        | MoveFault::CannotGo { .. }
        | MoveFault::CannotCastle { .. }
        | MoveFault::NeedlessPromotion => Ok(MoveSaid::Illegal {
            word: word.into(),
            fault,
            meant: squares_meant(word, position, mode),
        }),
    }
}

/// Reads one move, legal or not, or `None` where none is said.
///
/// # Errors
///
/// As for [`moves_said`], and [`Unread::OneMoveWanted`].
pub fn move_said_or_none(
    text: &str,
    position: &Chess,
    mode: CastlingMode,
) -> Result<Option<MoveSaid>, Unread> {
    let mut moves = moves_said(text, position, mode)?;
    match moves.len() {
        0 | 1 => Ok(moves.pop()),
        several => Err(Unread::OneMoveWanted(several)),
    }
}

/// Reads one move, legal or not.
///
/// # Errors
///
/// As for [`move_said_or_none`]; `none` is [`Unread::OneMoveWanted`] too.
pub fn one_move_said(text: &str, position: &Chess, mode: CastlingMode) -> Result<MoveSaid, Unread> {
    move_said_or_none(text, position, mode)?.ok_or(Unread::OneMoveWanted(0))
}

/// Reads one legal move.
///
/// # Errors
///
/// As for [`one_move_said`], and [`Unread::NoMove`] for an illegal move.
pub fn one_move(text: &str, position: &Chess, mode: CastlingMode) -> Result<Move, Unread> {
    match one_move_said(text, position, mode)? {
        MoveSaid::Legal(mv) => Ok(mv),
        MoveSaid::Illegal { word, fault, .. } => Err(Unread::NoMove(word, fault)),
    }
}

/// Reads a move of the one piece that stands on `from` as the square that it arrives on: `Qxg6` is g6 for
/// a queen, `O-O` the king's square behind it. `None` where the text is no move of that piece.
#[must_use]
pub fn arrival(word: &str, piece: Piece, from: Square) -> Option<Square> {
    let word = word.trim_end_matches('.');
    match wording(word, LetterSet::ENGLISH)? {
        Wording::Null => None,
        Wording::Castle(wing) => castles(piece, wing),
        Wording::Piece(said) => {
            let named =
                said.role == Some(piece.role) || (said.role.is_none() && said.from() == Some(from));
            let from_there = said.file.is_none_or(|file| file == from.file())
                && said.rank.is_none_or(|rank| rank == from.rank());
            (named && from_there).then_some(said.to)
        }
    }
}

fn castles(piece: Piece, wing: CastlingSide) -> Option<Square> {
    (piece.role == Role::King).then(|| wing.king_to(piece.color))
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
