//! Made-up pupils go through lessons as the program holds them: with its plan, its placement, its games and its
//! questions, and with a journal in memory.
//!
//! What they come to stands in DEVELOPERS.md: `cargo test --release --lib sixty_lessons -- --ignored --nocapture`
//! prints it.

mod pupil;

use std::collections::HashSet;

use crate::cli::lesson::MINUTES;
use crate::learner::course::{Course, CourseStep, StepStatus};
use crate::learner::lesson::Aim;
use pupil::{Lesson, Nature, Part, Pupil, fails};

const NEW: Nature = Nature {
    name: "knows nothing yet",
    first: |_| 0.05,
    best: 0.98,
    practice: 30.0,
    left_overnight: 0.98,
    pace: 0.7,
};

fn knows(name: &'static str, first: fn(CourseStep) -> f64, best: f64, pace: f64) -> Nature {
    Nature {
        name,
        first,
        best,
        pace,
        ..NEW
    }
}

fn flawless() -> Nature {
    knows("flawless", |_| 1.0, 1.0, 0.5)
}

fn slow() -> Nature {
    knows("slow but right", |_| 0.97, 0.97, 1.3)
}

fn guesser() -> Nature {
    knows("guesser", |_| 0.0, 0.0, 0.3)
}

fn pupils() -> [Nature; 7] {
    let off_diagonals = |step| {
        use CourseStep::{Aligned, Between, Crossing, Span};
        let is_weak = matches!(step, Aligned | Between | Span | Crossing);
        if is_weak { 0.3 } else { 0.97 }
    };
    let forgetful = Nature {
        left_overnight: 0.7,
        practice: 15.0,
        ..NEW
    };
    [
        NEW,
        flawless(),
        knows("85 in 100", |_| 0.85, 0.85, 0.7),
        slow(),
        Nature {
            practice: 120.0,
            ..knows("weak at diagonals", off_diagonals, 0.97, 0.7)
        },
        guesser(),
        Nature {
            name: "forgetful",
            ..forgetful
        },
    ]
}

/// Holds what is to be true of every pupil.
fn check(pupil: &Pupil) {
    let name = pupil.nature.name;
    assert!(pupil.placed_by() <= 20, "{name}");
    for lesson in &pupil.lessons {
        let planned: u64 = reviews(lesson).map(|part| part.planned).sum();
        assert!(planned <= ALL_MILLIS / 3, "{name}: {planned}");
        for step in CourseStep::ALL {
            let is_passed = lesson.course.standing(step).is_passed();
            let failing = needed(step)
                .into_iter()
                .find(|needed| fails(&lesson.course, *needed));
            assert!(
                !is_passed || failing.is_none(),
                "{name}: {step:?}, {failing:?}"
            );
        }
    }
    // Each of the sixteen demo games has its turn, and then the one least lately read.
    for games in pupil.games().windows(16) {
        assert_eq!(
            games.iter().collect::<HashSet<_>>().len(),
            games.len(),
            "{name}"
        );
    }
}

const ALL_MILLIS: u64 = MINUTES as u64 * 60_000;

/// The reviews of a lesson.
fn reviews(lesson: &Lesson) -> impl Iterator<Item = &Part> {
    let is_review = |part: &&Part| matches!(part.aim, Aim::Due | Aim::Review(_));
    lesson.parts.iter().filter(is_review)
}

/// The steps that a step needs, and those that these need.
fn needed(step: CourseStep) -> Vec<CourseStep> {
    let mut needed = step.needs().to_vec();
    for step in step.needs() {
        needed.extend(self::needed(*step));
    }
    needed
}

/// The first lesson that is about whole games.
fn games_begin(pupil: &Pupil) -> Option<usize> {
    let is_game = |part: &Part| matches!(part.aim, Aim::Step(step) if step.is_game());
    let begins = pupil
        .lessons
        .iter()
        .position(|lesson| lesson.parts.iter().any(is_game));
    begins.map(|lesson| lesson + 1)
}

fn passed(course: &Course) -> usize {
    CourseStep::ALL
        .into_iter()
        .filter(|step| course.standing(*step).is_passed())
        .count()
}

/// Where a pupil stands; who has only slow steps left is at the end of the way.
fn stands(course: &Course) -> &'static str {
    match course.current() {
        None => "the end",
        Some(step) if course.standing(step).status == StepStatus::Accurate => "all, slow",
        Some(step) => step.into(),
    }
}

/// A row of the table.
fn row(pupil: &Pupil) -> String {
    let mut cells = vec![pupil.nature.name.to_owned(), pupil.placed_by().to_string()];
    let after = [1, 5, 20, 60].map(|lesson| stands(&pupil.lessons[lesson - 1].course).to_owned());
    cells.extend(after);
    cells.push(games_begin(pupil).map_or("-".to_owned(), |lesson| lesson.to_string()));
    cells.push(passed(&pupil.lessons[59].course).to_string());
    let of_reviews = |value: fn(&Part) -> u64| -> u64 {
        pupil.lessons.iter().flat_map(reviews).map(value).sum()
    };
    let of_all = |value: fn(&Part) -> u64| -> u64 {
        pupil
            .lessons
            .iter()
            .flat_map(|lesson| &lesson.parts)
            .map(value)
            .sum()
    };
    let (answers, millis) = (of_all(|part| part.answers), of_all(|part| part.millis));
    let longest = pupil
        .lessons
        .iter()
        .map(|lesson| reviews(lesson).map(|part| part.planned).sum::<u64>());
    let figures = [
        of_reviews(|part| part.planned) * 100 / (60 * ALL_MILLIS),
        longest.max().unwrap_or(0) * 100 / ALL_MILLIS,
        of_reviews(|part| part.millis) * 100 / millis,
        of_reviews(|part| part.answers) * 100 / answers,
        answers / 60,
        millis / 60 / 60_000,
        pupil.games().into_iter().collect::<HashSet<_>>().len() as u64,
    ];
    cells.extend(figures.map(|figure| figure.to_string()));
    format!("| {} |", cells.join(" | "))
}

#[test]
fn pupils_of_every_sort_are_led_where_they_belong() {
    for (nature, seed) in pupils()
        .into_iter()
        .flat_map(|nature| (0..3).map(move |seed| (nature.clone(), seed)))
    {
        let pupil = Pupil::new(nature, seed).train(16);
        check(&pupil);
        let (first, last) = (&pupil.lessons[0], &pupil.lessons[15].course);
        let is_taught = first.parts[0].aim == Aim::Teach(CourseStep::WhiteSquares);
        match pupil.nature.name {
            // Six lessons of ten minutes are an hour.
            "flawless" | "slow but right" => {
                let begins = games_begin(&pupil);
                assert!(
                    begins.is_some_and(|lesson| lesson <= 6),
                    "{}: {begins:?}",
                    pupil.nature.name
                );
            }
            "guesser" => {
                assert!(is_taught);
                assert!(last.taught(CourseStep::WhiteSquares) >= 16 * 12);
                assert_eq!(
                    (passed(last), last.current()),
                    (0, Some(CourseStep::WhiteSquares))
                );
            }
            "knows nothing yet" | "forgetful" => {
                assert!(is_taught);
                assert!(last.current() > Some(CourseStep::WhiteSquares));
            }
            _ => {}
        }
        assert_eq!(pupil.is_always_right(), pupil.nature.name == "flawless");
    }
}

#[test]
#[ignore = "prints the table of DEVELOPERS.md"]
fn sixty_lessons() {
    for nature in pupils() {
        let pupil = Pupil::new(nature.clone(), 3).train(60);
        check(&pupil);
        let others = (100..160).map(|seed| Pupil::new(nature.clone(), seed).train(6));
        let soon = others
            .inspect(check)
            .filter(|other| games_begin(other).is_some());
        println!("{} {} |", row(&pupil), soon.count());
    }
}
