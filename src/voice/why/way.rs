//! How each man goes, in words: why a square is off its way.

use shakmaty::{Piece, Role, Square};

/// Says why no man of this kind on `from` looks at `to`, for squares that it attacks.
pub(super) fn not_attacked(piece: Piece, from: Square, to: Square) -> String {
    match piece.role {
        Role::Pawn if from.file() == to.file() => {
            format!("a pawn does not attack straight ahead, so not {to}")
        }
        Role::Pawn => format!("{to} is not diagonally one step ahead of {from}"),
        Role::Knight | Role::Bishop | Role::Rook | Role::Queen | Role::King => {
            off_line(piece.role, from, to)
        }
    }
}

/// Says why no man of this kind on `from` goes to `to`, for moves.
pub(super) fn not_its_way(piece: Piece, from: Square, to: Square) -> String {
    match piece.role {
        Role::Pawn => pawn(piece, from, to),
        Role::Knight | Role::Bishop | Role::Rook | Role::Queen | Role::King => {
            off_line(piece.role, from, to)
        }
    }
}

fn off_line(role: Role, from: Square, to: Square) -> String {
    match role {
        Role::Bishop => format!("{to} shares no diagonal with {from}"),
        Role::Rook => format!("{to} shares neither file nor rank with {from}"),
        Role::Queen => format!("{to} shares no file, rank or diagonal with {from}"),
        Role::Knight => format!("{to} is no knight's jump from {from}"),
        Role::King | Role::Pawn => format!("{to} is not one step from {from}"),
    }
}

fn pawn(piece: Piece, from: Square, to: Square) -> String {
    let files = from.file().distance(to.file());
    let ranks = from.rank().distance(to.rank());
    let ahead = piece
        .color
        .fold_wb(to.rank() > from.rank(), to.rank() < from.rank());
    match (files, ranks) {
        _ if !ahead => format!("a pawn only goes forward, so not to {to}"),
        (1, 1) => {
            format!("a pawn goes diagonally only to take, and there is nothing to take on {to}")
        }
        (0, 2) => format!(
            "the pawn on {from} has left its first rank and goes only one step, not to {to}"
        ),
        _ => format!("{to} is no pawn's move from {from}"),
    }
}

/// Says how a man goes, for several squares that are off its way at once.
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
