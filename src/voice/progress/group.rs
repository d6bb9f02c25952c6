//! Several learners, for their coach.

use crate::learner::account::Account;
use crate::learner::course::Step;

use super::super::naming::count;
use super::{measured, step_title};

/// Says what is said where no learner has a journal.
#[must_use]
pub fn nobody_yet() -> Vec<String> {
    vec![
        "No learner has answered a question yet.".to_owned(),
        "Begin with the names of the squares: sansvoir drill name --view white".to_owned(),
    ]
}

/// Says in a line what one learner of a group can do.
#[must_use]
pub fn of_group(name: &str, account: &Account) -> String {
    if account.answers() == 0 {
        return format!("{name}: no answer yet.");
    }
    let course = account.course();
    let passed = Step::ALL
        .into_iter()
        .filter(|step| course.standing(*step).is_passed())
        .count();
    let answers = usize::try_from(account.answers()).unwrap_or(usize::MAX);
    let next = course.current().map_or_else(
        || "the course is done".to_owned(),
        |step| format!("next: {}", step_title(step)),
    );
    format!(
        "{name}: {} of {} passed, {next}; {}; how far ahead: {}.",
        passed,
        count(Step::ALL.len(), "step", "steps"),
        count(answers, "answer", "answers"),
        measured(&account.reach())
    )
}
