//! Progress as data.

use jiff::Timestamp;
use serde_json::{Value, json};
use shakmaty::{Color, Square};

use super::Learner;
use crate::learner::account::{Account, Chart, Score};
use crate::learner::course::{Standing, Step};
use crate::learner::pace::Reach;

/// Writes one learner's progress as one line of JSON. Times are in milliseconds;
/// shares are from 0 to 1, and what is not known is null.
#[must_use]
pub fn json(learner: &Learner, now: Timestamp) -> String {
    let account = &learner.account;
    let (first, last) = account.from_to().unzip();
    json!({
        "learner": learner.name,
        "answers": account.answers(),
        "first": first.map(|time| time.to_string()),
        "last": last.map(|time| time.to_string()),
        "steps": Step::ALL.map(|step| step_json(account, step)),
        "reach": reach(&account.reach()),
        "months": months(account),
        "kinds": kinds(account, now),
        "squares": squares(account),
        "recall": recall(account),
        "missed": missed(account),
        "mistaken": mistaken(account),
    })
    .to_string()
}

fn step_json(account: &Account, step: Step) -> Value {
    let mark = step.mark();
    let standing = account.course().standing(step);
    let (right, of, median) = match standing {
        Standing::Untried => (None, None, None),
        Standing::Answering { right, of } => (Some(right), Some(of), None),
        Standing::Accurate { median_millis } => (None, None, median_millis),
        Standing::Passed {
            right,
            of,
            median_millis,
            ..
        } => (Some(right), Some(of), median_millis),
    };
    let passed = match standing {
        Standing::Passed { on, .. } => Some(on.to_string()),
        Standing::Untried | Standing::Answering { .. } | Standing::Accurate { .. } => None,
    };
    json!({
        "step": step.name(),
        "standing": match standing {
            Standing::Untried => "untried",
            Standing::Answering { .. } => "answering",
            Standing::Accurate { .. } => "accurate",
            Standing::Passed { .. } => "passed",
        },
        "passed": passed,
        "right": right,
        "of": of,
        "median": median,
        "mark": { "right": mark.right, "of": mark.of, "within": mark.within_millis },
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

fn months(account: &Account) -> Vec<Value> {
    let months = account.reach_by_month();
    months
        .map(|month| {
            json!({
                "month": format!("{:04}-{:02}", month.month.year(), month.month.month()),
                "answers": month.answers,
                "reach": reach(&month.reach),
            })
        })
        .collect()
}

fn kinds(account: &Account, now: Timestamp) -> Vec<Value> {
    let kinds = account.kinds(now).into_iter();
    kinds
        .map(|(kind, trend)| {
            json!({
                "kind": kind,
                "all": score(&trend.all),
                "lately": score(&trend.lately),
                "before": score(&trend.before),
            })
        })
        .collect()
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

fn squares(account: &Account) -> Value {
    let map = |chart| {
        let map = account.map(chart);
        let asked = Square::ALL
            .into_iter()
            .filter(|square| map.of(*square).answers() > 0);
        asked
            .map(|square| (square.to_string(), score(map.of(square))))
            .collect::<serde_json::Map<_, _>>()
    };
    json!({
        "white": map(Chart::FromWhite),
        "black": map(Chart::FromBlack),
        "color": map(Chart::Color),
    })
}

fn recall(account: &Account) -> Vec<Value> {
    let recall = account.recall().iter();
    recall
        .map(|(plies, recall)| {
            json!({ "plies": plies, "answers": recall.answers, "right": recall.right })
        })
        .collect()
}

fn missed(account: &Account) -> Vec<Value> {
    let missed = account.missed(usize::MAX).into_iter();
    missed
        .map(|missed| {
            json!({ "question": missed.question, "asked": missed.asked, "missed": missed.missed })
        })
        .collect()
}

fn mistaken(account: &Account) -> Vec<Value> {
    let mistaken = account.mistaken(usize::MAX).into_iter();
    mistaken
        .map(|(mistaken, times)| {
            json!({
                "view": match mistaken.view {
                    Color::White => "white",
                    Color::Black => "black",
                },
                "asked": mistaken.asked.to_string(),
                "named": mistaken.named.to_string(),
                "times": times,
            })
        })
        .collect()
}
