//! Progress as data.

use jiff::Timestamp;
use serde_json::{Value, json};

use super::html::Learner;
use crate::exercise::Score;
use crate::learner::account::{Account, Chart, Games};
use crate::learner::course::{CourseStep, StepStatus};
use crate::learner::pace::Reach;

/// Writes one learner's progress as one line of JSON. Times are in milliseconds;
/// shares are from 0 to 1, and what is not known is null.
pub(crate) fn json(learner: &Learner, now: Timestamp) -> String {
    let account = &learner.account;
    let (first, last) = account.from_to.unzip();
    let months = account.reach_by_month().map(|month| {
        json!({
            "month": month.month.strftime("%Y-%m").to_string(),
            "answers": month.answers,
            "reach": reach(&month.reach),
        })
    });
    let kinds = account.kinds(now).into_iter().map(|(kind, trend)| {
        json!({
            "kind": kind,
            "all": score(&trend.all),
            "lately": score(&trend.lately),
            "before": score(&trend.before),
        })
    });
    let recall = account.recall.iter().map(
        |(plies, recall)| json!({ "plies": plies, "answers": recall.answers(), "right": recall.right }),
    );
    let missed = account.missed(usize::MAX).into_iter().map(
        |missed| json!({ "question": missed.question, "asked": missed.asked, "missed": missed.missed }),
    );
    let mistaken = account.mistaken(usize::MAX).into_iter();
    let mistaken = mistaken.map(|(mistaken, times)| {
        json!({
            "view": mistaken.view.to_string(),
            "asked": mistaken.asked.to_string(),
            "named": mistaken.named.to_string(),
            "times": times,
        })
    });
    let (answers_lately, days_lately) = account.lately(now);
    let weakest = account.weakest(now);
    json!({
        "learner": learner.name,
        "lately": { "answers": answers_lately, "days": days_lately },
        "weakest": weakest.map(|(kind, of)| json!({ "kind": kind, "all": score(&of) })),
        "answers": account.answers,
        "first": first,
        "last": last,
        "steps": CourseStep::ALL.map(|step| step_json(account, step)),
        "reach": reach(&account.reach()),
        "months": months.collect::<Value>(),
        "kinds": kinds.collect::<Value>(),
        "squares": {
            "white": squares(account, Chart::FromWhite),
            "black": squares(account, Chart::FromBlack),
            "color": squares(account, Chart::Color),
        },
        "games": games(&account.games),
        "recall": recall.collect::<Value>(),
        "missed": missed.collect::<Value>(),
        "mistaken": mistaken.collect::<Value>(),
    })
    .to_string()
}

fn step_json(account: &Account, step: CourseStep) -> Value {
    let mark = step.mark();
    let standing = account.course.standing(step);
    let (right, of) = standing.counts().unzip();
    let passed = match standing.status {
        StepStatus::Passed(on) => Some(on),
        _ => None,
    };
    json!({
        "step": <&str>::from(step),
        "standing": <&str>::from(standing.status),
        "passed": passed,
        "right": right,
        "of": of,
        "median": standing.median_millis.filter(|_| right.is_some()),
        "mark": { "right": mark.right, "of": mark.of, "within": mark.within_millis },
    })
}

fn games(games: &Games) -> Value {
    let [won, drawn, lost] = games.results();
    let (median, halves) = games.held(1).unzip();
    let (earlier, later) = halves.flatten().unzip();
    let phases = games.phases.iter().map(|(phase, (moves, slips))| {
        let phase = format!("{phase:?}").to_lowercase();
        json!({ "phase": phase, "moves": moves, "slips": slips })
    });
    let reasons = games.reasons().iter();
    let reasons = reasons.map(|(reason, slips)| json!({ "reason": reason, "slips": slips }));
    json!({
        "unseen": games.len(),
        "won": won,
        "drawn": drawn,
        "lost": lost,
        "ratings": games.ratings().map(|(least, most)| [least, most]),
        "held": { "median": median, "earlier": earlier, "later": later },
        "phases": phases.collect::<Value>(),
        "reasons": reasons.collect::<Value>(),
    })
}

fn reach(reach: &Reach) -> Value {
    match reach {
        Reach::NotMeasured {
            answers,
            of,
            levels,
        } => json!({ "measured": false, "answers": answers, "of": of, "levels": levels }),
        Reach::Measured { plies, low, high } => {
            json!({ "measured": true, "plies": plies, "low": low, "high": high })
        }
    }
}

fn score(score: &Score) -> Value {
    json!({
        "right": score.right,
        "part": score.part,
        "wrong": score.wrong,
        "passed": score.passed,
        "late": score.late,
        "share": score.share(),
        "median": score.median(),
    })
}

fn squares(account: &Account, chart: Chart) -> Value {
    let map = account.map(chart).iter();
    map.map(|(square, of)| (square.to_string(), score(of)))
        .collect()
}
