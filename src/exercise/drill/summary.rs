//! How a drill went, and what to do next.

use shakmaty::Square;

use crate::exercise::answers::{Answered, Mistaken, median_right};
use crate::question::{BareQuestion, Kind, Question};

use super::settings::DrillSettings;

/// So many first answers of a kind are needed before it is judged.
const ENOUGH: usize = 10;
/// How many of the slowest squares are told.
const SLOWEST: usize = 5;

/// The facts of a drill, told at its end. All but `answers` is of the first tries: what came again after
/// it was missed or slow does not count.
#[derive(Clone, Debug, PartialEq)]
pub struct DrillSummary {
    /// Questions that were answered or given up, those that returned included.
    pub answers: usize,
    /// How many questions that were taught were found at the first try, and how many there were.
    pub taught: (usize, usize),
    /// First tries.
    pub first_tries: usize,
    /// How many of those were right.
    pub first_try_right: usize,
    /// The median time of the right replies, in milliseconds.
    pub median_right_millis: Option<u64>,
    /// By square, a1 first, how often the questions about it were answered right, and how often not.
    pub squares: [(u16, u16); 64],
    /// The squares whose right replies took longest, slowest first, with their median milliseconds.
    pub slowest: Vec<(Square, u64)>,
    /// The squares that were taken for others, most frequent first, and how often.
    pub confusions: Vec<(Mistaken, usize)>,
    /// What to do next; `None` where no kind was asked often enough to judge.
    pub advice: Option<Advice>,
}

/// What to do next, by one rule: accuracy first, then speed. The kind with the fewest right first
/// answers decides.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Advice {
    /// Fewer than 8 in 10 are right: take more time.
    Slower(Kind),
    /// Fewer than 9 in 10 are right: the same again.
    Same(Kind),
    /// 9 in 10 are right, but half of them took longer than half the think time: faster.
    Faster(Kind),
    /// 9 in 10 are right and fast: go on to the next kind.
    NextKind {
        /// The kind.
        kind: Kind,
        /// The next one in the order of the climb.
        next: Kind,
    },
    /// The last kind of the bare board is right and fast: a few pieces come next.
    AllDone,
}

impl DrillSummary {
    pub(super) fn new(settings: &DrillSettings, past: &[Answered]) -> DrillSummary {
        let firsts: Vec<&Answered> = past.iter().filter(|answer| answer.counts()).collect();
        let taught = past.iter().filter(|answer| answer.helped);
        let at_once = |answer: &&Answered| {
            answer.is_right()
                && answer
                    .tries
                    .as_ref()
                    .is_none_or(|tries| tries.said.len() == 1 && !tries.hint)
        };
        DrillSummary {
            answers: past.len(),
            taught: (taught.clone().filter(at_once).count(), taught.count()),
            first_tries: firsts.len(),
            first_try_right: count_right(&firsts),
            median_right_millis: median_right(firsts.iter().copied()),
            squares: square_counts(&firsts),
            slowest: slowest(&firsts),
            confusions: confusions(&firsts),
            advice: advice(settings, &firsts),
        }
    }
}

/// Tells whether an answer was missed or slow, so that its question comes again.
pub(super) fn is_shaky(answered: &Answered) -> bool {
    !answered.is_right() || answered.late
}

/// Tells whether a question that is put after these answers comes again because it was missed or slow.
/// One that was known when it came before, and comes once more by chance, is a first try.
pub(super) fn is_repeat(past: &[Answered], question: BareQuestion) -> bool {
    let question = Question::Bare(question);
    let before = past.iter().rfind(|answer| answer.question == question);
    before.is_some_and(is_shaky)
}

/// The squares that an answer is about.
fn squares(answered: &Answered) -> Vec<Square> {
    match answered.question {
        Question::Bare(question) => question.subject_squares(),
        Question::Line(_) => Vec::new(),
    }
}

fn count_right(answers: &[&Answered]) -> usize {
    answers.iter().filter(|answer| answer.is_right()).count()
}

fn square_counts(past: &[&Answered]) -> [(u16, u16); 64] {
    let mut counts = [(0, 0); 64];
    for answer in past {
        for square in squares(answer) {
            let (hits, misses) = &mut counts[square.to_usize()];
            *if answer.is_right() { hits } else { misses } += 1;
        }
    }
    counts
}

fn slowest(past: &[&Answered]) -> Vec<(Square, u64)> {
    let mut times: Vec<(Square, u64)> = Square::ALL
        .into_iter()
        .filter_map(|square| {
            let about = past.iter().copied();
            let about = about.filter(|answer| squares(answer).contains(&square));
            Some((square, median_right(about)?))
        })
        .collect();
    times.sort_by_key(|(_, millis)| std::cmp::Reverse(*millis));
    times.truncate(SLOWEST);
    times
}

/// Finds the squares that wrong replies stand for, and how often each was taken for the right one.
fn confusions(past: &[&Answered]) -> Vec<(Mistaken, usize)> {
    let mistaken = |answer: &&Answered| match (&answer.question, &answer.reply) {
        (Question::Bare(question), Some(reply)) => Mistaken::of(*question, reply),
        _ => None,
    };
    let missed = past.iter().copied().filter(|answer| !answer.is_right());
    let mut confusions: Vec<(Mistaken, usize)> = Vec::new();
    for mistaken in missed.filter_map(|answer| mistaken(&answer)) {
        match confusions.iter_mut().find(|(known, _)| *known == mistaken) {
            Some((_, times)) => *times += 1,
            None => confusions.push((mistaken, 1)),
        }
    }
    confusions.sort_by_key(|(_, times)| std::cmp::Reverse(*times));
    confusions
}

/// The rule is told in the help of `drill`; change both together.
fn advice(settings: &DrillSettings, firsts: &[&Answered]) -> Option<Advice> {
    let of_kind = |kind: &Kind| -> (Kind, Vec<&Answered>) {
        let of_it = firsts.iter().copied();
        let of_it = of_it.filter(|answer| answer.question.kind() == *kind);
        (*kind, of_it.collect())
    };
    let counted: Vec<(Kind, Vec<&Answered>)> = settings.kinds.iter().map(of_kind).collect();
    let judged = (counted.iter()).filter(|(_, answers)| answers.len() >= ENOUGH);
    // Shares are compared crosswise, so that no rounding decides.
    let weakest = judged.min_by(|(_, one), (_, other)| {
        (count_right(one) * other.len()).cmp(&(count_right(other) * one.len()))
    });
    let (kind, answers) = weakest?;
    let (kind, right) = (*kind, count_right(answers));
    if right * 10 < answers.len() * 8 {
        return Some(Advice::Slower(kind));
    }
    if right * 10 < answers.len() * 9 {
        return Some(Advice::Same(kind));
    }
    let is_quick = |millis: u64| millis.saturating_mul(2) <= settings.think(kind);
    let quick = answers
        .iter()
        .filter(|answer| answer.is_right() && answer.millis.is_some_and(is_quick));
    if quick.count() * 2 < right {
        return Some(Advice::Faster(kind));
    }
    let climb = Kind::BARE.into_iter().skip_while(|step| *step != kind);
    let next = climb.skip(1).find(|next| !settings.kinds.contains(next));
    Some(next.map_or(Advice::AllDone, |next| Advice::NextKind { kind, next }))
}
