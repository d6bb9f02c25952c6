//! What is said around a drill of a few pieces.

use super::ending;
use super::exercise::ExerciseWords;
use super::naming::count;
use super::rounds::held;
use super::style::Voice;
use crate::exercise::{Few, FewOpening, RoundsSummary, Summary};

impl ExerciseWords for Few {
    fn title(_: &FewOpening) -> String {
        "Drill: a few pieces".to_owned()
    }

    fn say_opening(_: Voice, opening: &FewOpening) -> Vec<String> {
        let first = match opening.resumed {
            Some(answered) => {
                let questions = count(opening.questions, "question", "questions");
                format!("The drill goes on where it stopped: {answered} of {questions} answered.")
            }
            None => to_come(opening),
        };
        let keys = if opening.plies > 0 {
            "The board stays hidden. Enter reads on; help says what else can be said."
        } else {
            "The board stays hidden; help says what can be said beside a reply."
        };
        vec![first, keys.to_owned()]
    }

    fn say_on_paper(_: Voice, opening: &FewOpening) -> Vec<String> {
        let how =
            "Hear or read each round once and cover it; then answer from memory, without a board.";
        vec![to_come(opening), how.to_owned()]
    }

    fn say_summary(voice: Voice, own: &RoundsSummary, all: &Summary) -> Vec<String> {
        let mut said = ending::counts(voice, all, held(all, *own));
        said.extend(ending::board(voice, "The board of the last round", all));
        said
    }
}

/// Says what is read, what is played on and how many questions come.
fn to_come(opening: &FewOpening) -> String {
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
