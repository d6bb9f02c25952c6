//! The course: steps from the names of squares to whole games, and how far a learner has come.

mod step;

use std::collections::VecDeque;

use jiff::Timestamp;

pub use step::{CourseStep, PassMark};

use crate::exercise::median;
use crate::learner::AnswerRecord;
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
}

/// How a learner stands at a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StepStatus {
    /// No answer yet.
    Untried,
    /// Not accurate enough yet, or not asked often enough.
    Answering {
        /// The right ones among the latest answers.
        right: usize,
        /// How many latest answers there are, as many as the mark needs at most.
        of: usize,
    },
    /// Accurate enough, and too slow yet.
    Accurate {
        /// The median time of the right ones among the latest answers; `None` where too few of them
        /// have a time that is known.
        median_millis: Option<u64>,
    },
    /// Passed; it stays so until fewer than twelve of the latest answers are right.
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

/// A step that was passed is lost again when fewer of the latest twenty answers are right.
///
/// What comes back later is what a learner knows worst, so that the latest answers look worse than the
/// learner is; and chance plays its part. The number is our own choice (no source): by a binomial count,
/// a learner who is right nine times in ten has fewer than 12 right in 1 window of 16,000, one who
/// guesses at a yes or no in 3 of 4.
const LOST: usize = 12;

impl Course {
    /// Takes the next answer at a step: when it was given, whether it was wholly right, and the
    /// milliseconds it took, where that is known.
    pub fn take(&mut self, time: Timestamp, step: CourseStep, right: bool, millis: Option<u64>) {
        self.runs[step as usize].take(step.mark(), time, (right, millis));
    }

    /// Takes the next answer of a journal, where it is a first try.
    pub fn take_answer(&mut self, answer: &AnswerRecord) {
        if let Some(step) = CourseStep::of_answer(answer).filter(|_| answer.counts()) {
            let right = answer.verdict == Verdict::Right;
            self.take(answer.stamp.time, step, right, answer.millis);
        }
    }

    /// Returns how the learner stands at a step.
    pub fn standing(&self, step: CourseStep) -> StepStatus {
        self.runs[step as usize].standing(step.mark())
    }

    /// Returns the first step that is not passed; `None` at the end of the course.
    pub fn current(&self) -> Option<CourseStep> {
        CourseStep::ALL
            .into_iter()
            .find(|step| !self.standing(*step).is_passed())
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
        if self.right().count() < LOST {
            self.passed = None;
        } else if self.meets(mark) {
            self.passed.get_or_insert(now);
        }
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
    use shakmaty::Color;

    use super::*;
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

    #[test]
    fn every_kind_counts_for_a_step_in_every_exercise_that_asks_it() {
        for kind in Kind::BARE {
            let view = Some(Color::White);
            assert!(
                CourseStep::of("drill", kind, view, None).is_some(),
                "{kind}"
            );
        }
        for kind in Kind::LINE {
            for exercise in ["drill", "replay", "recite"] {
                assert!(
                    CourseStep::of(exercise, kind, None, None).is_some(),
                    "{kind}"
                );
            }
        }
    }

    #[test]
    fn squares_count_for_the_side_they_are_seen_from_and_lines_for_their_length() {
        let of = |view| CourseStep::of("drill", Kind::Place, view, None);
        assert_eq!(of(Some(Color::White)), Some(CourseStep::WhiteSquares));
        assert_eq!(of(Some(Color::Black)), Some(CourseStep::BlackSquares));
        assert_eq!(of(None), None);
        let ahead = |plies| CourseStep::of("ahead", Kind::Attacks, None, plies);
        assert_eq!(ahead(Some(4)), Some(CourseStep::FourPlies));
        assert_eq!(ahead(Some(5)), None);
        assert_eq!(ahead(None), None);
        let replay = |kind| CourseStep::of("replay", kind, None, Some(8));
        assert_eq!(replay(Kind::Attacks), Some(CourseStep::Games));
        assert_eq!(replay(Kind::Rebuild), Some(CourseStep::Rebuilding));
    }

    #[test]
    fn accuracy_comes_first_then_pace() {
        let step = CourseStep::Colors;
        let standing = |answers: &[(bool, u64)]| taken(step, answers).standing(step);
        assert_eq!(standing(&[]), StepStatus::Untried);
        assert_eq!(
            standing(&[(true, 1), (false, 1)]),
            StepStatus::Answering { right: 1, of: 2 }
        );
        let nineteen = [(true, 100); 19];
        assert!(matches!(standing(&nineteen), StepStatus::Answering { .. }));
        let mut answers = vec![(true, 2_500); 18];
        answers.extend([(false, 1); 2]);
        assert_eq!(
            standing(&answers),
            StepStatus::Passed {
                on: second(19),
                right: 18,
                of: 20,
                median_millis: Some(2_500)
            }
        );
        answers[..10].fill((true, 2_501));
        answers[10..18].fill((true, 100));
        assert_eq!(
            standing(&answers),
            StepStatus::Accurate {
                median_millis: Some(2_501)
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
        let step = CourseStep::Colors;
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
            median_millis: None,
        };
        assert_eq!(standing(20, 0), untold);
        assert_eq!(standing(11, 9), untold);
        assert!(standing(10, 10).is_passed());
        assert_eq!(
            standing(10, 4),
            StepStatus::Accurate {
                median_millis: Some(9_000)
            }
        );
    }
}
