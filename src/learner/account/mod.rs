//! What all answers of a learner come to: gathered in one go through the journal, in memory that grows with
//! it by some 60 bytes an answer.

mod games;
mod mistakes;
mod score;

use std::collections::{BTreeMap, HashMap};
use std::ops::Range;

use jiff::Timestamp;
use jiff::civil::Date;
use jiff::tz::Offset;

pub use games::{Games, Phase};
pub use mistakes::MissedOften;
pub use score::{Chart, SquareMap, Trend};

use super::course::{Course, CourseEvent};
use super::pace::{Answer, Guesses, Reach, Telling};
use super::{AnswerRecord, BrokenLines, Journal, JournalError, LearnerName, Record};
use crate::exercise::{Mistaken, Score};
use crate::question::{Kind, Verdict};
use mistakes::{Missed, mistaken};
use score::square;

/// The account of one learner, by the first tries.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Account {
    /// The learner's name as it was typed last; `None` where no session of that learner's begins.
    pub learner: Option<LearnerName>,
    /// The times of the first and the last answer.
    pub from_to: Option<(Timestamp, Timestamp)>,
    /// How many answers there are, first tries alone.
    pub answers: u64,
    /// How many answers were given by mouth.
    pub heard: u64,
    /// How often something that was misheard was taken back.
    pub taken_back: u64,
    /// How the answers went, by the plies since the board was last seen.
    pub recall: BTreeMap<u32, Score>,
    /// How the learner stands in the course.
    pub course: Course,
    /// The games without sight of the board.
    pub games: Games,
    /// By the week of the answers, counted from the epoch in whole weeks of UTC.
    kinds: BTreeMap<Kind, BTreeMap<i64, Score>>,
    maps: [SquareMap; Chart::ALL.len()],
    /// All answers and the right ones, by the day in UTC, counted from the epoch.
    days: BTreeMap<i64, [u64; 2]>,
    missed: Missed,
    mistaken: HashMap<Mistaken, u32>,
    /// The answers that tell how far ahead the learner saw, in the order of their times.
    ahead: Vec<(Timestamp, Answer)>,
}

/// The reach in one month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthReach {
    /// The first day of the month, in UTC.
    pub month: Date,
    /// How many answers it was measured by.
    pub answers: usize,
    /// The reach.
    pub reach: Reach,
}

/// Lately is so many weeks.
const WEEKS_LATELY: i64 = 4;
/// The same in days, for what is counted by the day.
const DAYS_LATELY: i64 = 28;
/// With fewer answers a kind is not told to be weak.
const ENOUGH_OF_A_KIND: u32 = 10;
/// Answers from further on count as from here.
const MOST_PLIES: u32 = 1_000;
/// The last ply of each band of recall but the last.
const BAND_ENDS: [u32; 8] = [0, 2, 4, 8, 12, 16, 24, 40];

impl Account {
    /// Gathers the account of a journal's learner, and the lines of the journal that are no records.
    ///
    /// Answers may stand out of the order in which they were given, as after two journals were merged: what
    /// depends on the order goes by their times.
    ///
    /// # Errors
    ///
    /// As [`Journal::read`].
    pub fn of(journal: &Journal) -> Result<(Account, BrokenLines), JournalError> {
        let mut account = Account::default();
        let (mut events, mut telling) = (Vec::new(), Vec::new());
        let broken = journal.read_each(|_, record| {
            if let Some(answer) = record.answer() {
                account.heard += u64::from(answer.heard);
                account.taken_back += u64::from(answer.taken_back);
            }
            match record {
                Record::Answer(answer) if !answer.repeat => {
                    if answer.counts() {
                        account.take(&answer);
                        let tells = Telling::of(&answer);
                        telling.extend(tells.map(|tells| (answer.stamp.time, tells)));
                    }
                    let event = CourseEvent::of_answer(&answer);
                    events.extend(event.map(|event| (answer.stamp.time, event)));
                }
                // Another learner's sessions may have been merged in.
                Record::Start(start) if journal.is_of(&start.learner) => {
                    let event = CourseEvent::of_start(&start);
                    events.extend(event.map(|event| (start.stamp.time, event)));
                    account.learner = Some(start.learner);
                }
                Record::Game(game) => account.games.take(&game),
                Record::Start(_)
                | Record::Answer(_)
                | Record::End(_)
                | Record::Said(_)
                | Record::Seal(_) => {}
            }
        })?;
        account.games.sort();
        telling.sort_by_key(|(time, _)| *time);
        let mut guesses = Guesses::default();
        let heard = telling
            .into_iter()
            .map(|(time, tells)| (time, guesses.hear(tells)));
        account.ahead = heard
            .filter_map(|(time, answer)| Some((time, answer?)))
            .collect();
        events.sort_by_key(|(time, _)| *time);
        for (time, event) in events {
            account.course.hear(time, event);
        }
        Ok((account, broken))
    }

    fn take(&mut self, answer: &AnswerRecord) {
        let time = answer.stamp.time;
        let (first, last) = self.from_to.unwrap_or((time, time));
        self.from_to = Some((first.min(time), last.max(time)));
        self.answers += 1;
        let [all, right] = self.days.entry(day(time)).or_default();
        *all += 1;
        *right += u64::from(answer.verdict == Verdict::Right);
        let weeks = self.kinds.entry(answer.kind).or_default();
        let taken = (answer.verdict, answer.late, answer.millis);
        weeks.entry(week(time)).or_default().take(taken);
        if answer.kind == Kind::Turn {
            // That a move can be played says less than an answer does.
            return self.games.take_turn(answer);
        }
        if let Some((chart, square)) = square(answer) {
            let score = self.maps[chart as usize].entry(square).or_default();
            score.take(taken);
        }
        self.missed.take(answer);
        if let Some(mistaken) = mistaken(answer) {
            *self.mistaken.entry(mistaken).or_default() += 1;
        }
        if let Some(hardness) = answer.hardness {
            let plies = hardness.plies.min(MOST_PLIES);
            self.recall.entry(plies).or_default().take(taken);
        }
    }

    /// Returns the kinds that were asked, in the order of the climb, with how their answers went
    /// altogether, lately and before. Lately is the four weeks up to `now`; answers that the journal
    /// dates later than that, from a clock that went backwards, count as of now.
    pub fn kinds(&self, now: Timestamp) -> Vec<(Kind, Trend)> {
        let first_of_lately = week(now) - WEEKS_LATELY + 1;
        let of_kind = |(kind, weeks): (&Kind, &BTreeMap<i64, Score>)| {
            let mut trend = Trend::default();
            for (week, score) in weeks {
                trend.all.join(score);
                if *week >= first_of_lately {
                    trend.lately.join(score);
                } else {
                    trend.before.join(score);
                }
            }
            (*kind, trend)
        };
        self.kinds.iter().map(of_kind).collect()
    }

    /// Counts the answers of the last 28 days, and the days that have any.
    pub fn lately(&self, now: Timestamp) -> (u64, u64) {
        let [_, [days, answers, _]] = self.two_months(now);
        (answers, days)
    }

    /// Counts the days with answers, the answers and the right ones among them: of the 28 days before the last 28,
    /// and of these; what is dated later than now counts as of now.
    pub fn two_months(&self, now: Timestamp) -> [[u64; 3]; 2] {
        let from = day(now) - DAYS_LATELY + 1;
        [
            self.counted(from - DAYS_LATELY..from),
            self.counted(from..i64::MAX),
        ]
    }

    fn counted(&self, days: Range<i64>) -> [u64; 3] {
        let counts = self.days.range(days);
        counts.fold([0; 3], |[days, all, right], (_, of)| {
            [days + 1, all + of[0], right + of[1]]
        })
    }

    /// Tells whether a time is in the last 28 days.
    pub fn is_lately(&self, time: Timestamp, now: Timestamp) -> bool {
        day(time) > day(now) - DAYS_LATELY
    }

    /// Counts the same in each of the last eight times seven days, with the first day of each.
    pub fn weeks(&self, now: Timestamp) -> Vec<(Date, [u64; 3])> {
        let weeks = (0..8).rev().map(|ago| day(now) - 7 * ago - 6);
        let counted = |from: i64| {
            let first = Timestamp::from_second(from * 24 * 3600).unwrap_or(now);
            (
                Offset::UTC.to_datetime(first).date(),
                self.counted(from..from + 7),
            )
        };
        weeks.map(counted).collect()
    }

    /// Returns the kind that was right least often in the last four weeks, of those with ten answers or more.
    pub fn weakest(&self, now: Timestamp) -> Option<(Kind, Score)> {
        let lately = self.kinds(now).into_iter();
        let lately = lately.map(|(kind, trend)| (kind, trend.lately));
        let enough = lately.filter(|(_, score)| score.answers() >= ENOUGH_OF_A_KIND);
        enough.min_by(|(_, one), (_, other)| {
            let share = |score: &Score| score.share().unwrap_or_default();
            share(one).total_cmp(&share(other))
        })
    }

    /// Returns a map of the squares.
    pub fn map(&self, chart: Chart) -> &SquareMap {
        &self.maps[chart as usize]
    }

    /// Returns what [`Account::recall`] holds in bands of plies, those without an answer left out: the first and last ply of
    /// each, `u32::MAX` where it has no end.
    pub fn recall_bands(&self) -> Vec<((u32, u32), Score)> {
        let begins = [0].into_iter().chain(BAND_ENDS.map(|end| end + 1));
        let bands = begins.zip(BAND_ENDS.into_iter().chain([u32::MAX]));
        bands
            .filter_map(|(from, to)| {
                let mut all = Score::default();
                for (_, score) in self.recall.range(from..=to) {
                    all.join(score);
                }
                (all.answers() > 0).then_some(((from, to), all))
            })
            .collect()
    }

    /// Returns the questions that were missed most often, no more than `number`.
    pub fn missed(&self, number: usize) -> Vec<MissedOften> {
        self.missed.most(number)
    }

    /// Returns which squares were taken for which most often and how often, no more than `number`.
    pub fn mistaken(&self, number: usize) -> Vec<(Mistaken, u32)> {
        let mut all: Vec<(Mistaken, u32)> = self.mistaken.clone().into_iter().collect();
        all.retain(|(_, times)| *times > 1);
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

    /// Returns how far ahead the learner sees now.
    pub fn reach(&self) -> Reach {
        Reach::of(self.ahead.iter().map(|(_, answer)| answer))
    }

    /// Returns how far ahead the learner saw in each month that has an answer of `ahead`, oldest first.
    /// Each month is measured when it is asked for.
    pub fn reach_by_month(&self) -> impl DoubleEndedIterator<Item = MonthReach> {
        let months = self
            .ahead
            .chunk_by(|one, next| month(one.0) == month(next.0));
        months.map(|answers| MonthReach {
            month: month(answers[0].0),
            answers: answers.len(),
            reach: Reach::of(answers.iter().map(|(_, answer)| answer)),
        })
    }
}

fn month(time: Timestamp) -> Date {
    Offset::UTC.to_datetime(time).date().first_of_month()
}

fn day(time: Timestamp) -> i64 {
    time.as_second().div_euclid(24 * 3600)
}

fn week(time: Timestamp) -> i64 {
    const SECONDS: i64 = 7 * 24 * 3600;
    time.as_second().div_euclid(SECONDS)
}

#[cfg(test)]
mod tests {
    use std::fs;

    use super::*;
    use crate::exercise::Dice;

    fn account(lines: &[String]) -> Account {
        let folder = tempfile::tempdir().unwrap();
        let journal = Journal::open(folder.path(), &"learner".parse().unwrap()).unwrap();
        fs::write(journal.path(), lines.join("\n")).unwrap();
        let (account, broken) = Account::of(&journal).unwrap();
        assert_eq!(broken, BrokenLines::default());
        account
    }

    #[test]
    fn answers_out_of_their_order_come_to_the_same() {
        let mut dice = Dice::new(5, 0);
        for round in 0..20 {
            // One right answer in twenty is missed, so that steps are passed and lost again.
            let mut lines: Vec<String> = (0..90)
                .map(|n| {
                    let verdict = if dice.chance(12 + round % 9, 20) { "right" } else { "wrong" };
                    let (plies, millis) = (dice.below(6) + 1, dice.below(30_000));
                    let (month, minute) = (n / 30 + 1, n % 30);
                    format!(
                        r#"{{"v":1,"type":"answer","time":"2026-0{month}-01T18:{minute:02}:00Z","session":"s","exercise":"ahead","kind":"attacks","subject":{{"square":"c4"}},"expected":{{"squares":["{minute}"]}},"reply":"","verdict":"{verdict}","score":0.0,"millis":{millis},"late":false,"looks":0,"hardness":{{"plies":{plies},"men":32,"captures":0,"moved":0,"opened":0,"closed":0}}}}"#
                    )
                })
                .collect();
            let in_order = account(&lines);
            assert_eq!(in_order.answers, 90);
            assert_eq!(
                in_order
                    .reach_by_month()
                    .map(|month| month.answers)
                    .collect::<Vec<_>>(),
                [30; 3]
            );
            dice.shuffle(&mut lines);
            let shuffled = account(&lines);
            assert_eq!(shuffled.course, in_order.course, "round {round}");
            assert_eq!(shuffled.ahead, in_order.ahead, "round {round}");
            assert_eq!(shuffled.from_to, in_order.from_to, "round {round}");
        }
    }

    #[test]
    fn the_learner_is_named_as_that_name_was_typed_last() {
        let start = |learner: &str| {
            format!(
                r#"{{"v":1,"type":"start","time":"2026-03-01T18:20:04Z","session":"s","learner":"{learner}","exercise":"drill","seed":1,"plan":{{}}}}"#
            )
        };
        let lines = ["LEARNER", "Learner", "Bruno"].map(start);
        let name = |lines: &[String]| account(lines).learner.map(|name| name.to_string());
        assert_eq!(name(&lines).as_deref(), Some("Learner"));
        assert_eq!(name(&lines[2..]), None);
    }
}
