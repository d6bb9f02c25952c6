//! The pupils of a class in words: a row each for their coach.

use jiff::Timestamp;

use super::{course, measured_briefly};
use crate::learner::account::Account;
use crate::learner::pace::Reach;
use crate::voice::naming::{count, percent};
use crate::voice::time::date_briefly;

/// What the cells of a row are headed with, behind the name.
pub(crate) const ROW_HEADS: [&str; 5] = [
    "Step now",
    "Plies ahead, likely",
    "Last 28 days",
    "Last practiced",
    "Weakest lately",
];

/// Says in little room how a learner stands: the step, how far ahead, the last four weeks, the last day, and the
/// weakest kind.
pub(crate) fn row(account: &Account, now: Timestamp) -> [String; 5] {
    let course = &account.course;
    let step = course.current().map_or_else(
        || "all passed".to_owned(),
        |step| format!("{}. {}", step as usize + 1, course::step_title(step)),
    );
    let ahead = match account.reach() {
        Reach::NotMeasured { .. } => String::new(),
        Reach::Measured { plies, low, high } => {
            let high = high.map_or_else(|| "more".to_owned(), |high| format!("{high:.1}"));
            format!("{plies:.1}, {low:.1} to {high}")
        }
    };
    let (answers, days) = account.lately(now);
    let last = account.from_to.map(|(_, last)| date_briefly(last));
    let weakest = account.weakest(now).map(|(kind, score)| {
        let (right, all) = (score.right, score.answers());
        format!("{kind}: {} % of {all}", percent(right, all))
    });
    [
        step,
        ahead,
        format!(
            "{} on {}",
            count(answers, "answer", "answers"),
            count(days, "day", "days")
        ),
        last.unwrap_or_default(),
        weakest.unwrap_or_default(),
    ]
}

/// Says the same in a line.
pub(crate) fn of_group(name: &str, account: &Account, now: Timestamp) -> String {
    if account.answers == 0 {
        return format!("{name}: no answer yet.");
    }
    let [step, _, lately, last, weakest] = row(account, now);
    let ahead = measured_briefly(&account.reach());
    let weakest = if weakest.is_empty() {
        weakest
    } else {
        format!("; weakest lately: {weakest} right")
    };
    let passed = course::steps_passed(&account.course);
    format!(
        "{name}: {passed} steps passed, now {step}; how far ahead: {ahead}; in the last 28 days {lately}; \
         last practiced on {last}{weakest}."
    )
}
