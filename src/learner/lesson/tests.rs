//! What lessons are made of, held to what they promise.

use jiff::ToSpan;

use super::*;
use crate::learner::course::CourseEvent;
use crate::learner::schedule::Grade;

fn request(minutes: u32) -> LessonRequest {
    LessonRequest {
        now: "2026-03-02T18:00:00Z".parse().unwrap(),
        minutes,
        seed: 4,
        step: None,
    }
}

fn aims(parts: &[PlannedPart]) -> Vec<Aim> {
    parts.iter().map(|part| part.aim).collect()
}

/// A learner who begins with this step, was taught it, and has proven to know those below.
fn at(step: CourseStep) -> Course {
    let mut course = Course::default();
    let below = CourseStep::ALL
        .into_iter()
        .take_while(|below| *below < step);
    for below in below.flat_map(|below| [below; 10]) {
        course.take(Timestamp::UNIX_EPOCH, below, true, Some(1_000));
    }
    course.hear(Timestamp::UNIX_EPOCH, CourseEvent::Started(step));
    for _ in 0..step.lessons() {
        course.hear(Timestamp::UNIX_EPOCH, CourseEvent::Taught(step));
    }
    course
}

/// What such a learner remembers who missed these kinds of question about every square, long ago.
fn forgotten(kinds: &[Kind], request: LessonRequest) -> Memory {
    let mut memory = Memory::default();
    for (kind, square) in kinds
        .iter()
        .flat_map(|kind| Square::ALL.map(|square| (*kind, square)))
    {
        let subject = format!(r#"{{"square":"{square}","view":"white"}}"#);
        memory.take(request.now - 2400.hours(), kind, &subject, Grade::Known);
    }
    memory
}

#[test]
fn who_knows_nothing_is_taught_a_quarter_of_the_board_at_a_time() {
    let parts = plan(&Course::default(), &Memory::default(), request(10));
    assert_eq!(
        aims(&parts),
        [Aim::Teach(CourseStep::WhiteSquares), Aim::Game]
    );
    let files = |questions: &[BareQuestion]| {
        let squares = questions.iter().flat_map(BareQuestion::subject_squares);
        let mut halves: Vec<_> = squares
            .map(|square| (u32::from(square.file()) / 4, u32::from(square.rank()) / 4))
            .collect();
        halves.dedup();
        halves
    };
    let taught = &parts[0].questions;
    assert_eq!(taught.len(), 2 * TAUGHT_AT_ONCE);
    assert_eq!(files(taught), [(0, 0), (1, 0)]);
    // Those quarters are known now, and the others have their turn.
    let mut course = Course::default();
    let mut memory = Memory::default();
    let request = request(10);
    for question in taught {
        course.hear(request.now, CourseEvent::Taught(CourseStep::WhiteSquares));
        let square = question.subject_squares()[0];
        let subject = format!(r#"{{"square":"{square}","view":"white"}}"#);
        memory.take(request.now, Kind::Name, &subject, Grade::Missed);
    }
    let parts = plan(&course, &memory, request);
    assert_eq!(files(&parts[0].questions), [(0, 1), (1, 1)]);
    assert_eq!(aims(&parts)[1], Aim::Step(CourseStep::WhiteSquares));
}

#[test]
fn every_step_has_its_part_and_a_game_comes_last() {
    for step in CourseStep::ALL {
        let parts = plan(&at(step), &Memory::default(), request(10));
        assert!(aims(&parts).contains(&Aim::Step(step)), "{step:?}");
        let is_game = match parts.last().unwrap().aim {
            Aim::Game => true,
            Aim::Step(step) => step.is_game(),
            _ => false,
        };
        assert!(is_game, "{step:?}: {parts:?}");
    }
    let mut done = at(CourseStep::UnseenGames);
    for _ in 0..20 {
        done.take(
            Timestamp::UNIX_EPOCH,
            CourseStep::UnseenGames,
            true,
            Some(1_000),
        );
    }
    assert_eq!(
        aims(&plan(&done, &Memory::default(), request(10))),
        [Aim::Ahead, Aim::Game]
    );
}

#[test]
fn steps_that_are_taken_as_known_are_asked_until_they_are_proven() {
    let mut course = Course::default();
    course.hear(
        Timestamp::UNIX_EPOCH,
        CourseEvent::Started(CourseStep::FourPlies),
    );
    let parts = plan(&course, &Memory::default(), request(10));
    assert_eq!(parts[0].aim, Aim::Due);
    let of = |step| {
        parts[0]
            .questions
            .iter()
            .filter(|question| belongs(step, **question))
            .count()
    };
    assert_eq!(of(CourseStep::WhiteSquares), REVIEWED_AT_ONCE);
    assert_eq!(of(CourseStep::Between), REVIEWED_AT_ONCE);
    let parts = plan(&at(CourseStep::FourPlies), &Memory::default(), request(10));
    assert_eq!(aims(&parts), [Aim::Step(CourseStep::FourPlies), Aim::Game]);
}

#[test]
fn a_step_over_lines_that_is_slow_comes_in_reviews() {
    let mut course = at(CourseStep::FourPlies);
    let slow = CourseStep::ThreePieces;
    for n in 0..40 {
        course.take(Timestamp::UNIX_EPOCH, slow, n >= 20, Some(60_000));
    }
    let parts = plan(&course, &Memory::default(), request(10));
    let review = parts.iter().find(|part| part.aim == Aim::Review(slow));
    // 200 seconds at 30 each.
    assert_eq!(review.map(|part| part.count), Some(6), "{parts:?}");
}

#[test]
fn a_step_that_is_wished_for_comes_whatever_is_passed() {
    let request = LessonRequest {
        step: Some(CourseStep::TwoPlies),
        ..request(10)
    };
    let parts = plan(&at(CourseStep::Recital), &Memory::default(), request);
    assert_eq!(aims(&parts), [Aim::Step(CourseStep::TwoPlies), Aim::Game]);
}

#[test]
fn a_short_lesson_has_no_game_and_a_long_one_more_questions() {
    let count = |minutes| {
        let parts = plan(
            &at(CourseStep::ThreePieces),
            &Memory::default(),
            request(minutes),
        );
        (aims(&parts).contains(&Aim::Game), parts[0].count)
    };
    assert_eq!(count(2), (false, 4));
    assert_eq!(count(10), (true, 10));
    assert_eq!(count(20), (true, 20));
}

#[test]
fn what_is_due_has_a_third_of_the_time_at_most() {
    let request = request(10);
    let memory = forgotten(&[Kind::Color, Kind::Name], request);
    let parts = plan(&at(CourseStep::Between), &memory, request);
    assert_eq!(
        aims(&parts),
        [Aim::Due, Aim::Step(CourseStep::Between), Aim::Game]
    );
    // 200 seconds at 6.5 each.
    assert_eq!(parts[0].questions.len(), 30);
    // At the step itself they are its own questions.
    let memory = forgotten(&[Kind::Color], request);
    let parts = plan(&at(CourseStep::Colors), &memory, request);
    assert_eq!(aims(&parts), [Aim::Step(CourseStep::Colors), Aim::Game]);
}

#[test]
fn kinds_and_squares_alternate_in_what_is_due() {
    let request = request(10);
    let memory = forgotten(&[Kind::Color, Kind::Name, Kind::Place], request);
    let mut questions = plan(&at(CourseStep::Between), &memory, request)
        .remove(0)
        .questions;
    let like = |questions: &[BareQuestion]| {
        let pairs = questions.windows(2);
        let like = pairs.filter(|pair| {
            pair[0].kind() == pair[1].kind()
                || pair[0].subject_squares() == pair[1].subject_squares()
        });
        like.count()
    };
    // All of one kind are forgotten alike, and come by the names of their kinds and squares.
    questions.sort_by_key(BareQuestion::kind);
    assert!(like(&questions) > questions.len() / 2);
    let all: Vec<BareQuestion> = memory
        .known(request.now)
        .iter()
        .map(|known| known.question)
        .collect();
    assert_eq!(like(&mixed(all, &mut Dice::new(1, 1))), 0);
}

#[test]
fn questions_that_are_due_come_before_new_ones_and_new_ones_before_known_ones() {
    let mut memory = Memory::default();
    let request = request(4);
    for square in Square::ALL {
        let subject = format!(r#"{{"square":"{square}"}}"#);
        let (days, grade) = match square {
            Square::A1 | Square::B2 => (30, Grade::Missed),
            Square::C3 => continue,
            _ => (1, Grade::Quick),
        };
        let then = request.now - (24 * days).hours();
        memory.take(then, Kind::Color, &subject, grade);
    }
    let known = memory.known(request.now);
    let asked = practice(CourseStep::Colors, &known, request, 60_000 * 4);
    let asks = |square: Square| {
        asked
            .iter()
            .any(|asked| asked.subject_squares() == [square])
    };
    assert_eq!(asked.len(), 36);
    assert!(
        asks(Square::A1) && asks(Square::B2) && asks(Square::C3),
        "{asked:?}"
    );
}
