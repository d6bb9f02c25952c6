//! What a session remembers for its summary: answers, looks, and where the picture broke.

use shakmaty::{Chess, Position};

use super::summary::{KindCount, Past, Summary};
use crate::game::MoveNumber;
use crate::question::Verdict;

/// The answers and looks of a session so far.
#[derive(Debug, Default)]
pub(super) struct Chronicle {
    past: Vec<Past>,
    /// Plies heard at each miss and each look.
    breaks: Vec<usize>,
    /// Plies heard at each right reply.
    held: Vec<usize>,
    /// The last move heard before the first miss.
    first_miss: Option<MoveNumber>,
    /// Looks that answers have told of.
    told_looks: u32,
    /// Looks since the last answer.
    new_looks: u32,
    /// Plies heard when the board was last seen.
    seen_at: Option<usize>,
}

impl Chronicle {
    /// Keeps an answer that was given after `heard` plies, the last of them `last`.
    pub(super) fn answer(&mut self, past: Past, heard: usize, last: Option<MoveNumber>) {
        let missed = past.verdict != Verdict::Right;
        if missed {
            self.first_miss = self.first_miss.or(last);
        }
        if missed || past.looks > 0 {
            self.breaks.push(heard);
        } else {
            self.held.push(heard);
        }
        if past.looks > 0 && self.seen_at.is_none() {
            // An answer of an earlier sitting tells when the board was seen.
            self.seen_at = past.plies.map(|plies| heard.saturating_sub(plies as usize));
        }
        self.told_looks = self.told_looks.saturating_add(past.looks);
        self.new_looks = 0;
        self.past.push(past);
    }

    /// Counts a look that was taken after `heard` plies.
    pub(super) fn look(&mut self, heard: usize) {
        self.new_looks = self.new_looks.saturating_add(1);
        self.seen_at = Some(heard);
        self.breaks.push(heard);
    }

    /// Counts the looks of an earlier sitting that no answer tells of.
    pub(super) fn account_for(&mut self, looks: u32, heard: usize) {
        let untold = looks.saturating_sub(self.looks());
        if untold > 0 {
            self.new_looks = self.new_looks.saturating_add(untold);
            // Nobody wrote down when they were taken: no more plies are claimed than are certain.
            self.seen_at = Some(heard);
            self.breaks.push(heard);
        }
    }

    /// Returns how many looks were taken in all.
    pub(super) fn looks(&self) -> u32 {
        self.told_looks.saturating_add(self.new_looks)
    }

    /// Returns how many looks were taken since the last answer.
    pub(super) fn new_looks(&self) -> u32 {
        self.new_looks
    }

    /// Returns after how many plies the board was last seen; `None` where it never was.
    pub(super) fn seen_at(&self) -> Option<usize> {
        self.seen_at
    }

    /// Notes that the board was seen after `heard` plies, without counting a look.
    pub(super) fn see(&mut self, heard: usize) {
        self.seen_at = Some(heard);
    }

    /// Sums up a session of `heard` plies; `position` is the one in which it ends, where it was not left
    /// before.
    pub(super) fn summary(&self, heard: usize, position: Option<&Chess>) -> Summary {
        // Only a checkpoint without a miss shows that the picture held up to there.
        let runs = self.held.iter().map(|held| {
            let breaks = self.breaks.iter().filter(|at| *at <= held);
            held - breaks.max().unwrap_or(&0)
        });
        Summary {
            kinds: KindCount::all(&self.past),
            first_miss: self.first_miss,
            longest_run: runs.max().unwrap_or(0),
            heard,
            looks: self.looks(),
            late: self.past.iter().filter(|past| past.late).count(),
            board: position.map(|position| (position.board().clone(), position.turn())),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::question::Kind;

    /// Answers after so many plies; `true` is right.
    fn longest(answers: &[(usize, bool)], look: Option<usize>) -> usize {
        let mut chronicle = Chronicle::default();
        for (heard, right) in answers {
            let past = Past {
                kind: Kind::Attacks,
                verdict: if *right {
                    Verdict::Right
                } else {
                    Verdict::Part
                },
                millis: Some(1),
                late: false,
                looks: 0,
                plies: None,
            };
            chronicle.answer(past, *heard, None);
        }
        if let Some(heard) = look {
            chronicle.look(heard);
        }
        chronicle.summary(24, None).longest_run
    }

    #[test]
    fn a_run_reaches_to_a_checkpoint_at_which_nothing_was_missed() {
        assert_eq!(longest(&[], None), 0, "nothing was asked");
        assert_eq!(longest(&[(8, false)], None), 0, "the first one failed");
        assert_eq!(longest(&[(8, true), (8, false)], None), 0);
        assert_eq!(longest(&[(8, true), (16, false)], None), 8);
        assert_eq!(longest(&[(8, false), (16, true), (24, true)], None), 16);
        assert_eq!(longest(&[(8, true), (16, true)], Some(12)), 8);
        assert_eq!(longest(&[(8, true), (16, true)], None), 16);
    }
}
