//! The course in words.

use crate::learner::course::{Course, CourseStep, PassMark, StepStatus};

use crate::voice::naming::count;
use crate::voice::time::{day, duration};

/// Says what a step is about.
pub(crate) const fn step_title(step: CourseStep) -> &'static str {
    match step {
        CourseStep::WhiteSquares => "Squares from White's side",
        CourseStep::BlackSquares => "Squares from Black's side",
        CourseStep::Colors => "Square colors",
        CourseStep::Aligned => "Shared lines",
        CourseStep::Between => "Squares between",
        CourseStep::Span => "A piece's lines",
        CourseStep::Crossing => "Crossing lines",
        CourseStep::Distance => "Distances",
        CourseStep::Route => "Routes",
        CourseStep::FewPieces => "A few pieces",
        CourseStep::TwoPlies => "Two plies ahead",
        CourseStep::FourPlies => "Four plies ahead",
        CourseStep::SixPlies => "Six plies ahead",
        CourseStep::Games => "Whole games with checkpoints",
        CourseStep::Recital => "Games said from memory",
        CourseStep::Rebuilding => "Games rebuilt at the end",
    }
}

/// Says what passes a step.
fn mark(mark: PassMark) -> String {
    let PassMark { right, of, .. } = mark;
    let within = duration(mark.within_millis);
    format!("{right} of {of} right, half of those within {within}")
}

/// Says how a learner stands at a step.
pub(crate) fn standing(standing: StepStatus, mark: PassMark) -> String {
    let within = duration(mark.within_millis);
    match standing {
        StepStatus::Untried => "not tried yet".to_owned(),
        StepStatus::Answering { right, of } if of < mark.of => {
            let counted = count(mark.of, "answer", "answers");
            format!("{right} of {of} right so far; the step counts {counted}")
        }
        StepStatus::Answering { right, of } => {
            format!("{right} of the last {of} right; {} pass", mark.right)
        }
        StepStatus::Accurate {
            median_millis: Some(median),
        } => {
            let median = duration(median);
            format!("accurate, with a median of {median}; {within} passes")
        }
        StepStatus::Accurate {
            median_millis: None,
        } => format!(
            "accurate, but half of the right ones must be known to come within {within}, and on paper \
             no time is known"
        ),
        StepStatus::Passed {
            on,
            right,
            of,
            median_millis,
        } => {
            let median = median_millis.map(|median| format!(", median {}", duration(median)));
            let (on, median) = (day(on), median.unwrap_or_default());
            format!("passed on {on}; now {right} of the last {of} right{median}")
        }
    }
}

/// Says how a learner stands at one of the steps, with its name.
pub(crate) fn standing_at(course: &Course, step: CourseStep) -> String {
    let standing = standing(course.standing(step), step.mark());
    format!("{}: {standing}.", step_title(step))
}

/// Says which step comes next, and how a learner stands at every step that was tried.
pub(super) fn course(course: &Course) -> Vec<String> {
    let tried = |step: &CourseStep| course.standing(*step) != StepStatus::Untried;
    let steps = CourseStep::ALL.into_iter().filter(tried);
    let steps = steps.map(|step| standing_at(course, step));
    [next_step(course)].into_iter().chain(steps).collect()
}

/// Says how to go on; it stands last, where it is in sight at the end of a long account.
pub(super) fn go_on(course: &Course) -> String {
    let next = course.current();
    let next = next.map(|step| format!(" to the next step, {:?}", step_title(step)));
    format!("To go on{}: sansvoir lesson", next.unwrap_or_default())
}

/// Says which step comes next.
pub(crate) fn next_step(course: &Course) -> String {
    let Some(step) = course.current() else {
        return "Every step of the course is passed.".to_owned();
    };
    let (title, mark) = (step_title(step), mark(step.mark()));
    format!("The next step: {title}. It is passed with {mark}.")
}

/// Says how many steps of the course are passed.
pub(crate) fn steps_passed(course: &Course) -> String {
    let passed = CourseStep::ALL.map(|step| course.standing(step).is_passed());
    let (passed, all) = (passed.iter().filter(|passed| **passed), passed.len());
    format!("{} of {all}", passed.count())
}
