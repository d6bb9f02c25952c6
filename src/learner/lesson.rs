//! What today's lesson is made of: what is due, the step of the course that comes next, and a game.

use jiff::Timestamp;
use shakmaty::Color;

use super::course::{Course, CourseStep};
use super::schedule::{Memory, Recalled};
use crate::exercise::bound::{Blockers, Count};
use crate::exercise::{Dice, DrillSettings, Views, deal};
use crate::question::{BareQuestion, Kind};

/// What a lesson is planned for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LessonRequest {
    /// The time of the lesson.
    pub now: Timestamp,
    /// About how many minutes it should take.
    pub minutes: u32,
    /// The seed of all choices.
    pub seed: u64,
}

/// One part of a lesson.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedPart {
    /// What it is for.
    pub aim: Aim,
    /// How many questions it has; of a game, how many at each checkpoint.
    pub count: usize,
    /// The questions, where they are over the bare board.
    pub questions: Vec<BareQuestion>,
}

/// What a part of a lesson is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Aim {
    /// What is about to be forgotten.
    Due,
    /// The step of the course that comes next.
    Step(CourseStep),
    /// A game, heard to its end.
    Game,
    /// Calculation as far ahead as the learner sees, where the course is done.
    Ahead,
}

/// What is due takes this share of the time at most, and a game this share, in hundredths; the step has
/// the rest. Our own choice (no source).
const DUE_SHARE: u64 = 30;
const GAME_SHARE: u64 = 40;
/// A lesson of fewer minutes has no room for a game.
const GAME_MINUTES: u32 = 5;
/// What a verdict takes to be read, in milliseconds; our own guess.
const READING: u64 = 4_000;
/// What a question over a line takes with all that is read before it, in milliseconds; our own guess.
const OVER_A_LINE: u64 = 30_000;
/// A game takes so long to be heard, in milliseconds: some 70 plies, two seconds each (our own guess),
/// and has about so many checkpoints.
const HEARING: u64 = 140_000;
const CHECKPOINTS: u64 = 5;

/// Plans a lesson for a learner who stands so in the course and remembers so much.
pub fn plan(course: &Course, memory: &Memory, request: LessonRequest) -> Vec<PlannedPart> {
    let all = u64::from(request.minutes) * 60_000;
    let current = course.current();
    let has_game = request.minutes >= GAME_MINUTES;
    let game = if has_game { all * GAME_SHARE / 100 } else { 0 };
    let due = due(memory, current, request, all * DUE_SHARE / 100);
    let due_time: u64 = due.iter().map(|question| time(question.kind())).sum();
    let left = all.saturating_sub(game + due_time);
    let mut parts = Vec::new();
    if !due.is_empty() {
        parts.push(PlannedPart {
            aim: Aim::Due,
            count: due.len(),
            questions: due,
        });
    }
    match current {
        Some(step) if !step.kinds().is_empty() => {
            parts.push(practice(step, memory, request, left));
        }
        // A game has all the time that is left, and is the last part in any case.
        Some(CourseStep::Games | CourseStep::Rebuilding) if has_game => {}
        Some(step) => parts.push(open(Aim::Step(step), left / OVER_A_LINE, 2, 40)),
        None => parts.push(open(Aim::Ahead, left / OVER_A_LINE, 2, 40)),
    }
    if has_game {
        let (aim, time) = match current {
            Some(step @ (CourseStep::Games | CourseStep::Rebuilding)) => {
                (Aim::Step(step), game + left)
            }
            Some(_) | None => (Aim::Game, game),
        };
        let questions = time.saturating_sub(HEARING) / (CourseStep::Games.mark().within_millis);
        parts.push(open(aim, questions.div_ceil(CHECKPOINTS), 1, 5));
    }
    parts
}

/// What a question over the bare board takes, in milliseconds.
fn time(kind: Kind) -> u64 {
    let step = CourseStep::ALL
        .into_iter()
        .find(|step| step.kinds().contains(&kind));
    step.map_or(OVER_A_LINE, |step| step.mark().within_millis + READING)
}

/// What is due, as much of it as there is time for; what the step asks anyway is left to the step.
fn due(
    memory: &Memory,
    step: Option<CourseStep>,
    request: LessonRequest,
    budget: u64,
) -> Vec<BareQuestion> {
    let mut left = budget;
    let mut questions = Vec::new();
    for Recalled { question, .. } in memory.due(request.now) {
        if step.is_some_and(|step| belongs(step, question)) {
            continue;
        }
        let Some(rest) = left.checked_sub(time(question.kind())) else {
            break;
        };
        left = rest;
        questions.push(question);
    }
    questions
}

fn belongs(step: CourseStep, question: BareQuestion) -> bool {
    let view = question.view();
    CourseStep::of("drill", question.kind(), view, None) == Some(step)
}

/// Chooses questions of a step over the bare board: first those that are due, then those never asked,
/// then those that are most forgotten among the others.
fn practice(step: CourseStep, memory: &Memory, request: LessonRequest, budget: u64) -> PlannedPart {
    let count = within(budget / time(step.kinds()[0]), 5, 40);
    let mut ranked = memory.known(request.now);
    ranked.retain(|known| belongs(step, known.question));
    let enough = ranked.len() + count;
    for question in deal(&drawing(step, request.seed), DRAWS * count) {
        if ranked.len() < enough && ranked.iter().all(|other| other.question != question) {
            let recall = UNSEEN;
            ranked.push(Recalled { question, recall });
        }
    }
    ranked.sort_by(|one, other| one.recall.total_cmp(&other.recall));
    let ranked = ranked.iter().map(|recalled| recalled.question);
    let mut questions: Vec<BareQuestion> = ranked.take(count).collect();
    Dice::new(request.seed, ORDER).shuffle(&mut questions);
    PlannedPart {
        aim: Aim::Step(step),
        count: questions.len(),
        questions,
    }
}

/// A question that was never asked stands among the others as if it were recalled so often: behind
/// those that are due.
const UNSEEN: f64 = super::schedule::RECALLED;
/// So many draws for each question find the last ones that were never asked.
const DRAWS: usize = 10;
/// What the dice are rolled for.
const ORDER: u64 = 1;

fn drawing(step: CourseStep, seed: u64) -> DrillSettings {
    DrillSettings {
        kinds: step.kinds().to_vec(),
        count: Count::nearest(0),
        view: match step.view() {
            Some(Color::White) => Views::White,
            Some(Color::Black) => Views::Black,
            None => Views::Both,
        },
        think_millis: None,
        pieces: Vec::new(),
        blockers: Blockers::nearest(0),
        seed,
        weak: Vec::new(),
        chosen: Vec::new(),
    }
}

/// A part whose questions are drawn when it begins.
fn open(aim: Aim, count: u64, least: usize, most: usize) -> PlannedPart {
    PlannedPart {
        aim,
        count: within(count, least, most),
        questions: Vec::new(),
    }
}

fn within(number: u64, least: usize, most: usize) -> usize {
    usize::try_from(number).map_or(most, |number| number.clamp(least, most))
}

#[cfg(test)]
mod tests {
    use jiff::ToSpan;

    use super::*;
    use crate::learner::schedule::Grade;

    fn request(minutes: u32) -> LessonRequest {
        LessonRequest {
            now: "2026-03-02T18:00:00Z".parse().unwrap(),
            minutes,
            seed: 4,
        }
    }

    fn aims(parts: &[PlannedPart]) -> Vec<Aim> {
        parts.iter().map(|part| part.aim).collect()
    }

    /// A learner who has passed every step before this one.
    fn at(step: CourseStep) -> Course {
        let mut course = Course::default();
        for passed in CourseStep::ALL
            .into_iter()
            .take_while(|before| *before != step)
        {
            for _ in 0..20 {
                course.take(Timestamp::UNIX_EPOCH, passed, true, Some(1_000));
            }
        }
        course
    }

    #[test]
    fn a_learner_who_has_never_answered_begins_with_the_first_step() {
        let parts = plan(&Course::default(), &Memory::default(), request(10));
        assert_eq!(
            aims(&parts),
            [Aim::Step(CourseStep::WhiteSquares), Aim::Game]
        );
        assert!(parts[0].questions.len() >= 20, "{parts:?}");
        assert!(
            parts[0]
                .questions
                .iter()
                .all(|question| belongs(CourseStep::WhiteSquares, *question))
        );
    }

    #[test]
    fn every_step_has_its_part_and_a_game_comes_last() {
        for step in CourseStep::ALL {
            let parts = plan(&at(step), &Memory::default(), request(10));
            assert!(aims(&parts).contains(&Aim::Step(step)), "{step:?}");
            let last = parts.last().unwrap().aim;
            let is_game = matches!(
                last,
                Aim::Game | Aim::Step(CourseStep::Games | CourseStep::Rebuilding)
            );
            assert!(is_game, "{step:?}: {parts:?}");
        }
        let mut done = at(CourseStep::Rebuilding);
        for _ in 0..20 {
            done.take(
                Timestamp::UNIX_EPOCH,
                CourseStep::Rebuilding,
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
    fn a_short_lesson_has_no_game_and_a_long_one_more_questions() {
        let count = |minutes| {
            let parts = plan(
                &at(CourseStep::FewPieces),
                &Memory::default(),
                request(minutes),
            );
            (aims(&parts).contains(&Aim::Game), parts[0].count)
        };
        assert_eq!(count(2), (false, 4));
        assert_eq!(count(10), (true, 12));
        assert_eq!(count(20), (true, 24));
    }

    #[test]
    fn what_is_due_comes_first_and_leaves_time_for_the_rest() {
        let mut memory = Memory::default();
        let request = request(10);
        for square in shakmaty::Square::ALL {
            let subject = format!(r#"{{"square":"{square}"}}"#);
            let long_ago = request.now - 2400.hours();
            memory.take(long_ago, Kind::Color, &subject, Grade::Known);
        }
        let parts = plan(&at(CourseStep::Between), &memory, request);
        assert_eq!(
            aims(&parts),
            [Aim::Due, Aim::Step(CourseStep::Between), Aim::Game]
        );
        // 180 seconds at 6.5 each.
        assert_eq!(parts[0].questions.len(), 27);
        // At the step itself they are its own questions.
        let parts = plan(&at(CourseStep::Colors), &memory, request);
        assert_eq!(aims(&parts), [Aim::Step(CourseStep::Colors), Aim::Game]);
    }

    #[test]
    fn questions_that_are_due_come_before_new_ones_and_new_ones_before_known_ones() {
        let mut memory = Memory::default();
        let request = request(4);
        for square in shakmaty::Square::ALL {
            let subject = format!(r#"{{"square":"{square}"}}"#);
            let (days, grade) = match square {
                shakmaty::Square::A1 | shakmaty::Square::B2 => (30, Grade::Missed),
                shakmaty::Square::C3 => continue,
                _ => (1, Grade::Quick),
            };
            let then = request.now - (24 * days).hours();
            memory.take(then, Kind::Color, &subject, grade);
        }
        let part = practice(CourseStep::Colors, &memory, request, 60_000 * 4);
        let asked: Vec<String> = part
            .questions
            .iter()
            .map(|question| format!("{question:?}"))
            .collect();
        let asks = |square: &str| asked.iter().any(|asked| asked.contains(square));
        assert_eq!(asked.len(), 36);
        assert!(asks("A1") && asks("B2") && asks("C3"), "{asked:?}");
    }
}
