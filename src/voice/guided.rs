//! What is said while a learner is led to what was missed.

use crate::exercise::{Answered, Dialogue, Guided, NotHere};
use crate::question::{Standing, Verdict};
use shakmaty::Bitboard;

use super::naming::{count, list, move_of, piece_named, pieces_on, plies, role, roles, side};
use super::style::Voice;

/// Said before moves that are heard again while a question stands.
pub(super) const HELPED: &str = "That is help: the answer to this question will not count.";

/// Says that the truth waits, and which way leads to it.
pub(super) fn truth_waits(dialogue: Option<Dialogue>, tried: bool) -> Vec<String> {
    let tried = tried.then(|| "Only the first try counts.".to_owned());
    let way = match dialogue {
        Some(Dialogue::Back) => " back goes with you to where your picture still held.",
        Some(Dialogue::Rebuild) => " back lets you find the rest, one kind of piece after another.",
        None => "",
    };
    let waits = format!("Enter tells the answer and why.{way}");
    tried.into_iter().chain([waits]).collect()
}

/// Says what happens on the way.
pub(super) fn guided(voice: Voice, guided: &Guided) -> Vec<String> {
    match guided {
        Guided::Back { after, plies: rest } => {
            let from = after.as_ref().map_or_else(
                || "Back to the start".to_owned(),
                |ply| format!("Back to the position after {}", voice.announce.named(ply)),
            );
            let from = from.trim_end_matches('.');
            vec![format!(
                "{from}: {} from there to the question. None of it counts.",
                plies(*rest)
            )]
        }
        Guided::Pieces { right, off } => {
            let kept = count(
                *right,
                "piece is right and stays",
                "pieces are right and stay",
            );
            let kept = format!("{kept}. None of the rest counts.");
            let kept = (*right > 0).then_some(kept);
            let taken_off = (!off.is_empty()).then(|| format!("Not there: {}.", pieces_on(off)));
            kept.into_iter().chain(taken_off).collect()
        }
        Guided::Lost { ply, piece } => {
            let number = move_of(ply.number);
            vec![match piece {
                None => {
                    let ply = voice.announce.named(ply);
                    format!("You lost it at {}.", ply.trim_end_matches('.'))
                }
                Some((piece, from, Some(to))) => {
                    let piece = piece_named(*piece);
                    format!("You lost it at {number}: {piece} went from {from} to {to}.")
                }
                Some((piece, from, None)) => {
                    let piece = piece_named(*piece);
                    format!("You lost it at {number}: {piece} was taken on {from}.")
                }
            }]
        }
        Guided::HeardAgain => vec!["These were all the moves; here is the answer.".to_owned()],
        Guided::Held => vec!["Your picture held up to the last of these moves.".to_owned()],
        Guided::Whole => vec!["Now every piece is found.".to_owned()],
    }
}

/// Asks for what is missing of a side's pieces of one role.
pub(super) fn rest(asked: Standing, found: Bitboard, missing: usize) -> String {
    let side = side(asked.color);
    let (name, stand) = if found.count() + missing == 1 {
        (role(asked.role).to_owned(), "does it stand")
    } else {
        (roles(asked.role), "do they stand")
    };
    let found = (found.any()).then(|| format!(" You have {}.", list(found)));
    let found = found.unwrap_or_default();
    let missing = if missing == 1 {
        "One is missing".to_owned()
    } else {
        format!("{missing} are missing")
    };
    format!("{side}'s {name}: where {stand}?{found} {missing}.")
}

/// Says which squares were right, and which were not.
pub(super) fn found(answered: &Answered) -> Vec<String> {
    let tally = &answered.mark.tally;
    match answered.mark.verdict {
        Verdict::Right => vec!["Right.".to_owned()],
        Verdict::Pass => vec!["Passed.".to_owned()],
        Verdict::Part | Verdict::Wrong => [("Right", tally.hit), ("Not there", tally.extra)]
            .into_iter()
            .filter(|(_, squares)| squares.any())
            .map(|(name, squares)| format!("{name}: {}.", list(squares)))
            .collect(),
    }
}

/// Says what cannot be had here.
pub(super) fn not_here(what: NotHere) -> String {
    match what {
        NotHere::Why => "There is nothing to explain yet: no question was answered.",
        NotHere::Back => {
            "back goes from a miss to the moves that brought it about, until its answer is told: there are none here."
        }
        NotHere::Pass => "A move cannot be passed over: say one, or resign.",
        NotHere::AgainPlies => "While a move is asked for, it is not heard again. Say it, or pass.",
    }
    .to_owned()
}
