//! How the answers of a kind went lately and before.

use std::collections::BTreeMap;

use jiff::Timestamp;

use super::Score;
use crate::learner::Glance;

/// Lately is so many weeks.
pub const WEEKS_LATELY: i64 = 4;

const SECONDS_A_WEEK: i64 = 7 * 24 * 3600;

/// How the answers of a kind went, week by week.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Weeks(BTreeMap<i64, Score>);

/// How the answers of a kind went.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Trend {
    /// All of them.
    pub all: Score,
    /// Those of the last [`WEEKS_LATELY`] weeks.
    pub lately: Score,
    /// Those before.
    pub before: Score,
}

impl Weeks {
    pub(super) fn take(&mut self, answer: &Glance<'_>) {
        let week = week(answer.time);
        self.0.entry(week).or_default().take(answer);
    }

    pub(super) fn join(&mut self, later: Weeks) {
        for (week, score) in later.0 {
            self.0.entry(week).or_default().join(&score);
        }
    }

    pub(super) fn trend(&self, now: Timestamp) -> Trend {
        let first_of_lately = week(now) - WEEKS_LATELY + 1;
        let mut trend = Trend::default();
        for (week, score) in &self.0 {
            trend.all.join(score);
            if *week >= first_of_lately {
                trend.lately.join(score);
            } else {
                trend.before.join(score);
            }
        }
        trend
    }
}

impl Trend {
    /// Returns by how much the share of right answers has changed, -1 to 1; `None` where there are
    /// fewer than `enough` answers lately or before.
    #[must_use]
    pub fn change(&self, enough: u32) -> Option<f64> {
        let told = |score: &Score| (score.answers() >= enough).then(|| score.share()).flatten();
        Some(told(&self.lately)? - told(&self.before)?)
    }
}

/// The week that a time lies in, counted from the epoch in whole weeks of UTC.
fn week(time: Timestamp) -> i64 {
    time.as_second().div_euclid(SECONDS_A_WEEK)
}
