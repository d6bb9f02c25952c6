//! What is said around exercises that go round by round: a few pieces, calculation, forced mates.

use shakmaty::{CastlingSide, Color, Position};

use crate::exercise::{GivenPosition, RoundsSummary, Show, Summary};
use crate::game::Start;

use super::boards::pieces_listed;
use super::naming::{count, list, plies, side, wing};
use super::style::Voice;

/// Says who may still castle, as pieces out of a game may, who is to move and how much will be read.
fn rights_and_turn(start: &Start, follow: usize) -> Vec<String> {
    let rules = if start.mode().is_chess960() {
        " by the rules of Chess960"
    } else {
        ""
    };
    let castles = start.position().castles();
    let rights = Color::ALL.into_iter().filter_map(|color| {
        let wings = CastlingSide::ALL.into_iter();
        let wings = list(wings.filter(|on| castles.has(color, *on)).map(wing));
        let side = side(color);
        (!wings.is_empty()).then(|| format!("{side} still has the right to castle {wings}{rules}."))
    });
    let turn = side(start.position().turn());
    let turn = match follow {
        0 => format!("{turn} to move."),
        _ => format!("{turn} to move; {} to follow.", plies(follow)),
    };
    rights.chain([turn]).collect()
}

/// How a position is given to whom this voice speaks: where nothing is drawn, it is read out.
pub(super) const fn given(voice: Voice, show: Show) -> Show {
    match show {
        Show::Diagram if voice.plain => Show::List,
        Show::Diagram | Show::List | Show::None => show,
    }
}

/// Gives the position of a round, and says how much will be read from it.
pub(super) fn shown(voice: Voice, shown: &GivenPosition) -> Vec<String> {
    let mut said = beside_the_board(voice, shown);
    if given(voice, shown.show) == Show::Diagram {
        // The board stands below the number of the round.
        said.splice(1..1, voice.board(shown.start.position().board()));
    }
    said
}

/// Says the same where the board is drawn by other means.
pub(super) fn beside_the_board(voice: Voice, shown: &GivenPosition) -> Vec<String> {
    let start = &shown.start;
    let pieces = start.position().board().occupied().count();
    let (round, pieces) = (shown.round, count(pieces, "piece", "pieces"));
    let mut said = vec![match shown.of {
        Some(of) => format!("Round {round} of {of}."),
        None => format!("Round {round}: {pieces}."),
    }];
    let (show, follow) = (given(voice, shown.show), shown.plies);
    if show == Show::None {
        let (goes_on, stands) = match shown.heard_before {
            0 if start.is_usual() => ("The game is read from its start.", false),
            0 => ("The pieces stand like this at the start of the game.", true),
            _ => ("The game goes on.", false),
        };
        said.push(goes_on.to_owned());
        if !stands {
            said.extend((follow > 0).then(|| format!("{} to follow.", plies(follow))));
            return said;
        }
    }
    if show != Show::Diagram {
        said.extend(pieces_listed(start.position().board(), voice.list));
    }
    said.extend(rights_and_turn(start, follow));
    said
}

/// Says in how many rounds the picture held.
pub(super) fn held(summary: &Summary, rounds: RoundsSummary) -> Option<String> {
    let (all, heard) = (count(rounds.asked, "round", "rounds"), plies(summary.heard));
    let held = rounds.held;
    (rounds.asked > 0).then(|| format!("The picture held in {held} of {all}, {heard} heard."))
}
