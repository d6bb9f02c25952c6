//! The course: steps from the names of squares to whole games, and how far a learner has come.

mod step;

use std::collections::VecDeque;

use jiff::Timestamp;

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
/// assert_eq!(course.standing(CourseStep::Colors), StepStatus::Untried);
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
pub enum StepStatus {
    /// No answer yet.
    Untried,
    /// Taken as known, since the learner began higher up; the right ones among its answers, if any.
    Known {
        /// The right ones among the latest answers.
        right: usize,
        /// How many latest answers there are.
        of: usize,
    },
    /// Not accurate enough yet, or not asked often enough.
    Answering {
        /// The right ones among the latest answers.
        right: usize,
        /// How many latest answers there are, as many as the mark needs at most.
        of: usize,
    },
    /// Accurate enough, and too slow yet.
    Accurate {
        /// The right ones among the latest answers.
        right: usize,
        /// How many latest answers there are.
        of: usize,
        /// The median time of those right ones; `None` where too few of them have a time that is known.
        median_millis: Option<u64>,
    },
    /// The mark is met, and an easier step that this one needs fails now.
    Waiting {
        /// That step.
        fails: CourseStep,
    },
    /// Passed; it stays so until fewer than three in five of the latest answers are right.
    Passed {
        /// When the mark was first met, since the step was last lost.
        on: Timestamp,
        /// The right ones among the latest answers.
        right: usize,
        /// How many latest answers there are.
        of: usize,
        /// The median time of those right ones, as far as it is known.
        median_millis: Option<u64>,
    },
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
    pub fn standing(&self, step: CourseStep) -> StepStatus {
        let own = self.own_standing(step);
        match self.failing_below(step).filter(|_| own.is_passed()) {
            Some(fails) => StepStatus::Waiting { fails },
            None => own,
        }
    }

    fn own_standing(&self, step: CourseStep) -> StepStatus {
        let standing = self.runs[step as usize].standing(step.mark());
        let (right, of) = match standing {
            StepStatus::Untried => (0, 0),
            StepStatus::Answering { right, of } => (right, of),
            StepStatus::Known { .. }
            | StepStatus::Accurate { .. }
            | StepStatus::Waiting { .. }
            | StepStatus::Passed { .. } => return standing,
        };
        if self.start.is_some_and(|start| step < start) && !self.fails(step) {
            return StepStatus::Known { right, of };
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
        match self.own_standing(step) {
            StepStatus::Known { of, .. } => of < ENOUGH_TO_FAIL,
            StepStatus::Passed { .. } => false,
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
            let standing = self.own_standing(*step);
            !matches!(
                standing,
                StepStatus::Passed { .. } | StepStatus::Known { .. }
            )
        };
        let mut open = CourseStep::ALL.into_iter().filter(is_open);
        let first = open.clone().next();
        open.find(|step| !self.runs[*step as usize].accurate)
            .or(first)
    }
}

impl StepStatus {
    /// Tells whether the step is passed.
    pub const fn is_passed(self) -> bool {
        matches!(self, StepStatus::Passed { .. })
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

    fn standing(&self, mark: PassMark) -> StepStatus {
        let (right, of) = (self.right().count(), self.latest.len());
        let median_millis = median(self.right().flatten().collect());
        match self.passed {
            Some(on) => StepStatus::Passed {
                on,
                right,
                of,
                median_millis,
            },
            None if of >= mark.of && right >= mark.right => StepStatus::Accurate {
                right,
                of,
                median_millis: median_millis.filter(|median| *median > mark.within_millis),
            },
            None if of == 0 => StepStatus::Untried,
            None => StepStatus::Answering { right, of },
        }
    }

    /// Walks the times of the right ones.
    fn right(&self) -> impl Iterator<Item = Option<u64>> {
        let right = self.latest.iter().filter(|(right, _)| *right);
        right.map(|(_, millis)| *millis)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::exercise::TAUGHT_AT_ONCE;
    use crate::question::Kind;

    /// A second of its own for every answer.
    fn second(n: usize) -> Timestamp {
        Timestamp::from_second(i64::try_from(n).unwrap()).unwrap()
    }

    fn taken(step: CourseStep, answers: &[(bool, u64)]) -> Course {
        let mut course = Course::default();
        for (n, (right, millis)) in answers.iter().enumerate() {
            course.take(second(n), step, *right, Some(*millis));
        }
        course
    }

    #[test]
    fn the_steps_stand_in_the_order_of_their_numbers_and_have_names_of_their_own() {
        for (n, step) in CourseStep::ALL.into_iter().enumerate() {
            assert_eq!(step as usize, n);
            let same = CourseStep::ALL
                .iter()
                .filter(|other| <&str>::from(*other) == <&str>::from(step));
            assert_eq!(same.count(), 1);
        }
    }

    /// The step of an answer, by the journal's words.
    fn step_of(exercise: &str, kind: Kind, view: &str, hardness: &str) -> Option<CourseStep> {
        let line = format!(
            r#"{{"time":"2026-03-01T18:20:04Z","session":"s","exercise":"{exercise}","kind":"{kind}",
            "subject":{{"square":"c4"{view}}},"expected":{{}},"reply":"","verdict":"right","score":1.0,"millis":1,
            "late":false,"looks":0{hardness}}}"#
        );
        CourseStep::of_answer(&serde_json::from_str(&line).unwrap())
    }

    fn hard(plies: u32, men: u32, stretch: &str) -> String {
        format!(
            r#","hardness":{{"plies":{plies},"men":{men},"captures":0,"moved":null,"opened":0,"closed":0{stretch}}}"#
        )
    }

    #[test]
    fn every_kind_counts_for_a_step_in_every_exercise_that_asks_it_and_some_step_practices_it() {
        let practiced = |kind: &Kind| {
            CourseStep::ALL
                .into_iter()
                .any(|step| match step.practice() {
                    Practice::Bare(kinds, _)
                    | Practice::Few(_, _, kinds)
                    | Practice::Ahead(_, kinds)
                    | Practice::Game(_, kinds) => kinds.contains(kind),
                    Practice::Recite(_) => *kind == Kind::Played,
                    Practice::Play(..) => *kind == Kind::Turn,
                })
        };
        for kind in Kind::ALL {
            assert!(practiced(&kind), "{kind}");
        }
        let view = r#","view":"white""#;
        for kind in Kind::BARE {
            assert!(step_of("drill", kind, view, "").is_some(), "{kind}");
        }
        for kind in Kind::LINE {
            for exercise in ["drill", "replay", "recite"] {
                let hard = hard(9, 32, "");
                assert!(step_of(exercise, kind, "", &hard).is_some(), "{kind}");
            }
        }
    }

    #[test]
    fn squares_count_for_the_side_they_are_seen_from_and_lines_for_their_length() {
        let of = |view: &str| step_of("drill", Kind::Place, view, "");
        assert_eq!(of(r#","view":"white""#), Some(CourseStep::WhiteSquares));
        assert_eq!(of(r#","view":"black""#), Some(CourseStep::BlackSquares));
        assert_eq!(of(""), None);
        let over = |exercise, kind, plies, men, stretch: &str| {
            step_of(exercise, kind, "", &hard(plies, men, stretch))
        };
        let ahead = |plies| over("ahead", Kind::Attacks, plies, 32, "");
        assert_eq!(ahead(4), Some(CourseStep::FourPlies));
        assert_eq!(ahead(5), None);
        let few = |men| over("drill", Kind::Attacks, 2, men, "");
        let steps = [3, 5, 8, 16, 17].map(few);
        let pieces = CourseStep::ThreePieces as usize..=CourseStep::AllPieces as usize;
        assert_eq!(
            steps[..],
            CourseStep::ALL[pieces]
                .iter()
                .copied()
                .map(Some)
                .collect::<Vec<_>>()
        );
        let replay = |stretch: &str| over("replay", Kind::Attacks, 40, 32, stretch);
        assert_eq!(replay(r#","stretch":4"#), Some(CourseStep::GamesByFour));
        assert_eq!(replay(""), Some(CourseStep::GamesByEight));
        assert_eq!(replay(r#","stretch":24"#), Some(CourseStep::GamesBySixteen));
        assert_eq!(replay(r#","stretch":40"#), Some(CourseStep::GamesToTheEnd));
        let rebuilt = over("replay", Kind::Rebuild, 40, 32, "");
        assert_eq!(rebuilt, Some(CourseStep::Rebuilding));
        let played = |plies, men| over("play", Kind::Turn, plies, men, "");
        assert_eq!(
            [
                played(0, 8),
                played(3, 8),
                played(0, 32),
                played(10, 32),
                played(11, 32)
            ],
            [
                Some(CourseStep::FewInSight),
                Some(CourseStep::FewUnseen),
                None,
                Some(CourseStep::GamesAtAGlance),
                Some(CourseStep::UnseenGames)
            ]
        );
        let said = |plies| over("recite", Kind::Played, plies, 32, "");
        assert_eq!(
            [said(16), said(17)],
            [Some(CourseStep::Chunks), Some(CourseStep::Recital)]
        );
    }

    #[test]
    fn a_step_is_not_shown_as_passed_while_an_easier_one_that_it_needs_fails() {
        let mut course = taken(CourseStep::Span, &[(true, 1); 20]);
        assert!(course.standing(CourseStep::Span).is_passed());
        for n in 20..30 {
            course.take(second(n), CourseStep::Aligned, n % 2 == 0, Some(1));
        }
        let fails = CourseStep::Aligned;
        assert_eq!(
            course.standing(CourseStep::Span),
            StepStatus::Waiting { fails }
        );
        for n in 30..50 {
            course.take(second(n), CourseStep::Aligned, true, Some(1));
        }
        assert!(course.standing(CourseStep::Span).is_passed());
    }

    #[test]
    fn steps_below_the_start_are_known_until_they_fail() {
        let mut course = Course::default();
        course.hear(second(0), CourseEvent::Started(CourseStep::FourPlies));
        assert_eq!(course.current(), Some(CourseStep::FourPlies));
        let colors = |course: &Course| course.standing(CourseStep::Colors);
        assert_eq!(colors(&course), StepStatus::Known { right: 0, of: 0 });
        course.take(second(1), CourseStep::Colors, false, Some(1));
        assert_eq!(colors(&course), StepStatus::Known { right: 0, of: 1 });
        for n in 2..11 {
            course.take(second(n), CourseStep::Colors, false, Some(1));
        }
        assert_eq!(colors(&course), StepStatus::Answering { right: 0, of: 10 });
        assert_eq!(course.current(), Some(CourseStep::Colors));
    }

    #[test]
    fn the_course_begins_behind_the_highest_step_that_the_latest_placement_found() {
        let mut course = Course::default();
        let mut place = |session: &str, step, right| {
            let event = CourseEvent::Placed(session.to_owned(), step, right, Some(1));
            course.hear(second(0), event);
            course.current()
        };
        place("a", CourseStep::BlackSquares, true);
        let found = place("a", CourseStep::BlackSquares, true);
        assert_eq!(found, Some(CourseStep::Colors));
        place("a", CourseStep::Route, true);
        let found = place("a", CourseStep::Route, true);
        assert_eq!(found, Some(CourseStep::ThreePieces));
        let found = place("b", CourseStep::BlackSquares, false);
        assert_eq!(found, Some(CourseStep::WhiteSquares));
        assert_eq!(course.placed(), [(CourseStep::BlackSquares, 0, 1)]);
    }

    #[test]
    fn what_is_found_with_help_is_taught_and_passes_nothing() {
        let mut course = Course::default();
        let step = CourseStep::Colors;
        assert!(course.is_to_be_taught(step));
        for n in 0..TAUGHT_AT_ONCE {
            course.hear(second(n), CourseEvent::Taught(step));
        }
        assert_eq!(course.standing(step), StepStatus::Untried);
        assert!(!course.is_to_be_taught(step));
        for n in 0..10 {
            course.take(second(n), step, false, Some(1));
        }
        assert!(course.is_to_be_taught(step), "all was missed");
    }

    #[test]
    fn accuracy_comes_first_then_pace() {
        let step = CourseStep::Aligned;
        let standing = |answers: &[(bool, u64)]| taken(step, answers).standing(step);
        assert_eq!(standing(&[]), StepStatus::Untried);
        assert_eq!(
            standing(&[(true, 1), (false, 1)]),
            StepStatus::Answering { right: 1, of: 2 }
        );
        let nineteen = [(true, 100); 19];
        assert!(matches!(standing(&nineteen), StepStatus::Answering { .. }));
        let mut answers = vec![(true, 4_000); 18];
        answers.extend([(false, 1); 2]);
        assert_eq!(
            standing(&answers),
            StepStatus::Passed {
                on: second(19),
                right: 18,
                of: 20,
                median_millis: Some(4_000)
            }
        );
        answers[..10].fill((true, 4_001));
        answers[10..18].fill((true, 100));
        assert_eq!(
            standing(&answers),
            StepStatus::Accurate {
                right: 18,
                of: 20,
                median_millis: Some(4_001)
            }
        );
        answers[9] = (true, 100);
        assert!(standing(&answers).is_passed());
        answers[0] = (false, 1);
        assert_eq!(
            standing(&answers),
            StepStatus::Answering { right: 17, of: 20 }
        );
    }

    #[test]
    fn who_is_right_and_slow_goes_on_and_comes_back_at_last() {
        let (slow, next) = (CourseStep::WhiteSquares, CourseStep::BlackSquares);
        let mut course = taken(slow, &[(true, 60_000); 20]);
        assert!(matches!(course.standing(slow), StepStatus::Accurate { .. }));
        assert_eq!(course.current(), Some(next));
        assert!(course.is_reviewed(slow));
        // A few misses do not send anybody back; as many as lose a step do.
        let miss = |course: &mut Course, n| course.take(second(n), slow, false, Some(1));
        (20..28).for_each(|n| miss(&mut course, n));
        assert_eq!(course.current(), Some(next));
        miss(&mut course, 28);
        assert_eq!(course.current(), Some(slow));
        for (n, step) in CourseStep::ALL.into_iter().enumerate() {
            let millis = if step == slow { 60_000 } else { 1 };
            (0..30).for_each(|of| course.take(second(30 * n + of), step, true, Some(millis)));
        }
        assert_eq!(course.current(), Some(slow), "nothing else is left");
        (0..20).for_each(|n| course.take(second(n), slow, true, Some(1)));
        assert!(course.standing(slow).is_passed() && !course.is_reviewed(slow));
        assert_eq!(course.current(), None);
    }

    #[test]
    fn a_passed_step_is_lost_only_when_it_is_forgotten() {
        let step = CourseStep::Aligned;
        let mut course = taken(step, &[(true, 1); 22]);
        for n in 22..30 {
            course.take(second(n), step, false, Some(1));
        }
        let still = StepStatus::Passed {
            on: second(19),
            right: 12,
            of: 20,
            median_millis: Some(1),
        };
        assert_eq!(course.standing(step), still);
        course.take(second(30), step, false, Some(1));
        assert_eq!(
            course.standing(step),
            StepStatus::Answering { right: 11, of: 20 }
        );
        for n in 31..34 {
            course.take(second(n), step, true, Some(1));
        }
        assert!(!course.standing(step).is_passed());
        for n in 34..54 {
            course.take(second(n), step, true, Some(1));
        }
        let StepStatus::Passed { on, .. } = course.standing(step) else {
            panic!("{:?}", course.standing(step));
        };
        assert!(on > second(34), "passed anew");
    }

    #[test]
    fn an_answer_of_unknown_time_is_accurate_and_meets_no_time_mark() {
        let step = CourseStep::Aligned;
        let standing = |untimed: usize, quick: usize| {
            let mut course = Course::default();
            for n in 0..20 {
                let millis =
                    (n >= untimed).then_some(if n < untimed + quick { 100 } else { 9_000 });
                course.take(second(n), step, true, millis);
            }
            course.standing(step)
        };
        let untold = StepStatus::Accurate {
            right: 20,
            of: 20,
            median_millis: None,
        };
        assert_eq!(standing(20, 0), untold);
        assert_eq!(standing(11, 9), untold);
        assert!(standing(10, 10).is_passed());
        assert_eq!(
            standing(10, 4),
            StepStatus::Accurate {
                right: 20,
                of: 20,
                median_millis: Some(9_000)
            }
        );
    }
}
