//! What is said around calculation.

use super::ending;
use super::exercise::ExerciseWords;
use super::naming::{count, plies};
use super::rounds::{given, held};
use super::style::Voice;
use crate::exercise::{Ahead, AheadOpening, AheadSummary, Show, Summary};

impl ExerciseWords for Ahead {
    fn title(_: &AheadOpening) -> String {
        "Calculation".to_owned()
    }

    fn say_opening(voice: Voice, opening: &AheadOpening) -> Vec<String> {
        let first = match opening.resumed {
            Some(done) => {
                let rounds = count(opening.rounds, "round", "rounds");
                format!("The calculation goes on where it stopped: {done} of {rounds} done.")
            }
            None => to_come(opening),
        };
        vec![
            first,
            each_round(voice, opening.show),
            "Enter reads on; help says what else can be said.".to_owned(),
        ]
    }

    fn say_on_paper(voice: Voice, opening: &AheadOpening) -> Vec<String> {
        vec![to_come(opening), each_round(voice, opening.show)]
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
fn to_come(opening: &AheadOpening) -> String {
    let rounds = count(opening.rounds, "round", "rounds");
    match opening.plies {
        Some(number) => format!("{rounds} of calculation, {} each.", plies(number)),
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
