//! All that has happened in a session.

use std::rc::Rc;

use shakmaty::{Board, Color, Position};

use super::answers::{Answered, RoundsSummary};
use super::said::Said;
use crate::game::{Line, MoveNumber, Ply};
use crate::question::Scene;

/// A line after some of its plies.
#[derive(Clone, Debug)]
pub struct Place {
    pub(super) line: Rc<Line>,
    pub(super) plies: usize,
}

impl Place {
    /// Looks at `line` after `plies` plies.
    pub(super) const fn new(line: Rc<Line>, plies: usize) -> Place {
        Place { line, plies }
    }

    /// Tells whether it is the same place of the same line.
    fn is(&self, other: &Place) -> bool {
        Rc::ptr_eq(&self.line, &other.line) && self.plies == other.plies
    }

    /// Looks at the line here.
    pub(super) fn scene(&self) -> Scene<'_> {
        Scene::new(&self.line, self.plies)
    }

    /// Returns the plies played so far.
    pub(super) fn played(&self) -> &[Ply] {
        &self.line.plies()[..self.plies]
    }
}

/// All that has happened in a session: what was answered, heard and looked at.
#[derive(Debug, Default)]
pub struct Past {
    /// The answers, oldest first.
    pub(super) answers: Vec<Answered>,
    /// What was said in games beside the learner's own moves, oldest first.
    pub(super) said: Vec<Said>,
    /// For each position that was given, how many questions had been answered before.
    rounds: Vec<usize>,
    /// Where the reading stands; `None` over the bare board.
    pub(super) place: Option<Place>,
    /// The plies of the line that were played when the last position was given.
    given_at: Option<usize>,
    /// How many plies were heard.
    pub(super) heard: usize,
    /// How long the picture held.
    pub(super) runs: Runs,
    /// The last move before the first checkpoint at which a reply was not right, or only with a look or other help.
    pub(super) first_miss: Option<MoveNumber>,
    /// How many looks were taken.
    pub(super) looks: u32,
    /// Looks since the last answer.
    pub(super) new_looks: u32,
    /// Plies heard when the board was last seen; `None` where it was at the line's start.
    seen_at: Option<usize>,
    /// Whether all was read and asked.
    pub(super) finished: bool,
    /// The last place behind at which the picture held: all was answered right there, or the board was seen.
    held_at: Option<Place>,
    /// Whether all was answered right where the reading stands; `None` where nothing was asked.
    holds: Option<bool>,
    /// Whether the board was seen where the reading stands.
    seen: bool,
    /// Whether the questions stand on paper, where no verdict comes between two of them.
    pub(super) on_paper: bool,
}

impl Past {
    /// Counts the positions that were given.
    pub fn rounds(&self) -> usize {
        self.rounds.len()
    }

    /// Returns the board where the reading stands, and the side to move.
    ///
    /// # Panics
    ///
    /// When nothing was read or given.
    pub(super) fn board(&self) -> (Board, Color) {
        let place = self.place.as_ref().expect("a line is being read");
        let position = place.scene().position();
        (position.board().clone(), position.turn())
    }

    /// Returns the plies that `again` says, oldest first: those since a position was given, or else the
    /// last `trail`.
    pub(super) fn trail(&self, trail: usize) -> &[Ply] {
        let Some(place) = &self.place else { return &[] };
        let played = place.played();
        let from = self
            .given_at
            .unwrap_or_else(|| played.len().saturating_sub(trail));
        // Who goes back may be before what was given.
        &played[from.min(played.len())..]
    }

    /// Counts the plies since the board was last seen: without a look, all of the line, whose start is
    /// known.
    pub(super) fn seen_ago(&self) -> usize {
        let plies = self.place.as_ref().map_or(0, |place| place.plies);
        self.seen_at
            .map_or(plies, |heard| self.heard.saturating_sub(heard))
    }

    /// Counts the plies since the checkpoint before, or since a look that came later.
    pub(super) fn stretch(&self, scene: Scene<'_>) -> u32 {
        let asked = self.answers.iter().rev().filter_map(|answered| {
            let plies = answered.setting.as_ref()?.moves.len();
            (plies < scene.plies()).then_some(plies)
        });
        let before = asked.map(|plies| scene.plies() - plies).next();
        let seen = self.seen_ago().min(scene.plies());
        u32::try_from(before.unwrap_or(scene.plies()).min(seen)).unwrap_or(u32::MAX)
    }

    /// Tells whether the reading stands at a place of the same game.
    pub(super) fn is_at(&self, place: &Place) -> bool {
        self.place.as_ref().is_some_and(|here| here.is(place))
    }

    /// Comes to a place by hearing the plies up to it, or by saying them.
    pub(super) fn go_on_to(&mut self, place: Place) {
        let before = self.place.as_ref().map_or(0, |place| place.plies);
        self.heard += place.plies.saturating_sub(before);
        self.turn_to(place);
    }

    /// Comes to a place of which nothing more has to be heard.
    pub(super) fn turn_to(&mut self, place: Place) {
        if !self.place.as_ref().is_some_and(|here| here.is(&place)) {
            let held = std::mem::take(&mut self.seen) || self.holds == Some(true);
            self.holds = None;
            if held {
                self.held_at = self.place.take();
            }
        }
        self.place = Some(place);
    }

    /// Returns after how many plies the picture held last before a place: else at the start of its line.
    pub(super) fn held(&self, place: &Place) -> usize {
        let Some(held) = &self.held_at else { return 0 };
        if held.line.position(0) != place.line.position(0) {
            return 0;
        }
        let both = held.played().iter().zip(place.played());
        both.take_while(|(one, other)| one.mv == other.mv).count()
    }

    /// Notes that the board was shown where the reading stands, though nobody looked.
    pub(super) const fn show(&mut self) {
        self.seen = true;
    }

    /// Notes that the board is seen where the reading stands, though nobody looked.
    pub(super) const fn see(&mut self) {
        self.seen_at = Some(self.heard);
        self.show();
    }

    /// Notes that a position was given; at the start of a line, that start is known.
    pub(super) fn give(&mut self, place: Place, is_shown: bool) {
        self.turn_to(place.clone());
        if is_shown {
            self.held_at = Some(place.clone());
        }
        if place.plies == 0 {
            self.seen_at = None;
        }
        self.given_at = Some(place.plies);
        self.place = Some(place);
        self.rounds.push(self.answers.len());
    }

    /// Counts so many looks, the last of them taken so many plies ago.
    pub(super) fn look(&mut self, looks: u32, ago: usize) {
        if looks > 0 {
            self.looks = self.looks.saturating_add(looks);
            self.new_looks = self.new_looks.saturating_add(looks);
            let heard = self.heard.saturating_sub(ago);
            self.seen_at = Some(heard);
            self.runs.breaks.push(heard);
            self.seen = true;
        }
    }

    /// Keeps an answer.
    pub(super) fn answer(&mut self, answered: Answered) {
        if answered.is_right() && answered.looks == 0 && !answered.helped {
            self.runs.held.push(self.heard);
        } else {
            let last = self.place.as_ref().and_then(|place| place.played().last());
            self.first_miss = self.first_miss.or(last.map(|ply| ply.number));
            self.runs.breaks.push(self.heard);
        }
        self.new_looks = 0;
        let holds = answered.is_right() && !answered.helped;
        self.holds = Some(holds && self.holds != Some(false));
        self.answers.push(answered);
    }

    /// Counts the rounds that are behind: all but the one that goes on.
    pub fn rounds_done(&self) -> usize {
        self.rounds.len() - usize::from(!self.finished)
    }

    /// Counts the rounds that had an answer, and those that went well.
    pub(super) fn rounds_held(&self) -> RoundsSummary {
        let ends = self.rounds.iter().skip(1).copied();
        let ends = ends.chain([self.answers.len()]);
        let rounds = self.rounds.iter().zip(ends);
        let rounds = rounds.map(|(from, to)| &self.answers[*from..to]);
        let asked: Vec<&[Answered]> = rounds.filter(|round| !round.is_empty()).collect();
        let well =
            |answered: &Answered| answered.is_right() && answered.looks == 0 && !answered.helped;
        RoundsSummary {
            asked: asked.len(),
            held: (asked.iter())
                .filter(|round| round.iter().all(well))
                .count(),
        }
    }
}

/// How long the picture held.
#[derive(Debug, Default)]
pub(super) struct Runs {
    /// Plies heard at each miss and each look.
    breaks: Vec<usize>,
    /// Plies heard at each right reply.
    held: Vec<usize>,
}

impl Runs {
    /// The most plies in a row that a right reply shows to have held: only a checkpoint without a miss shows
    /// that the picture held up to there.
    pub(super) fn longest(&self) -> usize {
        let run = |held: &usize| {
            let breaks = self.breaks.iter().filter(|at| *at <= held);
            held - breaks.max().unwrap_or(&0)
        };
        self.held.iter().map(run).max().unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Answers after so many plies; `true` is right.
    fn longest(answers: &[(usize, bool)], look: Option<usize>) -> usize {
        let after = |right| {
            let of_it = answers.iter().filter(move |answer| answer.1 == right);
            of_it.map(|answer| answer.0)
        };
        let breaks = after(false).chain(look).collect();
        let held = after(true).collect();
        Runs { breaks, held }.longest()
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
