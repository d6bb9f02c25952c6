//! Verdicts in words: what came of a reply, and what is true.

use crate::exercise::{Answered, Dialogue, Tries};
use crate::question::{LineWhy, Truth, Verdict, Why};

use super::guided::found;
use super::line::illegal::refused;
use super::naming::{count, list};
use super::question::{reasons, truth, why};
use super::style::Voice;
use super::time::duration;
use super::words::MISSED;

/// Says what came of a reply, and no more of the truth than was said rightly.
pub(super) fn answered(answered: &Answered) -> Vec<String> {
    if let Some(tries) = answered.recital() {
        return vec![recital_verdict(answered, tries)];
    }
    if answered.dialogue == Some(Dialogue::Rebuild) {
        return found(answered);
    }
    if answered.is_turn() {
        // A legal move is announced as it is played.
        return why(&answered.why);
    }
    let late = late_by(answered);
    let verdict = match answered.mark.verdict {
        Verdict::Right => {
            let truth = truth(&answered.question, &answered.truth);
            format!("{} {truth}", right(answered))
        }
        Verdict::Pass => "Passed.".to_owned(),
        Verdict::Part => format!("Right in part{late}{}.", placed(answered)),
        Verdict::Wrong => format!("Not right{late}{}.", placed(answered)),
    };
    // That a move is illegal, and why, gives nothing away.
    let refused = refused(answered.why.refused());
    let called_illegal =
        answered.mark.verdict == Verdict::Right && matches!(answered.truth, Truth::Illegal { .. });
    let reasons = called_illegal.then(|| reasons(&answered.why));
    let told = refused.into_iter().chain(reasons.into_iter().flatten());
    [verdict].into_iter().chain(told).collect()
}

/// Says what is true and why, and first which squares of a reply were forgotten.
pub(super) fn explained(voice: Voice, answered: &Answered) -> Vec<String> {
    if answered.recital().is_some() {
        return recited(voice, answered);
    }
    let (question, mark) = (&answered.question, &answered.mark);
    let mut said = Vec::from_iter(missed(answered));
    // The move in full says all that its squares say.
    if !answered.why.names_truth() {
        said.push(truth(question, &answered.truth));
        // A whole board is drawn for those who look, and told in words for the others.
        if let Truth::Placement(placement) = &answered.truth {
            said.extend(voice.board(placement));
        }
    }
    // Who gave the question up named nothing, and so missed nothing either.
    said.extend(match mark.verdict {
        Verdict::Right | Verdict::Pass => reasons(&answered.why),
        Verdict::Part | Verdict::Wrong => why(&answered.why),
    });
    said
}

/// Says which move of a recital it was.
fn recited(voice: Voice, answered: &Answered) -> Vec<String> {
    match &answered.why {
        Why::Line(LineWhy::Played(why)) => {
            vec![format!("It was {}.", voice.announce.named(&why.ply))]
        }
        why => reasons(why),
    }
}

/// Goes on, after the verdict on a whole board, with how many pieces stand right; nothing for other answers.
fn placed(answered: &Answered) -> String {
    let (Truth::Placement(truth), Why::Line(LineWhy::Rebuild(why))) =
        (&answered.truth, &answered.why)
    else {
        return String::new();
    };
    let all = truth.occupied().count();
    let (misplaced, missing, extra) = (why.misplaced.len(), why.missing.len(), why.extra.len());
    let right = all - misplaced - missing;
    let wrong = [
        (misplaced, "misplaced"),
        (missing, "missing"),
        (extra, "too many"),
    ];
    let wrong = wrong.into_iter().filter(|(number, _)| *number > 0);
    let wrong = list(wrong.map(|(number, what)| match number {
        1 => format!("one {what}"),
        _ => format!("{number} {what}"),
    }));
    format!(
        ": {right} of {} right, {wrong}",
        count(all, "piece", "pieces")
    )
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
    if answered.is_turn() {
        return is_right.then(String::new);
    }
    match (answered.recital(), &answered.truth) {
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

/// So many forgotten squares are named at most.
const MOST_NAMED: usize = 6;

/// Says which squares were forgotten of a reply that was right in part, where the reasons do not name them all: what
/// was named wrongly has a reason of its own.
fn missed(answered: &Answered) -> Option<String> {
    let missed = answered.mark.tally.missed;
    let named = matches!(
        answered.why,
        Why::Line(
            LineWhy::Standing(_)
                | LineWhy::Attackers(_)
                | LineWhy::Check(_)
                | LineWhy::Hanging(_)
                | LineWhy::Rebuild(_)
        )
    );
    (answered.mark.verdict == Verdict::Part && missed.any() && !named).then(|| {
        match missed.count() {
            ..=MOST_NAMED => format!("{MISSED}{}.", list(missed)),
            // All of them come with the answer.
            number => format!("{MISSED}{number} squares."),
        }
    })
}
