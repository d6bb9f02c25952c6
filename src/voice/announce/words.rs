//! Moves in words.

use shakmaty::san::{San, Suffix};
use shakmaty::{CastlingSide, Role, Square};

use super::Vocabulary;
use crate::game::Ply;
use crate::voice::naming;

/// English words.
pub(super) struct English;

impl Vocabulary for English {
    fn piece(&self, role: Role) -> &'static str {
        naming::role(role)
    }

    /// A square's two letters stay glued, or a voice would read the a of `a6` as an article.
    fn square(&self, square: Square) -> String {
        square.to_string()
    }

    fn castling(&self, wing: CastlingSide) -> &'static str {
        match wing {
            CastlingSide::KingSide => "castles short",
            CastlingSide::QueenSide => "castles long",
        }
    }
}

/// Announces a move: the piece, from where if the score needs it, to where, and what else happens.
pub(super) fn announce(vocabulary: &impl Vocabulary, ply: &Ply) -> String {
    let mut said = match ply.mv.castling_side() {
        Some(wing) => vocabulary.castling(wing).to_owned(),
        None => way(vocabulary, ply),
    };
    if ply.mv.is_en_passant() {
        said.push_str(", en passant");
    }
    if let Some(role) = ply.mv.promotion() {
        said.push_str(", becomes a ");
        said.push_str(vocabulary.piece(role));
    }
    match ply.san.suffix {
        Some(Suffix::Check) => said.push_str(", check"),
        Some(Suffix::Checkmate) => said.push_str(", checkmate"),
        None => {}
    }
    said
}

fn way(vocabulary: &impl Vocabulary, ply: &Ply) -> String {
    let piece = vocabulary.piece(ply.mv.role());
    let from = if says_from(ply.san.san) {
        format!(" from {}", vocabulary.square(ply.from()))
    } else {
        String::new()
    };
    let verb = if ply.mv.is_capture() {
        "takes on"
    } else {
        "to"
    };
    format!("{piece}{from} {verb} {}", vocabulary.square(ply.to()))
}

/// The score tells like pieces apart by their file or rank, and a pawn that takes by its file.
const fn says_from(san: San) -> bool {
    match san {
        San::Normal { file, rank, .. } => file.is_some() || rank.is_some(),
        San::Castle(_) | San::Put { .. } | San::Null => false,
    }
}
