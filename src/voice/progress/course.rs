//! The course in words.

use crate::learner::course::{Course, CourseStep, PassMark, Standing, StepStatus};

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
        CourseStep::ThreePieces => "Three pieces",
        CourseStep::FivePieces => "Five pieces",
        CourseStep::EightPieces => "Eight pieces",
        CourseStep::SixteenPieces => "Sixteen pieces",
        CourseStep::AllPieces => "All pieces",
        CourseStep::TwoPlies => "Two plies ahead",
        CourseStep::FourPlies => "Four plies ahead",
        CourseStep::SixPlies => "Six plies ahead",
        CourseStep::EightPlies => "Eight plies ahead",
        CourseStep::GamesByFour => "Games, asked every 4 plies",
        CourseStep::GamesByEight => "Games, asked every 8 plies",
        CourseStep::GamesBySixteen => "Games, every 16 plies",
        CourseStep::GamesToTheEnd => "Games, asked at the end",
        CourseStep::Chunks => "Beginnings from memory",
        CourseStep::Recital => "Games said from memory",
        CourseStep::Rebuilding => "Positions rebuilt",
        CourseStep::FewInSight => "Few pieces, played in sight",
        CourseStep::FewUnseen => "Few pieces, played unseen",
        CourseStep::GamesAtAGlance => "Games played with glances",
        CourseStep::UnseenGames => "Games played unseen",
    }
}

/// Says what passes a step.
pub(crate) fn mark(mark: PassMark) -> String {
    let PassMark { right, of, .. } = mark;
    let within = duration(mark.within_millis);
    format!("{right} of {of} right, half of those within {within}")
}

/// Says how a learner stands at a step.
pub(crate) fn standing(standing: Standing, mark: PassMark) -> String {
    let Standing { right, of, .. } = standing;
    let within = duration(mark.within_millis);
    let median = standing.median_millis.map(duration);
    match standing.status {
        StepStatus::Untried => "not tried yet".to_owned(),
        StepStatus::Known if of == 0 => "taken as known, not tried yet".to_owned(),
        StepStatus::Known => format!("taken as known; {right} of {of} right so far"),
        StepStatus::Waiting(fails) => {
            let fails = step_title(fails);
            format!("its mark is met, but {fails:?}, which it needs, fails now")
        }
        StepStatus::Answering if of < mark.of => {
            let counted = count(mark.of, "answer", "answers");
            format!("{right} of {of} right so far; the step counts {counted}")
        }
        StepStatus::Answering => {
            format!("{right} of the last {of} right; {} pass", mark.right)
        }
        StepStatus::Accurate => match median {
            Some(median) => format!(
                "accurate, {right} of {of} right with a median of {median}; {within} passes"
            ),
            None => format!(
                "accurate, {right} of {of} right, but half of the right ones must be known to come within {within}, and \
                 on paper no time is known"
            ),
        },
        StepStatus::Passed(on) => {
            let median = median.map(|median| format!(", median {median}"));
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

/// Says where a learner stands and what comes next.
pub(crate) fn stand(course: &Course) -> Vec<String> {
    let mut said = Vec::new();
    if let Some(step) = course.current() {
        let (number, of) = (step as usize + 1, CourseStep::ALL.len());
        let (title, mark) = (step_title(step), mark(step.mark()));
        let standing = standing(course.standing(step), step.mark());
        said.push(format!(
            "You stand at step {number} of {of}, {title}: {standing}."
        ));
        let after = CourseStep::ALL.get(number).map(|after| step_title(*after));
        let after = after.map(|after| format!(" After it comes {after}."));
        said.push(format!(
            "It is passed with {mark}.{}",
            after.unwrap_or_default()
        ));
    }
    said
}

/// Draws the steps, or lists those that were not tried; and says how a learner stands at every other one but the
/// present one.
pub(crate) fn steps(course: &Course, plain: bool) -> Vec<String> {
    let mut said = if plain { Vec::new() } else { drawn(course) };
    let mut untried = [
        ("Taken as known", Vec::new()),
        ("Not tried yet", Vec::new()),
    ];
    for step in CourseStep::ALL {
        let Standing { status, of, .. } = course.standing(step);
        match status {
            _ if course.current() == Some(step) => {}
            StepStatus::Known if of == 0 => untried[0].1.push(step_title(step)),
            StepStatus::Untried => untried[1].1.push(step_title(step)),
            _ => said.push(standing_at(course, step)),
        }
    }
    let untried = untried
        .iter()
        .filter(|(_, steps)| plain && !steps.is_empty());
    said.extend(untried.map(|(what, steps)| format!("{what}: {}.", steps.join("; "))));
    said
}

/// What a step comes to, as a sign.
const fn sign(status: StepStatus, is_next: bool) -> char {
    match status {
        StepStatus::Passed(_) => '+',
        StepStatus::Waiting(_) => '!',
        StepStatus::Known => '=',
        _ if is_next => '>',
        StepStatus::Untried => ' ',
        StepStatus::Accurate => '~',
        StepStatus::Answering => '-',
    }
}

/// Draws the steps in two columns, with a last line that explains the signs.
fn drawn(course: &Course) -> Vec<String> {
    let rows = CourseStep::ALL.len().div_ceil(2);
    let cell = |step: &CourseStep| {
        let standing = course.standing(*step);
        let sign = sign(standing.status, course.current() == Some(*step));
        let counts = standing.counts().filter(|(_, of)| *of > 0);
        let counts = counts.map(|(right, of)| format!("{right}/{of}"));
        let (title, counts) = (step_title(*step), counts.unwrap_or_default());
        format!("{sign} {title:<27}{counts:>5}")
    };
    let row = |row: usize| {
        let second = CourseStep::ALL
            .get(row + rows)
            .map(cell)
            .unwrap_or_default();
        format!("{}   {second}", cell(&CourseStep::ALL[row]))
            .trim_end()
            .to_owned()
    };
    let signs = "+ passed, > now, = taken as known, ~ accurate, not fast yet, - not passed yet, ! an easier step fails; figures are right \
                 ones of the latest answers.";
    (0..rows).map(row).chain([signs.to_owned()]).collect()
}

/// Says what to do after a lesson, with the command of the next one.
pub(crate) fn next_lesson(course: &Course, command: &str) -> String {
    match course.current() {
        Some(step) => format!(
            "Next: {command} goes on with {:?}, which is passed with {}.",
            step_title(step),
            mark(step.mark())
        ),
        None => {
            format!("Next: {command} keeps what you know, now that every step is passed.")
        }
    }
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
