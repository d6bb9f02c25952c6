//! What moves do, and which one was played, in words.

use shakmaty::{Bitboard, Piece, Position, Role, Square};

use crate::exercise::Stand;
use crate::game::Ply;
use crate::question::{
    Captures, Checks, Mate, MateWhy, MoveEffect, MoveEffectsWhy, Played, PlayedWhy, Sight, Truth,
};
use crate::voice::announce::Announce;
use crate::voice::movement::not_attacked;
use crate::voice::naming::{
    becoming, departed, either, en_passant, groups, list, move_of, piece_named, piece_on, role,
    roles_on, sentence, side, squares_of, wing,
};
use crate::voice::words::{LineWords, MISSED};

use super::attacks::in_the_way;
use super::illegal::TOLD;

impl LineWords for Checks {
    fn ask(self, stand: &Stand) -> String {
        let turn = side(stand.turn);
        format!("{turn} to move: which legal moves give check? Name every one, or none.")
    }

    fn tell(self, truth: &Truth) -> String {
        told(truth, "move gives check", "moves give check")
    }

    fn explain(why: &MoveEffectsWhy) -> Vec<String> {
        explained(why, checkers, |effects| {
            check(effects).unwrap_or_else(|| no_check(effects))
        })
    }
}

impl LineWords for Captures {
    fn ask(self, stand: &Stand) -> String {
        let turn = side(stand.turn);
        format!("{turn} to move: which captures are legal? Name every one, or none.")
    }

    fn tell(self, truth: &Truth) -> String {
        told(truth, "capture is legal", "captures are legal")
    }

    fn explain(why: &MoveEffectsWhy) -> Vec<String> {
        let takes = |effects: &[&MoveEffect]| {
            let (first, from) = (effects[0], effects[0].ply.from());
            let taken = effects.iter().filter_map(|effect| {
                let (on, piece) = effect.ply.taken()?;
                Some(piece_on(piece, on) + en_passant(&effect.ply))
            });
            let taken = list(taken);
            if !taken.is_empty() {
                return format!("the {} on {from} takes {taken}", role(first.ply.mv.role()));
            }
            let left = first.left.map_or_else(String::new, |left| {
                let left = departed(&left, &piece_named(left.piece), Some(first.ply.to()));
                format!(": {left}")
            });
            format!("{} takes nothing{left}", named(effects))
        };
        explained(why, |_| (), takes)
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
        if self.is_at_once() {
            told(truth, "move mates", "moves mate")
        } else {
            told(truth, "move mates in time", "moves mate in time")
        }
    }

    fn explain(why: &MateWhy) -> Vec<String> {
        if why.within > 1 {
            return forced_mate(why);
        }
        explained(&why.effects, checkers, |effects| {
            let other = side(!effects[0].ply.side());
            match (check(effects), effects[0].answer) {
                (None, _) => no_check(effects),
                (Some(check), None) => format!("{check}, and {other} has no answer"),
                (Some(check), Some(answer)) => {
                    let answer = shortly(&answer);
                    format!("{check}, but {other} has an answer, such as {answer}")
                }
            }
        })
    }
}

impl LineWords for Played {
    fn ask(self, _: &Stand) -> String {
        let side = side(self.color);
        // Where sidelines are read, two moves can have the same number.
        format!("What was {side}'s move {} in this line?", self.number)
    }

    fn tell(self, truth: &Truth) -> String {
        let (side, mv) = (side(self.color), moves_of(truth));
        format!("{side}'s move {} was {mv}.", self.number)
    }

    fn explain(why: &PlayedWhy) -> Vec<String> {
        let played = Announce::Words.named(&why.ply);
        vec![match why.elsewhere.map(move_of) {
            Some(elsewhere) => format!("That was {elsewhere}. The one asked for was {played}."),
            None => format!("It was {played}."),
        }]
    }
}

/// Counts and names the moves that a question asks for: "2 moves mate: e1 to e8 and f7 to f8."
fn told(truth: &Truth, one: &str, several: &str) -> String {
    let moves = moves_of(truth);
    match truth.attempts().len() {
        0 => format!("No {one}."),
        1 => format!("One {one}: {moves}."),
        number => format!("{number} {several}: {moves}."),
    }
}

fn moves_of(truth: &Truth) -> String {
    list(truth.attempts().iter().map(|mv| squares_of(*mv)))
}

/// The moves that were forgotten are in the truth; one way to the mate says more of them.
fn forced_mate(why: &MateWhy) -> Vec<String> {
    let escapes = why.effects.extra.iter().map(escape);
    let moves = why.way.iter().map(|ply| Announce::Words.named(ply));
    let moves = moves.collect::<Vec<_>>().join("; ");
    let way = (!moves.is_empty()).then(|| format!("One way to the mate: {moves}."));
    escapes.chain(way).collect()
}

/// Says how the other side gets out of a move that does not mate in time.
fn escape(effect: &MoveEffect) -> String {
    let (name, other) = (named(&[effect]), side(!effect.ply.side()));
    let escape = match effect.answer {
        Some(answer) => format!(
            "does not mate in time: {other} defends with {}",
            shortly(&answer)
        ),
        None => format!("is stalemate: {other} has no legal move and is not in check"),
    };
    sentence(&format!("{name} {escape}"))
}

/// Tells the missed moves, then the others, with what they do: those of one piece that do the same at once.
fn explained<D: PartialEq>(
    why: &MoveEffectsWhy,
    does: impl Fn(&MoveEffect) -> D,
    tell: impl Fn(&[&MoveEffect]) -> String,
) -> Vec<String> {
    let alike = |one: &MoveEffect, other: &MoveEffect| {
        let [first, second] =
            [one, other].map(|effect| (effect.ply.from(), effect.ply.mv.promotion(), does(effect)));
        first == second && !one.ply.mv.is_castle() && !other.ply.mv.is_castle()
    };
    let missed = groups(&why.missed, alike);
    let missed = missed.iter();
    let missed = missed.map(|group| format!("{MISSED}{}.", tell(group)));
    // What is wrong with a move that was named is told of it alone.
    let extra = why.extra.iter().take(TOLD);
    let extra = extra.map(|effect| sentence(&tell(&[effect])));
    missed.chain(extra).collect()
}

/// Names moves of one piece of the side that is asked about: "the king from e1 to f2 or g1".
fn named(effects: &[&MoveEffect]) -> String {
    let ply = &effects[0].ply;
    if let Some(on) = ply.mv.castling_side() {
        return format!("castling {}", wing(on));
    }
    let (piece, from, promotion) = (role(ply.mv.role()), ply.from(), ply.mv.promotion());
    let to = either(effects.iter().map(|effect| effect.ply.to()));
    let comma = promotion.map_or("", |_| ",");
    format!(
        "the {piece} from {from} to {to}{}{comma}",
        becoming(promotion)
    )
}

/// Names a move that answers another: a king's by its arrival alone, "the king to h7".
fn shortly(ply: &Ply) -> String {
    if let Some((on, _)) = ply.taken() {
        return format!("the {}'s capture on {on}", role(ply.mv.role()));
    }
    match ply.mv.castling_side() {
        Some(on) => format!("castling {}", wing(on)),
        None => format!("the {} to {}", role(ply.mv.role()), ply.to()),
    }
}

/// Says why a move gives no check.
fn no_check(effects: &[&MoveEffect]) -> String {
    let (name, MoveEffect { ply, after, .. }) = (named(effects), effects[0]);
    let piece = Piece {
        role: ply.mv.promotion().unwrap_or(ply.mv.role()),
        color: ply.side(),
    };
    let king = after.board().king_of(after.turn());
    let king = king.expect("each side has its king");
    let sight = Sight::new(after.board(), ply.to(), king);
    match sight {
        _ if ply.mv.is_castle() || piece.role == Role::King => format!("{name} gives no check"),
        Sight::Blocked { by, on } => {
            format!("{name} gives no check: {}", in_the_way(by, on, piece))
        }
        Sight::NotItsWay | Sight::Open { .. } => {
            let reason = not_attacked(piece, ply.to(), king);
            format!("{name} gives no check to the king on {king}: {reason}")
        }
    }
}

/// Parts the pieces that give check after a move: those behind the one that moved, and whether that one does.
fn checkers(effect: &MoveEffect) -> (Bitboard, bool) {
    let (ply, all) = (&effect.ply, effect.after.checkers());
    let has_moved = |square: &Square| *square == ply.to() && !ply.mv.is_castle();
    let (moved, behind): (Bitboard, Bitboard) = all.into_iter().partition(has_moved);
    (behind, moved.any())
}

/// Says that moves give check and by which pieces, in a clause that begins small; `None` where they give
/// none. A piece that has not moved gives it from behind.
fn check(effects: &[&MoveEffect]) -> Option<String> {
    let ply = &effects[0].ply;
    let (behind, moved) = checkers(effects[0]);
    let give = if behind.count() == 1 { "gives" } else { "give" };
    let (name, from_behind) = (named(effects), roles_on(effects[0].after.board(), behind));
    Some(match (ply.mv.castling_side(), moved) {
        (None, true) if behind.is_empty() => format!("{name} gives check"),
        (None, true) => {
            format!("{name} gives check, and so does {from_behind} through the line that it opens")
        }
        _ if behind.is_empty() => return None,
        (Some(_), _) => format!("after {name}, {from_behind} {give} check"),
        (None, false) => format!("{name} opens a line, and {from_behind} {give} check"),
    })
}
