//! What all answers of a learner come to: gathered in one sweep through the journal, in memory that
//! does not grow with it.

mod ahead;
mod missed;
mod score;
mod squares;
mod times;
mod trend;

use std::collections::{BTreeMap, HashMap};

use jiff::Timestamp;

pub use ahead::{LATELY, Month, MonthReach};
pub use score::Score;
pub use squares::{Chart, Mistaken, SquareMap};
pub use times::Times;
pub use trend::{Trend, WEEKS_LATELY};

use super::pace::{Answer, Reach};
use super::{Gather, Glance};
use crate::question::{Kind, Question, Verdict};
use ahead::Ahead;
use missed::Missed;
use trend::Weeks;

/// The account of one learner.
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
    pub question: Question,
    /// How often it was asked.
    pub asked: u32,
    /// How often its answer was not right.
    pub missed: u32,
}

impl Gather for Account {
    fn take(&mut self, answer: &Glance<'_>) {
        let time = answer.time;
        self.first = Some(self.first.map_or(time, |first| first.min(time)));
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
        if let Some(ahead) = Answer::at_a_glance(answer) {
            self.ahead.take(time, ahead);
        }
    }

    fn join(&mut self, later: Account) {
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

impl Account {
    /// Returns how many answers there are.
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

    /// Returns the questions that were missed most often, no more than `number`.
    #[must_use]
    pub fn missed(&self, number: usize) -> Vec<MissedOften> {
        let most = self.missed.most(number).into_iter();
        most.filter_map(|(kind, subject, tries)| {
            let text = format!(r#"{{"kind":"{kind}","subject":{subject}}}"#);
            Some(MissedOften {
                question: serde_json::from_str(&text).ok()?,
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

    /// Returns how far ahead the learner saw in each month that has an answer of `ahead`.
    #[must_use]
    pub fn reach_by_month(&self) -> Vec<MonthReach> {
        self.ahead.months()
    }
}
