//! What stands on a sheet of paper beside its questions.

use shakmaty::Color;

use crate::exercise::{Answered, Output};
use crate::game::MoveNumber;
use crate::question::{Form, Mark, Verdict};

use super::clean::clean_name;
use super::naming::{self, count, move_of, side};
use super::question::{open, truth};
use super::reply_help::forms;
use super::style::Voice;
use super::{exercise, rounds};

pub(crate) use super::question::reasons;

/// The line for the learner's name.
pub(crate) const NAME: &str = "Name";
/// The line for the date.
pub(crate) const DATE: &str = "Date";
/// Over the answers.
pub(crate) const KEY: &str = "Key";
/// Over what is read aloud.
pub(crate) const READING: &str = "To be read aloud";
/// What whoever reads aloud does.
pub(crate) const HOW_TO_READ: &str = "For whoever reads aloud, not for those who answer: read each stretch once, then its questions.";
/// Over the forms of reply.
pub(crate) const FORMS: &str = "How answers are written";
/// Over the command that makes the sheet again.
pub(crate) const AGAIN: &str = "To make this sheet again";
/// Before a question whose answer nobody grades.
pub(crate) const IN_OWN_WORDS: &str = "In your own words:";
/// Over the way to bring written answers into a journal.
pub(crate) const ENTER: &str = "To enter written answers";

/// How a marked square is drawn.
pub(crate) const MARK: &str =
    "On a drawn board dark squares are hatched, and a diamond marks the square that is asked for.";
/// How pieces are drawn.
pub(crate) const PIECES: &str = "On a drawn board dark squares are hatched; a letter in a ring is a piece of White's, a \
    letter on a disk one of Black's.";

/// Says how written answers come into a journal.
pub(crate) fn how_to_enter() -> [&'static str; 3] {
    [
        "Type a text file: the sheet's command as its first line, then a line for each question, its \
         number first and the reply behind it; the number alone where nothing was written, and a ! before what \
         cannot be read.",
        "Then let it be graded: sansvoir sheet enter FILE --learner NAME",
        "The answers of several pupils stand one behind the other, each below a line with the name and a colon.",
    ]
}

/// Names the sheet and its seed.
pub(crate) fn known_as(name: &str, seed: u64) -> String {
    format!("Sheet {name}, seed {seed}")
}

/// Heads a sheet, from what its session says first.
pub(crate) fn title(said_first: &Output) -> Option<String> {
    let Output::Opening(opening) = said_first else {
        return None;
    };
    Some(exercise::title(opening))
}

/// Names a position by the move that it comes after, of which there is none at the start of a line.
pub(crate) fn position_after(last: Option<MoveNumber>, turn: Color) -> String {
    let place = last.map_or_else(
        || "The position".to_owned(),
        |last| format!("The position after {}", move_of(last)),
    );
    format!("{place}, {} to move", side(turn))
}

/// Names the drawing of a board on which a square is marked.
pub(crate) fn marked(view: Color) -> String {
    format!("A board seen from {}'s side, one square marked", side(view))
}

/// Says how a form of reply is written, by a question of that form.
pub(crate) fn form_of(number: usize, form: Form) -> String {
    format!("As in question {number}: {}", forms(form).join(" "))
}

/// Puts a question's number before it, for a sheet that is heard.
pub(crate) fn numbered(number: usize, question: &str) -> String {
    format!("Question {number}. {question}")
}

/// Marks a silence in a script.
pub(crate) fn pause(millis: u64) -> String {
    let (seconds, rest) = (millis / 1000, millis % 1000);
    let number = format!("{seconds}.{rest:03}");
    let number = number.trim_end_matches('0').trim_end_matches('.');
    let unit = if number == "1" { "second" } else { "seconds" };
    format!("[silence of {number} {unit}]")
}

/// Says where a question begins in a sound file: hours, minutes, seconds and its number.
pub(crate) fn chapter(number: usize, millis: u64) -> String {
    let (seconds, rest) = (millis / 1000, millis % 1000);
    let (minutes, seconds) = (seconds / 60, seconds % 60);
    let (hours, minutes) = (minutes / 60, minutes % 60);
    format!("{hours:02}:{minutes:02}:{seconds:02}.{rest:03} Question {number}")
}

/// Heads the answers of one of several pupils.
pub(crate) fn answers_of(learner: &str) -> String {
    format!("{}:", clean_name(learner))
}

/// Says that a sheet's answers are in the journal, how many were right, and the points that they come to, one for each
/// right answer and a share of it for one that is right in part.
pub(crate) fn entered(learner: &str, marks: &[Mark]) -> String {
    let answers = count(marks.len(), "answer", "answers");
    let learner = clean_name(learner);
    let counted = [Verdict::Right, Verdict::Part, Verdict::Wrong, Verdict::Pass];
    let counted = counted.map(|wanted| marks.iter().filter(|mark| mark.verdict == wanted).count());
    let points: f64 = marks.iter().map(|mark| mark.score).sum();
    let points = format!("{points:.2}");
    let points = points.trim_end_matches('0').trim_end_matches('.');
    format!(
        "{answers} entered for {learner}: {} {points} of {} points.",
        naming::verdicts(counted),
        marks.len()
    )
}

/// Says what became of one written answer.
pub(crate) fn graded(number: usize, answered: &Answered) -> String {
    let verdict = match answered.mark.verdict {
        Verdict::Right => return format!("{number}. Right."),
        Verdict::Part => "Right in part.",
        Verdict::Wrong => "Not right.",
        Verdict::Pass => "Passed.",
    };
    let truth = truth(&answered.question, &answered.truth);
    format!("{number}. {verdict} {truth}")
}

impl Voice {
    /// Says on paper what a session says between its questions: what is read aloud, and nothing of
    /// what only a terminal needs. Where the voice is not plain, the board of a round is left out: paper has
    /// drawings of its own.
    pub(crate) fn on_paper(self, output: &Output) -> Vec<String> {
        match output {
            Output::Opening(opening) => self.opening_on_paper(opening),
            Output::Given(given) => rounds::beside_the_board(self, given),
            Output::Heard(_) | Output::Told(_) | Output::Missed(_) | Output::Hint(_) => {
                self.say(output)
            }
            Output::AskOpen(question) => vec![open(question)],
            Output::Ask(_)
            | Output::AskAgain(_)
            | Output::Clue { .. }
            | Output::Unread { .. }
            | Output::ReplyWanted(_)
            | Output::NothingAsked(_)
            | Output::Answered(_)
            | Output::TruthWaits { .. }
            | Output::Explained(_)
            | Output::Guided(_)
            | Output::Helped
            | Output::NotHere(_)
            | Output::Said(_)
            | Output::Again(_)
            | Output::Board { .. }
            | Output::NoLook
            | Output::NoPosition
            | Output::Help { .. }
            | Output::Ended(_)
            | Output::Summary(_) => Vec::new(),
        }
    }
}
