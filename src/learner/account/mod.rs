//! What all answers of a learner come to: gathered in one sweep through the journal, in memory that
//! grows with it by the times of the right answers alone.

mod ahead;
mod in_order;
mod missed;
mod score;
mod squares;
mod times;
mod trend;

use std::collections::{BTreeMap, HashMap};
use std::num::NonZeroUsize;

use jiff::Timestamp;

pub use ahead::{LATELY, Month, MonthReach};
pub use score::Score;
pub use squares::{Chart, Mistaken, SquareMap};
pub use times::Times;
pub use trend::{Trend, WEEKS_LATELY};

use super::course::{Course, Step};
use super::pace::{Answer, Reach};
use super::{Gather, Glance, Journal, JournalError, Swept};
use crate::question::{BareQuestion, Kind, Question, Verdict};
use ahead::Ahead;
use in_order::InOrder;
use missed::Missed;
use trend::Weeks;

/// The account of one learner, by the first tries.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Account {
    first: Option<Timestamp>,
    last: Option<Timestamp>,
    answers: u64,
    kinds: BTreeMap<Kind, Weeks>,
    maps: [SquareMap; Chart::ALL.len()],
    recall: BTreeMap<u32, Recall>,
    missed: Missed,
    mistaken: HashMap<Mistaken, u32>,
    ahead: Ahead,
    course: Course,
    /// Whether an answer stands in the journal behind one that was given later.
    out_of_order: bool,
}

/// How many answers were right at some plies after the board was last seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Recall {
    /// All answers.
    pub answers: u32,
    /// Those that were right.
    pub right: u32,
}

/// A question over the bare board that was missed more than once.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct MissedOften {
    /// The question.
    pub question: BareQuestion,
    /// How often it was asked.
    pub asked: u32,
    /// How often its answer was not right.
    pub missed: u32,
}

impl Gather for Account {
    fn take(&mut self, answer: &Glance<'_>) {
        if answer.repeat {
            return;
        }
        let time = answer.time;
        self.first = Some(self.first.map_or(time, |first| first.min(time)));
        self.out_of_order |= Some(time) < self.last;
        self.last = self.last.max(Some(time));
        self.answers += 1;
        self.kinds.entry(answer.kind).or_default().take(answer);
        if let Some((chart, square)) = squares::square(answer) {
            self.maps[chart as usize].take(square, answer);
        }
        self.missed.take(answer);
        if matches!(answer.verdict, Verdict::Part | Verdict::Wrong)
            && let Some(mistaken) = squares::mistaken(answer)
        {
            *self.mistaken.entry(mistaken).or_default() += 1;
        }
        if let Some(plies) = answer.plies {
            let right = answer.verdict == Verdict::Right;
            let recall = self.recall.entry(plies.min(MOST_PLIES)).or_default();
            recall.answers += 1;
            recall.right += u32::from(right);
        }
        if let Some(step) = step(answer) {
            let right = answer.verdict == Verdict::Right;
            self.course.take(time, step, right, answer.millis);
        }
        if let Some(ahead) = Answer::at_a_glance(answer) {
            self.ahead.take(time, ahead);
        }
    }

    fn join(&mut self, later: Account) {
        let goes_back = later.first.is_some_and(|first| Some(first) < self.last);
        self.out_of_order |= later.out_of_order || goes_back;
        self.course.join(later.course);
        self.first = [self.first, later.first].into_iter().flatten().min();
        self.last = self.last.max(later.last);
        self.answers += later.answers;
        for (kind, weeks) in later.kinds {
            self.kinds.entry(kind).or_default().join(weeks);
        }
        for (map, more) in self.maps.iter_mut().zip(&later.maps) {
            map.join(more);
        }
        for (plies, more) in later.recall {
            let recall = self.recall.entry(plies).or_default();
            recall.answers += more.answers;
            recall.right += more.right;
        }
        self.missed.join(later.missed);
        for (mistaken, times) in later.mistaken {
            *self.mistaken.entry(mistaken).or_default() += times;
        }
        self.ahead.join(later.ahead);
    }
}

/// Answers from further on count as from here.
const MOST_PLIES: u32 = 1_000;
/// The last ply of each band of recall but the last.
const BAND_ENDS: [u32; 8] = [0, 2, 4, 8, 12, 16, 24, 40];

/// The step of the course that an answer counts for.
fn step(answer: &Glance<'_>) -> Option<Step> {
    let seen = matches!(answer.kind, Kind::Name | Kind::Place);
    let view = seen.then(|| Step::view_in(answer.subject)).flatten();
    Step::of(answer.exercise, answer.kind, view, answer.plies)
}

impl Account {
    /// Gathers the account of a journal's learner, on as many threads.
    ///
    /// Where answers stand out of the order in which they were given, as after two journals were
    /// merged, the course is gone through once more in the order of their times; memory then grows by
    /// 32 bytes an answer.
    ///
    /// # Errors
    ///
    /// As [`Journal::sweep`].
    pub fn of(journal: &Journal, threads: NonZeroUsize) -> Result<Swept<Account>, JournalError> {
        let mut swept = journal.sweep::<Account>(threads)?;
        if swept.gathered.out_of_order {
            swept.gathered.course = journal.sweep::<InOrder>(threads)?.gathered.course();
        }
        Ok(swept)
    }

    /// Returns how the learner stands in the course.
    #[must_use]
    pub fn course(&self) -> &Course {
        &self.course
    }

    /// Returns how many answers there are, first tries alone.
    #[must_use]
    pub fn answers(&self) -> u64 {
        self.answers
    }

    /// Returns the times of the first and the last answer.
    #[must_use]
    pub fn from_to(&self) -> Option<(Timestamp, Timestamp)> {
        self.first.zip(self.last)
    }

    /// Returns the kinds that were asked, in the order of the climb, with how their answers went
    /// altogether, lately and before. Lately is the four weeks up to `now`; answers that the journal
    /// dates later than that, from a clock that went backwards, count as of now.
    #[must_use]
    pub fn kinds(&self, now: Timestamp) -> Vec<(Kind, Trend)> {
        Kind::ALL
            .into_iter()
            .filter_map(|kind| Some((kind, self.kinds.get(&kind)?.trend(now))))
            .collect()
    }

    /// Returns a map of the squares.
    #[must_use]
    pub fn map(&self, chart: Chart) -> &SquareMap {
        &self.maps[chart as usize]
    }

    /// Returns how many answers were right, by the plies since the board was last seen.
    #[must_use]
    pub fn recall(&self) -> &BTreeMap<u32, Recall> {
        &self.recall
    }

    /// Returns the same in bands of plies, those without an answer left out: the first and last ply of
    /// each, `u32::MAX` where it has no end.
    #[must_use]
    pub fn recall_bands(&self) -> Vec<((u32, u32), Recall)> {
        let ends = BAND_ENDS.into_iter();
        let bands = std::iter::once(0)
            .chain(BAND_ENDS.into_iter().map(|end| end + 1))
            .zip(ends.chain([u32::MAX]));
        bands
            .filter_map(|(from, to)| {
                let mut all = Recall::default();
                for recall in self.recall.range(from..=to).map(|(_, recall)| recall) {
                    all.answers += recall.answers;
                    all.right += recall.right;
                }
                (all.answers > 0).then_some(((from, to), all))
            })
            .collect()
    }

    /// Returns the questions that were missed most often, no more than `number`.
    #[must_use]
    pub fn missed(&self, number: usize) -> Vec<MissedOften> {
        let most = self.missed.most(number).into_iter();
        most.filter_map(|(kind, subject, tries)| {
            let text = format!(r#"{{"kind":"{kind}","subject":{subject}}}"#);
            let Ok(Question::Bare(question)) = serde_json::from_str(&text) else {
                return None;
            };
            Some(MissedOften {
                question,
                asked: tries.asked,
                missed: tries.missed,
            })
        })
        .collect()
    }

    /// Returns which squares were taken for which most often and how often, no more than `number`.
    #[must_use]
    pub fn mistaken(&self, number: usize) -> Vec<(Mistaken, u32)> {
        let mut all: Vec<(Mistaken, u32)> = self
            .mistaken
            .iter()
            .filter(|(_, times)| **times > 1)
            .map(|(mistaken, times)| (*mistaken, *times))
            .collect();
        all.sort_by_key(|(mistaken, times)| {
            (
                std::cmp::Reverse(*times),
                mistaken.view.is_black(),
                mistaken.asked,
                mistaken.named,
            )
        });
        all.truncate(number);
        all
    }

    /// Returns how far ahead the learner sees, by the latest [`LATELY`] answers of `ahead`.
    #[must_use]
    pub fn reach(&self) -> Reach {
        self.ahead.reach()
    }

    /// Returns how far ahead the learner saw in each month that has an answer of `ahead`, oldest first.
    /// Each month is measured when it is asked for.
    #[must_use]
    pub fn reach_by_month(&self) -> impl DoubleEndedIterator<Item = MonthReach> {
        self.ahead.months()
    }
}
