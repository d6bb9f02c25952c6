//! How the words of a move follow each other.

use shakmaty::CastlingSide;

use super::vocabulary::{Word, letter};

/// Brings moves into writing, where two squares in a row are one move if they are to be `joined`.
pub(super) fn all_moves(words: &[Word], joined: bool) -> Option<String> {
    let mut written = Vec::new();
    let mut rest = words;
    while let Some(first) = rest.first() {
        if matches!(first, Word::Stop | Word::Side(_)) {
            rest = &rest[1..];
            continue;
        }
        let (mv, behind) = one_move(rest, joined)?;
        written.push(mv);
        rest = behind;
    }
    (!written.is_empty()).then(|| written.join(" "))
}

/// Brings the first of some moves into writing, and returns the words behind it.
fn one_move(words: &[Word], joined: bool) -> Option<(String, &[Word])> {
    match words {
        [Word::Castles, Word::Wing(wing), rest @ ..]
        | [Word::Wing(wing), Word::Castles, rest @ ..] => {
            let castles = match wing {
                CastlingSide::KingSide => "O-O",
                CastlingSide::QueenSide => "O-O-O",
            };
            return Some((castles.to_owned(), rest));
        }
        [Word::Other(word), rest @ ..] => return Some((word.clone(), rest)),
        _ => {}
    }
    let (mut written, rest) = match words {
        [Word::Piece(role), rest @ ..] => (letter(*role), rest),
        rest => (String::new(), rest),
    };
    let rest = without(rest, &Word::From);
    let (from, rest) = match rest {
        [
            Word::Square(from),
            Word::Takes | Word::To,
            Word::Square(_),
            ..,
        ] => (from.to_string(), &rest[1..]),
        [Word::Square(from), Word::Square(_), ..] if joined => (from.to_string(), &rest[1..]),
        [Word::File(file), rest @ ..] => (file.char().to_string(), rest),
        [Word::Rank(rank), rest @ ..] => (rank.char().to_string(), rest),
        rest => (String::new(), rest),
    };
    written.push_str(&from);
    let behind = without(rest, &Word::Takes);
    if behind.len() < rest.len() {
        written.push('x');
    }
    let rest = without(behind, &Word::To);
    let [Word::Square(to), rest @ ..] = rest else {
        return None;
    };
    written.push_str(&to.to_string());
    let (role, rest) = match rest {
        [
            Word::To | Word::Stop,
            Word::To,
            Word::Piece(role),
            rest @ ..,
        ]
        | [Word::To, Word::Piece(role), rest @ ..] => (Some(role), rest),
        // A piece without a place behind it is what the pawn becomes.
        [Word::Piece(role)] | [Word::Piece(role), Word::Stop, ..] => (Some(role), &rest[1..]),
        rest => (None, rest),
    };
    if let Some(role) = role {
        written.push('=');
        written.push_str(&letter(*role));
    }
    Some((written, rest))
}

/// Leaves out a word at the head, where it stands there.
fn without<'a>(words: &'a [Word], word: &Word) -> &'a [Word] {
    match words {
        [first, rest @ ..] if first == word => rest,
        all => all,
    }
}
