//! Why a move is legal or not, in words.

use shakmaty::{CastlingSide, Piece, Role, Square};

use crate::exercise::Stand;
use crate::question::{Legality, LegalityWhy, Truth};
use crate::voice::naming::{capital, piece_named, role, side};
use crate::voice::words::LineWords;

use super::blame::{Tried, clause};

impl LineWords for Legality {
    fn ask(self, stand: &Stand) -> String {
        let attempt = self.attempt;
        let promotion = attempt
            .promotion
            .map_or_else(String::new, |kind| format!(", becoming a {},", role(kind)));
        // Said at every move, or the sentence itself would tell that this one is castling.
        let castling = if stand.chess960 {
            " Castling is named as the king's move onto its own rook."
        } else {
            ""
        };
        format!(
            "{} to move: is the move {} to {}{promotion} legal now?{castling}",
            side(stand.turn),
            attempt.from,
            attempt.to
        )
    }

    fn tell(self, truth: &Truth) -> String {
        match truth {
            Truth::Legal { .. } => "The move is legal.".to_owned(),
            _ => "The move is not legal.".to_owned(),
        }
    }

    fn explain(why: &LegalityWhy) -> Vec<String> {
        let mut said: Vec<String> = why
            .piece
            .map(|piece| format!("{} stands on {}.", piece_named(piece), why.attempt.from))
            .into_iter()
            .collect();
        let reason = match &why.blame {
            Some(blame) => clause(&Tried {
                attempt: why.attempt,
                piece: why.piece,
                target: why.target,
                blame,
            }),
            None => why
                .piece
                .map_or_else(String::new, |piece| legal(why, piece)),
        };
        if !reason.is_empty() {
            said.push(format!("{}.", capital(&reason)));
        }
        said
    }
}

/// Says what a legal move does and that nothing forbids it.
fn legal(why: &LegalityWhy, piece: Piece) -> String {
    let to = why.attempt.to;
    if let Some(wing) = castles(why, piece) {
        let wing = match wing {
            CastlingSide::KingSide => "short",
            CastlingSide::QueenSide => "long",
        };
        return format!(
            "the right to castle {wing} is still there, the way is clear, and no enemy piece attacks \
             the king's way"
        );
    }
    let diagonal = why.attempt.from.file() != to.file();
    match why.target {
        Some(target) => format!(
            "it can take {} on {to}, and its king is safe then",
            piece_named(target)
        ),
        None if piece.role == Role::Pawn && diagonal => format!(
            "it can take en passant on {to}: the pawn beside it has just made its double step"
        ),
        None => free(piece.role, to),
    }
}

fn free(role: Role, to: Square) -> String {
    match role {
        Role::King => format!("no piece stands on {to}, and no enemy piece attacks it there"),
        Role::Knight => {
            format!("the knight can jump there: no piece stands on {to}, and its king is safe then")
        }
        Role::Pawn | Role::Bishop | Role::Rook | Role::Queen => {
            format!("the way is clear: no piece stands on {to}, and its king is safe then")
        }
    }
}

fn castles(why: &LegalityWhy, piece: Piece) -> Option<CastlingSide> {
    let own_rook = why.target == Some(Role::Rook.of(piece.color));
    let far = why.attempt.from.distance(why.attempt.to) > 1;
    (piece.role == Role::King && (own_rook || far))
        .then(|| CastlingSide::from_king_side(why.attempt.to > why.attempt.from))
}
