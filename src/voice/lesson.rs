//! What is said about a lesson: its parts, its pass marks, and the steps of the course.

use shakmaty::Color;

use super::clean::clean_name;
use super::duration::duration;
use super::naming::{count, side};
use crate::learner::course::{Standing, Step};
use crate::learner::lesson::Aim;

/// Names a step of the course, without an end mark.
#[must_use]
pub fn step(step: Step) -> String {
    match step {
        Step::WhiteSquares => squares(Color::White),
        Step::BlackSquares => squares(Color::Black),
        Step::Colors => "The colors of squares".to_owned(),
        Step::Aligned => "The line that two squares share".to_owned(),
        Step::Between => "The squares between two squares".to_owned(),
        Step::Span => "What a man attacks on the empty board".to_owned(),
        Step::Crossing => "Where two men's lines cross".to_owned(),
        Step::Distance => "How many moves a man needs".to_owned(),
        Step::Route => "A man's shortest way".to_owned(),
        Step::FewMen => "A few men, and some plies played on".to_owned(),
        Step::TwoPlies => "Two plies ahead".to_owned(),
        Step::FourPlies => "Four plies ahead".to_owned(),
        Step::SixPlies => "Six plies ahead".to_owned(),
        Step::Games => "Whole games with checkpoints".to_owned(),
        Step::Recital => "A game said from memory".to_owned(),
        Step::Rebuilding => "A game's position rebuilt, man for man".to_owned(),
    }
}

fn squares(view: Color) -> String {
    format!("Squares, seen from {}'s side", side(view))
}

/// Heads a part that the tool has planned, without an end mark.
#[must_use]
pub fn aim(aim: Aim) -> String {
    match aim {
        Aim::Due => "What you are about to forget".to_owned(),
        Aim::Step(of) => step(of),
        Aim::Game => "A game, with the board hidden".to_owned(),
        Aim::Ahead => "As far ahead as you see".to_owned(),
    }
}

/// Says what a lesson is about to bring.
#[must_use]
pub fn opening(title: Option<&str>, headings: &[&str], resumed: bool) -> Vec<String> {
    let title = title.map(|title| format!("Lesson: {}", ended(title)));
    let parts = count(headings.len(), "part", "parts");
    let sentence = if resumed {
        format!("The lesson of {parts} goes on.")
    } else {
        format!("A lesson of {parts}.")
    };
    title.into_iter().chain([sentence]).collect()
}

/// Heads a part.
#[must_use]
pub fn part(number: usize, of: usize, heading: &str) -> String {
    format!("Part {number} of {of}. {}", ended(heading))
}

/// Says a coach's note: without anything that could steer a terminal, each of its lines alone.
#[must_use]
pub fn notes(notes: &str) -> Vec<String> {
    let lines = notes.lines().map(clean_name);
    lines.filter(|line| !line.is_empty()).collect()
}

/// Says whether a part reached its pass mark.
#[must_use]
pub fn pass_mark(right: usize, of: usize, mark: usize) -> String {
    let replies = count(of, "reply", "replies");
    if right >= mark {
        format!("Pass mark reached: {right} of {replies} right, {mark} were asked for.")
    } else {
        format!("Pass mark not reached: {right} of {replies} right, {mark} were asked for.")
    }
}

/// Says that a lesson is over, and what it brought.
#[must_use]
pub fn closing(
    right: usize,
    of: usize,
    passed: &[Step],
    next: Option<(Step, Standing)>,
) -> Vec<String> {
    let mut said = vec![format!(
        "The lesson is over: {right} of {} right.",
        count(of, "reply", "replies")
    )];
    said.extend(
        passed
            .iter()
            .map(|passed| format!("A step of the course is passed: {}.", in_sentence(*passed))),
    );
    said.push(match next {
        Some((next, standing)) => format!(
            "{}: {}. {}",
            if passed.is_empty() {
                "Your step"
            } else {
                "The next step"
            },
            in_sentence(next),
            self::standing(next, standing)
        ),
        None => "You have passed every step of the course.".to_owned(),
    });
    said
}

/// Says how a learner stands at a step.
#[must_use]
pub fn standing(step: Step, standing: Standing) -> String {
    let mark = step.mark();
    match standing {
        Standing::Untried => "It has not been tried yet.".to_owned(),
        Standing::Answering { right, of } => format!(
            "{right} of the last {} right; {} of {} pass it.",
            count(of, "reply", "replies"),
            mark.right,
            mark.of
        ),
        Standing::Accurate { median_millis } => format!(
            "Accurate enough; now faster: half of the right replies came within {}, {} pass it.",
            duration(median_millis),
            duration(mark.within_millis)
        ),
        Standing::Passed {
            right,
            of,
            median_millis,
        } => format!(
            "Passed: {right} of the last {} right, half of them within {}.",
            count(of, "reply", "replies"),
            duration(median_millis)
        ),
    }
}

/// Said when a lesson is stopped before its end.
pub const STOPPED: &str = "The lesson stops here; sansvoir lesson --resume goes on with it.";

/// Says that a lesson file holds what it should.
#[must_use]
pub fn checked(file: &str, parts: usize) -> String {
    format!(
        "{file}: {}, and all of it can be held.",
        count(parts, "part", "parts")
    )
}

fn in_sentence(of: Step) -> String {
    let name = step(of);
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_lowercase().chain(letters).collect()
    })
}

/// A heading as a sentence: with an end mark, where it has none.
fn ended(heading: &str) -> String {
    let heading = clean_name(heading);
    if heading.ends_with(['.', '!', '?']) {
        heading
    } else {
        format!("{heading}.")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headings_are_sentences() {
        assert_eq!(part(2, 3, "Colors"), "Part 2 of 3. Colors.");
        assert_eq!(part(1, 1, "Ready?"), "Part 1 of 1. Ready?");
        assert_eq!(notes("One.\n\n \u{1b}[2JTwo."), ["One.", "[2JTwo."]);
        assert_eq!(
            opening(Some("Week 3"), &["a", "b"], false),
            ["Lesson: Week 3.", "A lesson of 2 parts."]
        );
    }

    #[test]
    fn a_lesson_closes_with_what_was_passed_and_what_comes_next() {
        let next = Some((Step::Colors, Standing::Untried));
        assert_eq!(
            closing(19, 20, &[Step::BlackSquares], next),
            [
                "The lesson is over: 19 of 20 replies right.",
                "A step of the course is passed: squares, seen from Black's side.",
                "The next step: the colors of squares. It has not been tried yet.",
            ]
        );
        assert_eq!(
            closing(1, 1, &[], None)[1],
            "You have passed every step of the course."
        );
    }

    #[test]
    fn a_standing_tells_what_is_missing() {
        let said = |of| standing(Step::Colors, of);
        assert_eq!(
            said(Standing::Answering { right: 9, of: 12 }),
            "9 of the last 12 replies right; 18 of 20 pass it."
        );
        assert_eq!(
            said(Standing::Accurate {
                median_millis: 4_100
            }),
            "Accurate enough; now faster: half of the right replies came within 4.1 seconds, 2.5 \
             seconds pass it."
        );
        assert_eq!(
            said(Standing::Passed {
                right: 18,
                of: 20,
                median_millis: 2_000
            }),
            "Passed: 18 of the last 20 replies right, half of them within 2 seconds."
        );
    }
}
