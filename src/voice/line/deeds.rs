//! What moves do, in words.

use shakmaty::{CastlingSide, Square};

use crate::exercise::Stand;
use crate::question::{Captures, Checks, Deed, DeedsWhy, Mate, MateWhy, Refused, Stroke, Truth};
use crate::voice::Announce;
use crate::voice::naming::{list, man, role, side, squares_of, wing};
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

    fn explain(why: &DeedsWhy) -> Vec<String> {
        explained(why, |deed| {
            if deed.checkers.is_empty() {
                format!("{} gives no check.", named(&deed.stroke))
            } else {
                format!("{}: {}.", named(&deed.stroke), check(deed))
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

    fn explain(why: &DeedsWhy) -> Vec<String> {
        explained(why, |deed| match deed.stroke.takes {
            Some((on, piece)) if on == deed.stroke.attempt.to => {
                format!("{} takes {}.", named(&deed.stroke), man(piece))
            }
            Some((on, piece)) => {
                format!(
                    "{} takes {} on {on} en passant.",
                    named(&deed.stroke),
                    man(piece)
                )
            }
            None => format!("{} takes nothing.", named(&deed.stroke)),
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
        explained(&why.deeds, |deed| {
            let name = named(&deed.stroke);
            let other = side(!deed.stroke.piece.color);
            match deed.answer {
                _ if deed.checkers.is_empty() => format!("{name} gives no check."),
                None => format!("{name} mates: {}, and no move meets it.", check(deed)),
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
    let mut said: Vec<String> = why.deeds.extra.iter().map(escape).collect();
    said.extend(impossible(&why.deeds.refused));
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
fn escape(deed: &Deed) -> String {
    let name = named(&deed.stroke);
    let other = side(!deed.stroke.piece.color);
    match deed.answer {
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
fn explained(why: &DeedsWhy, tell: impl Fn(&Deed) -> String) -> Vec<String> {
    let missed = why.missed.iter().take(TOLD).map(&tell);
    let extra = why.extra.iter().take(TOLD).map(&tell);
    missed
        .map(|deed| format!("{MISSED}{deed}"))
        .chain(extra.map(|deed| format!("Not right: {deed}")))
        .chain(impossible(&why.refused))
        .collect()
}

fn impossible(moves: &[Refused]) -> impl Iterator<Item = String> {
    moves.iter().take(TOLD).map(refused)
}

/// Names a move with its side: "White's knight from f3 to d2".
fn named(stroke: &Stroke) -> String {
    match stroke.castling {
        Some(side_of_board) => format!(
            "{}'s castling {}",
            side(stroke.piece.color),
            wing(side_of_board)
        ),
        None => format!("{} from {}", man(stroke.piece), squares(stroke)),
    }
}

/// Names a move without its side: "the king from e1 to f2".
fn way(stroke: &Stroke) -> String {
    match stroke.castling {
        Some(side_of_board) => format!("castling {}", wing(side_of_board)),
        None => format!("the {} from {}", role(stroke.piece.role), squares(stroke)),
    }
}

fn squares(stroke: &Stroke) -> String {
    squares_of(stroke.attempt)
}

/// Says who gives check; a man that has not moved gives it from behind.
fn check(deed: &Deed) -> String {
    let men = list(
        deed.checkers
            .iter()
            .map(|(square, piece)| format!("{} on {square}", man(*piece))),
    );
    let several = if deed.checkers.len() == 1 {
        "gives"
    } else {
        "give"
    };
    let uncovers = deed
        .checkers
        .iter()
        .any(|(square, _)| *square != arrival(deed));
    if uncovers && deed.stroke.castling.is_none() {
        format!("it opens a line, and {men} {several} check")
    } else {
        format!("{men} {several} check")
    }
}

fn arrival(deed: &Deed) -> Square {
    let color = deed.stroke.piece.color;
    deed.stroke
        .castling
        .map_or(deed.stroke.attempt.to, |wing: CastlingSide| {
            wing.rook_to(color)
        })
}
