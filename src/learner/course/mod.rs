//! The course: steps from the names of squares to whole games, and how far a learner has come.

mod step;

use std::collections::VecDeque;

use jiff::Timestamp;
use strum::IntoStaticStr;

pub use step::{Chunked, CourseStep, PassMark, Practice};

use crate::exercise::{climb, median};
use crate::learner::{AnswerRecord, Record, StartRecord};
use crate::question::Verdict;

/// How a learner stands at every step, gathered from the first tries in their order.
///
/// ```
/// use sansvoir::learner::course::{Course, StepStatus, CourseStep};
///
/// let time = "2026-03-01T18:20:04Z".parse()?;
/// let mut course = Course::default();
/// for _ in 0..20 {
///     course.take(time, CourseStep::WhiteSquares, true, Some(1_900));
/// }
/// assert!(course.standing(CourseStep::WhiteSquares).is_passed());
/// assert_eq!(course.current(), Some(CourseStep::BlackSquares));
/// assert_eq!(course.standing(CourseStep::Colors).status, StepStatus::Untried);
/// # Ok::<(), jiff::Error>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Course {
    runs: [Run; CourseStep::ALL.len()],
    /// Where the learner began: the steps below are taken as known until they fail.
    start: Option<CourseStep>,
    placement: Placement,
}

/// What the latest placement asked, and what came of it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Placement {
    session: String,
    /// The stage of each answer, and whether it was right.
    answers: Vec<(usize, bool)>,
}

/// How a learner stands at a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Standing {
    /// What the answers have come to.
    pub status: StepStatus,
    /// The right ones among the latest answers.
    pub right: usize,
    /// How many latest answers there are, as many as the mark needs at most.
    pub of: usize,
    /// The median time of those right ones, of a step that is passed or accurate; `None` where too few of them have a
    /// time that is known.
    pub median_millis: Option<u64>,
}

/// What the answers at a step have come to. As text it has a name in small letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, IntoStaticStr)]
#[strum(serialize_all = "lowercase")]
pub enum StepStatus {
    /// No answer yet.
    Untried,
    /// Taken as known, since the learner began higher up.
    Known,
    /// Not accurate enough yet, or not asked often enough.
    Answering,
    /// Accurate enough, and too slow yet.
    Accurate,
    /// The mark is met, and this easier step, which it needs, fails now.
    Waiting(CourseStep),
    /// Passed at this time; it stays so until fewer than three in five of the latest answers are right.
    Passed(Timestamp),
}

/// What a record of the journal tells of the course.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CourseEvent {
    /// A first try at a step: whether it was wholly right, and its milliseconds, where they are known.
    Tried(CourseStep, bool, Option<u64>),
    /// The same in the placement of this session.
    Placed(String, CourseStep, bool, Option<u64>),
    /// A question of a step was found with help.
    Taught(CourseStep),
    /// The learner chose where to begin.
    Started(CourseStep),
}

impl CourseEvent {
    /// Reads a record; `None` where it tells nothing of the course.
    pub fn of(record: &Record) -> Option<CourseEvent> {
        match record {
            Record::Answer(answer) => CourseEvent::of_answer(answer),
            Record::Start(start) => CourseEvent::of_start(start),
            Record::End(_) | Record::Said(_) | Record::Game(_) | Record::Seal(_) => None,
        }
    }

    /// Reads the beginning of a session.
    pub fn of_start(start: &StartRecord) -> Option<CourseEvent> {
        let step = start.plan.get("start")?.as_str()?.parse().ok()?;
        (start.exercise == "lesson").then_some(CourseEvent::Started(step))
    }

    /// Reads an answer.
    pub fn of_answer(answer: &AnswerRecord) -> Option<CourseEvent> {
        let step = CourseStep::of_answer(answer).filter(|_| !answer.repeat)?;
        let right = answer.verdict == Verdict::Right;
        Some(if answer.helped {
            CourseEvent::Taught(step)
        } else if answer.exercise == "placement" {
            CourseEvent::Placed(answer.stamp.session.clone(), step, right, answer.millis)
        } else {
            CourseEvent::Tried(step, right, answer.millis)
        })
    }
}

/// A step that was passed is lost again when fewer of its latest answers are right, in fifths.
///
/// What comes back later is what a learner knows worst, so that the latest answers look worse than the
/// learner is; and chance plays its part. The number is our own choice (no source): by a binomial count,
/// a learner who is right nine times in ten has fewer than 12 of 20 right in 1 window of 16,000, one who
/// guesses at a yes or no in 3 of 4.
const LOST: usize = 3;
/// A step fails when so many of its latest answers are there, and it would be lost by them.
const ENOUGH_TO_FAIL: usize = 10;
/// So many answers, half of them right, show that a step need not be taught.
const ENOUGH_TO_TRY: usize = 5;

impl Course {
    /// Takes the next answer at a step: when it was given, whether it was wholly right, and the
    /// milliseconds it took, where that is known.
    pub fn take(&mut self, time: Timestamp, step: CourseStep, right: bool, millis: Option<u64>) {
        self.runs[step as usize].take(step.mark(), time, (right, millis));
    }

    /// Takes what happened next.
    pub fn hear(&mut self, time: Timestamp, event: CourseEvent) {
        match event {
            CourseEvent::Tried(step, right, millis) => self.take(time, step, right, millis),
            CourseEvent::Placed(session, step, right, millis) => {
                self.take(time, step, right, millis);
                self.place(session, step, right);
            }
            CourseEvent::Taught(step) => self.runs[step as usize].taught += 1,
            CourseEvent::Started(step) => self.start = Some(step),
        }
    }

    /// Takes an answer of a placement: the course begins behind the highest step that held.
    fn place(&mut self, session: String, step: CourseStep, right: bool) {
        if self.placement.session != session {
            let answers = Vec::new();
            self.placement = Placement { session, answers };
        }
        let stage = CourseStep::PLACED.iter().position(|placed| *placed == step);
        let answers = &mut self.placement.answers;
        answers.extend(stage.map(|stage| (stage, right)));
        let held = climb(CourseStep::PLACED.len(), answers).held;
        let behind = held.map_or(0, |stage| CourseStep::PLACED[stage] as usize + 1);
        self.start = Some(CourseStep::ALL[behind]);
    }

    /// Returns the steps that the latest placement asked, from the easiest on, each with how many of its
    /// answers were right, and of how many.
    pub fn placed(&self) -> Vec<(CourseStep, usize, usize)> {
        let count = |(stage, step): (usize, CourseStep)| {
            let of_it = self.placement.answers.iter();
            let of_it: Vec<_> = of_it.filter(|(at, _)| *at == stage).collect();
            let right = of_it.iter().filter(|(_, right)| *right).count();
            (!of_it.is_empty()).then_some((step, right, of_it.len()))
        };
        let stages = CourseStep::PLACED.into_iter().enumerate();
        stages.filter_map(count).collect()
    }

    /// Returns how the learner stands at a step.
    pub fn standing(&self, step: CourseStep) -> Standing {
        let own = self.own_standing(step);
        match self.failing_below(step).filter(|_| own.is_passed()) {
            Some(fails) => Standing {
                status: StepStatus::Waiting(fails),
                ..own
            },
            None => own,
        }
    }

    fn own_standing(&self, step: CourseStep) -> Standing {
        let mut standing = self.runs[step as usize].standing(step.mark());
        let is_below = self.start.is_some_and(|start| step < start);
        let is_open = matches!(standing.status, StepStatus::Untried | StepStatus::Answering);
        if is_below && is_open && !self.fails(step) {
            standing.status = StepStatus::Known;
        }
        standing
    }

    /// Tells whether enough latest answers are there, and so few of them are right that it would be lost.
    fn fails(&self, step: CourseStep) -> bool {
        let run = &self.runs[step as usize];
        let (right, of) = (run.right().count(), run.latest.len());
        let enough = ENOUGH_TO_FAIL.min(step.mark().of);
        run.passed.is_none() && of >= enough && right * 5 < LOST * of
    }

    /// Returns the easiest step that this one needs, or that one of these needs, and that fails.
    fn failing_below(&self, step: CourseStep) -> Option<CourseStep> {
        let needed = step.needs().iter();
        let failing = needed.filter_map(|needed| {
            let own = self.fails(*needed).then_some(*needed);
            self.failing_below(*needed).or(own)
        });
        failing.min()
    }

    /// Tells whether a step is to be taught before it is asked: not enough of it was taught yet, or more
    /// than half of the latest answers were missed.
    pub fn is_to_be_taught(&self, step: CourseStep) -> bool {
        let run = &self.runs[step as usize];
        let (right, of) = (run.right().count(), run.latest.len());
        let does_well = of >= ENOUGH_TO_TRY && right * 2 >= of;
        let is_bare = !step.kinds().is_empty();
        is_bare && !does_well && (run.taught < step.lessons() || of >= ENOUGH_TO_FAIL)
    }

    /// Tells whether a step has its turn in reviews: it is taken as known by too few answers to show that it
    /// does not fail, or is accurate and too slow yet.
    pub fn is_reviewed(&self, step: CourseStep) -> bool {
        let standing = self.own_standing(step);
        match standing.status {
            StepStatus::Known => standing.of < ENOUGH_TO_FAIL,
            StepStatus::Passed(_) => false,
            _ => self.runs[step as usize].accurate,
        }
    }

    /// Returns how many questions of a step were found with help.
    pub fn taught(&self, step: CourseStep) -> usize {
        self.runs[step as usize].taught
    }

    /// Returns the first step that is neither passed nor taken as known; `None` at the end of the course. Who
    /// is accurate at it and too slow goes on meanwhile, and comes back when nothing else is left.
    pub fn current(&self) -> Option<CourseStep> {
        let is_open = |step: &CourseStep| {
            let status = self.own_standing(*step).status;
            !matches!(status, StepStatus::Passed(_) | StepStatus::Known)
        };
        let mut open = CourseStep::ALL.into_iter().filter(is_open);
        let first = open.clone().next();
        open.find(|step| !self.runs[*step as usize].accurate)
            .or(first)
    }
}

impl Standing {
    /// Tells whether the step is passed.
    pub const fn is_passed(self) -> bool {
        matches!(self.status, StepStatus::Passed(_))
    }

    /// Returns how many of the latest answers are right, and how many there are, where that decides.
    pub const fn counts(self) -> Option<(usize, usize)> {
        match self.status {
            StepStatus::Untried | StepStatus::Waiting(_) => None,
            _ => Some((self.right, self.of)),
        }
    }
}

/// The answers at one step, as much of them as decides.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
struct Run {
    /// The latest answers, as many as the mark needs: whether each was right, and its milliseconds, where they are known.
    latest: VecDeque<(bool, Option<u64>)>,
    /// When the mark was first met since the step was last lost; `None` where it is not passed.
    passed: Option<Timestamp>,
    /// Whether enough were right, in whatever time, since the step was last lost.
    accurate: bool,
    /// How many questions were found with help.
    taught: usize,
}

impl Run {
    fn take(&mut self, mark: PassMark, now: Timestamp, tried: (bool, Option<u64>)) {
        self.latest.push_back(tried);
        if self.latest.len() > mark.of {
            self.latest.pop_front();
        }
        if self.latest.len() < mark.of {
            return;
        }
        let right = self.right().count();
        if right * 5 < LOST * mark.of {
            (self.passed, self.accurate) = (None, false);
        } else if self.meets(mark) {
            self.passed.get_or_insert(now);
        }
        self.accurate |= right >= mark.right;
    }

    /// Tells whether enough of the latest answers are right, and half of those in time: an answer whose
    /// time is not known is not in time.
    fn meets(&self, mark: PassMark) -> bool {
        let within = |millis| millis <= mark.within_millis;
        let right = self.right().count();
        let in_time = self.right().filter(|millis| millis.is_some_and(within));
        right >= mark.right && in_time.count() * 2 >= right
    }

    fn standing(&self, mark: PassMark) -> Standing {
        let (right, of) = (self.right().count(), self.latest.len());
        let median = median(self.right().flatten().collect());
        let (status, median_millis) = match self.passed {
            Some(on) => (StepStatus::Passed(on), median),
            None if of >= mark.of && right >= mark.right => {
                let slow = median.filter(|median| *median > mark.within_millis);
                (StepStatus::Accurate, slow)
            }
            None if of == 0 => (StepStatus::Untried, None),
            None => (StepStatus::Answering, None),
        };
        Standing {
            status,
            right,
            of,
            median_millis,
        }
    }

    /// Walks the times of the right ones.
    fn right(&self) -> impl Iterator<Item = Option<u64>> {
        let right = self.latest.iter().filter(|(right, _)| *right);
        right.map(|(_, millis)| *millis)
    }
}

#[cfg(test)]
mod tests;
