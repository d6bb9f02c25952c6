//! How each piece goes, in words: why a square is off its way. Each is a clause that begins small.

use shakmaty::{Piece, Role, Square};

/// Says why no piece of this kind on `from` attacks `to`.
pub(super) fn not_attacked(piece: Piece, from: Square, to: Square) -> &'static str {
    match piece.role {
        _ if from == to => "a piece does not attack the square that it stands on",
        Role::Pawn if from.file() == to.file() => "a pawn does not attack straight ahead",
        Role::Pawn => "a pawn attacks only diagonally, one step ahead",
        role => leads_nowhere(role),
    }
}

/// Says why no piece of this kind on `from` goes to `to`.
pub(super) fn not_its_way(piece: Piece, from: Square, to: Square) -> String {
    let files = from.file().distance(to.file());
    let ranks = from.rank().distance(to.rank());
    let ahead = piece
        .color
        .fold_wb(to.rank() > from.rank(), to.rank() < from.rank());
    match (files, ranks) {
        _ if piece.role != Role::Pawn => leads_nowhere(piece.role).to_owned(),
        _ if !ahead => "a pawn only goes forward".to_owned(),
        (1, 1) => {
            format!("a pawn goes diagonally only to take, and there is nothing to take on {to}")
        }
        (0, 2) => "a pawn goes two steps only from where pawns begin".to_owned(),
        _ => format!("no pawn's move leads from {from} to {to}"),
    }
}

/// Says that no way of a piece leads to one square, or to several.
pub(super) const fn leads_nowhere(role: Role) -> &'static str {
    match role {
        Role::Pawn => "no pawn's attack leads there",
        Role::Knight => "no knight's jump leads there",
        Role::Bishop => "none of its diagonals leads there",
        Role::Rook => "neither its file nor its rank leads there",
        Role::Queen => "none of its lines leads there",
        Role::King => "one step does not lead there",
    }
}
