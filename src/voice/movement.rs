//! How each piece goes, in words: why a square is off its way. Each is a clause that begins small.

use shakmaty::{Piece, Role, Square};

/// Says why no piece of this kind on `from` attacks `to`.
pub(super) fn not_attacked(piece: Piece, from: Square, to: Square) -> String {
    match piece.role {
        _ if from == to => "a piece does not attack the square that it stands on".to_owned(),
        Role::Pawn if from.file() == to.file() && is_ahead(piece, from, to) => {
            "a pawn does not attack straight ahead".to_owned()
        }
        Role::Pawn => "a pawn attacks only diagonally, one step ahead".to_owned(),
        role => leads_nowhere(role, "there"),
    }
}

/// Says why no piece of this kind on `from` goes to `to`.
pub(super) fn not_its_way(piece: Piece, from: Square, to: Square) -> String {
    let files = from.file().distance(to.file());
    let ranks = from.rank().distance(to.rank());
    match (files, ranks) {
        _ if piece.role != Role::Pawn => leads_nowhere(piece.role, &format!("to {to}")),
        _ if !is_ahead(piece, from, to) => "a pawn only goes forward".to_owned(),
        (1, 1) => {
            format!("a pawn goes diagonally only to take, and there is nothing to take on {to}")
        }
        (0, 2) => "a pawn goes two steps only from where pawns begin".to_owned(),
        _ => format!("no pawn's move leads from {from} to {to}"),
    }
}

/// Tells whether a pawn leaves the rank of `to` still before it.
fn is_ahead(pawn: Piece, from: Square, to: Square) -> bool {
    pawn.color
        .fold_wb(to.rank() > from.rank(), to.rank() < from.rank())
}

/// Says that no way of a piece leads "to e4", or "there" where one square or several have been named.
pub(super) fn leads_nowhere(role: Role, to: &str) -> String {
    match role {
        Role::Pawn => format!("no pawn's attack leads {to}"),
        Role::Knight => format!("no knight's jump leads {to}"),
        Role::Bishop => format!("none of its diagonals leads {to}"),
        Role::Rook => format!("neither its file nor its rank leads {to}"),
        Role::Queen => format!("none of its lines leads {to}"),
        Role::King => format!("one step does not lead {to}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use shakmaty::Color;

    #[test]
    fn only_what_lies_before_a_pawn_is_straight_ahead_of_it() {
        for (color, ahead, behind) in [
            (Color::White, Square::E6, Square::E4),
            (Color::Black, Square::E4, Square::E6),
        ] {
            let why = |to| not_attacked(Role::Pawn.of(color), Square::E5, to);
            assert_eq!(why(ahead), "a pawn does not attack straight ahead");
            assert_eq!(
                why(behind),
                "a pawn attacks only diagonally, one step ahead"
            );
        }
    }
}
