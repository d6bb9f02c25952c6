//! The names of sides, pieces, squares and moves inside sentences.

use shakmaty::{Bitboard, CastlingSide, Color, Piece, Role};

use crate::game::MoveNumber;
use crate::question::Attempt;

/// Names one piece by its role.
pub(super) const fn role(role: Role) -> &'static str {
    match role {
        Role::Pawn => "pawn",
        Role::Knight => "knight",
        Role::Bishop => "bishop",
        Role::Rook => "rook",
        Role::Queen => "queen",
        Role::King => "king",
    }
}

/// Names several pieces by their role.
pub(super) const fn roles(role: Role) -> &'static str {
    match role {
        Role::Pawn => "pawns",
        Role::Knight => "knights",
        Role::Bishop => "bishops",
        Role::Rook => "rooks",
        Role::Queen => "queens",
        Role::King => "kings",
    }
}

/// Names a side.
pub(super) const fn side(color: Color) -> &'static str {
    match color {
        Color::White => "White",
        Color::Black => "Black",
    }
}

/// Names a piece with its side: "White's knight".
pub(super) fn piece_named(piece: Piece) -> String {
    format!("{}'s {}", side(piece.color), role(piece.role))
}

/// Names a move by its side: "White's move 14". No dots, which are read badly aloud.
pub(super) fn move_of(number: MoveNumber) -> String {
    format!("{}'s move {}", side(number.side), number.number)
}

/// Names a wing.
pub(super) const fn wing(wing: CastlingSide) -> &'static str {
    match wing {
        CastlingSide::KingSide => "short",
        CastlingSide::QueenSide => "long",
    }
}

/// Names a move by its squares: "f3 to d2".
pub(super) fn squares_of(attempt: Attempt) -> String {
    let promotion = attempt
        .promotion
        .map_or_else(String::new, |kind| format!(", becoming a {}", role(kind)));
    format!("{} to {}{promotion}", attempt.from, attempt.to)
}

/// Names pieces by how many of each role there are: "a queen and 2 pawns"; "no pieces" where there is none.
pub(super) fn pieces_counted(pieces: impl IntoIterator<Item = (Role, usize)>) -> String {
    let names: Vec<String> = pieces
        .into_iter()
        .filter_map(|(kind, number)| match number {
            0 => None,
            1 => Some(format!("a {}", role(kind))),
            _ => Some(format!("{number} {}", roles(kind))),
        })
        .collect();
    if names.is_empty() {
        return "no pieces".to_owned();
    }
    list(names)
}

/// Joins names as a sentence does: "d5", "d5 and e6", "d5, e6 and f7".
pub(super) fn list<T: ToString>(items: impl IntoIterator<Item = T>) -> String {
    joined(items, "and")
}

/// Joins names of which any one is meant: "d5, e6 or f7".
pub(super) fn either<T: ToString>(items: impl IntoIterator<Item = T>) -> String {
    joined(items, "or")
}

fn joined<T: ToString>(items: impl IntoIterator<Item = T>, word: &str) -> String {
    let mut names: Vec<String> = items.into_iter().map(|item| item.to_string()).collect();
    match (names.pop(), names.is_empty()) {
        (None, _) => String::new(),
        (Some(last), true) => last,
        (Some(last), false) => format!("{} {word} {last}", names.join(", ")),
    }
}

/// Names every square of a set, a1 first; "none" where it is empty.
pub(super) fn squares(set: Bitboard) -> String {
    if set.is_empty() {
        return "none".to_owned();
    }
    list(set)
}

/// Counts things: "1 ply", "3 plies".
pub(super) fn count(number: usize, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

/// Begins a sentence with a capital letter.
pub(super) fn capital(sentence: &str) -> String {
    let mut letters = sentence.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use shakmaty::Square;

    #[test]
    fn a_list_of_names_is_joined_as_a_sentence_joins_it() {
        assert_eq!(list::<Square>([]), "");
        assert_eq!(list(["d5"]), "d5");
        assert_eq!(list(["d5", "e6"]), "d5 and e6");
        assert_eq!(either(["d5", "e6", "f7"]), "d5, e6 or f7");
        assert_eq!(squares(Bitboard::EMPTY), "none");
        assert_eq!(
            squares(Bitboard::from(Square::E6).with(Square::D5)),
            "d5 and e6"
        );
    }

    #[test]
    fn pieces_without_squares_are_counted() {
        let pieces = [(Role::Queen, 1), (Role::Knight, 0), (Role::Pawn, 2)];
        assert_eq!(pieces_counted(pieces), "a queen and 2 pawns");
        assert_eq!(pieces_counted([]), "no pieces");
    }

    #[test]
    fn one_thing_and_several_things_are_counted_each_in_its_way() {
        assert_eq!(count(0, "ply", "plies"), "0 plies");
        assert_eq!(count(1, "ply", "plies"), "1 ply");
        assert_eq!(count(2, "ply", "plies"), "2 plies");
    }
}
