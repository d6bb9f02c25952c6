//! What moves do, in words.

use shakmaty::{CastlingSide, Square};

use crate::exercise::Stand;
use crate::question::{
    Captures, Checks, LegalMove, Mate, MateWhy, MoveEffect, MoveEffectsWhy, Refused, Truth,
};
use crate::voice::Announce;
use crate::voice::naming::{list, piece_named, role, side, squares_of, wing};
use crate::voice::words::LineWords;

use super::refused::refused;

/// Stands before what a move does that the learner did not name.
pub(in crate::voice) const MISSED: &str = "Missed: ";

/// How many moves of each list are told; the truth names all of them.
const TOLD: usize = 6;

impl LineWords for Checks {
    fn ask(self, stand: &Stand) -> String {
        format!(
            "{} to move: which legal moves give check? Name every one, or none.",
            side(stand.turn)
        )
    }

    fn tell(self, truth: &Truth) -> String {
        told(
            truth,
            "No move gives check.",
            "The move that gives check is",
            "The moves that give check are",
        )
    }

    fn explain(why: &MoveEffectsWhy) -> Vec<String> {
        explained(why, |effect| {
            if effect.checkers.is_empty() {
                format!("{} gives no check.", named(&effect.legal_move))
            } else {
                format!("{}: {}.", named(&effect.legal_move), check(effect))
            }
        })
    }
}

impl LineWords for Captures {
    fn ask(self, stand: &Stand) -> String {
        format!(
            "{} to move: which captures are legal? Name every one, or none.",
            side(stand.turn)
        )
    }

    fn tell(self, truth: &Truth) -> String {
        told(
            truth,
            "No capture is legal.",
            "The only legal capture is",
            "The legal captures are",
        )
    }

    fn explain(why: &MoveEffectsWhy) -> Vec<String> {
        explained(why, |effect| match effect.legal_move.takes {
            Some((on, piece)) if on == effect.legal_move.attempt.to => {
                format!(
                    "{} takes {}.",
                    named(&effect.legal_move),
                    piece_named(piece)
                )
            }
            Some((on, piece)) => {
                format!(
                    "{} takes {} on {on} en passant.",
                    named(&effect.legal_move),
                    piece_named(piece)
                )
            }
            None => format!("{} takes nothing.", named(&effect.legal_move)),
        })
    }
}

impl LineWords for Mate {
    fn ask(self, stand: &Stand) -> String {
        let turn = side(stand.turn);
        match self.within {
            within @ 2.. => {
                format!("{turn} to move: which move forces mate within {within} moves? Name one.")
            }
            _ => format!("{turn} to move: which move mates at once? Name one, or none."),
        }
    }

    fn tell(self, truth: &Truth) -> String {
        if self.is_at_once() {
            return told(
                truth,
                "No move mates.",
                "The move that mates is",
                "The moves that mate are",
            );
        }
        told(
            truth,
            "No move mates in time.",
            "The move that mates in time is",
            "The moves that mate in time are",
        )
    }

    fn explain(why: &MateWhy) -> Vec<String> {
        if why.within > 1 {
            return forced_mate(why);
        }
        explained(&why.effects, |effect| {
            let name = named(&effect.legal_move);
            let other = side(!effect.legal_move.piece.color);
            match effect.answer {
                _ if effect.checkers.is_empty() => format!("{name} gives no check."),
                None => format!("{name} mates: {}, and no move meets it.", check(effect)),
                Some(answer) => format!(
                    "{name} gives check, but {other} can meet it, for one with {}.",
                    way(&answer)
                ),
            }
        })
    }
}

/// Names the moves that a question asks for.
fn told(truth: &Truth, none: &str, one: &str, several: &str) -> String {
    let moves = truth.attempts();
    let named = list(moves.iter().map(|mv| squares_of(*mv)));
    match moves.len() {
        0 => none.to_owned(),
        1 => format!("{one} {named}."),
        _ => format!("{several} {named}."),
    }
}

/// The moves that were forgotten are in the truth; one way to the mate says more of them.
fn forced_mate(why: &MateWhy) -> Vec<String> {
    let mut said: Vec<String> = why.effects.extra.iter().map(escape).collect();
    said.extend(impossible(&why.effects.refused));
    if !why.way.is_empty() {
        let moves = why.way.iter().map(|ply| Announce::Words.named(ply));
        said.push(format!(
            "One way to the mate: {}.",
            moves.collect::<Vec<_>>().join("; ")
        ));
    }
    said
}

/// Says how the other side gets out of a move that does not mate in time.
fn escape(effect: &MoveEffect) -> String {
    let name = named(&effect.legal_move);
    let other = side(!effect.legal_move.piece.color);
    match effect.answer {
        Some(answer) => format!(
            "Not right: {name} does not mate in time: {other} defends with {}.",
            way(&answer)
        ),
        None => format!(
            "Not right: {name} is stalemate: {other} has no legal move and is not in check."
        ),
    }
}

/// Tells the missed moves, then the others.
fn explained(why: &MoveEffectsWhy, tell: impl Fn(&MoveEffect) -> String) -> Vec<String> {
    let missed = why.missed.iter().take(TOLD).map(&tell);
    let extra = why.extra.iter().take(TOLD).map(&tell);
    missed
        .map(|effect| format!("{MISSED}{effect}"))
        .chain(extra.map(|effect| format!("Not right: {effect}")))
        .chain(impossible(&why.refused))
        .collect()
}

fn impossible(moves: &[Refused]) -> impl Iterator<Item = String> {
    moves.iter().take(TOLD).map(refused)
}

/// Names a move with its side: "White's knight from f3 to d2".
fn named(legal_move: &LegalMove) -> String {
    match legal_move.castling {
        Some(side_of_board) => format!(
            "{}'s castling {}",
            side(legal_move.piece.color),
            wing(side_of_board)
        ),
        None => format!(
            "{} from {}",
            piece_named(legal_move.piece),
            squares(legal_move)
        ),
    }
}

/// Names a move without its side: "the king from e1 to f2".
fn way(legal_move: &LegalMove) -> String {
    match legal_move.castling {
        Some(side_of_board) => format!("castling {}", wing(side_of_board)),
        None => format!(
            "the {} from {}",
            role(legal_move.piece.role),
            squares(legal_move)
        ),
    }
}

fn squares(legal_move: &LegalMove) -> String {
    squares_of(legal_move.attempt)
}

/// Says who gives check; a piece that has not moved gives it from behind.
fn check(effect: &MoveEffect) -> String {
    let pieces = list(
        effect
            .checkers
            .iter()
            .map(|(square, piece)| format!("{} on {square}", piece_named(*piece))),
    );
    let several = if effect.checkers.len() == 1 {
        "gives"
    } else {
        "give"
    };
    let uncovers = effect
        .checkers
        .iter()
        .any(|(square, _)| *square != arrival(effect));
    if uncovers && effect.legal_move.castling.is_none() {
        format!("it opens a line, and {pieces} {several} check")
    } else {
        format!("{pieces} {several} check")
    }
}

fn arrival(effect: &MoveEffect) -> Square {
    let color = effect.legal_move.piece.color;
    effect
        .legal_move
        .castling
        .map_or(effect.legal_move.attempt.to, |wing: CastlingSide| {
            wing.rook_to(color)
        })
}
