//! What is said around calculation: the position of each round, the defence, how it went.

use shakmaty::Position;

use crate::exercise::{AheadOpening, GivenPosition, MatesOpening, Show};

use super::Voice;
use super::few::castling;
use super::naming::{count, side};
use super::pieces::pieces_listed;

/// Says how many rounds come, how many plies each has, and what Enter does.
pub(super) fn opening(voice: Voice, opening: &AheadOpening) -> Vec<String> {
    let first = match opening.resumed {
        Some(done) => format!(
            "The calculation goes on where it stopped: {done} of {} done.",
            count(opening.rounds, "round", "rounds")
        ),
        None => what_comes(opening),
    };
    vec![
        first,
        how(voice, opening.show),
        "Enter reads on; help says what else can be said.".to_owned(),
    ]
}

/// Says how many rounds come and how many plies each has.
pub(super) fn what_comes(opening: &AheadOpening) -> String {
    let rounds = count(opening.rounds, "round", "rounds");
    match opening.plies {
        Some(plies) => format!(
            "{rounds} of calculation, {} each.",
            count(plies, "ply", "plies")
        ),
        None => format!("{rounds} of calculation; how many plies each has follows your answers."),
    }
}

/// Says what a round is like.
pub(super) fn how(voice: Voice, show: Show) -> String {
    match given(voice, show) {
        Show::Diagram => {
            "A position is shown and stays as it is, plies are read from it, then questions are \
             asked about the position at their end."
        }
        Show::List => {
            "The pieces are read out, plies are read on, then questions are asked about the position at \
             their end."
        }
        Show::None => {
            "The game is read with the board hidden, and stops for questions about the position \
             reached."
        }
    }
    .to_owned()
}

/// How a position is given to whom this voice speaks: where nothing is drawn, it is read out.
const fn given(voice: Voice, show: Show) -> Show {
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
    let board = start.position().board();
    let mut said = vec![match shown.of {
        Some(of) => format!("Round {} of {of}.", shown.round),
        None => format!(
            "Round {}: {}.",
            shown.round,
            count(board.occupied().count(), "piece", "pieces")
        ),
    }];
    match given(voice, shown.show) {
        Show::Diagram => {}
        Show::List => said.extend(pieces_listed(board, voice.list)),
        Show::None => {
            if shown.heard_before > 0 {
                said.push("The game goes on.".to_owned());
            } else if start.is_usual() {
                said.push("The game is read from its start.".to_owned());
            } else {
                said.push("The pieces stand like this at the start of the game.".to_owned());
                said.extend(pieces_listed(board, voice.list));
            }
        }
    }
    let plies = count(shown.plies, "ply", "plies");
    if shown.show == Show::None && (shown.heard_before > 0 || start.is_usual()) {
        said.extend((shown.plies > 0).then(|| format!("{plies} to follow.")));
        return said;
    }
    said.extend(
        shakmaty::Color::ALL
            .into_iter()
            .filter_map(|color| castling(start, color)),
    );
    let turn = side(start.position().turn());
    said.push(match shown.plies {
        0 => format!("{turn} to move."),
        _ => format!("{turn} to move; {plies} to follow."),
    });
    said
}

/// Says how many plies come next.
pub(super) fn next_round(plies: usize) -> String {
    format!(
        "The next round would have {}.",
        count(plies, "ply", "plies")
    )
}

/// Says which mates are to be found, and what can be said.
pub(super) fn mates_opening(voice: Voice, opening: &MatesOpening) -> Vec<String> {
    let mut said = which_mates(voice, opening);
    said.push(
        "A move that cannot be read costs nothing; help says what else can be said.".to_owned(),
    );
    said
}

/// Says which mates are to be found.
pub(super) fn which_mates(voice: Voice, opening: &MatesOpening) -> Vec<String> {
    let positions = count(opening.problems, "position", "positions");
    let first = match opening.resumed {
        Some(done) => format!("The mates go on where they stopped: {done} of {positions} done."),
        None => format!("{positions} with a forced mate."),
    };
    let how = match given(voice, opening.show) {
        Show::Diagram => "The position stays as it is while you say the moves.",
        Show::List => "The pieces are read out, and the board stays hidden.",
        Show::None => "The game is read up to the position, and the board stays hidden.",
    };
    vec![
        first,
        format!("{how} Say every move up to the mate; the other side holds out as long as it can."),
    ]
}

/// Says how the mates went.
pub(super) fn led_to_mate(tried: usize, mated: usize) -> Vec<String> {
    vec![format!(
        "Led to the mate: {mated} of {}.",
        count(tried, "position", "positions")
    )]
}

/// Says that mates are being searched for, and for how long.
#[must_use]
pub fn searching(within: u32, game: usize, positions: usize, seconds: u64) -> String {
    format!(
        "Searching for mates within {within}: {} of game {game}, {} so far. Say stop to end the search.",
        count(positions, "position", "positions"),
        count(
            usize::try_from(seconds).unwrap_or(usize::MAX),
            "second",
            "seconds"
        )
    )
}
