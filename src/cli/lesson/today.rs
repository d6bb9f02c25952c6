//! A lesson that the program chooses.

use std::path::PathBuf;

use crate::cli::failure::Failure;
use crate::cli::pick::Pick;
use crate::cli::places;
use crate::cli::request::arguments::GameArguments;
use crate::cli::request::{LessonPart, Outline, Request, ahead, drill, recite, replay};
use crate::cli::shared::{Shared, answers};
use crate::cli::values::{AskedKind, DrillKind, Text};
use crate::exercise::bound::{Count, Every, Plies, Questions, Rounds};
use crate::learner::Record;
use crate::learner::course::{Course, CourseStep};
use crate::learner::lesson::{Aim, LessonRequest, PlannedPart, plan};
use crate::learner::schedule::Memory;
use crate::question::Kind;
use crate::terminal::now;
use crate::voice;

/// Chooses today's lesson by all that the journal tells.
pub(super) fn outline(
    minutes: u32,
    records: &[Record],
    shared: &Shared,
) -> Result<Outline, Failure> {
    let mut course = Course::default();
    let mut memory = Memory::default();
    for answer in answers(records) {
        course.take_answer(answer);
        memory.take_answer(answer);
    }
    let wish = LessonRequest {
        now: now(),
        minutes,
        seed: shared.seed()?,
    };
    let planned = plan(&course, &memory, wish);
    let is_novice = course
        .current()
        .is_some_and(|step| step <= CourseStep::FewPieces);
    let files = places::files(&[], &shared.config.games)?;
    let files: Result<Vec<PathBuf>, Failure> =
        files.iter().map(|file| places::lasting(file)).collect();
    let games = Pick {
        files: files?,
        ..Pick::default()
    };
    let part = |part: PlannedPart| LessonPart {
        heading: voice::lesson::aim(part.aim),
        notes: None,
        request: request(&part, &games, is_novice),
        seed: None,
        chosen: part.questions,
        pass: None,
    };
    Ok(Outline {
        title: None,
        notes: None,
        parts: planned.into_iter().map(part).collect(),
    })
}

/// The exercise that counts for what a part is for; a novice has no line of moves in mind yet.
fn request(part: &PlannedPart, games: &Pick, is_novice: bool) -> Request {
    let count = part.count;
    match part.aim {
        Aim::Due => drill(kinds(part), count),
        Aim::Step(step) if !step.kinds().is_empty() => drill(kinds(part), count),
        Aim::Step(CourseStep::TwoPlies) => ahead(games, Some(2), count),
        Aim::Step(CourseStep::FourPlies) => ahead(games, Some(4), count),
        Aim::Step(CourseStep::SixPlies) => ahead(games, Some(6), count),
        Aim::Ahead => ahead(games, None, count),
        Aim::Step(CourseStep::Recital) => {
            Request::Recite(GameArguments::over(games, recite::Options::default()))
        }
        Aim::Step(CourseStep::Rebuilding) => replay(games, 24, 1, &[Kind::Rebuild]),
        Aim::Step(CourseStep::Games) | Aim::Game if is_novice => {
            replay(games, 14, count, &[Kind::Whereabouts, Kind::Occupant])
        }
        Aim::Step(CourseStep::Games) | Aim::Game => {
            let kinds = [Kind::Whereabouts, Kind::Attacks, Kind::Legality];
            replay(games, 14, count, &kinds)
        }
        Aim::Step(_) => drill(vec![DrillKind::more()], count),
    }
}

fn drill(kinds: Vec<Text<DrillKind>>, count: usize) -> Request {
    Request::Drill(Box::new(drill::Arguments {
        resume: false,
        options: drill::Options {
            kinds,
            count: Some(Count::nearest(count)),
            ..drill::Options::default()
        },
    }))
}

/// The kinds of the chosen questions.
fn kinds(part: &PlannedPart) -> Vec<Text<DrillKind>> {
    let asks = |kind: &Kind| {
        part.questions
            .iter()
            .any(|question| question.kind() == *kind)
    };
    DrillKind::of(Kind::BARE.into_iter().filter(asks))
}

fn ahead(games: &Pick, plies: Option<usize>, count: usize) -> Request {
    let options = ahead::Options {
        plies: plies.map(Plies::nearest),
        count: Some(Rounds::nearest(count.div_ceil(2))),
        ..ahead::Options::default()
    };
    Request::Ahead(GameArguments::over(games, options))
}

fn replay(games: &Pick, every: usize, questions: usize, kinds: &[Kind]) -> Request {
    let options = replay::Options {
        every: Some(Every::nearest(every)),
        questions: Some(Questions::nearest(questions)),
        ask: AskedKind::of(kinds.iter().copied()),
        ..replay::Options::default()
    };
    Request::Replay(GameArguments::over(games, options))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::question::BareQuestion;
    use crate::question::bare::Color;

    /// The exercise of a part with this aim, once the journal has kept it.
    fn exercise(aim: Aim, questions: Vec<BareQuestion>) -> &'static str {
        let part = PlannedPart {
            aim,
            count: 3,
            questions,
        };
        let request = request(&part, &Pick::default(), false);
        let kept = serde_json::to_string(&request).unwrap();
        let request: Request = serde_json::from_str(&kept).unwrap();
        assert_eq!(serde_json::to_string(&request).unwrap(), kept);
        request.exercise()
    }

    #[test]
    fn every_aim_is_held_by_the_exercise_that_counts_for_it() {
        let color = BareQuestion::Color(Color {
            square: shakmaty::Square::G6,
        });
        for step in CourseStep::ALL {
            let questions = if step.kinds().is_empty() {
                Vec::new()
            } else {
                vec![color]
            };
            let expected = match step {
                CourseStep::TwoPlies | CourseStep::FourPlies | CourseStep::SixPlies => "ahead",
                CourseStep::Games | CourseStep::Rebuilding => "replay",
                CourseStep::Recital => "recite",
                _ => "drill",
            };
            assert_eq!(exercise(Aim::Step(step), questions), expected, "{step:?}");
        }
        assert_eq!(exercise(Aim::Due, vec![color]), "drill");
        assert_eq!(exercise(Aim::Game, vec![]), "replay");
        assert_eq!(exercise(Aim::Ahead, vec![]), "ahead");
    }
}
