//! What games without sight of the board come to, in words.

use crate::learner::account::{Games, Phase};
use crate::question::Reason;
use crate::voice::naming::{count, list};

/// So many games in each half are enough to tell of a change.
const ENOUGH: usize = 3;
/// So many reasons of slips are told.
const REASONS_TOLD: usize = 3;

/// Says what games without sight of the board come to.
pub(crate) fn games(games: &Games) -> Vec<String> {
    let mut said = Vec::new();
    if !games.is_empty() {
        let [won, drawn, lost] = games.results();
        let number = count(games.len(), "game", "games");
        let against = match games.ratings() {
            Some((one, other)) if one == other => format!(", against opponents at {one}"),
            Some((least, most)) => format!(", against opponents from {least} to {most}"),
            None => String::new(),
        };
        said.push(format!(
            "Unseen games: {number}{against}: {won} won, {drawn} drawn, {lost} lost."
        ));
    }
    said.extend(games.held(ENOUGH).map(|(median, halves)| {
        let number = games.len();
        let change = halves.map(|(earlier, later)| {
            let half = number / 2;
            let rest = number - half;
            format!(" In the first {half} of them {earlier}, in the last {rest} {later}.")
        });
        let change = change.unwrap_or_default();
        let games = count(number, "game", "games");
        let held = count(median, "ply", "plies");
        format!("The picture held for {held}, in the median of {games}.{change}")
    }));
    let slips = games.phases.iter().map(|(phase, (moves, slips))| {
        let phase = match phase {
            Phase::Opening => "the opening",
            Phase::Middlegame => "the middlegame",
            Phase::Ending => "the ending",
        };
        let all = f64::from(*moves + *slips).max(1.0);
        format!("{:.1} in {phase}", 100.0 * f64::from(*slips) / all)
    });
    let slips: Vec<String> = slips.collect();
    if !slips.is_empty() {
        said.push(format!("Slips in 100 moves: {}.", list(slips)));
    }
    let reasons = games.reasons().iter().take(REASONS_TOLD);
    let reasons: Vec<String> = reasons
        .map(|(reason, times)| format!("{} ({times})", reason_title(*reason)))
        .collect();
    if !reasons.is_empty() {
        said.push(format!("Slips most of all: {}.", list(reasons)));
    }
    said
}

/// Names the reason of a slip.
const fn reason_title(reason: Option<Reason>) -> &'static str {
    match reason {
        None => "no such piece can go there",
        Some(Reason::EmptySquare) => "an empty square",
        Some(Reason::WrongSide) => "the other side's piece",
        Some(Reason::CastlingRightLost) => "a lost right to castle",
        Some(Reason::Blocked) => "a piece in the way",
        Some(Reason::CastlingInCheck) => "castling out of check",
        Some(Reason::CastlingThroughAttack) => "castling through an attack",
        Some(Reason::OwnPieceThere) => "one's own piece on the square",
        Some(Reason::EnPassantExpired) => "en passant too late",
        Some(Reason::NotItsWay) => "not that piece's way",
        Some(Reason::Pinned) => "a pinned piece",
        Some(Reason::UncoversCheck) => "en passant that uncovers the king",
        Some(Reason::StepsIntoCheck) => "a king into check",
        Some(Reason::StaysInCheck) => "a check not met",
    }
}
