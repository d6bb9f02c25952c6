//! How each piece goes, in words: why a square is off its way. Each is a clause that begins small.

use shakmaty::{Piece, Role, Square};

/// Says why no piece of this kind on `from` attacks `to`.
pub(super) fn not_attacked(piece: Piece, from: Square, to: Square) -> String {
    match piece.role {
        _ if from == to => "a piece does not attack the square that it stands on".to_owned(),
        Role::Pawn if from.file() == to.file() => {
            "a pawn does not attack straight ahead".to_owned()
        }
        Role::Pawn => "a pawn attacks only diagonally, one step ahead".to_owned(),
        role => off_line(role, from, to),
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
        _ if piece.role != Role::Pawn => off_line(piece.role, from, to),
        _ if !ahead => "a pawn only goes forward".to_owned(),
        (1, 1) => {
            format!("a pawn goes diagonally only to take, and there is nothing to take on {to}")
        }
        (0, 2) => "a pawn goes two steps only from where pawns begin".to_owned(),
        _ => format!("no pawn's move leads from {from} to {to}"),
    }
}

/// Says how a piece goes, for several squares that are off its way at once.
pub(super) const fn manner(role: Role) -> &'static str {
    match role {
        Role::Pawn => "a pawn goes straight ahead and takes diagonally ahead",
        Role::Knight => "a knight jumps two squares along a file or rank and one to the side",
        Role::Bishop => "a bishop goes along diagonals",
        Role::Rook => "a rook goes along files and ranks",
        Role::Queen => "a queen goes along files, ranks and diagonals",
        Role::King => "a king goes one step",
    }
}

/// Says in one clause for several squares that the piece does not go there.
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

fn off_line(role: Role, from: Square, to: Square) -> String {
    match role {
        Role::Bishop => format!("no diagonal joins {from} and {to}"),
        Role::Rook => format!("no file or rank joins {from} and {to}"),
        Role::Queen => format!("no file, rank or diagonal joins {from} and {to}"),
        Role::Knight => format!("no knight's jump leads from {from} to {to}"),
        Role::King | Role::Pawn => format!("one step does not lead from {from} to {to}"),
    }
}
