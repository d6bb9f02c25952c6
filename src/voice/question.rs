//! Questions, their truths and the reasons, in words.

use crate::exercise::{Ask, Asked, OpenQuestion};
use crate::question::{Question, Truth, Why, each_bare, each_line};

use super::clean::clean_line;
use super::naming::{capital, move_of, side, with_end_mark};
use super::words::{BareWords, LineWords, MISSED};
use super::{bare, guided};

/// Says a question with its number: "Question 2 of 3. What stands on e5?" A move to be said needs
/// none, nor does what is missing of a board.
pub(super) fn prompt(ask: &Ask) -> String {
    match ask.asked {
        Asked::Line(..) | Asked::Bare(_) if ask.of > 1 => {
            format!("Question {} of {}. {}", ask.number, ask.of, question(ask))
        }
        _ => question(ask),
    }
}

/// Says which checkpoint it is, before its first question.
pub(crate) fn checkpoint(ask: &Ask) -> Option<String> {
    match ask.asked {
        Asked::Line(_, stand) if ask.number == 1 => stand.checkpoint.map(|(number, of)| {
            let of = of.map_or_else(String::new, |of| format!(" of {of}"));
            format!("Checkpoint {number}{of}.")
        }),
        Asked::Line(..)
        | Asked::Bare(_)
        | Asked::Rest { .. }
        | Asked::Move { .. }
        | Asked::Turn(_) => None,
    }
}

/// Says a question without its number, whole enough to stand alone on a sheet of paper.
pub(crate) fn question(ask: &Ask) -> String {
    match &ask.asked {
        Asked::Line(question, stand) => {
            each_line!(LineQuestion, question, asked => asked.ask(stand))
        }
        Asked::Bare(question) => each_bare!(BareQuestion, question, asked => asked.ask()),
        Asked::Rest {
            standing,
            found,
            missing,
        } => guided::rest(*standing, *found, *missing),
        Asked::Move { number, once_more } => {
            let once_more = if *once_more { "Once more: " } else { "" };
            format!("{once_more}{}?", move_of(*number))
        }
        Asked::Turn(stand) => {
            let number = stand.number;
            let mv = format!("our move {}, {}.", number.number, side(number.side));
            match ask.of {
                1 => format!("Y{mv}"),
                _ => format!("Board {}: y{mv}", ask.number),
            }
        }
    }
}

/// Puts a question whose answer nobody grades, whole enough to stand alone on a sheet of paper.
pub(crate) fn open(question: &OpenQuestion) -> String {
    let said = question.say.as_deref().map(clean_line);
    said.unwrap_or_else(|| "Which move is best here?".to_owned())
}

/// Says what whoever wrote the question gave as its answer.
pub(crate) fn open_answer(question: &OpenQuestion) -> String {
    let whose = if question.say.is_some() {
        "Your coach's answer"
    } else {
        "The file's answer"
    };
    format!("{whose}: {}", with_end_mark(clean_line(&question.answer)))
}

/// Says the right answer in a sentence.
pub(crate) fn truth(question: &Question, truth: &Truth) -> String {
    match question {
        Question::Line(question) => {
            each_line!(LineQuestion, question, asked => asked.tell(truth))
        }
        Question::Bare(question) => each_bare!(BareQuestion, question, asked => asked.tell()),
    }
}

/// Explains why the truth is what it is, one fact a line.
pub(super) fn why(why: &Why) -> Vec<String> {
    match why {
        Why::Line(why) => each_line!(LineWhy, why, <K> why => K::explain(why)),
        Why::Bare(why) => bare::explained(why),
    }
}

/// Explains a truth to somebody who has not replied yet, so that nothing was missed.
pub(crate) fn reasons(reasons: &Why) -> Vec<String> {
    let bare = |line: String| line.strip_prefix(MISSED).map(capital).unwrap_or(line);
    why(reasons).into_iter().map(bare).collect()
}
