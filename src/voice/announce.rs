//! Announcing moves: the four styles, and how several plies make lines.

use serde::{Deserialize, Serialize};
use shakmaty::san::{San, Suffix};
use shakmaty::{Role, Square};

use super::naming::{move_of, role, side};
use super::spelled;
use crate::game::Ply;
use crate::rules::role_letter;

/// How moves are announced. Every style tells as much as the game's score does and no more: a
/// capture does not name the piece that was taken, so that one style is not easier than another;
/// only `long` always names the square that a piece leaves.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Announce {
    /// English words: "Move 14, White: knight to f3, check."
    #[default]
    Words,
    /// Standard algebraic notation (PGN standard, 8.2.3): "14. Nf3+".
    San,
    /// Long algebraic notation, with the square that the piece leaves: "14. Ng1-f3+" (FIDE Laws,
    /// Appendix C.8).
    Long,
    /// The file, rank, piece and castling words of the FIDE Laws' Appendix D; the words for taking,
    /// check, checkmate, en passant and promotion are ours, as the appendix gives none.
    Spelled,
}

impl Announce {
    /// Announces one ply with its number: "Move 14, Black: knight to f6." or "14... Nf6".
    pub fn ply(self, ply: &Ply) -> String {
        self.line(std::slice::from_ref(ply))
    }

    /// Announces plies in order, a line for each move number.
    pub(crate) fn plies(self, plies: &[Ply]) -> Vec<String> {
        plies
            .chunk_by(|one, next| one.number.number == next.number.number)
            .map(|plies| self.line(plies))
            .collect()
    }

    /// Names one ply inside a sentence: "White's move 14, knight to f3" or "14. Nf3".
    pub(crate) fn named(self, ply: &Ply) -> String {
        match self {
            Announce::Words | Announce::Spelled => {
                format!("{}, {}", move_of(ply.number), self.bare(ply))
            }
            Announce::San | Announce::Long => self.ply(ply),
        }
    }

    /// Announces the move itself, without its number and its side.
    fn bare(self, ply: &Ply) -> String {
        match self {
            // A square's two letters stay glued, or a voice would read the a of `a6` as an article.
            Announce::Words => in_words(ply, role, |square| square.to_string(), CASTLING),
            Announce::San => ply.san.to_string(),
            Announce::Long => long(ply),
            Announce::Spelled => in_words(ply, spelled::piece, spelled::square, spelled::CASTLING),
        }
    }

    /// Announces the plies of one move number.
    fn line(self, plies: &[Ply]) -> String {
        let Some(first) = plies.first() else {
            return String::new();
        };
        let bare = plies.iter().map(|ply| (side(ply.side()), self.bare(ply)));
        match self {
            Announce::Words | Announce::Spelled => {
                let told: Vec<String> = bare.map(|(side, mv)| format!("{side}: {mv}.")).collect();
                format!("Move {}, {}", first.number.number, told.join(" "))
            }
            Announce::San | Announce::Long => {
                let moves: Vec<String> = bare.map(|(_, mv)| mv).collect();
                format!("{} {}", first.number, moves.join(" "))
            }
        }
    }
}

/// Castling short and long in English.
const CASTLING: [&str; 2] = ["castles short", "castles long"];

/// Announces a move: the piece, from where if the score needs it, to where, and what else happens; with these
/// words for pieces, squares, and castling short and long.
fn in_words(
    ply: &Ply,
    piece: fn(Role) -> &'static str,
    square: fn(Square) -> String,
    castling: [&str; 2],
) -> String {
    let verb = if ply.mv.is_capture() {
        "takes on"
    } else {
        "to"
    };
    let (name, to) = (piece(ply.mv.role()), square(ply.to()));
    let mut said = match (ply.mv.castling_side(), ply.san.san) {
        (Some(wing), _) => castling[wing as usize].to_owned(),
        // The score tells like pieces apart by their file or rank, and a pawn that takes by its file.
        (None, San::Normal { file, rank, .. }) if file.is_some() || rank.is_some() => {
            format!("{name} from {} {verb} {to}", square(ply.from()))
        }
        (None, _) => format!("{name} {verb} {to}"),
    };
    if ply.mv.is_en_passant() {
        said.push_str(", en passant");
    }
    let promotion = ply.mv.promotion();
    said.extend(promotion.map(|role| format!(", becomes a {}", piece(role))));
    said.push_str(match ply.san.suffix {
        Some(Suffix::Check) => ", check",
        Some(Suffix::Checkmate) => ", checkmate",
        None => "",
    });
    said
}

/// Writes a move with both its squares: `Ng1-f3+`, `e5xd6 e.p.`, `e7-e8=Q`, `O-O`.
fn long(ply: &Ply) -> String {
    if ply.mv.is_castle() {
        return ply.san.to_string();
    }
    let piece = role_letter(ply.mv.role());
    let mark = if ply.mv.is_capture() { 'x' } else { '-' };
    let (from, to) = (ply.from(), ply.to());
    let promotion = ply.mv.promotion();
    let promotion = promotion.map_or_else(String::new, |role| format!("={}", role.upper_char()));
    let suffix = ply.san.suffix.map(|suffix| suffix.to_string());
    let suffix = suffix.unwrap_or_default();
    let en_passant = if ply.mv.is_en_passant() { " e.p." } else { "" };
    format!("{piece}{from}{mark}{to}{promotion}{suffix}{en_passant}")
}
