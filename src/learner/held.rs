//! What came of the lessons that a learner has held: each part's answers, and what was missed in it.

use std::collections::{BTreeMap, HashMap, HashSet};

use jiff::Timestamp;
use serde_json::Value;

use super::{AnswerRecord, BrokenLines, Journal, JournalError, Record, SaidRecord};
use crate::question::{Kind, Verdict};

/// A lesson that was held, or begun.
#[derive(Clone, Debug, PartialEq)]
pub struct HeldLesson {
    /// When it began.
    pub time: Timestamp,
    /// Whether it came to its end.
    pub finished: bool,
    /// Its parts in their order; a part that was not begun is empty.
    pub parts: Vec<PartResult>,
}

/// What came of a part so far; of a part that was repeated, what came of its last time.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PartResult {
    /// Whether all of it was read and asked.
    pub is_over: bool,
    /// Whether it finds where the course begins.
    pub is_placement: bool,
    /// The right first tries, all first tries, and all replies.
    pub replies: [usize; 3],
    /// How many questions it asked in all: the first tries, and in a drill what came again in the place of others.
    pub questions: usize,
    /// The first tries.
    pub asked: Vec<AnswerRecord>,
    /// Whether its games against an opponent were won or lost; `None` for a drawn one.
    pub games: Vec<Option<bool>>,
    /// What was replied to questions that nobody grades.
    pub said: Vec<SaidRecord>,
    /// Which time it is, counted from 1; 0 where it was not begun.
    pub time: usize,
}

impl HeldLesson {
    /// Gathers the lessons of a journal's learner, oldest first, whose plan `wanted` takes for so many parts; and
    /// the lines that are no records.
    ///
    /// # Errors
    ///
    /// As [`Journal::read`].
    pub fn all(
        journal: &Journal,
        wanted: impl Fn(&Value) -> Option<usize>,
    ) -> Result<(Vec<HeldLesson>, BrokenLines), JournalError> {
        let mut found: Vec<HeldLesson> = Vec::new();
        let mut places: HashMap<String, usize> = HashMap::new();
        let broken = journal.read_each(|_, record| {
            let session = &record.stamp().session;
            if let Some(start) = record.start()
                && start.exercise == "lesson"
                && journal.is_of(&start.learner)
                && let Some(parts) = wanted(&start.plan)
            {
                let held = HeldLesson {
                    time: start.stamp.time,
                    finished: false,
                    parts: vec![PartResult::default(); parts],
                };
                places.entry(session.clone()).or_insert_with(|| {
                    found.push(held);
                    found.len() - 1
                });
            }
            let (lesson, part) = session.split_once('-').unzip();
            let lesson = lesson.unwrap_or(session);
            let Some(held) = places.get(lesson).map(|at| &mut found[*at]) else {
                return;
            };
            match part {
                None => held.finished |= record.end().is_some_and(|end| end.finished),
                Some(part) => {
                    if let Some((number, time)) = part_number(part)
                        && let Some(result) = held.parts.get_mut(number.wrapping_sub(1))
                    {
                        result.take(time, &record);
                    }
                }
            }
        })?;
        found.sort_by_key(|held| held.time);
        Ok((found, broken))
    }
}

/// Reads the number of a part behind the lesson's name, and which time it is held: `2`, `2-3`.
pub fn part_number(part: &str) -> Option<(usize, usize)> {
    let (number, time) = part.split_once('-').unwrap_or((part, "1"));
    Some((number.parse().ok()?, time.parse().ok()?))
}

impl PartResult {
    /// Takes a record of the part, held for this time.
    pub fn take(&mut self, time: usize, record: &Record) {
        if time > self.time {
            *self = PartResult {
                is_placement: self.is_placement,
                time,
                ..PartResult::default()
            };
        }
        match record {
            Record::Start(start) => self.is_placement |= start.exercise == "placement",
            Record::End(end) => self.is_over |= end.finished,
            Record::Answer(answer) => {
                let [right, first, all] = &mut self.replies;
                *all += 1;
                let takes_place = answer.repeat && answer.exercise == "drill";
                self.questions += usize::from(answer.counts() || takes_place);
                if answer.counts() {
                    *first += 1;
                    *right += usize::from(answer.verdict == Verdict::Right);
                    self.asked.push((**answer).clone());
                }
            }
            Record::Said(said) if said.question.is_some() => self.said.push(said.clone()),
            Record::Game(game) => self.games.push(game.won()),
            Record::Said(_) | Record::Seal(_) => {}
        }
    }

    /// Counts the first tries that were missed, and those that a pass mark allows.
    pub const fn misses(&self, mark: usize) -> [usize; 2] {
        let [right, first, _] = self.replies;
        [first - right, self.questions.saturating_sub(mark)]
    }

    /// Tells whether a pass mark is reached: no more first tries were missed than questions are asked beyond the mark.
    pub const fn reaches(&self, mark: usize) -> bool {
        let [missed, allowed] = self.misses(mark);
        self.questions >= mark && missed <= allowed
    }
}

/// What came of a lesson for several learners.
#[derive(Clone, Debug, PartialEq)]
pub struct LessonResults {
    /// The lesson's title.
    pub title: Option<String>,
    /// The heading of each part, and its pass mark.
    pub parts: Vec<(String, Option<usize>)>,
    /// The learners, each with the lessons that they held, oldest first.
    pub learners: Vec<(String, Vec<HeldLesson>)>,
}

/// So many questions of a part are told to be missed most.
const MOST_MISSED: usize = 3;

impl LessonResults {
    /// Returns what each learner was asked in a part, counted from 0, the last time that it was held.
    fn asked(&self, part: usize) -> impl Iterator<Item = &Vec<AnswerRecord>> {
        let last = self.learners.iter().filter_map(|(_, held)| held.last());
        last.map(move |held| &held.parts[part].asked)
    }

    /// Returns the questions of a part that half or more of the learners missed who were asked them, of whom there
    /// are two or more: each with how many missed it and how many were asked, the most missed first.
    pub fn missed(&self, part: usize) -> Vec<(&AnswerRecord, usize, usize)> {
        let mut questions: Vec<(&AnswerRecord, usize, usize)> = Vec::new();
        let mut places = HashMap::new();
        for of_learner in self.asked(part) {
            let mut known = HashSet::new();
            for asked in of_learner {
                let key = (asked.kind, asked.subject.get(), &asked.position);
                // Whoever was asked it twice is one learner all the same.
                if !known.insert(key) {
                    continue;
                }
                let at = *places.entry(key).or_insert(questions.len());
                if at == questions.len() {
                    questions.push((asked, 0, 0));
                }
                questions[at].1 += usize::from(asked.verdict != Verdict::Right);
                questions[at].2 += 1;
            }
        }
        questions.retain(|(_, missed, of)| *of > 1 && missed * 2 >= *of);
        questions.sort_by(|(_, one, of_one), (_, other, of_other)| {
            (other * of_one).cmp(&(one * of_other)).then(other.cmp(one))
        });
        questions.truncate(MOST_MISSED);
        questions
    }

    /// Returns the kind of a part that was right least often, with the right answers and all; `None` where
    /// none was missed.
    pub fn weakest(&self, part: usize) -> Option<(Kind, usize, usize)> {
        let mut kinds: BTreeMap<Kind, (usize, usize)> = BTreeMap::new();
        for asked in self.asked(part).flatten() {
            let (right, of) = kinds.entry(asked.kind).or_default();
            *right += usize::from(asked.verdict == Verdict::Right);
            *of += 1;
        }
        let kinds = kinds
            .into_iter()
            .map(|(kind, (right, of))| (kind, right, of));
        let missed = kinds.filter(|(_, right, of)| right < of);
        missed.min_by(|(_, one, of_one), (_, other, of_other)| {
            (one * of_other).cmp(&(other * of_one))
        })
    }
}
