//! Verdicts in words: what came of a reply, and what is true.

use crate::exercise::Answered;
use crate::question::{LineQuestion, Question, Tally, Truth, Verdict, Why};

use super::duration::duration;
use super::naming::squares;
use super::{Voice, bare, line, paper};

/// Says what came of a reply, then the truth and why it is so where the reply was not right.
pub(super) fn answered(voice: Voice, answered: &Answered) -> Vec<String> {
    let mut said = vec![verdict(answered)];
    if answered.mark.verdict != Verdict::Right {
        said.extend(tally(
            answered.question,
            &answered.mark.tally,
            answered.mark.verdict,
        ));
        // The move in full says all that its squares say.
        if !answered.why.as_ref().is_some_and(Why::names_truth) {
            said.extend(shown(voice, answered.question, &answered.truth));
        }
        if let Some(reasons) = &answered.why {
            // Who gave the question up named nothing, and so missed nothing either.
            said.extend(match answered.mark.verdict {
                Verdict::Pass => paper::reasons(reasons),
                Verdict::Right | Verdict::Part | Verdict::Wrong => why(reasons),
            });
        }
    }
    said
}

fn verdict(answered: &Answered) -> String {
    let late = late_by(answered);
    match answered.mark.verdict {
        Verdict::Right => format!(
            "{} {}",
            right(answered),
            truth(&answered.question, &answered.truth)
        ),
        Verdict::Part => format!("Right in part{late}."),
        Verdict::Wrong => format!("Not right{late}."),
        Verdict::Pass => "Passed.".to_owned(),
    }
}

/// Goes on, after a verdict, with how long a late reply took; nothing for one that came in time.
pub(super) fn late_by(answered: &Answered) -> String {
    let late = answered.millis.filter(|_| answered.late);
    late.map_or_else(String::new, |millis| {
        format!(", and late: it took {}", duration(millis))
    })
}

fn right(answered: &Answered) -> String {
    match answered.millis {
        Some(millis) if !answered.late => format!("Right, in {}.", duration(millis)),
        Some(_) | None => format!("Right{}.", late_by(answered)),
    }
}

/// Says that a reply was right and nothing that could answer another question; `None` where there is
/// more to say.
#[must_use]
pub fn right_alone(answered: &Answered) -> Option<String> {
    let is_right = answered.mark.verdict == Verdict::Right;
    match (&answered.tries, &answered.truth) {
        // Only the move that was not said is told.
        (Some(tries), _) => {
            let whole = is_right || answered.mark.verdict == Verdict::Part;
            whole.then(|| super::recite::verdict(answered, tries))
        }
        // Why a move is illegal is told with the verdict.
        (None, Truth::Illegal { .. }) => None,
        (None, _) => is_right.then(|| right(answered)),
    }
}

/// Says which squares were right, forgotten or too many; a line each, and none for a pass, where
/// the truth says it all.
fn tally(question: Question, tally: &Tally, verdict: Verdict) -> Vec<String> {
    // What is wrong with a placement is told piece by piece by its why.
    if verdict == Verdict::Pass || matches!(question, Question::Line(LineQuestion::Rebuild(_))) {
        return Vec::new();
    }
    [
        ("Named rightly", tally.hit),
        ("Missed", tally.missed),
        ("Not asked for", tally.extra),
    ]
    .into_iter()
    .filter(|(_, set)| set.any())
    .map(|(name, set)| format!("{name}: {}.", squares(set)))
    .collect()
}

/// Says the truth; a whole board is drawn for those who look, and told in words for the others.
fn shown(voice: Voice, question: Question, answer: &Truth) -> Vec<String> {
    let mut said = vec![truth(&question, answer)];
    if let Truth::Placement(placement) = answer {
        said.extend(voice.board(placement));
    }
    said
}

/// Says the right answer in a sentence.
#[must_use]
pub fn truth(question: &Question, truth: &Truth) -> String {
    match question {
        Question::Line(question) => line::truth(*question, truth),
        Question::Bare(question) => bare::truth(question),
    }
}

/// Explains why the truth is what it is, one fact a line.
#[must_use]
pub fn why(why: &Why) -> Vec<String> {
    match why {
        Why::Line(why) => line::why(why),
        Why::Bare(why) => bare::why(why),
    }
}
