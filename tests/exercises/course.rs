//! Simulated learners go through sixty days of lessons: the course leads them on, and what they know
//! worst comes most.
//!
//! The learners are made up: how they learn and forget is stated here and taken from no source.

use std::collections::HashMap;

use crate::replies::right;
use jiff::{Timestamp, ToSpan};
use sansvoir::exercise::bound::Within;
use sansvoir::exercise::{
    Answered, Asked, Awaits, Dice, Drill, DrillSettings, Exercise, Input, Output, Session, Views,
};
use sansvoir::learner::course::{Course, CourseStep, StepStatus};
use sansvoir::learner::lesson::{Aim, LessonRequest, PlannedPart, plan};
use sansvoir::learner::schedule::{Grade, Memory};
use sansvoir::question::{BareQuestion, Question, Verdict};
use shakmaty::{Color, Square};

/// How a learner is: skill per step rises with practice and falls with every day.
struct Nature {
    /// So many answers bring a step two thirds of the way to its best.
    practice: f64,
    /// The best chance to be right at a step; it begins with half.
    best: f64,
    /// The share of practice that a night leaves.
    left_overnight: f64,
    /// The shortest time that an answer takes, as a share of what passes the step.
    pace: f64,
    /// Squares that are hard to keep: of the chance to be right a night takes nearly half at first, and
    /// less the more often they were asked.
    weak: Vec<Square>,
}

const KEEN: Nature = Nature {
    practice: 30.0,
    best: 0.98,
    left_overnight: 0.98,
    pace: 0.5,
    weak: Vec::new(),
};

struct Learner {
    nature: Nature,
    dice: Dice,
    now: Timestamp,
    /// Answers at each step, as far as they have left anything.
    practiced: [f64; CourseStep::ALL.len()],
    /// When each weak square was last answered, and how often.
    last: HashMap<Square, (Timestamp, i32)>,
    course: Course,
    memory: Memory,
    /// How often each square was asked, in questions about one square.
    asked: HashMap<Square, usize>,
    /// The step that the learner stood at after each day.
    reached: Vec<Option<CourseStep>>,
}

impl Learner {
    fn new(nature: Nature, seed: u64) -> Learner {
        Learner {
            nature,
            dice: Dice::new(seed, 7),
            now: "2026-03-02T18:00:00Z".parse().unwrap(),
            practiced: [0.0; CourseStep::ALL.len()],
            last: HashMap::new(),
            course: Course::default(),
            memory: Memory::default(),
            asked: HashMap::new(),
            reached: Vec::new(),
        }
    }

    fn train(&mut self, days: u64) {
        for day in 0..days {
            let request = LessonRequest {
                now: self.now,
                minutes: 10,
                seed: day,
            };
            let parts = plan(&self.course, &self.memory, request);
            assert!(!parts.is_empty());
            for part in &parts {
                self.hold(part, day);
            }
            self.reached.push(self.course.current());
            self.now += 24.hours();
            for practiced in &mut self.practiced {
                *practiced *= self.nature.left_overnight;
            }
        }
    }

    fn hold(&mut self, part: &PlannedPart, seed: u64) {
        if !part.questions.is_empty() {
            return self.drill(part, seed);
        }
        let (step, answers) = match part.aim {
            Aim::Step(CourseStep::Rebuilding) => (CourseStep::Rebuilding, 3),
            Aim::Step(CourseStep::Recital) => (CourseStep::Recital, 40),
            Aim::Step(CourseStep::Games) | Aim::Game => (CourseStep::Games, 5 * part.count),
            Aim::Step(step) => (step, part.count),
            Aim::Ahead | Aim::Due => return,
        };
        for _ in 0..answers {
            let (knows, millis) = self.answers(step, None);
            self.course.take(self.now, step, knows, Some(millis));
        }
    }

    /// Goes through a drill as `lesson` holds it.
    fn drill(&mut self, part: &PlannedPart, seed: u64) {
        let drill = Drill::new(DrillSettings {
            kinds: part.questions.iter().map(BareQuestion::kind).collect(),
            count: Within::nearest(part.count),
            view: Views::Both,
            think_millis: None,
            pieces: Vec::new(),
            blockers: Within::nearest(0),
            seed,
            weak: Vec::new(),
            chosen: part.questions.clone(),
        });
        let mut drill = Session::new(drill.unwrap());
        let mut outputs = drill.begin();
        while drill.awaits() != Awaits::Nothing {
            let asked = outputs.iter().rev().find_map(|output| match output {
                Output::Ask(ask) => Some(ask.asked),
                _ => None,
            });
            let Some(Asked::Bare(question)) = asked else {
                panic!("a drill asks on the empty board: {outputs:?}");
            };
            outputs = drill.hear(self.reply(question));
            for output in &outputs {
                if let Output::Answered(answered) = output {
                    self.note(question, answered);
                }
            }
        }
    }

    fn reply(&mut self, question: BareQuestion) -> Input {
        let step = step_of(question);
        let square = single(question);
        if let Some(square) = square {
            *self.asked.entry(square).or_default() += 1;
        }
        match self.answers(step, square) {
            (true, millis) => Input::Reply {
                text: right(&question),
                millis,
            },
            (false, millis) => Input::Pass { millis },
        }
    }

    /// Whether the learner knows, and how long it takes.
    #[expect(
        clippy::cast_precision_loss,
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss
    )]
    fn answers(&mut self, step: CourseStep, square: Option<Square>) -> (bool, u64) {
        let practiced = self.practiced[step as usize];
        self.practiced[step as usize] += 1.0;
        let progress = 1.0 - (-practiced / self.nature.practice).exp();
        let mut chance = 0.5 + (self.nature.best - 0.5) * progress;
        if let Some(square) = square.filter(|square| self.nature.weak.contains(square)) {
            let (last, times) = self.last.get(&square).copied().unwrap_or((self.now, 0));
            let days = self.now.duration_since(last).as_secs_f64() / 86_400.0;
            chance *= 0.3 + 0.7 * (-days / (1.0 + f64::from(times) / 8.0)).exp();
            self.last.insert(square, (self.now, times + 1));
        }
        let knows = (self.dice.below(10_000) as f64) < chance * 10_000.0;
        let mark = step.mark().within_millis as f64;
        let pace = self.nature.pace + 1.5 * (1.0 - progress);
        (knows, (mark * pace) as u64)
    }

    fn note(&mut self, question: BareQuestion, answered: &Answered) {
        let kind = question.kind();
        let step = step_of(question);
        let (verdict, millis) = (answered.mark.verdict, answered.millis);
        if !answered.repeat {
            let right = verdict == Verdict::Right;
            self.course.take(self.now, step, right, millis);
        }
        let json = serde_json::to_value(Question::Bare(question)).unwrap();
        let subject = json["subject"].to_string();
        let grade = Grade::of(kind, verdict, answered.late, millis);
        self.memory.take(self.now, kind, &subject, grade);
    }

    /// How far up the learner stands, 0 for the first step.
    fn height(&self) -> usize {
        self.course
            .current()
            .map_or(CourseStep::ALL.len(), |step| step as usize)
    }

    fn height_after(&self, days: usize) -> usize {
        self.reached[days - 1].map_or(CourseStep::ALL.len(), |step| step as usize)
    }
}

fn step_of(question: BareQuestion) -> CourseStep {
    let view = match question {
        BareQuestion::Name(name) => Some(name.view),
        BareQuestion::Place(place) => Some(place.view),
        _ => None,
    };
    CourseStep::of("drill", question.kind(), view, None).unwrap()
}

/// The square of a question about one square.
fn single(question: BareQuestion) -> Option<Square> {
    let one = matches!(
        question,
        BareQuestion::Name(_) | BareQuestion::Place(_) | BareQuestion::Color(_)
    );
    let squares: Vec<Square> = question.subject_squares().into_iter().collect();
    (one && squares.len() == 1).then(|| squares[0])
}

#[test]
fn a_learner_who_learns_climbs_the_course_in_sixty_days() {
    for seed in 0..5 {
        let mut learner = Learner::new(KEEN, seed);
        learner.train(60);
        let heights: Vec<usize> = [5, 20, 40, 60]
            .map(|days| learner.height_after(days))
            .into();
        assert!(heights.is_sorted(), "{heights:?}");
        assert!(
            heights[0] < heights[1] && heights[1] < heights[2],
            "{heights:?}"
        );
        assert!(
            learner.height() >= CourseStep::FewPieces as usize,
            "{heights:?}"
        );
    }
}

#[test]
#[expect(clippy::cast_precision_loss)]
fn weak_squares_are_asked_more_than_twice_as_often_as_strong_ones() {
    let (mut of_weak, mut of_strong) = (0.0, 0.0);
    for seed in 0..20 {
        let weak: Vec<Square> = ["b7", "c6", "d3", "e8", "f2", "g5", "h4", "a7"]
            .map(|square| square.parse().unwrap())
            .into();
        let nature = Nature {
            weak: weak.clone(),
            ..KEEN
        };
        let mut learner = Learner::new(nature, seed);
        learner.train(60);
        let asked = |is_weak: bool| {
            let of: Vec<usize> = Square::ALL
                .into_iter()
                .filter(|square| weak.contains(square) == is_weak)
                .map(|square| learner.asked.get(&square).copied().unwrap_or(0))
                .collect();
            of.iter().sum::<usize>() as f64 / of.len() as f64
        };
        let (weak, strong) = (asked(true), asked(false));
        of_weak += weak;
        of_strong += strong;
        assert!(
            learner.height() >= CourseStep::Colors as usize,
            "seed {seed}"
        );
    }
    assert!(of_weak > 2.0 * of_strong, "{of_weak} and {of_strong}");
}

#[test]
fn a_learner_who_guesses_or_is_slow_stays_at_the_first_step() {
    let mut guessing = Learner::new(Nature { best: 0.5, ..KEEN }, 1);
    guessing.train(60);
    assert_eq!(guessing.height(), 0);
    let mut slow = Learner::new(Nature { pace: 1.1, ..KEEN }, 1);
    slow.train(60);
    assert_eq!(slow.height(), 0);
    assert!(
        matches!(
            slow.course.standing(CourseStep::WhiteSquares),
            StepStatus::Accurate { .. } | StepStatus::Answering { .. }
        ),
        "{:?}",
        slow.course.standing(CourseStep::WhiteSquares)
    );
}

#[test]
fn a_learner_who_comes_back_after_a_year_is_asked_what_was_forgotten() {
    let mut learner = Learner::new(KEEN, 2);
    learner.train(30);
    let before = learner.memory.due(learner.now).len();
    learner.now += (24 * 365).hours();
    let after = learner.memory.due(learner.now).len();
    assert!(after > before, "{after} after {before}");
    let request = LessonRequest {
        now: learner.now,
        minutes: 10,
        seed: 1,
    };
    let parts = plan(&learner.course, &learner.memory, request);
    assert_eq!(parts[0].aim, Aim::Due);
}

#[test]
fn the_sides_are_steps_of_their_own() {
    let mut learner = Learner::new(KEEN, 3);
    learner.train(60);
    for step in [CourseStep::WhiteSquares, CourseStep::BlackSquares] {
        assert!(step.view() == Some(Color::White) || learner.height() > 1);
        assert!(learner.course.standing(step).is_passed(), "{step:?}");
    }
}
