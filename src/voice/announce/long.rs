//! Long algebraic notation: the square that the piece leaves is always named (FIDE Laws, Appendix C.8).

use std::fmt::Write;

use shakmaty::{CastlingSide, Role};

use crate::game::Ply;

/// Writes a move with both its squares: `Ng1-f3+`, `e5xd6 e.p.`, `e7-e8=Q`, `O-O`.
pub(super) fn announce(ply: &Ply) -> String {
    let mut text = match ply.mv.castling_side() {
        Some(CastlingSide::KingSide) => "O-O".to_owned(),
        Some(CastlingSide::QueenSide) => "O-O-O".to_owned(),
        None => way(ply),
    };
    if let Some(suffix) = ply.san.suffix {
        text.push(suffix.char());
    }
    if ply.mv.is_en_passant() {
        text.push_str(" e.p.");
    }
    text
}

fn way(ply: &Ply) -> String {
    let mut text = String::new();
    if ply.mv.role() != Role::Pawn {
        text.push(ply.mv.role().upper_char());
    }
    let mark = if ply.mv.is_capture() { 'x' } else { '-' };
    let (from, to) = (ply.from(), ply.to());
    write!(text, "{from}{mark}{to}").expect("a string takes any text");
    if let Some(role) = ply.mv.promotion() {
        text.push('=');
        text.push(role.upper_char());
    }
    text
}
