//! The promises of the course.

use super::*;
use crate::exercise::TAUGHT_AT_ONCE;
use crate::question::Kind;

/// A second of its own for every answer.
fn second(n: usize) -> Timestamp {
    Timestamp::from_second(i64::try_from(n).unwrap()).unwrap()
}

fn taken(step: CourseStep, answers: &[(bool, u64)]) -> Course {
    let mut course = Course::default();
    for (n, (right, millis)) in answers.iter().enumerate() {
        course.take(second(n), step, *right, Some(*millis));
    }
    course
}

fn stands(status: StepStatus, right: usize, of: usize, median_millis: Option<u64>) -> Standing {
    Standing {
        status,
        right,
        of,
        median_millis,
    }
}

#[test]
fn the_steps_stand_in_the_order_of_their_numbers_and_have_names_of_their_own() {
    for (n, step) in CourseStep::ALL.into_iter().enumerate() {
        assert_eq!(step as usize, n);
        let same = CourseStep::ALL
            .iter()
            .filter(|other| <&str>::from(*other) == <&str>::from(step));
        assert_eq!(same.count(), 1);
    }
}

/// The step of an answer, by the journal's words.
fn step_of(exercise: &str, kind: Kind, view: &str, hardness: &str) -> Option<CourseStep> {
    let line = format!(
        r#"{{"time":"2026-03-01T18:20:04Z","session":"s","exercise":"{exercise}","kind":"{kind}",
        "subject":{{"square":"c4"{view}}},"expected":{{}},"reply":"","verdict":"right","score":1.0,"millis":1,
        "late":false,"looks":0{hardness}}}"#
    );
    CourseStep::of_answer(&serde_json::from_str(&line).unwrap())
}

fn hard(plies: u32, men: u32, stretch: &str) -> String {
    format!(
        r#","hardness":{{"plies":{plies},"men":{men},"captures":0,"moved":null,"opened":0,"closed":0{stretch}}}"#
    )
}

#[test]
fn every_kind_counts_for_a_step_in_every_exercise_that_asks_it_and_some_step_practices_it() {
    let practiced = |kind: &Kind| {
        CourseStep::ALL
            .into_iter()
            .any(|step| match step.practice() {
                Practice::Bare(kinds, _)
                | Practice::Few(_, _, kinds)
                | Practice::Ahead(_, kinds)
                | Practice::Game(_, kinds) => kinds.contains(kind),
                Practice::Recite(_) => *kind == Kind::Played,
                Practice::Play(..) => *kind == Kind::Turn,
            })
    };
    for kind in Kind::ALL {
        assert!(practiced(&kind), "{kind}");
    }
    let view = r#","view":"white""#;
    for kind in Kind::BARE {
        assert!(step_of("drill", kind, view, "").is_some(), "{kind}");
    }
    for kind in Kind::LINE {
        for exercise in ["drill", "replay", "recite"] {
            let hard = hard(9, 32, "");
            assert!(step_of(exercise, kind, "", &hard).is_some(), "{kind}");
        }
    }
}

#[test]
fn squares_count_for_the_side_they_are_seen_from_and_lines_for_their_length() {
    let of = |view: &str| step_of("drill", Kind::Place, view, "");
    assert_eq!(of(r#","view":"white""#), Some(CourseStep::WhiteSquares));
    assert_eq!(of(r#","view":"black""#), Some(CourseStep::BlackSquares));
    assert_eq!(of(""), None);
    let over = |exercise, kind, plies, men, stretch: &str| {
        step_of(exercise, kind, "", &hard(plies, men, stretch))
    };
    let ahead = |plies| over("ahead", Kind::Attacks, plies, 32, "");
    assert_eq!(ahead(4), Some(CourseStep::FourPlies));
    assert_eq!(ahead(5), None);
    let few = |men| over("drill", Kind::Attacks, 2, men, "");
    let steps = [3, 5, 8, 16, 17].map(few);
    let pieces = CourseStep::ThreePieces as usize..=CourseStep::AllPieces as usize;
    assert_eq!(
        steps[..],
        CourseStep::ALL[pieces]
            .iter()
            .copied()
            .map(Some)
            .collect::<Vec<_>>()
    );
    let replay = |stretch: &str| over("replay", Kind::Attacks, 40, 32, stretch);
    assert_eq!(replay(r#","stretch":4"#), Some(CourseStep::GamesByFour));
    assert_eq!(replay(""), Some(CourseStep::GamesByEight));
    assert_eq!(replay(r#","stretch":24"#), Some(CourseStep::GamesBySixteen));
    assert_eq!(replay(r#","stretch":40"#), Some(CourseStep::GamesToTheEnd));
    let rebuilt = over("replay", Kind::Rebuild, 40, 32, "");
    assert_eq!(rebuilt, Some(CourseStep::Rebuilding));
    let played = |plies, men| over("play", Kind::Turn, plies, men, "");
    assert_eq!(
        [
            played(0, 8),
            played(3, 8),
            played(0, 32),
            played(10, 32),
            played(11, 32)
        ],
        [
            Some(CourseStep::FewInSight),
            Some(CourseStep::FewUnseen),
            None,
            Some(CourseStep::GamesAtAGlance),
            Some(CourseStep::UnseenGames)
        ]
    );
    let said = |plies| over("recite", Kind::Played, plies, 32, "");
    assert_eq!(
        [said(16), said(17)],
        [Some(CourseStep::Chunks), Some(CourseStep::Recital)]
    );
}

#[test]
fn a_step_is_not_shown_as_passed_while_an_easier_one_that_it_needs_fails() {
    let mut course = taken(CourseStep::Span, &[(true, 1); 20]);
    assert!(course.standing(CourseStep::Span).is_passed());
    for n in 20..30 {
        course.take(second(n), CourseStep::Aligned, n % 2 == 0, Some(1));
    }
    let fails = CourseStep::Aligned;
    let span = course.standing(CourseStep::Span).status;
    assert_eq!(span, StepStatus::Waiting(fails));
    for n in 30..50 {
        course.take(second(n), CourseStep::Aligned, true, Some(1));
    }
    assert!(course.standing(CourseStep::Span).is_passed());
}

#[test]
fn steps_below_the_start_are_known_until_they_fail() {
    let mut course = Course::default();
    course.hear(second(0), CourseEvent::Started(CourseStep::FourPlies));
    assert_eq!(course.current(), Some(CourseStep::FourPlies));
    let colors = |course: &Course| course.standing(CourseStep::Colors);
    assert_eq!(colors(&course), stands(StepStatus::Known, 0, 0, None));
    course.take(second(1), CourseStep::Colors, false, Some(1));
    assert_eq!(colors(&course), stands(StepStatus::Known, 0, 1, None));
    for n in 2..11 {
        course.take(second(n), CourseStep::Colors, false, Some(1));
    }
    assert_eq!(colors(&course), stands(StepStatus::Answering, 0, 10, None));
    assert_eq!(course.current(), Some(CourseStep::Colors));
}

#[test]
fn the_course_begins_behind_the_highest_step_that_the_latest_placement_found() {
    let mut course = Course::default();
    let mut place = |session: &str, step, right| {
        let event = CourseEvent::Placed(session.to_owned(), step, right, Some(1));
        course.hear(second(0), event);
        course.current()
    };
    place("a", CourseStep::BlackSquares, true);
    let found = place("a", CourseStep::BlackSquares, true);
    assert_eq!(found, Some(CourseStep::Colors));
    place("a", CourseStep::Route, true);
    let found = place("a", CourseStep::Route, true);
    assert_eq!(found, Some(CourseStep::ThreePieces));
    let found = place("b", CourseStep::BlackSquares, false);
    assert_eq!(found, Some(CourseStep::WhiteSquares));
    assert_eq!(course.placed(), [(CourseStep::BlackSquares, 0, 1)]);
}

#[test]
fn what_is_found_with_help_is_taught_and_passes_nothing() {
    let mut course = Course::default();
    let step = CourseStep::Colors;
    assert!(course.is_to_be_taught(step));
    for n in 0..TAUGHT_AT_ONCE {
        course.hear(second(n), CourseEvent::Taught(step));
    }
    assert_eq!(
        course.standing(step),
        stands(StepStatus::Untried, 0, 0, None)
    );
    assert!(!course.is_to_be_taught(step));
    for n in 0..10 {
        course.take(second(n), step, false, Some(1));
    }
    assert!(course.is_to_be_taught(step), "all was missed");
}

#[test]
fn accuracy_comes_first_then_pace() {
    let step = CourseStep::Aligned;
    let standing = |answers: &[(bool, u64)]| taken(step, answers).standing(step);
    assert_eq!(standing(&[]).status, StepStatus::Untried);
    assert_eq!(
        standing(&[(true, 1), (false, 1)]),
        stands(StepStatus::Answering, 1, 2, None)
    );
    let nineteen = [(true, 100); 19];
    assert_eq!(standing(&nineteen).status, StepStatus::Answering);
    let mut answers = vec![(true, 4_000); 18];
    answers.extend([(false, 1); 2]);
    assert_eq!(
        standing(&answers),
        stands(StepStatus::Passed(second(19)), 18, 20, Some(4_000))
    );
    answers[..10].fill((true, 4_001));
    answers[10..18].fill((true, 100));
    assert_eq!(
        standing(&answers),
        stands(StepStatus::Accurate, 18, 20, Some(4_001))
    );
    answers[9] = (true, 100);
    assert!(standing(&answers).is_passed());
    answers[0] = (false, 1);
    assert_eq!(
        standing(&answers),
        stands(StepStatus::Answering, 17, 20, None)
    );
}

#[test]
fn who_is_right_and_slow_goes_on_and_comes_back_at_last() {
    let (slow, next) = (CourseStep::WhiteSquares, CourseStep::BlackSquares);
    let mut course = taken(slow, &[(true, 60_000); 20]);
    assert_eq!(course.standing(slow).status, StepStatus::Accurate);
    assert_eq!(course.current(), Some(next));
    assert!(course.is_reviewed(slow));
    // A few misses do not send anybody back; as many as lose a step do.
    let miss = |course: &mut Course, n| course.take(second(n), slow, false, Some(1));
    (20..28).for_each(|n| miss(&mut course, n));
    assert_eq!(course.current(), Some(next));
    miss(&mut course, 28);
    assert_eq!(course.current(), Some(slow));
    for (n, step) in CourseStep::ALL.into_iter().enumerate() {
        let millis = if step == slow { 60_000 } else { 1 };
        (0..30).for_each(|of| course.take(second(30 * n + of), step, true, Some(millis)));
    }
    assert_eq!(course.current(), Some(slow), "nothing else is left");
    (0..20).for_each(|n| course.take(second(n), slow, true, Some(1)));
    assert!(course.standing(slow).is_passed() && !course.is_reviewed(slow));
    assert_eq!(course.current(), None);
}

#[test]
fn a_passed_step_is_lost_only_when_it_is_forgotten() {
    let step = CourseStep::Aligned;
    let mut course = taken(step, &[(true, 1); 22]);
    for n in 22..30 {
        course.take(second(n), step, false, Some(1));
    }
    let still = stands(StepStatus::Passed(second(19)), 12, 20, Some(1));
    assert_eq!(course.standing(step), still);
    course.take(second(30), step, false, Some(1));
    assert_eq!(
        course.standing(step),
        stands(StepStatus::Answering, 11, 20, None)
    );
    for n in 31..34 {
        course.take(second(n), step, true, Some(1));
    }
    assert!(!course.standing(step).is_passed());
    for n in 34..54 {
        course.take(second(n), step, true, Some(1));
    }
    let StepStatus::Passed(on) = course.standing(step).status else {
        panic!("{:?}", course.standing(step));
    };
    assert!(on > second(34), "passed anew");
}

#[test]
fn an_answer_of_unknown_time_is_accurate_and_meets_no_time_mark() {
    let step = CourseStep::Aligned;
    let standing = |untimed: usize, quick: usize| {
        let mut course = Course::default();
        for n in 0..20 {
            let millis = (n >= untimed).then_some(if n < untimed + quick { 100 } else { 9_000 });
            course.take(second(n), step, true, millis);
        }
        course.standing(step)
    };
    let untold = stands(StepStatus::Accurate, 20, 20, None);
    assert_eq!(standing(20, 0), untold);
    assert_eq!(standing(11, 9), untold);
    assert!(standing(10, 10).is_passed());
    assert_eq!(
        standing(10, 4),
        stands(StepStatus::Accurate, 20, 20, Some(9_000))
    );
}
