//! Simulated pupils go through sixty lessons: the course leads them on, what they know worst comes most,
//! and who guesses passes nothing.
//!
//! The pupils are made up: how they learn and forget is stated here and taken from no source. What they
//! come to stands in DEVELOPERS.md: `cargo test --test exercises pupils -- --nocapture` prints it.

use std::collections::HashMap;
use std::fmt::Write as _;

use crate::replies::right;
use jiff::{Timestamp, ToSpan};
use sansvoir::exercise::bound::Within;
use sansvoir::exercise::{
    Answered, Asked, Awaits, Dice, Drill, DrillSettings, Exercise, Input, Output, Session, Views,
    climb,
};
use sansvoir::learner::course::{Course, CourseEvent, CourseStep, Practice, StepStatus};
use sansvoir::learner::lesson::{Aim, LessonRequest, PlannedPart, plan};
use sansvoir::learner::schedule::{Grade, Memory};
use sansvoir::question::{BareQuestion, Kind, Question, Verdict};
use shakmaty::Square;

/// The chance to be right at a step, and what becomes of it.
#[derive(Clone)]
struct Nature {
    name: &'static str,
    /// The chance at first, by the step.
    first: fn(CourseStep) -> f64,
    /// The chance that practice leads to.
    best: f64,
    /// So many answers bring a step two thirds of the way there.
    practice: f64,
    /// The share of practice that a night leaves.
    left_overnight: f64,
    /// The time that an answer takes, as a share of what passes the step.
    pace: f64,
    /// Squares that are hard to keep: of the chance to be right a night takes nearly half at first, and
    /// less the more often they were asked.
    weak: Vec<Square>,
}

const KEEN: Nature = Nature {
    name: "knows nothing yet",
    first: |_| 0.05,
    best: 0.98,
    practice: 30.0,
    left_overnight: 0.98,
    pace: 0.7,
    weak: Vec::new(),
};

fn pupils() -> [Nature; 7] {
    let knows = |name, first, best, pace| Nature {
        name,
        first,
        best,
        pace,
        ..KEEN
    };
    [
        KEEN,
        knows("flawless", |_| 1.0, 1.0, 0.5),
        knows("85 in 100", |_| 0.85, 0.85, 0.7),
        knows("slow but right", |_| 0.97, 0.97, 1.3),
        Nature {
            practice: 120.0,
            ..knows(
                "weak at diagonals",
                |step| {
                    use CourseStep::{Aligned, Between, Crossing, Span};
                    if matches!(step, Aligned | Between | Span | Crossing) {
                        0.3
                    } else {
                        0.97
                    }
                },
                0.97,
                0.7,
            )
        },
        Nature {
            practice: f64::INFINITY,
            ..knows("guesser", guessed, 1.0, 0.3)
        },
        Nature {
            name: "forgetful",
            left_overnight: 0.7,
            practice: 15.0,
            ..KEEN
        },
    ]
}

/// The chance of a lucky guess: one of two colors, one of four lines, one of 64 squares; of kinds over
/// positions a third, which is more than the commonest answer gives.
fn guessed(step: CourseStep) -> f64 {
    match step.kinds() {
        [Kind::Color] => 0.5,
        [Kind::Aligned | Kind::Distance] => 0.4,
        [_, ..] => 1.0 / 64.0,
        [] => 0.34,
    }
}

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
    /// The step that the learner stood at after each lesson.
    reached: Vec<Option<CourseStep>>,
    /// How many questions were reviews in each lesson, and how many there were in all.
    reviews: Vec<(usize, usize)>,
    /// The most milliseconds of reviews in a lesson.
    longest_review: u64,
    /// How many games were read.
    games: usize,
    /// How many questions were taught.
    taught: usize,
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
            reviews: Vec::new(),
            longest_review: 0,
            games: 0,
            taught: 0,
        }
    }

    /// Is placed, as a first lesson does.
    fn place(&mut self) {
        let mut answers = Vec::new();
        while let Some(stage) = climb(CourseStep::PLACED.len(), &answers).next {
            let step = CourseStep::PLACED[stage];
            let (knows, millis) = self.answers(step, None);
            answers.push((stage, knows));
            let event = CourseEvent::Placed("first".to_owned(), step, knows, Some(millis));
            self.course.hear(self.now, event);
        }
    }

    fn train(&mut self, days: u64) {
        for day in 0..days {
            let request = LessonRequest {
                now: self.now,
                minutes: 10,
                seed: day,
                step: None,
            };
            let parts = plan(&self.course, &self.memory, request);
            assert!(!parts.is_empty());
            let (mut reviews, mut all) = (0, 0);
            for part in &parts {
                let held = self.hold(part, day);
                all += held;
                if part.aim == Aim::Due {
                    reviews += held;
                    let times = part.questions.iter();
                    let time: u64 = times.map(|due| due.kind().think_millis() / 2 + 4_000).sum();
                    self.longest_review = self.longest_review.max(time);
                }
            }
            self.reviews.push((reviews, all));
            self.reached.push(self.course.current());
            self.now += 24.hours();
            for practiced in &mut self.practiced {
                *practiced *= self.nature.left_overnight;
            }
        }
    }

    /// Goes through a part; returns how many questions it had.
    fn hold(&mut self, part: &PlannedPart, seed: u64) -> usize {
        if !part.questions.is_empty() {
            return self.drill(part, seed);
        }
        let step = match part.aim {
            Aim::Step(step) => step,
            Aim::Game => CourseStep::GamesByEight,
            Aim::Ahead | Aim::Teach(_) | Aim::Due => return 0,
        };
        // Games of 64 plies.
        let answers = match step.practice() {
            Practice::Game(..) if step == CourseStep::Rebuilding => 3,
            Practice::Game(Some(every), _) => 64 / every * part.count,
            Practice::Game(None, _) => 5,
            Practice::Recite(plies) => plies.unwrap_or(48),
            Practice::Play(..) => 30,
            Practice::Few(..) | Practice::Ahead(..) | Practice::Bare(..) => part.count,
        };
        self.games += usize::from(step.is_game());
        for _ in 0..answers {
            let (knows, millis) = self.answers(step, None);
            self.course.take(self.now, step, knows, Some(millis));
        }
        answers
    }

    /// Goes through a drill as `lesson` holds it.
    fn drill(&mut self, part: &PlannedPart, seed: u64) -> usize {
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
        let mut put = 0;
        let mut standing = None;
        while drill.awaits() != Awaits::Nothing {
            let asked = outputs.iter().rev().find_map(|output| match output {
                Output::Ask(ask) => Some(ask.asked),
                _ => None,
            });
            if let Some(Asked::Bare(question)) = asked {
                standing = Some(question);
                put += 1;
            }
            let question = standing.expect("a drill asks on the empty board");
            outputs = drill.hear(self.reply(question));
            for output in &outputs {
                if let Output::Answered(answered) = output {
                    self.note(question, answered);
                }
            }
        }
        put
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
        let first = (self.nature.first)(step);
        let mut chance = first + (self.nature.best - first) * progress;
        if let Some(square) = square.filter(|square| self.nature.weak.contains(square)) {
            let (last, times) = self.last.get(&square).copied().unwrap_or((self.now, 0));
            let days = self.now.duration_since(last).as_secs_f64() / 86_400.0;
            chance *= 0.3 + 0.7 * (-days / (1.0 + f64::from(times) / 8.0)).exp();
            self.last.insert(square, (self.now, times + 1));
        }
        let knows = (self.dice.below(10_000) as f64) < chance * 10_000.0;
        let mark = step.mark().within_millis as f64;
        (knows, (mark * self.nature.pace) as u64)
    }

    fn note(&mut self, question: BareQuestion, answered: &Answered) {
        let kind = question.kind();
        let step = step_of(question);
        let (verdict, millis) = (answered.mark.verdict, answered.millis);
        if answered.helped {
            self.taught += 1;
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

    /// The number of the lesson after which the learner stood at this step or higher.
    fn lesson_of(&self, step: CourseStep) -> Option<usize> {
        let at = |reached: &Option<CourseStep>| reached.is_none_or(|reached| reached >= step);
        self.reached.iter().position(at).map(|lesson| lesson + 1)
    }

    /// The steps that are passed.
    fn passed(&self) -> usize {
        let passed = CourseStep::ALL.into_iter();
        passed
            .filter(|step| self.course.standing(*step).is_passed())
            .count()
    }

    /// A row of the table in DEVELOPERS.md.
    fn row(&self, placed: Option<CourseStep>) -> String {
        let mut row = format!("| {} ", self.nature.name);
        write!(row, "| {} ", placed.map_or("", Into::into)).unwrap();
        let steps = [
            CourseStep::Colors,
            CourseStep::ThreePieces,
            CourseStep::TwoPlies,
            CourseStep::GamesByFour,
        ];
        for step in steps {
            match self.lesson_of(step) {
                Some(lesson) => write!(row, "| {lesson} ").unwrap(),
                None => write!(row, "| - ").unwrap(),
            }
        }
        let last = self.reached.last().copied().flatten();
        let (due, all) = self
            .reviews
            .iter()
            .fold((0, 0), |sum, one| (sum.0 + one.0, sum.1 + one.1));
        write!(
            row,
            "| {} | {} | {} | {} in 100 | {} in 100 | {} |",
            last.map_or("the end", Into::into),
            self.passed(),
            self.taught,
            due * 100 / all.max(1),
            self.longest_review / 6_000,
            self.games
        )
        .unwrap();
        row
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
fn pupils_of_every_sort_are_led_where_they_belong() {
    println!(
        "| pupil | placed at | colors | three pieces | two plies | whole games | after 60 lessons | passed \
         | taught | reviews | longest | games |"
    );
    let mut learners = Vec::new();
    for nature in pupils() {
        let mut learner = Learner::new(nature, 3);
        learner.place();
        let placed = learner.course.current();
        learner.train(60);
        println!("{}", learner.row(placed));
        learners.push((placed, learner));
    }
    for (placed, learner) in learners {
        let lesson_of = |step| learner.lesson_of(step).unwrap_or(usize::MAX);
        let games = lesson_of(CourseStep::GamesByFour);
        // Five lessons of ten minutes are less than an hour, with a placement of ten minutes.
        match learner.nature.name {
            "flawless" => {
                assert_eq!(games, 1);
                assert_eq!(learner.course.current(), None);
            }
            "85 in 100" => assert!(games <= 60, "{games}"),
            "slow but right" => {
                assert_eq!(learner.passed(), 0);
                assert_eq!(learner.reached.last(), Some(&Some(CourseStep::GamesByFour)));
            }
            "guesser" => {
                assert_eq!(placed, Some(CourseStep::WhiteSquares));
                assert_eq!(learner.passed(), 0);
                assert_eq!(
                    learner.reached.last(),
                    Some(&Some(CourseStep::WhiteSquares))
                );
                assert!(
                    learner.taught > 40 * 12,
                    "who misses all is taught: {}",
                    learner.taught
                );
            }
            "knows nothing yet" => {
                assert_eq!(placed, Some(CourseStep::WhiteSquares));
                assert!(lesson_of(CourseStep::Colors) <= 15);
                assert!(lesson_of(CourseStep::ThreePieces) <= 45);
            }
            "weak at diagonals" => {
                assert!(placed < Some(CourseStep::Span) || placed > Some(CourseStep::Route));
            }
            "forgetful" => assert!(lesson_of(CourseStep::BlackSquares) <= 60),
            other => panic!("{other}"),
        }
        assert!(learner.longest_review <= 200_000, "a third of ten minutes");
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
            first: |_| 0.5,
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
    }
    assert!(of_weak > 2.0 * of_strong, "{of_weak} and {of_strong}");
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
        step: None,
    };
    let parts = plan(&learner.course, &learner.memory, request);
    assert_eq!(parts[0].aim, Aim::Due);
}

#[test]
fn four_lessons_of_nothing_right_look_like_none_of_passed_questions() {
    let mut learner = Learner::new(
        Nature {
            first: |_| 0.0,
            best: 0.0,
            ..KEEN
        },
        1,
    );
    learner.place();
    learner.train(4);
    assert!(learner.taught >= 4 * 12, "{}", learner.taught);
    let standing = learner.course.standing(CourseStep::WhiteSquares);
    assert!(
        !matches!(standing, StepStatus::Passed { .. }),
        "{standing:?}"
    );
}
