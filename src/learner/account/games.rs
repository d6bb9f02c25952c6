//! What all games against an opponent come to that were played without sight of the board.

use std::collections::BTreeMap;

use jiff::Timestamp;

use crate::exercise::median;
use crate::learner::{AnswerRecord, GameRecord};
use crate::question::{Reason, Verdict};

/// The opening is so many plies long.
const OPENING: usize = 20;
/// An ending has so many pieces at most.
const ENDING: u32 = 12;

/// A phase of a game: the first ten moves, what follows, and what is played with twelve pieces or fewer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Phase {
    /// The first ten moves, with more pieces than an ending has.
    Opening,
    /// What follows.
    Middlegame,
    /// Twelve pieces or fewer.
    Ending,
}

/// Unseen games, and the moves that were said in them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Games {
    /// The games, in the order of their times once all are taken.
    unseen: Vec<(Timestamp, UnseenGame)>,
    /// Moves said and slips, by phase.
    pub phases: BTreeMap<Phase, (u32, u32)>,
    /// Slips by their reason; `None` where several pieces were meant.
    reasons: Vec<(Option<Reason>, u32)>,
}

/// One unseen game.
#[derive(Clone, Debug, PartialEq, Eq)]
struct UnseenGame {
    rating: Option<u32>,
    /// Whether it was won; `None` for a draw.
    won: Option<bool>,
    /// After how many plies the picture failed, or how many there were.
    held: u64,
}

impl Games {
    /// Takes a game that is over.
    pub(super) fn take(&mut self, game: &GameRecord) {
        if !game.unseen {
            return;
        }
        self.unseen.push((
            game.stamp.time,
            UnseenGame {
                rating: game.rating,
                won: game.won(),
                held: game.held.unwrap_or(game.plies) as u64,
            },
        ));
    }

    /// Takes a move that was said, or a slip.
    pub(super) fn take_turn(&mut self, answer: &AnswerRecord) {
        let Some(hardness) = answer.hardness.filter(|hardness| hardness.plies > 0) else {
            return;
        };
        let plies = hardness.plies as usize;
        let phase = match hardness.pieces {
            ..=ENDING => Phase::Ending,
            _ if plies < OPENING => Phase::Opening,
            _ => Phase::Middlegame,
        };
        let is_slip = answer.verdict != Verdict::Right;
        let (said, slips) = self.phases.entry(phase).or_default();
        *said += u32::from(!is_slip);
        *slips += u32::from(is_slip);
        if is_slip {
            let reason = answer.illegal.map(|illegal| illegal.reason);
            match self.reasons.iter_mut().find(|(known, _)| *known == reason) {
                Some((_, times)) => *times += 1,
                None => self.reasons.push((reason, 1)),
            }
        }
    }

    /// Puts the games in the order of their times.
    pub(super) fn sort(&mut self) {
        self.unseen.sort_by_key(|(time, _)| *time);
        self.reasons
            .sort_by_key(|(_, times)| std::cmp::Reverse(*times));
    }

    /// Counts the games.
    pub fn len(&self) -> usize {
        self.unseen.len()
    }

    /// Tells whether there is none.
    pub fn is_empty(&self) -> bool {
        self.unseen.is_empty()
    }

    /// Counts those that were won, drawn and lost.
    pub fn results(&self) -> [usize; 3] {
        [Some(true), None, Some(false)].map(|won| {
            let of_it = self.unseen.iter().filter(|(_, game)| game.won == won);
            of_it.count()
        })
    }

    /// Returns the least and the greatest rating of the opponents that had one.
    pub fn ratings(&self) -> Option<(u32, u32)> {
        let ratings = || self.unseen.iter().filter_map(|(_, game)| game.rating);
        ratings().min().zip(ratings().max())
    }

    /// Returns after how many plies the picture failed, as the median of all games, and of the earlier and the
    /// later half of them where each has `enough`.
    pub fn held(&self, enough: usize) -> Option<(u64, Option<(u64, u64)>)> {
        let plies = |games: &[(Timestamp, UnseenGame)]| {
            median(games.iter().map(|(_, game)| game.held).collect())
        };
        let (earlier, later) = self.unseen.split_at(self.unseen.len() / 2);
        let halves = plies(earlier).zip(plies(later));
        Some((
            plies(&self.unseen)?,
            halves.filter(|_| earlier.len() >= enough),
        ))
    }

    /// Returns how often a slip had each reason, the commonest first.
    pub fn reasons(&self) -> &[(Option<Reason>, u32)] {
        &self.reasons
    }
}
