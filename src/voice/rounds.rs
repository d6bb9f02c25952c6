//! What is said around exercises that go round by round: a few pieces, calculation, forced mates.

use shakmaty::{CastlingSide, Color, Position};

use crate::exercise::{
    AheadOpening, FewOpening, GivenPosition, MatesOpening, RoundsSummary, Show, Summary,
};
use crate::game::Start;

use super::boards::pieces_listed;
use super::naming::{count, list, plies, side, wing};
use super::style::Voice;

/// Says how many questions come and what Enter does.
pub(super) fn few_opening(opening: &FewOpening) -> Vec<String> {
    let first = match opening.resumed {
        Some(answered) => {
            let questions = count(opening.questions, "question", "questions");
            format!("The drill goes on where it stopped: {answered} of {questions} answered.")
        }
        None => few_to_come(opening),
    };
    let keys = if opening.plies > 0 {
        "The board stays hidden. Enter reads on; help says what else can be said."
    } else {
        "The board stays hidden; help says what can be said beside a reply."
    };
    vec![first, keys.to_owned()]
}

/// Says what is read, what is played on and how many questions come.
pub(super) fn few_to_come(opening: &FewOpening) -> String {
    let questions = count(opening.questions, "question", "questions");
    let then = match opening.plies {
        0 => "questions are".to_owned(),
        plies => {
            let plies = count(plies, "ply is", "plies are");
            format!("up to {plies} played on, then questions are")
        }
    };
    format!("A few pieces will be read out, then {then} asked, round by round: {questions} in all.")
}

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

/// Says how many rounds come, how many plies each has, and what Enter does.
pub(super) fn ahead_opening(voice: Voice, opening: &AheadOpening) -> Vec<String> {
    let first = match opening.resumed {
        Some(done) => {
            let rounds = count(opening.rounds, "round", "rounds");
            format!("The calculation goes on where it stopped: {done} of {rounds} done.")
        }
        None => ahead_to_come(opening),
    };
    vec![
        first,
        ahead_round(voice, opening.show),
        "Enter reads on; help says what else can be said.".to_owned(),
    ]
}

/// Says how many rounds come and how many plies each has.
pub(super) fn ahead_to_come(opening: &AheadOpening) -> String {
    let rounds = count(opening.rounds, "round", "rounds");
    match opening.plies {
        Some(number) => format!("{rounds} of calculation, {} each.", plies(number)),
        None => format!("{rounds} of calculation; how many plies each has follows your answers."),
    }
}

/// Says what a round is like.
pub(super) fn ahead_round(voice: Voice, show: Show) -> String {
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
    let pieces = start.position().board().occupied().count();
    let mut said = vec![match shown.of {
        Some(of) => format!("Round {} of {of}.", shown.round),
        None => format!(
            "Round {}: {}.",
            shown.round,
            count(pieces, "piece", "pieces")
        ),
    }];
    let pieces = || pieces_listed(start.position().board(), voice.list);
    let goes_on = match given(voice, shown.show) {
        Show::Diagram => None,
        Show::List => {
            said.extend(pieces());
            None
        }
        Show::None if shown.heard_before > 0 => Some("The game goes on."),
        Show::None if start.is_usual() => Some("The game is read from its start."),
        Show::None => {
            said.push("The pieces stand like this at the start of the game.".to_owned());
            said.extend(pieces());
            None
        }
    };
    match goes_on {
        Some(goes_on) => {
            said.push(goes_on.to_owned());
            let follow = shown.plies;
            said.extend((follow > 0).then(|| format!("{} to follow.", plies(follow))));
        }
        None => said.extend(rights_and_turn(start, shown.plies)),
    }
    said
}

/// Says in how many rounds the picture held.
pub(super) fn held(summary: &Summary, rounds: RoundsSummary) -> Option<String> {
    let (all, heard) = (count(rounds.asked, "round", "rounds"), plies(summary.heard));
    let held = rounds.held;
    (rounds.asked > 0).then(|| format!("The picture held in {held} of {all}, {heard} heard."))
}

/// Says how many plies come next.
pub(super) fn next_round(next: usize) -> String {
    format!("The next round would have {}.", plies(next))
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
pub(super) fn led_to_mate(tried: usize, mated: usize) -> String {
    let positions = count(tried, "position", "positions");
    format!("Led to the mate: {mated} of {positions}.")
}

/// Says that mates are being searched for, and for how long.
pub(crate) fn searching(within: u32, game: usize, positions: usize, seconds: u64) -> String {
    let positions = count(positions, "position", "positions");
    let seconds = count(seconds, "second", "seconds");
    format!(
        "Searching for mates within {within}: {positions} of game {game}, {seconds} so far. Say stop to \
         end the search."
    )
}
