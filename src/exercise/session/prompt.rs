//! The words of the prompt that answer nothing: what is heard again, looks, help.

use super::super::asking::Asking;
use super::super::bound::Looks;
use super::super::output::{Help, NotHere, Output};
use super::super::past::Place;
use super::{Awaits, Session, Stands};
use crate::question::Kind;

impl Session {
    /// Says what can be said here, and nothing else.
    pub(super) fn help(&self) -> Help {
        let asking = self.asking();
        let back = match &self.stands {
            Stands::Missed { guide, .. } => guide.as_ref().map(|guide| guide.dialogue()),
            _ => None,
        };
        Help {
            form: asking.map(|asking| asking.ask.form),
            truth: self.awaits() == Awaits::Truth,
            back,
            why: self.can_explain(),
            again: self.given.is_some() || !self.trail().is_empty(),
            plies: self
                .past
                .place
                .as_ref()
                .is_some_and(|place| place.plies > 0)
                && !self.is_move_asked(),
            look: self.past.place.is_some() && self.looks_left() != Some(0),
            hint: asking.is_some_and(Asking::can_hint),
            turn: asking.is_some_and(Asking::is_turn),
        }
    }

    pub(super) fn again(&self) -> Output {
        match (self.trail(), &self.given) {
            ([], Some(given)) => given.clone(),
            ([], None) if self.past.place.is_none() => {
                self.ask_again().unwrap_or(Output::Again(Vec::new()))
            }
            (plies, _) => Output::Again(plies.to_vec()),
        }
    }

    /// Says so many of the last plies again. More than are free to hear count as help for the question that
    /// stands, and none are said while a move is asked for.
    pub(super) fn again_plies(&mut self, plies: usize, outputs: &mut Vec<Output>) {
        if self.is_move_asked() {
            outputs.push(Output::NotHere(NotHere::AgainPlies));
            return;
        }
        let is_free = plies <= self.trail().len();
        let played = self.past.place.as_ref().map_or(&[][..], Place::played);
        let again = played[played.len().saturating_sub(plies)..].to_vec();
        if let Stands::Asked(asking) = &mut self.stands
            && !is_free
            && !again.is_empty()
            && !std::mem::replace(&mut asking.helped, true)
        {
            outputs.push(Output::Helped);
        }
        outputs.push(Output::Again(again));
    }

    fn is_move_asked(&self) -> bool {
        let kind = |asking: &Asking| asking.ask.asked.question().kind();
        self.asking().map(kind) == Some(Kind::Played)
    }

    pub(super) fn asking(&self) -> Option<&Asking> {
        match &self.stands {
            Stands::Asked(asking) => Some(asking),
            Stands::Guided { guide, .. } => guide.asking.as_ref(),
            Stands::Reading { .. } | Stands::Missed { .. } | Stands::Awaited(_) | Stands::Over => {
                None
            }
        }
    }

    pub(super) fn ask_again(&self) -> Option<Output> {
        let ask = match &self.stands {
            Stands::Missed { ask, .. } => ask,
            _ => &self.asking()?.ask,
        };
        Some(Output::AskAgain(ask.clone()))
    }

    /// How many looks may still be taken; `None` for any number.
    fn looks_left(&self) -> Option<u32> {
        if let Stands::Guided { .. } = self.stands {
            return None;
        }
        let left = |looks: Looks| looks.get().saturating_sub(self.past.looks);
        self.rules.looks.map(left)
    }

    pub(super) fn look(&mut self) -> Output {
        if self.past.place.is_none() {
            return Output::NoPosition;
        }
        let left = self.looks_left();
        if left == Some(0) {
            return Output::NoLook;
        }
        // Where the learner is led, a look is help like all the rest.
        if !matches!(self.stands, Stands::Guided { .. }) {
            self.past.look(1, 0);
        }
        let (board, turn) = self.past.board();
        Output::Board {
            board,
            turn,
            looks_left: left.map(|left| left - 1),
            stays: false,
        }
    }
}
