//! Moves in a reply, read in the position in which they would be played.

use shakmaty::{Chess, Move, Piece, Role, Square};

use super::meaning::{ImpossibleMove, MoveSaid, Unread};
use super::spoken;
use super::words::{means_none, wish};
use crate::rules::{Attempt, LetterSet, MoveFault, Wording, resolve_move, squares_meant, wording};

/// A legal move, or an illegal one as long as it is not known which squares are meant.
type Resolved = Result<Move, ImpossibleMove>;

/// Reads any number of moves in any order, legal or not, each as people write it or say it; `none` or
/// `-` is the empty set. Move numbers and `e.p.` may stand among them.
///
/// # Errors
///
/// [`Unread::Nothing`], what [`wish`] finds, or [`Unread::NoMove`] where a word is no move at all or
/// may be one of several.
fn resolved(text: &str, position: &Chess) -> Result<Vec<Resolved>, Unread> {
    if means_none(text) {
        return Ok(Vec::new());
    }
    if let Some(wish) = wish(text) {
        return Err(wish);
    }
    let mut best = written(text, position);
    for said in spoken::moves(text) {
        let heard = written(&said, position);
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

/// Brings moves that were said into writing, in the way that has the fewest illegal ones.
pub(super) fn in_writing(text: &str, position: &Chess) -> Option<String> {
    let doubts = |said: &String| doubts(&written(said, position));
    spoken::moves(text).into_iter().min_by_key(doubts)
}

/// Of several ways to read a text, the one with the fewest illegal moves was meant.
fn doubts(read: &Result<Vec<Resolved>, Unread>) -> usize {
    match read {
        Ok(moves) => moves.iter().filter(|mv| mv.is_err()).count(),
        Err(Unread::NoMove(_, MoveFault::Unreadable)) => usize::MAX,
        Err(_) => usize::MAX - 1,
    }
}

/// Reads moves as people write them.
fn written(text: &str, position: &Chess) -> Result<Vec<Resolved>, Unread> {
    let moves: Vec<Resolved> = words(text)
        .map(|word| match resolve_move(word, position) {
            Ok(mv) => Ok(Ok(mv)),
            Err(fault) if fault.is_illegal() || fault == MoveFault::NeedlessPromotion => {
                let word = word.into();
                Ok(Err(ImpossibleMove { word, fault }))
            }
            // No move at all, or one that is legal once it is said in full.
            Err(fault) => Err(Unread::NoMove(word.into(), fault)),
        })
        .collect::<Result<_, _>>()?;
    if moves.is_empty() {
        return Err(Unread::Nothing);
    }
    Ok(moves)
}

/// Names a move by its squares, where they are certain.
fn named(mv: Resolved, position: &Chess) -> MoveSaid {
    match mv {
        Ok(mv) => MoveSaid::Named(Attempt::of(mv, position)),
        Err(said) => {
            squares_meant(&said.word, position).map_or(MoveSaid::Impossible(said), MoveSaid::Named)
        }
    }
}

/// Reads any number of moves, each named once: those whose squares are certain first, in the order of
/// their squares.
///
/// # Errors
///
/// As for [`resolved`].
pub(super) fn moves(text: &str, position: &Chess) -> Result<Vec<MoveSaid>, Unread> {
    let mut moves: Vec<MoveSaid> = Vec::new();
    for mv in resolved(text, position)? {
        let said = named(mv, position);
        if !moves.contains(&said) {
            moves.push(said);
        }
    }
    moves.sort_by_key(|said| (said.squares().is_none(), said.squares()));
    Ok(moves)
}

fn at_most_one(text: &str, position: &Chess) -> Result<Option<Resolved>, Unread> {
    let mut moves = resolved(text, position)?;
    match moves.len() {
        0 | 1 => Ok(moves.pop()),
        several => Err(Unread::OneMoveWanted(several)),
    }
}

/// Reads one move, legal or not, or `None` where none is said.
///
/// # Errors
///
/// As for [`resolved`], and [`Unread::OneMoveWanted`].
pub(super) fn move_or_none(text: &str, position: &Chess) -> Result<Option<MoveSaid>, Unread> {
    let mv = at_most_one(text, position)?;
    Ok(mv.map(|mv| named(mv, position)))
}

/// Reads one legal move.
///
/// # Errors
///
/// [`Unread::NoMove`] for what is no legal move, [`Unread::OneMoveWanted`], [`Unread::Nothing`], and what
/// [`wish`] finds.
pub fn one_move(text: &str, position: &Chess) -> Result<Move, Unread> {
    at_most_one(text, position)?
        .ok_or(Unread::OneMoveWanted(0))?
        .map_err(|said| Unread::NoMove(said.word, said.fault))
}

/// Reads a move of the one piece that stands on `from` as the square that it arrives on: `Qxg6` is g6 for
/// a queen, `O-O` the king's square behind it. `None` where the text is no move of that piece.
pub fn arrival(word: &str, piece: Piece, from: Square) -> Option<Square> {
    let word = word.trim_end_matches('.');
    match wording(word, LetterSet::ENGLISH)? {
        Wording::Null => None,
        Wording::Castle(wing) => (piece.role == Role::King).then(|| wing.king_to(piece.color)),
        Wording::Piece(said) => {
            let named =
                said.role == Some(piece.role) || (said.role.is_none() && said.from() == Some(from));
            (named && said.may_leave(from)).then_some(said.to)
        }
    }
}

/// Splits a reply into the texts of its moves, without move numbers.
fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| c.is_whitespace() || matches!(c, ',' | ';'))
        .map(without_number)
        .map(|word| word.trim_end_matches('.'))
        .filter(|word| {
            let lower = word.to_ascii_lowercase();
            !matches!(lower.as_str(), "" | "and" | "e.p" | "ep")
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
