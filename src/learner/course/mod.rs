//! The course: steps from the names of squares to whole games, and how far a learner has come.

mod run;
mod standing;
mod step;

pub use standing::{LOST, PassMark, Standing};
pub use step::Step;

use jiff::Timestamp;

use crate::learner::AnswerRecord;
use crate::question::Verdict;
use run::{Run, Tried};

/// How a learner stands at every step, gathered from the first tries in their order.
///
/// ```
/// use sansvoir::learner::course::{Course, Standing, Step};
///
/// let time = "2026-03-01T18:20:04Z".parse()?;
/// let mut course = Course::default();
/// for _ in 0..20 {
///     course.take(time, Step::WhiteSquares, true, Some(1_900));
/// }
/// assert!(course.standing(Step::WhiteSquares).is_passed());
/// assert_eq!(course.current(), Some(Step::BlackSquares));
/// assert_eq!(course.standing(Step::Colors), Standing::Untried);
/// # Ok::<(), jiff::Error>(())
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Course {
    runs: [Run; Step::ALL.len()],
}

impl Course {
    /// Takes the next answer at a step: when it was given, whether it was wholly right, and the
    /// milliseconds it took, where that is known.
    pub fn take(&mut self, time: Timestamp, step: Step, right: bool, millis: Option<u64>) {
        let tried = Tried {
            time,
            right,
            millis,
        };
        self.runs[step as usize].take(step.mark(), tried);
    }

    /// Takes the next answer of a journal, where it is a first try.
    pub fn take_answer(&mut self, answer: &AnswerRecord) {
        if let Some(step) = Step::of_answer(answer).filter(|_| !answer.repeat) {
            let right = answer.verdict == Verdict::Right;
            self.take(answer.stamp.time, step, right, answer.millis);
        }
    }

    /// Joins what was gathered from a later part of the same journal; the same comes of it as if all had
    /// been taken one after the other.
    pub fn join(&mut self, later: Course) {
        for (step, run) in Step::ALL.into_iter().zip(later.runs) {
            self.runs[step as usize].join(step.mark(), run);
        }
    }

    /// Returns how the learner stands at a step.
    #[must_use]
    pub fn standing(&self, step: Step) -> Standing {
        self.runs[step as usize].standing(step.mark())
    }

    /// Returns the first step that is not passed; `None` at the end of the course.
    #[must_use]
    pub fn current(&self) -> Option<Step> {
        Step::ALL
            .into_iter()
            .find(|step| !self.standing(*step).is_passed())
    }
}

#[cfg(test)]
mod tests {
    use shakmaty::Color;

    use super::*;
    use crate::exercise::Dice;
    use crate::question::Kind;

    /// A second of its own for every answer.
    fn second(n: usize) -> Timestamp {
        Timestamp::from_second(i64::try_from(n).unwrap()).unwrap()
    }

    fn taken(step: Step, answers: &[(bool, u64)]) -> Course {
        let mut course = Course::default();
        for (n, (right, millis)) in answers.iter().enumerate() {
            course.take(second(n), step, *right, Some(*millis));
        }
        course
    }

    #[test]
    fn the_steps_stand_in_the_order_of_their_numbers_and_have_names_of_their_own() {
        for (n, step) in Step::ALL.into_iter().enumerate() {
            assert_eq!(step as usize, n);
            let same = Step::ALL.iter().filter(|other| other.name() == step.name());
            assert_eq!(same.count(), 1);
        }
    }

    #[test]
    fn every_kind_counts_for_a_step_in_every_exercise_that_asks_it() {
        for kind in Kind::BARE {
            let view = Some(Color::White);
            assert!(Step::of("drill", kind, view, None).is_some(), "{kind}");
        }
        for kind in Kind::LINE {
            for exercise in ["drill", "replay", "recite"] {
                assert!(Step::of(exercise, kind, None, None).is_some(), "{kind}");
            }
        }
    }

    #[test]
    fn squares_count_for_the_side_they_are_seen_from_and_lines_for_their_length() {
        let of = |view| Step::of("drill", Kind::Place, view, None);
        assert_eq!(of(Some(Color::White)), Some(Step::WhiteSquares));
        assert_eq!(of(Some(Color::Black)), Some(Step::BlackSquares));
        assert_eq!(of(None), None);
        let ahead = |plies| Step::of("ahead", Kind::Attacks, None, plies);
        assert_eq!(ahead(Some(4)), Some(Step::FourPlies));
        assert_eq!(ahead(Some(5)), None);
        assert_eq!(ahead(None), None);
        let replay = |kind| Step::of("replay", kind, None, Some(8));
        assert_eq!(replay(Kind::Attacks), Some(Step::Games));
        assert_eq!(replay(Kind::Rebuild), Some(Step::Rebuilding));
        assert_eq!(
            Step::view_in(r#"{"square":"c6","view":"black"}"#),
            Some(Color::Black)
        );
        assert_eq!(Step::view_in(r#"{"square":"c6"}"#), None);
    }

    #[test]
    fn accuracy_comes_first_then_pace() {
        let step = Step::Colors;
        let standing = |answers: &[(bool, u64)]| taken(step, answers).standing(step);
        assert_eq!(standing(&[]), Standing::Untried);
        assert_eq!(
            standing(&[(true, 1), (false, 1)]),
            Standing::Answering { right: 1, of: 2 }
        );
        let nineteen = [(true, 100); 19];
        assert!(matches!(standing(&nineteen), Standing::Answering { .. }));
        let mut answers = vec![(true, 2_500); 18];
        answers.extend([(false, 1); 2]);
        assert_eq!(
            standing(&answers),
            Standing::Passed {
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
            Standing::Accurate {
                median_millis: Some(2_501)
            }
        );
        answers[9] = (true, 100);
        assert!(standing(&answers).is_passed());
        answers[0] = (false, 1);
        assert_eq!(
            standing(&answers),
            Standing::Answering { right: 17, of: 20 }
        );
    }

    #[test]
    fn a_passed_step_is_lost_only_when_it_is_forgotten() {
        let step = Step::Aligned;
        let mut course = taken(step, &[(true, 1); 22]);
        for n in 22..30 {
            course.take(second(n), step, false, Some(1));
        }
        let still = Standing::Passed {
            on: second(19),
            right: 12,
            of: 20,
            median_millis: Some(1),
        };
        assert_eq!(course.standing(step), still);
        course.take(second(30), step, false, Some(1));
        assert_eq!(
            course.standing(step),
            Standing::Answering { right: 11, of: 20 }
        );
        for n in 31..34 {
            course.take(second(n), step, true, Some(1));
        }
        assert!(!course.standing(step).is_passed());
        for n in 34..54 {
            course.take(second(n), step, true, Some(1));
        }
        let Standing::Passed { on, .. } = course.standing(step) else {
            panic!("{:?}", course.standing(step));
        };
        assert!(on > second(34), "passed anew");
    }

    #[test]
    fn an_answer_of_unknown_time_is_accurate_and_meets_no_time_mark() {
        let step = Step::Colors;
        let standing = |untimed: usize, quick: usize| {
            let mut course = Course::default();
            for n in 0..20 {
                let millis =
                    (n >= untimed).then_some(if n < untimed + quick { 100 } else { 9_000 });
                course.take(second(n), step, true, millis);
            }
            course.standing(step)
        };
        let untold = Standing::Accurate {
            median_millis: None,
        };
        assert_eq!(standing(20, 0), untold);
        assert_eq!(standing(11, 9), untold);
        assert!(standing(10, 10).is_passed());
        assert_eq!(
            standing(10, 4),
            Standing::Accurate {
                median_millis: Some(9_000)
            }
        );
    }

    #[test]
    fn a_journal_cut_anywhere_and_joined_again_comes_to_the_same() {
        let mut dice = Dice::new(5, 0);
        for round in 0..60 {
            let length = dice.below(90);
            let share = 12 + dice.below(9);
            let answers: Vec<(Timestamp, Step, bool, u64)> = (0..length)
                .map(|n| {
                    let step = Step::ALL[dice.below(2)];
                    let right = dice.chance(share, 20);
                    (second(n), step, right, dice.below(4_000) as u64)
                })
                .collect();
            let whole = |part: &[(Timestamp, Step, bool, u64)]| {
                let mut course = Course::default();
                for (time, step, right, millis) in part {
                    course.take(*time, *step, *right, Some(*millis));
                }
                course
            };
            let (one, two) = (dice.below(length + 1), dice.below(length + 1));
            let (one, two) = (one.min(two), one.max(two));
            let mut joined = whole(&answers[..one]);
            joined.join(whole(&answers[one..two]));
            joined.join(whole(&answers[two..]));
            assert_eq!(joined, whole(&answers), "round {round}");
            let mut later = whole(&answers[one..two]);
            later.join(whole(&answers[two..]));
            let mut joined = whole(&answers[..one]);
            joined.join(later);
            assert_eq!(joined, whole(&answers), "round {round}");
        }
    }
}
