//! The names of sides, pieces, squares, moves and numbers inside sentences.

use std::fmt::Display;

use shakmaty::{Bitboard, Board, Piece, Role, Square};

use crate::game::{MoveNumber, Ply};
use crate::question::{Attempt, Departure};
pub(super) use crate::rules::{role_name as role, side_name as side, wing_name as wing};

/// Names several pieces by their role.
pub(super) fn roles(kind: Role) -> String {
    format!("{}s", role(kind))
}

/// Names a piece with its side: "White's knight".
pub(super) fn piece_named(piece: Piece) -> String {
    format!("{}'s {}", side(piece.color), role(piece.role))
}

/// Names a piece with its side and its square: "White's knight on f3".
pub(super) fn piece_on(piece: Piece, square: Square) -> String {
    format!("{} on {square}", piece_named(piece))
}

/// Names pieces with their sides and squares.
pub(super) fn pieces_on(pieces: &[(Square, Piece)]) -> String {
    let names = pieces
        .iter()
        .map(|(square, piece)| piece_on(*piece, *square));
    list(names)
}

/// Names the pieces of one side on some squares: "the knight on f3 and the king on g1".
pub(super) fn roles_on(board: &Board, squares: Bitboard) -> String {
    let pieces = board.iter().filter(|(square, _)| squares.contains(*square));
    list(pieces.map(|(square, piece)| format!("the {} on {square}", role(piece.role))))
}

/// Says where a piece stands.
pub(super) fn stands_on(piece: Piece, square: Square) -> String {
    format!("{} stands on {square}.", piece_named(piece))
}

/// Tells how a piece went from a square, which may have been named before, in a clause about `who`.
pub(super) fn departed(departure: &Departure, who: &str, named: Option<Square>) -> String {
    let number = departure.number.number;
    let (from, on) = named.map_or_else(
        || ("there".to_owned(), "there".to_owned()),
        |square| (square.to_string(), format!("on {square}")),
    );
    match departure.to {
        Some(to) => format!("{who} went from {from} to {to} on move {number}"),
        None => format!("{who} was taken {on} on move {number}"),
    }
}

/// Names a move by its side: "White's move 14". No dots, which are read badly aloud.
pub(super) fn move_of(number: MoveNumber) -> String {
    format!("{}'s move {}", side(number.side), number.number)
}

/// Names a move by its squares: "f3 to d2".
pub(super) fn squares_of(attempt: Attempt) -> String {
    let becoming = becoming(attempt.promotion);
    format!("{} to {}{becoming}", attempt.from, attempt.to)
}

/// Goes on, after a move, with what a pawn becomes by it.
pub(super) fn becoming(promotion: Option<Role>) -> String {
    promotion.map_or_else(String::new, |kind| format!(", becoming a {}", role(kind)))
}

/// Goes on, after what is taken, with that it is taken en passant.
pub(super) fn en_passant(ply: &Ply) -> &'static str {
    if ply.mv.is_en_passant() {
        " en passant"
    } else {
        ""
    }
}

/// Names pieces by how many of each role there are: "a queen and 2 pawns"; "no pieces" where there is none.
pub(super) fn pieces_counted(pieces: impl IntoIterator<Item = (Role, usize)>) -> String {
    let names = pieces
        .into_iter()
        .filter_map(|(kind, number)| match number {
            0 => None,
            1 => Some(format!("a {}", role(kind))),
            _ => Some(format!("{number} {}", roles(kind))),
        });
    let names = list(names);
    if names.is_empty() {
        return "no pieces".to_owned();
    }
    names
}

/// Joins names as a sentence does: "d5", "d5 and e6", "d5, e6 and f7".
pub(super) fn list<T: ToString>(items: impl IntoIterator<Item = T>) -> String {
    joined(items, "and")
}

/// Names squares, of which there may be none.
pub(super) fn squares(set: Bitboard) -> String {
    match set {
        Bitboard::EMPTY => "no square".to_owned(),
        set => list(set),
    }
}

/// Joins names of which any one is meant: "d5, e6 or f7".
pub(super) fn either<T: ToString>(items: impl IntoIterator<Item = T>) -> String {
    joined(items, "or")
}

/// Begins to say why some squares that were named are not right; very many are counted.
pub(super) fn none_of<T: ToString>(squares: impl ExactSizeIterator<Item = T>) -> String {
    match squares.len() {
        0..=8 => format!("Not {}", either(squares)),
        all => format!("Not {all} of those named"),
    }
}

fn joined<T: ToString>(items: impl IntoIterator<Item = T>, word: &str) -> String {
    let mut names: Vec<String> = items.into_iter().map(|item| item.to_string()).collect();
    match (names.pop(), names.is_empty()) {
        (None, _) => String::new(),
        (Some(last), true) => last,
        (Some(last), false) => format!("{} {word} {last}", names.join(", ")),
    }
}

/// Brings together what is alike, in order.
pub(super) fn groups<T>(all: &[T], alike: impl Fn(&T, &T) -> bool) -> Vec<Vec<&T>> {
    let mut groups: Vec<Vec<&T>> = Vec::new();
    for one in all {
        match groups.iter_mut().find(|group| alike(group[0], one)) {
            Some(group) => group.push(one),
            None => groups.push(vec![one]),
        }
    }
    groups
}

/// Counts things: "1 ply", "3 plies".
pub(super) fn count<N: Copy + Display + PartialEq + From<u8>>(
    number: N,
    one: &str,
    many: &str,
) -> String {
    let name = if number == N::from(1) { one } else { many };
    format!("{number} {name}")
}

/// Counts answers by their verdicts.
pub(crate) fn verdicts<N: Display>([right, part, wrong, passed]: [N; 4]) -> String {
    format!("{right} right, {part} in part, {wrong} wrong, {passed} passed.")
}

/// Counts plies.
pub(super) fn plies(number: usize) -> String {
    count(number, "ply", "plies")
}

/// Names the n-th of the eight files or rows.
///
/// # Panics
///
/// Beyond the board.
pub(super) const fn ordinal(n: u32) -> &'static str {
    const NAMES: [&str; 8] = [
        "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth",
    ];
    NAMES[n as usize - 1]
}

/// Returns a share in whole percent, the nearest number, save that 100 means all and 0 none. Every
/// percentage that the program tells is this one.
pub(crate) fn percent<N: TryInto<u64>>(right: N, answers: N) -> u32 {
    let whole = |number: N| number.try_into().unwrap_or(u64::MAX);
    let (right, answers) = (u128::from(whole(right)), u128::from(whole(answers)));
    if right == 0 {
        return 0;
    }
    if right >= answers {
        return 100;
    }
    let nearest = (right * 100 + answers / 2) / answers;
    u32::try_from(nearest).unwrap_or(100).clamp(1, 99)
}

/// Begins a sentence with a capital letter.
pub(super) fn capital(sentence: &str) -> String {
    let mut letters = sentence.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}

/// Makes a sentence of a clause that begins small and ends without a stop.
pub(super) fn sentence(clause: &str) -> String {
    capital(clause) + "."
}

/// Makes a sentence of what somebody wrote: with an end mark, where it has none.
pub(super) fn with_end_mark(text: String) -> String {
    if text.ends_with(['.', '!', '?']) {
        return text;
    }
    text + "."
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_of_names_is_joined_as_a_sentence_joins_it() {
        assert_eq!(list::<Square>([]), "");
        assert_eq!(list(["d5"]), "d5");
        assert_eq!(list(["d5", "e6"]), "d5 and e6");
        assert_eq!(either(["d5", "e6", "f7"]), "d5, e6 or f7");
        let set = Bitboard::from(Square::E6).with(Square::D5);
        assert_eq!(list(set), "d5 and e6");
    }

    #[test]
    fn pieces_without_squares_are_counted() {
        let pieces = [(Role::Queen, 1), (Role::Knight, 0), (Role::Pawn, 2)];
        assert_eq!(pieces_counted(pieces), "a queen and 2 pawns");
        assert_eq!(pieces_counted([]), "no pieces");
    }

    #[test]
    fn one_thing_and_several_things_are_counted_each_in_its_way() {
        assert_eq!(plies(0), "0 plies");
        assert_eq!(plies(1), "1 ply");
        assert_eq!(plies(2), "2 plies");
    }

    #[test]
    fn a_share_is_told_in_the_nearest_percent_and_only_all_is_a_hundred() {
        assert_eq!(percent(14_u32, 18), 78);
        assert_eq!(percent(1_usize, 3), 33);
        assert_eq!(percent(1_u32, 8), 13);
        assert_eq!(
            [percent(0_u32, 0), percent(0, 9), percent(9, 9)],
            [0, 0, 100]
        );
        assert_eq!([percent(1_u32, 1_000), percent(999, 1_000)], [1, 99]);
        assert_eq!(percent(u32::MAX, u32::MAX), 100);
    }
}
