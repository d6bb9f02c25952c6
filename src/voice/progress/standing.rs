//! The course in words.

use crate::learner::course::{Course, PassMark, Standing, Step};

use super::super::duration::duration;
use super::day;

/// Says what a step is about.
#[must_use]
pub const fn step_title(step: Step) -> &'static str {
    match step {
        Step::WhiteSquares => "Squares from White's side",
        Step::BlackSquares => "Squares from Black's side",
        Step::Colors => "Square colors",
        Step::Aligned => "Shared lines",
        Step::Between => "Squares between",
        Step::Span => "A piece's lines",
        Step::Crossing => "Crossing lines",
        Step::Distance => "Distances",
        Step::Route => "Routes",
        Step::FewPieces => "A few pieces",
        Step::TwoPlies => "Two plies ahead",
        Step::FourPlies => "Four plies ahead",
        Step::SixPlies => "Six plies ahead",
        Step::Games => "Whole games with checkpoints",
        Step::Recital => "Games said from memory",
        Step::Rebuilding => "Games rebuilt at the end",
    }
}

/// Says what passes a step.
#[must_use]
pub fn mark(mark: PassMark) -> String {
    format!(
        "{} of {} right, half of those within {}",
        mark.right,
        mark.of,
        duration(mark.within_millis)
    )
}

/// Says how a learner stands at a step.
#[must_use]
pub fn standing(standing: Standing, mark: PassMark) -> String {
    match standing {
        Standing::Untried => "not tried yet".to_owned(),
        Standing::Answering { right, of } if of < mark.of => {
            format!("{right} of the first {of} right; {} count", mark.of)
        }
        Standing::Answering { right, of } => {
            format!("{right} of the last {of} right; {} pass", mark.right)
        }
        Standing::Accurate {
            median_millis: Some(median),
        } => format!(
            "accurate, with a median of {}; {} passes",
            duration(median),
            duration(mark.within_millis)
        ),
        Standing::Accurate {
            median_millis: None,
        } => format!(
            "accurate, but half of the right ones must be known to come within {}, and on paper no \
             time is known",
            duration(mark.within_millis)
        ),
        Standing::Passed {
            on,
            right,
            of,
            median_millis,
        } => {
            let median = median_millis.map(|median| format!(", median {}", duration(median)));
            format!(
                "passed on {}; now {right} of the last {of} right{}",
                day(on),
                median.unwrap_or_default()
            )
        }
    }
}

/// Says which step comes next, and how a learner stands at every step that was tried.
pub(super) fn course(course: &Course) -> Vec<String> {
    let mut said: Vec<String> = Step::ALL
        .into_iter()
        .filter(|step| course.standing(*step) != Standing::Untried)
        .map(|step| {
            format!(
                "{}: {}.",
                step_title(step),
                standing(course.standing(step), step.mark())
            )
        })
        .collect();
    said.insert(0, next_step(course));
    said
}

/// Says how to go on; it stands last, where it is in sight at the end of a long account.
pub(super) fn go_on(course: &Course) -> String {
    match course.current() {
        Some(step) => format!(
            "To go on to the next step, {:?}: sansvoir lesson",
            step_title(step)
        ),
        None => "To go on: sansvoir lesson".to_owned(),
    }
}

/// Says which step comes next.
#[must_use]
pub fn next_step(course: &Course) -> String {
    match course.current() {
        Some(step) => format!(
            "The next step: {}. It is passed with {}.",
            step_title(step),
            mark(step.mark())
        ),
        None => "Every step of the course is passed.".to_owned(),
    }
}
