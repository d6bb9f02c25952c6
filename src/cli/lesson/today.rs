//! A lesson that the program chooses.

use crate::cli::failure::Failure;
use crate::cli::pick::Pick;
use crate::cli::places;
use crate::cli::request::arguments::GameArguments;
use crate::cli::request::{LessonPart, Outline, Request, ahead, drill, play, recite, replay};
use crate::cli::shared::Shared;
use crate::cli::values::{AskedKind, DrillKind};
use crate::exercise::Views;
use crate::exercise::bound::{Count, Every, FewPieces, FewPlies, Plies, Questions, Rounds};
use crate::learner::LearnerState;
use crate::learner::course::{Chunked, CourseEvent, CourseStep, Practice};
use crate::learner::lesson::{Aim, LessonRequest, PlannedPart, drawing, plan};
use crate::question::Kind;
use crate::terminal::now;
use crate::voice;

/// Chooses today's lesson by all that the journal tells; `step` is the one that the learner wishes for.
pub(super) fn outline(
    minutes: u32,
    step: Option<CourseStep>,
    learner: LearnerState,
    shared: &Shared,
) -> Result<Outline, Failure> {
    let mut course = learner.course;
    if let Some(step) = step {
        course.hear(now(), CourseEvent::Started(step));
    }
    let wish = LessonRequest {
        now: now(),
        minutes,
        seed: shared.seed()?,
        step,
    };
    let planned = plan(&course, &learner.memory, wish);
    let reasons = planned.iter().zip(1..);
    let reasons = reasons.map(|(part, number)| voice::lesson::reason(number, part));
    let notes = reasons.collect::<Vec<_>>().join("\n");
    let current = step.or_else(|| course.current());
    let material = Material {
        games: Pick {
            files: places::own_then_demo(&shared.config.games)?,
            ..Pick::default()
        },
        is_novice: current.is_some_and(|step| step <= CourseStep::FivePieces),
        longest: (!learner.has_read).then(|| Plies::nearest(SHORT)),
    };
    let part = |part: PlannedPart| LessonPart {
        heading: voice::lesson::aim(part.aim),
        notes: None,
        request: material.request(&part),
        seed: None,
        chosen: part.questions,
        pass: None,
        own: Vec::new(),
        until_passed: false,
    };
    Ok(Outline {
        notes: Some(notes),
        parts: planned.into_iter().map(part).collect(),
        start: step.map(|step| <&str>::from(step).to_owned()),
        ..Outline::default()
    })
}

/// A first game is no longer than this, in plies, where there is such a one.
const SHORT: usize = 40;

/// A lesson that only finds where the course begins.
pub(super) fn placement() -> Outline {
    let options = drill::Options {
        place: true,
        kinds: DrillKind::of(Kind::BARE),
        ..drill::Options::default()
    };
    Outline {
        notes: Some(voice::lesson::WHY_PLACEMENT.to_owned()),
        parts: vec![LessonPart {
            heading: voice::lesson::PLACEMENT.to_owned(),
            notes: None,
            request: drill(options),
            seed: None,
            chosen: Vec::new(),
            pass: None,
            own: Vec::new(),
            until_passed: false,
        }],
        ..Outline::default()
    }
}

/// What the parts of a lesson are made from.
struct Material {
    games: Pick,
    /// Whether the learner has no line of moves in mind yet.
    is_novice: bool,
    /// The plies of the longest game that is wished for.
    longest: Option<Plies>,
}

impl Material {
    /// The exercise that counts for what a part is for.
    fn request(&self, part: &PlannedPart) -> Request {
        let count = part.count;
        let (Aim::Step(step) | Aim::Teach(step) | Aim::Review(step)) = part.aim else {
            let usual =
                Practice::Game(Some(8), &[Kind::Whereabouts, Kind::Attacks, Kind::Legality]);
            let easy = Practice::Game(Some(8), &[Kind::Whereabouts, Kind::Occupant]);
            return match part.aim {
                Aim::Due => drill(of_bare(part)),
                Aim::Ahead => self.ahead(None, count, &[]),
                _ if self.is_novice => self.practice(easy, count),
                _ => self.practice(usual, count),
            };
        };
        match step.practice() {
            Practice::Bare(..) => drill(of_bare(part)),
            // A whole board is asked alone.
            practice if step == CourseStep::Rebuilding => self.practice(practice, 1),
            practice => self.practice(practice, count),
        }
    }

    /// What practices a step over lines; `count` is that of the part.
    fn practice(&self, practice: Practice, count: usize) -> Request {
        match practice {
            Practice::Few(pieces, plies, kinds) => drill(drill::Options {
                kinds: vec![DrillKind::more()],
                count: Some(Count::nearest(count)),
                pieces: Some(FewPieces::nearest(pieces)),
                plies: Some(FewPlies::nearest(plies)),
                ask: AskedKind::of(kinds.iter().copied()),
                follow: true,
                ..drill::Options::default()
            }),
            Practice::Ahead(plies, kinds) => self.ahead(Some(plies), count, kinds),
            Practice::Game(every, kinds) => self.replay(every, count, kinds),
            Practice::Recite(beginning) => self.recite(beginning),
            Practice::Play(pieces, board) => play::request(pieces, board),
            Practice::Bare(..) => drill(drill::Options::default()),
        }
    }

    fn ahead(&self, plies: Option<usize>, count: usize, kinds: &[Kind]) -> Request {
        let options = ahead::Options {
            plies: plies.map(Plies::nearest),
            count: Some(Rounds::nearest(count.div_ceil(2))),
            ask: AskedKind::of(kinds.iter().copied()),
            follow: true,
            ..ahead::Options::default()
        };
        Request::Ahead(GameArguments::over(&self.games, options))
    }

    /// At a step, checkpoints come closer where they are missed, and never farther apart than the step says.
    fn replay(&self, every: Option<usize>, questions: usize, kinds: &[Kind]) -> Request {
        let options = replay::Options {
            every: Some(Every::nearest(every.unwrap_or(Every::MOST))),
            follow: every.is_some(),
            questions: Some(Questions::nearest(questions)),
            ask: AskedKind::of(kinds.iter().copied()),
            longest: self.longest,
            ..replay::Options::default()
        };
        Request::Replay(GameArguments::over(&self.games, options))
    }

    fn recite(&self, beginning: Option<Chunked>) -> Request {
        let mut options = recite::Options::default();
        options.to = beginning.and_then(|learned| format!("{}...", learned.plies / 2).parse().ok());
        options.chunk = beginning.map(|learned| Every::nearest(learned.chunk));
        Request::Recite(GameArguments::over(&self.games, options))
    }
}

/// The questions that were chosen, asked or taught.
fn of_bare(part: &PlannedPart) -> drill::Options {
    let asks = |kind: &Kind| {
        part.questions
            .iter()
            .any(|question| question.kind() == *kind)
    };
    let side = match part.aim {
        Aim::Teach(step) => Some(drawing(step, 0).view),
        _ => None,
    };
    drill::Options {
        kinds: DrillKind::of(Kind::BARE.into_iter().filter(asks)),
        side: side.filter(|view| *view != Views::Both),
        count: Some(Count::nearest(part.count)),
        teach: matches!(part.aim, Aim::Teach(_)),
        follow: true,
        ..drill::Options::default()
    }
}

fn drill(options: drill::Options) -> Request {
    Request::Drill(Box::new(drill::Arguments {
        resume: false,
        options,
    }))
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
        let material = Material {
            games: Pick::default(),
            is_novice: false,
            longest: None,
        };
        let kept = serde_json::to_string(&material.request(&part)).unwrap();
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
            let (expected, questions) = match step.practice() {
                Practice::Bare(..) => ("drill", vec![color]),
                Practice::Few(..) => ("drill", vec![]),
                Practice::Ahead(..) => ("ahead", vec![]),
                Practice::Game(..) => ("replay", vec![]),
                Practice::Recite(_) => ("recite", vec![]),
                Practice::Play(..) => ("play", vec![]),
            };
            assert_eq!(exercise(Aim::Step(step), questions), expected, "{step:?}");
        }
        assert_eq!(exercise(Aim::Due, vec![color]), "drill");
        assert_eq!(exercise(Aim::Game, vec![]), "replay");
        assert_eq!(exercise(Aim::Ahead, vec![]), "ahead");
    }
}
