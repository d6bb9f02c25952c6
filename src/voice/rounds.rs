//! What is said around exercises that go round by round: a few pieces, calculation, forced mates.

use shakmaty::Position;

use crate::exercise::{
    Ahead, AheadSettings, AheadSummary, Begun, Few, FewSettings, GivenPosition, Mates,
    MatesSettings, MatesSummary, MovesPlayed, RoundsSummary, Show, Summary,
};
use crate::game::Start;

use super::boards::{beside_the_pieces, pieces_listed};
use super::ending;
use super::exercise::ExerciseWords;
use super::naming::{count, plies, side};
use super::style::Voice;

/// Says what the pieces do not show, who is to move and how much will be read.
fn rights_and_turn(start: &Start, follow: usize) -> Vec<String> {
    let mut said = beside_the_pieces(start);
    let turn = side(start.position().turn());
    said.push(match follow {
        0 => format!("{turn} to move."),
        _ => format!("{turn} to move; {} to follow.", plies(follow)),
    });
    said
}

/// Says that an earlier session goes on, and how much of it is done.
fn goes_on_after(what: &str, done: usize, of: &str) -> String {
    format!("{what} goes on where it stopped: {done} of {of} done.")
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
fn held(summary: &Summary, rounds: RoundsSummary) -> Option<String> {
    let (all, heard) = (count(rounds.asked, "round", "rounds"), plies(summary.heard));
    let held = rounds.held;
    (rounds.asked > 0).then(|| format!("The picture held in {held} of {all}, {heard} heard."))
}

impl ExerciseWords for Few {
    fn title(_: &Begun<FewSettings>) -> String {
        "Drill: a few pieces".to_owned()
    }

    fn say_opening(_: Voice, opening: &Begun<FewSettings>) -> Vec<String> {
        let first = match opening.done {
            Some(answered) => {
                let questions = count(opening.settings.count.size(), "question", "questions");
                goes_on_after("The drill", answered, &questions)
            }
            None => few_to_come(opening),
        };
        let keys = if opening.settings.plies.size() > 0 {
            "The board stays hidden. Enter reads on; help says what else can be said."
        } else {
            "The board stays hidden; help says what can be said beside a reply."
        };
        vec![first, keys.to_owned()]
    }

    fn say_on_paper(_: Voice, opening: &Begun<FewSettings>) -> Vec<String> {
        let how = "Listen to each round; then answer from memory, without a board.";
        vec![few_to_come(opening), how.to_owned()]
    }

    fn say_summary(voice: Voice, own: &RoundsSummary, all: &Summary) -> Vec<String> {
        let mut said = ending::counts(voice, all, held(all, *own));
        said.extend(ending::board(voice, "The board of the last round", all));
        said
    }
}

/// Says what is read, what is played on and how many questions come.
fn few_to_come(opening: &Begun<FewSettings>) -> String {
    let questions = count(opening.settings.count.size(), "question", "questions");
    let then = match opening.settings.plies.size() {
        0 => "questions are".to_owned(),
        plies => {
            let plies = count(plies, "ply is", "plies are");
            format!("up to {plies} played on, then questions are")
        }
    };
    format!("A few pieces will be read out, then {then} asked, round by round: {questions} in all.")
}

impl ExerciseWords for Ahead {
    fn title(_: &Begun<AheadSettings>) -> String {
        "Calculation".to_owned()
    }

    fn say_opening(voice: Voice, opening: &Begun<AheadSettings>) -> Vec<String> {
        let first = match opening.done {
            Some(done) => {
                let rounds = count(opening.settings.rounds.size(), "round", "rounds");
                goes_on_after("The calculation", done, &rounds)
            }
            None => to_come(opening),
        };
        vec![
            first,
            each_round(voice, opening.settings.show),
            "Enter reads on; help says what else can be said.".to_owned(),
        ]
    }

    fn say_on_paper(voice: Voice, opening: &Begun<AheadSettings>) -> Vec<String> {
        vec![to_come(opening), each_round(voice, opening.settings.show)]
    }

    fn say_summary(voice: Voice, own: &AheadSummary, all: &Summary) -> Vec<String> {
        let mut said = ending::counts(voice, all, held(all, own.rounds));
        let next = own.next.map(plies);
        said.extend(next.map(|plies| format!("The next round would have {plies}.")));
        said.extend(ending::board(voice, "The board of the last round", all));
        said
    }
}

/// Says how many rounds come and how many plies each has.
fn to_come(opening: &Begun<AheadSettings>) -> String {
    let rounds = count(opening.settings.rounds.size(), "round", "rounds");
    match opening.settings.plies {
        Some(number) => format!("{rounds} of calculation, {} each.", plies(number.size())),
        None => format!("{rounds} of calculation; how many plies each has follows your answers."),
    }
}

/// Says what a round is like.
fn each_round(voice: Voice, show: Show) -> String {
    match given(voice, show) {
        Show::Diagram if voice.empty_board => {
            "A position is shown, plies are read from it with nothing but an empty board before your \
             eyes, then questions are asked about the position at their end."
        }
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

impl ExerciseWords for Mates {
    fn title(_: &Begun<MatesSettings>) -> String {
        "Forced mates".to_owned()
    }

    fn say_opening(voice: Voice, opening: &Begun<MatesSettings>) -> Vec<String> {
        let how = match given(voice, opening.settings.show) {
            Show::Diagram if voice.empty_board => {
                "The position is shown, and an empty board is before your eyes while you say the moves."
            }
            Show::Diagram => "The position stays as it is while you say the moves.",
            Show::List => "The pieces are read out, and the board stays hidden.",
            Show::None => "The game is read up to the position, and the board stays hidden.",
        };
        let mut said = Mates::say_on_paper(voice, opening);
        said[1] = format!(
            "{how} Say every move up to the mate; the other side holds out as long as it can."
        );
        said.push(
            "A move that cannot be read costs nothing; help says what else can be said.".to_owned(),
        );
        said
    }

    fn say_on_paper(_: Voice, opening: &Begun<MatesSettings>) -> Vec<String> {
        let positions = count(opening.settings.problems.len(), "position", "positions");
        let first = match opening.done {
            Some(done) => goes_on_after("The search for mates", done, &positions),
            None => format!("{positions} with a forced mate."),
        };
        let how = "Write the first move, then how it goes on; the first move is what counts.";
        vec![first, how.to_owned()]
    }

    fn say_told(voice: Voice, MovesPlayed(plies): &MovesPlayed) -> Vec<String> {
        voice.announce.plies(plies)
    }

    fn say_summary(voice: Voice, own: &MatesSummary, all: &Summary) -> Vec<String> {
        let positions = count(own.tried, "position", "positions");
        let led = format!("Led to the mate: {} of {positions}.", own.mated);
        ending::counts(voice, all, [led])
    }
}

/// Said while mates are being searched for, where the learner is heard.
pub(crate) const STOP_SEARCHING: &str = "Say stop to end the search.";

/// Says that mates are being searched for, and for how long.
pub(crate) fn searching(within: u32, game: usize, positions: usize, seconds: u64) -> String {
    let positions = count(positions, "position", "positions");
    let seconds = count(seconds, "second", "seconds");
    format!("Searching for mates within {within}: {positions} of game {game}, {seconds} so far.")
}
