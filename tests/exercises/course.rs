//! A simulated learner drills the bare steps for weeks: what is known worst comes most, and what was forgotten
//! comes back.
//!
//! The learner is made up: how it learns and forgets is stated here and taken from no source. Pupils who go
//! through whole lessons are simulated beside the command (`src/cli/lesson/tests/`).

use std::collections::HashMap;

use crate::replies::right;
use jiff::{Timestamp, ToSpan};
use sansvoir::exercise::bound::Within;
use sansvoir::exercise::{
    Answered, Asked, Awaits, Dice, Drill, DrillSettings, Exercise, Input, Output, Session, Views,
};
use sansvoir::learner::course::{Course, CourseEvent, CourseStep};
use sansvoir::learner::lesson::{Aim, LessonRequest, PlannedPart, plan};
use sansvoir::learner::schedule::{Grade, Memory, Recalled};
use sansvoir::question::{BareQuestion, Question, Verdict};
use shakmaty::Square;

/// The chance to be right that practice leads to.
const BEST: f64 = 0.98;
/// So many answers bring a step two thirds of the way there.
const PRACTICE: f64 = 30.0;
/// The share of practice that a night leaves.
const LEFT_OVERNIGHT: f64 = 0.98;

struct Learner {
    /// The chance to be right at first.
    first: f64,
    /// Squares that are hard to keep: of the chance to be right a night takes nearly half at first, and
    /// less the more often they were asked.
    weak: Vec<Square>,
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
}

impl Learner {
    fn new(first: f64, weak: &[Square], seed: u64) -> Learner {
        Learner {
            first,
            weak: weak.into(),
            dice: Dice::new(seed, 7),
            now: "2026-03-02T18:00:00Z".parse().unwrap(),
            practiced: [0.0; CourseStep::ALL.len()],
            last: HashMap::new(),
            course: Course::default(),
            memory: Memory::default(),
            asked: HashMap::new(),
        }
    }

    /// Goes through the drills of a lesson a day.
    fn train(&mut self, days: u64) {
        for day in 0..days {
            let request = LessonRequest {
                now: self.now,
                minutes: 10,
                seed: day,
                step: None,
            };
            for part in plan(&self.course, &self.memory, request) {
                if !part.questions.is_empty() {
                    self.drill(&part, day);
                }
            }
            self.now += 24.hours();
            for practiced in &mut self.practiced {
                *practiced *= LEFT_OVERNIGHT;
            }
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
            teach: matches!(part.aim, Aim::Teach(_)),
            follow: true,
        });
        let mut drill = Session::new(drill.unwrap());
        let mut outputs = drill.begin();
        let mut standing = None;
        while drill.awaits() != Awaits::Nothing {
            let asked = outputs.iter().rev().find_map(|output| match output {
                Output::Ask(ask) => Some(ask.asked),
                _ => None,
            });
            if let Some(Asked::Bare(question)) = asked {
                standing = Some(question);
            }
            let question = standing.expect("a drill asks on the empty board");
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
    #[expect(clippy::cast_precision_loss)]
    fn answers(&mut self, step: CourseStep, square: Option<Square>) -> (bool, u64) {
        let practiced = self.practiced[step as usize];
        self.practiced[step as usize] += 1.0;
        let progress = 1.0 - (-practiced / PRACTICE).exp();
        let mut chance = self.first + (BEST - self.first) * progress;
        if let Some(square) = square.filter(|square| self.weak.contains(square)) {
            let (last, times) = self.last.get(&square).copied().unwrap_or((self.now, 0));
            let days = self.now.duration_since(last).as_secs_f64() / 86_400.0;
            chance *= 0.3 + 0.7 * (-days / (1.0 + f64::from(times) / 8.0)).exp();
            self.last.insert(square, (self.now, times + 1));
        }
        let knows = (self.dice.below(10_000) as f64) < chance * 10_000.0;
        (knows, step.mark().within_millis * 7 / 10)
    }

    fn note(&mut self, question: BareQuestion, answered: &Answered) {
        let kind = question.kind();
        let step = step_of(question);
        let (verdict, millis) = (answered.mark.verdict, answered.millis);
        if answered.helped {
            self.course.hear(self.now, CourseEvent::Taught(step));
        } else if !answered.repeat {
            let right = verdict == Verdict::Right;
            self.course.take(self.now, step, right, millis);
        }
        let json = serde_json::to_value(Question::Bare(question)).unwrap();
        let subject = json["subject"].to_string();
        let grade = if answered.helped {
            Grade::Missed
        } else {
            Grade::of(kind, verdict, answered.late, millis)
        };
        self.memory.take(self.now, kind, &subject, grade);
    }
}

fn step_of(question: BareQuestion) -> CourseStep {
    CourseStep::of_bare(question.kind(), question.view()).unwrap()
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
#[expect(clippy::cast_precision_loss)]
fn weak_squares_are_asked_more_than_twice_as_often_as_strong_ones() {
    let (mut of_weak, mut of_strong) = (0.0, 0.0);
    for seed in 0..10 {
        let weak: Vec<Square> = ["b7", "c6", "d3", "e8", "f2", "g5", "h4", "a7"]
            .map(|square| square.parse().unwrap())
            .into();
        let mut learner = Learner::new(0.5, &weak, seed);
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
    }
    assert!(of_weak > 2.0 * of_strong, "{of_weak} and {of_strong}");
}

#[test]
fn a_learner_who_comes_back_after_a_year_is_asked_what_was_forgotten() {
    let mut learner = Learner::new(0.05, &[], 2);
    learner.train(30);
    let due = |learner: &Learner| {
        let known = learner.memory.known(learner.now).into_iter();
        known.filter(Recalled::is_due).count()
    };
    let before = due(&learner);
    learner.now += (24 * 365).hours();
    let after = due(&learner);
    assert!(after > before, "{after} after {before}");
    let request = LessonRequest {
        now: learner.now,
        minutes: 10,
        seed: 1,
        step: None,
    };
    let parts = plan(&learner.course, &learner.memory, request);
    assert_eq!(parts[0].aim, Aim::Due);
}
