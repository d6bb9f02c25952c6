//! A pupil who is made up, and the replies of one.

use jiff::ToSpan;
use serde_json::Value;

use crate::cli::Cli;
use crate::cli::lesson::{MINUTES, today};
use crate::cli::request::{LessonPart, Outline, seed_of_part};
use crate::cli::shared::{Shared, answers};
use crate::exercise::{Answered, Awaited, Awaits, Dice, Input, Output, Session};
use crate::game::Start;
use crate::learner::course::{Course, CourseEvent, CourseStep, Standing, StepStatus};
use crate::learner::lesson::{Aim, LessonRequest, PlannedPart, plan};
use crate::learner::{AnswerRecord, EndRecord, GameRef, LearnerState, Record, Stamp};
use crate::question::{BareQuestion, Form, Kind, Question, Truth, Verdict};
use crate::terminal::now;
use clap::Parser;
use shakmaty::{CastlingMode, Position, Rank};

/// What a verdict takes to be read, and a ply to be heard, in milliseconds, as the planner reckons.
const READING: u64 = 4_000;
const HEARING: u64 = 2_000;

/// What a pupil knows, and what becomes of it. It is made up and taken from no source.
#[derive(Clone)]
pub(super) struct Nature {
    pub(super) name: &'static str,
    /// The chance to know an answer at first, by the step; of one who guesses always none.
    pub(super) first: fn(CourseStep) -> f64,
    /// The chance that practice leads to.
    pub(super) best: f64,
    /// So many answers bring a step two thirds of the way there.
    pub(super) practice: f64,
    /// The share of practice that a night leaves.
    pub(super) left_overnight: f64,
    /// The time that an answer takes, as a share of what passes the step.
    pub(super) pace: f64,
}

/// A pupil with a journal of their own.
pub(super) struct Pupil {
    pub(super) nature: Nature,
    dice: Dice,
    shared: Shared,
    records: Vec<Record>,
    /// Answers at each step, as far as they have left anything.
    practiced: [f64; CourseStep::ALL.len()],
    /// The lessons so far.
    pub(super) lessons: Vec<Lesson>,
}

/// What a lesson was.
pub(super) struct Lesson {
    pub(super) parts: Vec<Part>,
    /// Where the pupil stood after it.
    pub(super) course: Course,
}

/// What a part of a lesson was.
pub(super) struct Part {
    pub(super) aim: Aim,
    /// The milliseconds that the plan gives to it, where it is a review.
    pub(super) planned: u64,
    /// How many answers it had.
    pub(super) answers: u64,
    /// The milliseconds that it took: to answer, to read verdicts and to hear plies, as the planner reckons.
    pub(super) millis: u64,
}

impl Pupil {
    pub(super) fn new(nature: Nature, seed: u64) -> Pupil {
        Pupil {
            nature,
            dice: Dice::new(seed, 7),
            shared: Cli::try_parse_from(["sansvoir", "lesson"]).unwrap().shared,
            records: Vec::new(),
            practiced: [0.0; CourseStep::ALL.len()],
            lessons: Vec::new(),
        }
    }

    /// Has so many lessons of ten minutes, one a day; the first finds the level before.
    pub(super) fn train(mut self, lessons: u64) -> Pupil {
        let first = self.dice.below(1_000_000) as u64;
        for lesson in 0..lessons {
            self.shared.seed = Some(first + 100 * lesson);
            if lesson == 0 {
                self.hold(&today::placement(), "placement");
            }
            self.have_lesson(&lesson.to_string());
            self.sleep();
        }
        self
    }

    fn have_lesson(&mut self, name: &str) {
        let state = self.state();
        let request = LessonRequest {
            now: now(),
            minutes: MINUTES,
            seed: self.shared.seed().unwrap(),
            step: None,
        };
        let planned = plan(&state.course, &state.memory, request);
        let outline = today::outline(MINUTES, None, state, &self.shared).unwrap();
        assert_eq!(outline.parts.len(), planned.len());
        let held = self.hold(&outline, name);
        let part = |(part, (answers, millis)): (&PlannedPart, (u64, u64))| {
            let bare = part.questions.iter();
            let bare: u64 = bare
                .map(|due| due.kind().think_millis() / 2 + READING)
                .sum();
            let over_lines = (part.count - part.questions.len()) as u64;
            Part {
                aim: part.aim,
                planned: bare + 30_000 * over_lines,
                answers,
                millis,
            }
        };
        self.lessons.push(Lesson {
            parts: planned.iter().zip(held).map(part).collect(),
            course: self.state().course,
        });
    }

    /// What the journal tells of the pupil.
    fn state(&self) -> LearnerState {
        let mut state = LearnerState::default();
        for record in &self.records {
            if let Some(event) = CourseEvent::of(record) {
                state.course.hear(record.stamp().time, event);
            }
            match record {
                Record::Answer(answer) => state.memory.take_answer(answer),
                Record::Start(start) => state.has_read |= start.exercise == "replay",
                Record::End(_) | Record::Said(_) | Record::Game(_) | Record::Seal(_) => {}
            }
        }
        state
    }

    /// A day goes by: all that was lies a day back.
    fn sleep(&mut self) {
        for record in &mut self.records {
            let stamp = match record {
                Record::Start(start) => &mut start.stamp,
                Record::Answer(answer) => &mut answer.stamp,
                Record::End(end) => &mut end.stamp,
                Record::Said(said) => &mut said.stamp,
                Record::Game(game) => &mut game.stamp,
                Record::Seal(stamp) => stamp,
            };
            stamp.time -= 24.hours();
        }
        for practiced in &mut self.practiced {
            *practiced *= self.nature.left_overnight;
        }
    }

    /// Goes through the parts of a lesson; returns how many answers each had, and the milliseconds it took.
    fn hold(&mut self, outline: &Outline, name: &str) -> Vec<(u64, u64)> {
        let parts = outline.parts.iter().zip(1..);
        parts
            .map(|(part, number)| self.hold_part(part, number, name))
            .collect()
    }

    fn hold_part(&mut self, part: &LessonPart, number: usize, lesson: &str) -> (u64, u64) {
        let name = format!("{lesson}-{number}");
        let of_lesson = part.in_session(name.clone());
        let seed = seed_of_part(self.shared.seed().unwrap(), number, 1);
        let shared = self.shared.of_part(of_lesson, Some(seed));
        let prepared = part.request.prepare(&shared, &self.records).unwrap();
        let stamp = Stamp::new(now(), name);
        self.records
            .push(prepared.start(stamp.clone(), &shared).unwrap());
        let mut session = prepared.plan.session(shared.think_times()).unwrap();
        self.sit(
            &mut session,
            &stamp,
            prepared.plan.exercise(),
            prepared.game().as_ref(),
        )
    }

    fn sit(
        &mut self,
        session: &mut Session,
        stamp: &Stamp,
        exercise: &str,
        game: Option<&GameRef>,
    ) -> (u64, u64) {
        let mut outputs = session.begin();
        let (mut count, mut millis) = (0, 0);
        while session.awaits() != Awaits::Nothing {
            let unread = outputs
                .iter()
                .any(|output| matches!(output, Output::Unread { .. }));
            let awaited = session.awaited().map(Awaited::decided);
            let input = match session.given_up() {
                _ if awaited.is_some() => Input::Opponent(awaited.unwrap()),
                Some(standing) if standing.is_turn() => self.play(&standing, stamp, exercise),
                Some(standing) => self.reply(&standing, stamp, exercise, unread),
                None => Input::GoOn,
            };
            outputs = session.hear(input);
            for output in &outputs {
                if let Output::Answered(answered) = output {
                    let answer =
                        AnswerRecord::new(stamp.clone(), exercise, game.cloned(), answered);
                    if let Some(step) = CourseStep::of_answer(&answer) {
                        self.practiced[step as usize] += 1.0;
                    }
                    self.records.push(Record::Answer(Box::new(answer)));
                    count += 1;
                    millis += answered.millis.unwrap_or(0) + READING;
                }
            }
        }
        self.records.push(Record::End(EndRecord {
            stamp: stamp.clone(),
            finished: true,
            plies: session.heard(),
            looks: 0,
            helped: false,
        }));
        (count, millis + HEARING * session.heard() as u64)
    }

    /// Replies rightly by the pupil's chance, and else with a guess.
    fn reply(&mut self, standing: &Answered, stamp: &Stamp, exercise: &str, unread: bool) -> Input {
        let record = AnswerRecord::new(stamp.clone(), exercise, None, standing);
        // What counts for no step is as hard as the longest lines.
        let step = CourseStep::of_answer(&record).unwrap_or(CourseStep::EightPlies);
        let (chance, millis) = self.knows(step);
        if self.dice.below(10_000) < chance {
            let text = right(standing);
            return Input::Reply { text, millis };
        }
        let text = guess(standing.question.kind().form(), &mut self.dice);
        if unread {
            return Input::Pass { millis };
        }
        Input::Reply { text, millis }
    }

    /// Plays any legal move by the pupil's chance, and else names one that is none; resigns after 40 moves.
    fn play(&mut self, standing: &Answered, stamp: &Stamp, exercise: &str) -> Input {
        let record = AnswerRecord::new(stamp.clone(), exercise, None, standing);
        let step = CourseStep::of_answer(&record).unwrap_or(CourseStep::FewInSight);
        let (chance, millis) = self.knows(step);
        let setting = standing.setting.as_ref().unwrap();
        let start = Start::from_fen(&setting.position, CastlingMode::Standard).unwrap();
        let position = start.position();
        let text = if setting.moves.len() >= 80 {
            "resign".to_owned()
        } else if self.dice.below(10_000) < chance {
            let moves = position.legal_moves();
            let mv = *self.dice.pick(&moves).unwrap();
            mv.to_uci(CastlingMode::Standard).to_string()
        } else {
            let king = position.board().king_of(position.turn()).unwrap();
            let far = if king.rank() < Rank::Fifth {
                "a8"
            } else {
                "a1"
            };
            format!("K{far}")
        };
        Input::Reply { text, millis }
    }

    /// The chance to know, in ten thousandths, and the time that it takes.
    #[expect(
        clippy::cast_precision_loss,
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss
    )]
    fn knows(&self, step: CourseStep) -> (usize, u64) {
        let Nature {
            first,
            best,
            practice,
            pace,
            ..
        } = self.nature;
        let progress = 1.0 - (-self.practiced[step as usize] / practice).exp();
        let chance = first(step) + (best - first(step)) * progress;
        let mark = step.mark().within_millis as f64;
        ((chance * 10_000.0) as usize, (mark * pace) as u64)
    }

    /// How many questions were asked to find the level.
    pub(super) fn placed_by(&self) -> usize {
        answers(&self.records)
            .filter(|answer| answer.exercise == "placement")
            .count()
    }

    /// Tells whether every answer was right.
    pub(super) fn is_always_right(&self) -> bool {
        answers(&self.records).all(|answer| answer.verdict == Verdict::Right)
    }

    /// The games that were read, in their order.
    pub(super) fn games(&self) -> Vec<&GameRef> {
        let games = self.records.iter().filter_map(|record| match record {
            Record::Start(start) if start.exercise == "replay" => start.game.as_ref(),
            _ => None,
        });
        games.collect()
    }
}

/// Tells whether so many of a step's latest answers are wrong that a step which needs it is not to be shown as passed.
pub(super) fn fails(course: &Course, step: CourseStep) -> bool {
    let Standing {
        status, right, of, ..
    } = course.standing(step);
    status == StepStatus::Answering && of >= 10 && right * 5 < 3 * of
}

/// A reply that is right.
fn right(standing: &Answered) -> String {
    match (&standing.question, &standing.truth) {
        (Question::Bare(BareQuestion::Route(question)), _) => {
            let route: Vec<String> = question
                .travel
                .route()
                .iter()
                .map(ToString::to_string)
                .collect();
            return if route.is_empty() {
                "never".to_owned()
            } else {
                route.join(" ")
            };
        }
        (_, Truth::Place(seen)) => return format!("{} {}", seen.from_left(), seen.from_bottom()),
        _ => {}
    }
    let truth = serde_json::to_value(&standing.truth).unwrap();
    let of_it = |name: &&String| !matches!(&***name, "optional" | "reason" | "by");
    let name = truth.as_object().unwrap().keys().find(of_it).unwrap();
    let words: Vec<String> = match &truth[name] {
        Value::Array(words) => words
            .iter()
            .map(|word| word.as_str().unwrap().to_owned())
            .collect(),
        Value::String(letters) if name == "pieces" => letters.chars().map(String::from).collect(),
        Value::String(word) => vec![word.clone()],
        Value::Bool(_) if name == "gone" => vec!["gone".to_owned()],
        Value::Bool(legal) => vec![if *legal { "legal" } else { "illegal" }.to_owned()],
        Value::Null if name == "piece" => vec!["empty".to_owned()],
        Value::Null => vec!["never".to_owned()],
        other => vec![other.to_string()],
    };
    let is_one = standing.question.kind() == Kind::Mate;
    let words = &words[..if is_one {
        words.len().min(1)
    } else {
        words.len()
    }];
    if words.is_empty() {
        "none".to_owned()
    } else {
        words.join(" ")
    }
}

/// A reply of this form that is made up: it can be right by luck.
fn guess(form: Form, dice: &mut Dice) -> String {
    let mut one_of = |words: &str| {
        let words: Vec<&str> = words.split('|').collect();
        words[dice.below(words.len())].to_owned()
    };
    match form {
        Form::Square | Form::SquareOrGone | Form::Squares | Form::Route => {
            one_of("a|b|c|d|e|f|g|h") + &one_of("1|2|3|4|5|6|7|8")
        }
        Form::Place => one_of("1|2|3|4|5|6|7|8") + " " + &one_of("1|2|3|4|5|6|7|8"),
        Form::Piece => one_of("empty|P|N|B|R|Q|K|p|n|b|r|q|k"),
        Form::Legal => one_of("legal|illegal"),
        Form::Color => one_of("light|dark"),
        Form::Line => one_of("file|rank|diagonal|none"),
        Form::Distance => one_of("1|2|3|4|5|never"),
        Form::Points => one_of("-1|0|0|0|1|3"),
        Form::Wings => one_of("short|long|short long|none"),
        Form::Taken => one_of("none|P|P P|P N"),
        Form::Moves | Form::MoveOrNone => "none".to_owned(),
        Form::Move => one_of("e4|Nf3|Nc6|O-O|Bg5"),
        Form::Placement => "Kg1 / Kg8".to_owned(),
    }
}
