//! What moves do, and which one was played, in words.

use shakmaty::Role;

use crate::exercise::Stand;
use crate::game::Ply;
use crate::question::{
    Captures, Checks, Mate, MateWhy, MoveEffect, MoveEffectsWhy, Played, PlayedWhy, Truth,
};
use crate::voice::announce::Announce;
use crate::voice::naming::{
    becoming, capital, list, move_of, piece_named, piece_on, role, sentence, side, squares_of, wing,
};
use crate::voice::words::{LineWords, MISSED};

use super::illegal::{TOLD, refused};

impl LineWords for Checks {
    fn ask(self, stand: &Stand) -> String {
        let turn = side(stand.turn);
        format!("{turn} to move: which legal moves give check? Name every one, or none.")
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
        explained(why, |name, effect| match check(effect) {
            Some(check) => format!("{check}."),
            None => format!("{name} gives no check."),
        })
    }
}

impl LineWords for Captures {
    fn ask(self, stand: &Stand) -> String {
        let turn = side(stand.turn);
        format!("{turn} to move: which captures are legal? Name every one, or none.")
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
        explained(why, |name, effect| match effect.ply.taken() {
            Some((on, piece)) if on == effect.ply.to() => {
                format!("{name} takes {}.", piece_named(piece))
            }
            Some((on, piece)) => format!("{name} takes {} en passant.", piece_on(piece, on)),
            None => format!("{name} takes nothing."),
        })
    }
}

impl LineWords for Mate {
    fn ask(self, stand: &Stand) -> String {
        let (turn, within) = (side(stand.turn), self.within);
        match within {
            2.. => {
                format!("{turn} to move: which move forces mate within {within} moves? Name one.")
            }
            _ => format!("{turn} to move: which move mates at once? Name one, or none."),
        }
    }

    fn tell(self, truth: &Truth) -> String {
        let in_time = if self.is_at_once() { "" } else { " in time" };
        told(
            truth,
            &format!("No move mates{in_time}."),
            &format!("The move that mates{in_time} is"),
            &format!("The moves that mate{in_time} are"),
        )
    }

    fn explain(why: &MateWhy) -> Vec<String> {
        if why.within > 1 {
            return forced_mate(why);
        }
        explained(&why.effects, |name, effect| {
            let other = side(!effect.ply.side());
            match (check(effect), effect.answer) {
                (None, _) => format!("{name} gives no check."),
                (Some(check), None) => format!("{check}, and {other} has no answer."),
                (Some(check), Some(answer)) => {
                    let answer = shortly(&answer);
                    format!("{check}, but {other} has an answer, such as {answer}.")
                }
            }
        })
    }
}

impl LineWords for Played {
    fn ask(self, _: &Stand) -> String {
        format!("What was {}'s move {}?", side(self.color), self.number)
    }

    fn tell(self, truth: &Truth) -> String {
        let was = format!("{}'s move {} was", side(self.color), self.number);
        told(truth, &was, &was, &was)
    }

    fn explain(why: &PlayedWhy) -> Vec<String> {
        let played = format!("It was {}.", Announce::Words.named(&why.ply));
        let elsewhere = why
            .elsewhere
            .map(|at| format!("The move that you named was {}.", move_of(at)));
        let refused = refused(why.refused.as_slice()).filter(|_| elsewhere.is_none());
        refused.chain(elsewhere.clone()).chain([played]).collect()
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
    let escapes = why.effects.extra.iter().map(escape);
    let refused = refused(&why.effects.refused);
    let moves: Vec<String> = (why.way.iter())
        .map(|ply| Announce::Words.named(ply))
        .collect();
    let way = (!moves.is_empty()).then(|| format!("One way to the mate: {}.", moves.join("; ")));
    escapes.chain(refused).chain(way).collect()
}

/// Says how the other side gets out of a move that does not mate in time.
fn escape(effect: &MoveEffect) -> String {
    let (name, other) = (named(&effect.ply), side(!effect.ply.side()));
    let escape = match effect.answer {
        Some(answer) => format!(
            "does not mate in time: {other} defends with {}",
            shortly(&answer)
        ),
        None => format!("is stalemate: {other} has no legal move and is not in check"),
    };
    sentence(&format!("{name} {escape}"))
}

/// Tells the missed moves, then the others, with what each does.
fn explained(why: &MoveEffectsWhy, tell: impl Fn(&str, &MoveEffect) -> String) -> Vec<String> {
    let tell = |effect: &MoveEffect| tell(&named(&effect.ply), effect);
    let missed = why.missed.iter().take(TOLD);
    let extra = why.extra.iter().take(TOLD);
    missed
        .map(|effect| format!("{MISSED}{}", tell(effect)))
        .chain(extra.map(|effect| capital(&tell(effect))))
        .chain(refused(&why.refused))
        .collect()
}

/// Names a move of the side that is asked about: "the king from e1 to f2".
fn named(ply: &Ply) -> String {
    if let Some(on) = ply.mv.castling_side() {
        return format!("castling {}", wing(on));
    }
    let (piece, from, to) = (role(ply.mv.role()), ply.from(), ply.to());
    format!(
        "the {piece} from {from} to {to}{}",
        becoming(ply.mv.promotion())
    )
}

/// Names a move that answers another: a king's by its arrival alone, "the king to h7".
fn shortly(ply: &Ply) -> String {
    match ply.mv.role() {
        Role::King if !ply.mv.is_castle() => format!("the king to {}", ply.to()),
        _ => named(ply),
    }
}

/// Says that a move gives check and by which pieces, in a clause that begins small; `None` where it gives
/// none. A piece that has not moved gives it from behind.
fn check(effect: &MoveEffect) -> Option<String> {
    let (ply, castling) = (&effect.ply, effect.ply.mv.castling_side());
    let give = match effect.checkers.len() {
        0 => return None,
        1 => "gives",
        _ => "give",
    };
    let checkers = effect.checkers.iter();
    let (moved, behind): (Vec<_>, Vec<_>) =
        checkers.partition(|(square, _)| *square == ply.to() && castling.is_none());
    let behind = behind.into_iter();
    let behind = list(behind.map(|(on, piece)| format!("the {} on {on}", role(piece.role))));
    let name = named(ply);
    Some(match (castling, moved.is_empty()) {
        (Some(on), _) => {
            let (side, wing) = (side(ply.side()), wing(on));
            format!("{side} castles {wing}, and {behind} {give} check")
        }
        (None, true) => format!("{name} opens a line, and {behind} {give} check"),
        (None, false) if behind.is_empty() => format!("{name} gives check"),
        (None, false) => {
            format!("{name} gives check, and so does {behind} through the line that it opens")
        }
    })
}
