//! How far ahead the learner saw, over time.

use std::collections::{BTreeMap, VecDeque};

use jiff::Timestamp;
use jiff::civil::Date;

use crate::learner::pace::{Answer, Reach};

/// The reach of today is measured by so many answers at most, the latest.
pub const LATELY: usize = 200;

/// The answers that tell how far ahead the learner saw.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Ahead {
    lately: VecDeque<(Timestamp, Answer)>,
    /// Answers of each month, those that tell the same counted together.
    months: BTreeMap<Month, BTreeMap<(u32, u64, bool), u32>>,
    answers: u32,
}

/// A month of a year, in UTC.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Month {
    /// The year.
    pub year: i16,
    /// The month, 1 to 12.
    pub month: i8,
}

/// The reach in one month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthReach {
    /// The month.
    pub month: Month,
    /// How many answers it was measured by.
    pub answers: u32,
    /// The reach.
    pub reach: Reach,
}

impl Month {
    /// Returns the month that a time lies in.
    #[must_use]
    pub fn of(time: Timestamp) -> Month {
        let date: Date = jiff::tz::Offset::UTC.to_datetime(time).date();
        Month {
            year: date.year(),
            month: date.month(),
        }
    }
}

impl Ahead {
    pub(super) fn take(&mut self, time: Timestamp, answer: Answer) {
        let cells = self.months.entry(Month::of(time)).or_default();
        let cell = (answer.plies, answer.guess.to_bits(), answer.right);
        *cells.entry(cell).or_default() += 1;
        self.answers += 1;
        self.insert(time, answer);
    }

    /// Keeps an answer among the latest; one that stands in the journal after a later one goes where it belongs.
    fn insert(&mut self, time: Timestamp, answer: Answer) {
        let place = self.lately.partition_point(|(other, _)| *other <= time);
        self.lately.insert(place, (time, answer));
        if self.lately.len() > LATELY {
            self.lately.pop_front();
        }
    }

    pub(super) fn join(&mut self, later: Ahead) {
        for (month, cells) in later.months {
            let known = self.months.entry(month).or_default();
            for (cell, count) in cells {
                *known.entry(cell).or_default() += count;
            }
        }
        for (time, answer) in later.lately {
            self.insert(time, answer);
        }
        self.answers += later.answers;
    }

    /// Measures the reach by the latest answers.
    pub(super) fn reach(&self) -> Reach {
        let lately: Vec<Answer> = self.lately.iter().map(|(_, answer)| *answer).collect();
        Reach::of(&lately)
    }

    /// Measures the reach of every month that has an answer, oldest first, each when it is asked for.
    pub(super) fn months(&self) -> impl DoubleEndedIterator<Item = MonthReach> {
        self.months.iter().map(|(month, cells)| {
            let answers: Vec<Answer> = cells
                .iter()
                .flat_map(|((plies, guess, right), count)| {
                    let answer = Answer {
                        plies: *plies,
                        guess: f64::from_bits(*guess),
                        right: *right,
                    };
                    std::iter::repeat_n(answer, *count as usize)
                })
                .collect();
            MonthReach {
                month: *month,
                answers: cells.values().sum(),
                reach: Reach::of(&answers),
            }
        })
    }
}
