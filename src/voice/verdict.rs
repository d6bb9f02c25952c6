//! Verdicts in words: what came of a reply, and what is true.

use crate::exercise::{Answered, Tries};
use crate::question::{LineQuestion, LineWhy, Question, Tally, Truth, Verdict, Why};

use super::naming::list;
use super::question::{reasons, truth, why};
use super::style::Voice;
use super::time::duration;

/// Says what came of a reply, then the truth and why it is so where the reply was not right.
pub(super) fn answered(voice: Voice, answered: &Answered) -> Vec<String> {
    if let Some(tries) = answered.tries.as_ref().filter(|_| !answered.helped) {
        return recited(voice, answered, tries);
    }
    let (question, mark) = (&answered.question, &answered.mark);
    let told = || truth(question, &answered.truth);
    let mut said = match mark.verdict {
        Verdict::Right => return vec![format!("{} {}", right(answered), told())],
        // The truth says it all to who gave the question up.
        Verdict::Pass => vec!["Passed.".to_owned()],
        Verdict::Part | Verdict::Wrong => {
            let right = if mark.verdict == Verdict::Part {
                "Right in part"
            } else {
                "Not right"
            };
            let verdict = [format!("{right}{}.", late_by(answered))];
            let tally = tally(question, &mark.tally);
            verdict.into_iter().chain(tally).collect()
        }
    };
    // The move in full says all that its squares say.
    if !answered.why.as_ref().is_some_and(Why::names_truth) {
        said.push(told());
        // A whole board is drawn for those who look, and told in words for the others.
        if let Truth::Placement(placement) = &answered.truth {
            said.extend(voice.board(placement));
        }
    }
    // Who gave the question up named nothing, and so missed nothing either.
    let explain = match mark.verdict {
        Verdict::Pass => reasons,
        Verdict::Right | Verdict::Part | Verdict::Wrong => why,
    };
    said.extend(answered.why.as_ref().map(explain).unwrap_or_default());
    said
}

/// Says what came of a move of a recital, and which it was where it was not said.
fn recited(voice: Voice, answered: &Answered, tries: &Tries) -> Vec<String> {
    let mut said = vec![recital_verdict(answered, tries)];
    let given = matches!(answered.mark.verdict, Verdict::Wrong | Verdict::Pass);
    if let Some(Why::Line(LineWhy::Played(why))) = answered.why.as_ref().filter(|_| given) {
        said.push(format!("It was {}.", voice.announce.named(&why.ply)));
    }
    said
}

fn recital_verdict(answered: &Answered, tries: &Tries) -> String {
    let late = late_by(answered);
    match answered.mark.verdict {
        Verdict::Right => format!("Right{late}."),
        Verdict::Part if tries.said.len() > 1 => format!("Right at the second try{late}."),
        Verdict::Part => format!("Right with the hint{late}."),
        Verdict::Wrong => format!("Not right{late}."),
        Verdict::Pass => "Passed.".to_owned(),
    }
}

fn right(answered: &Answered) -> String {
    match answered.millis {
        Some(millis) if !answered.late => format!("Right, in {}.", duration(millis)),
        Some(_) | None => format!("Right{}.", late_by(answered)),
    }
}

/// Goes on, after a verdict, with how long a late reply took; nothing for one that came in time.
fn late_by(answered: &Answered) -> String {
    let late = answered.millis.filter(|_| answered.late);
    late.map_or_else(String::new, |millis| {
        format!(", and late: it took {}", duration(millis))
    })
}

/// Says that a reply was right and nothing that could answer another question; `None` where there is
/// more to say.
pub(crate) fn right_alone(answered: &Answered) -> Option<String> {
    let is_right = answered.mark.verdict == Verdict::Right;
    match (&answered.tries, &answered.truth) {
        // Only the move that was not said is told.
        (Some(tries), _) => {
            let whole = is_right || answered.mark.verdict == Verdict::Part;
            whole.then(|| recital_verdict(answered, tries))
        }
        // Why a move is illegal is told with the verdict.
        (None, Truth::Illegal { .. }) => None,
        (None, _) => is_right.then(|| right(answered)),
    }
}

/// Says which squares were right, forgotten or too many; a line each.
fn tally(question: &Question, tally: &Tally) -> Vec<String> {
    // What is wrong with a placement is told piece by piece by its why.
    if matches!(question, Question::Line(LineQuestion::Rebuild(_))) {
        return Vec::new();
    }
    [
        ("Named rightly", tally.hit),
        ("Missed", tally.missed),
        ("Named wrongly", tally.extra),
    ]
    .into_iter()
    .filter(|(_, set)| set.any())
    .map(|(name, set)| format!("{name}: {}.", list(set)))
    .collect()
}
