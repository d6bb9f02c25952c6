//! The faults of one game, as they are found.

use std::mem::discriminant;

use super::fault::{Fault, Reason};
use super::lost::Cost;
use super::passage::{Passage, Places};
use super::text::shown;
use super::token::Token;
use crate::game::MoveNumber;

/// The most faults that are listed of one game, those that cost moves aside.
const MOST: usize = 100;

/// The faults of one game, in the order in which they are found.
#[derive(Clone, Debug)]
pub(super) struct Faults<'a> {
    passage: &'a Passage,
    places: Places<'a>,
    list: Vec<Fault>,
    remarks: usize,
    /// Where the fault stands that stands for all that are not listed.
    more: Option<usize>,
    /// Whether a word has been found that is no legal move.
    pub(super) concern_moves: bool,
}

impl<'a> Faults<'a> {
    pub(super) const fn new(passage: &'a Passage) -> Faults<'a> {
        Faults {
            passage,
            places: Places::new(passage),
            list: Vec::new(),
            remarks: 0,
            more: None,
            concern_moves: false,
        }
    }

    /// Adds a fault. Beyond [`MOST`], one stands for all the others, at the greatest cost of them.
    pub(super) fn add(
        &mut self,
        token: &Token,
        due: Option<(usize, MoveNumber)>,
        mut reason: Reason,
        cost: Cost,
    ) {
        self.concern_moves |= reason.concerns_a_move();
        if cost != Cost::Moves {
            self.remarks += 1;
            if let Some(more) = self.more {
                let more = &mut self.list[more];
                more.cost = more.cost.max(cost);
                return;
            }
            if self.remarks > MOST {
                self.more = Some(self.list.len());
                reason = Reason::More;
            }
        }
        let span = token.span.clone();
        let place = self.places.of(span.start);
        // No more of a long token is decoded than can be shown.
        let mut end = span.end.min(span.start + 400);
        while end < span.end && matches!(self.passage.text[end], 0x80..=0xbf) {
            end -= 1;
        }
        let first_line = self.passage.decoded(span.start..end);
        let first_line = first_line.lines().next().unwrap_or_default();
        self.list.push(Fault {
            game: self.passage.number,
            place,
            span,
            ply: due.map_or(0, |(ply, _)| ply),
            number: due.map(|(_, number)| number),
            token: shown(first_line),
            reason,
            cost,
        });
    }

    /// Tells whether none of this sort has been found.
    pub(super) fn are_without(&self, reason: &Reason) -> bool {
        let sort = discriminant(reason);
        let mut all = self.list.iter();
        all.all(|fault| discriminant(&fault.reason) != sort)
    }

    /// Tells whether a fault costs the rest of the main line.
    pub(super) fn first_costly(&self) -> Option<&Fault> {
        self.list.iter().find(|fault| fault.cost == Cost::Moves)
    }

    /// Counts all that was found, listed or not.
    #[cfg(test)]
    pub(super) fn count(&self) -> usize {
        self.list.len() + self.remarks
    }

    /// Returns the faults in the order of the text.
    pub(super) fn into_sorted(mut self) -> Vec<Fault> {
        self.list.sort_by_key(|fault| fault.span.start);
        self.list
    }
}
