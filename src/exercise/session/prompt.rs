//! The words of the prompt that answer nothing: what is heard again, looks, help.

use super::super::asking::{Asked, Asking};
use super::super::bound::Looks;
use super::super::output::{Help, NotHere, Output, PromptWord};
use super::super::past::Place;
use super::{Awaits, Session, Stands};
use crate::question::{Form, Kind, LineQuestion, Played};
use crate::reply::Unread;

impl Session {
    /// Says what can be said here, and nothing else.
    pub(super) fn help(&self) -> Help {
        let asking = self.asking();
        let (asked, waits) = match self.awaits() {
            Awaits::Reply => (true, false),
            awaits => (false, awaits == Awaits::Truth),
        };
        let back = match &self.stands {
            Stands::Missed { guide, .. } => guide.as_ref().map(|guide| guide.dialogue()),
            _ => None,
        };
        let heard = self.past.place.as_ref().is_some_and(|at| at.plies > 0);
        let can_look = self.past.place.is_some() && self.looks_left() != Some(0);
        let can_hear = !self.trail_answers() && (self.given.is_some() || !self.trail().is_empty());
        let is_turn = asking.is_some_and(Asking::is_turn);
        let words = [
            waits.then_some(PromptWord::Truth),
            (!asked && !waits).then_some(PromptWord::GoOn),
            back.map(PromptWord::Back),
            can_hear.then_some(PromptWord::Again),
            (heard && !self.is_move_asked()).then_some(PromptWord::AgainPlies),
            (asked || waits).then_some(PromptWord::Question),
            can_look.then_some(PromptWord::Look),
            self.can_explain().then_some(PromptWord::Why),
            (asked && !is_turn).then_some(PromptWord::Pass),
            is_turn.then_some(PromptWord::TakeBack),
            is_turn.then_some(PromptWord::Draw),
            is_turn.then_some(PromptWord::Resign),
            Some(PromptWord::Help),
            Some(PromptWord::Stop),
            (asking.is_some_and(Asking::can_hint)).then_some(PromptWord::Hint),
        ];
        Help {
            form: asking.map(|asking| asking.ask.form),
            words: words.into_iter().flatten().collect(),
        }
    }

    pub(super) fn again(&self) -> Output {
        match (self.trail(), &self.given) {
            _ if self.trail_answers() => Output::NotHere(NotHere::AgainPlies),
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
            && !(is_free || asking.is_turn())
            && !again.is_empty()
            && !std::mem::replace(&mut asking.helped, true)
        {
            outputs.push(Output::Helped);
        }
        outputs.push(Output::Again(again));
    }

    /// Tells whether the move that is asked for is among the last plies.
    pub(super) fn trail_answers(&self) -> bool {
        let Some(Asked::Line(LineQuestion::Played(played), _)) =
            self.asking().map(|asking| &asking.ask.asked)
        else {
            return false;
        };
        self.trail()
            .iter()
            .any(|ply| Played::at(ply.number) == *played)
    }

    fn is_move_asked(&self) -> bool {
        let kind = |asking: &Asking| asking.ask.asked.question().kind();
        self.asking().map(kind) == Some(Kind::Played)
    }

    pub(super) fn asking(&self) -> Option<&Asking> {
        match &self.stands {
            Stands::Asked(asking) => Some(asking),
            Stands::Guided { guide, .. } => guide.asking.as_ref(),
            Stands::Open(_)
            | Stands::Reading { .. }
            | Stands::Missed { .. }
            | Stands::Awaited(_)
            | Stands::Over => None,
        }
    }

    /// Returns the form of the reply that is awaited.
    pub(crate) fn form(&self) -> Option<Form> {
        self.asking().map(|asking| asking.ask.form)
    }

    /// Brings a reply that was heard into the writing that is said back, graded and kept.
    ///
    /// # Errors
    ///
    /// [`Unread`] where it is no reply here.
    pub(crate) fn in_writing(&self, said: &str) -> Result<String, Unread> {
        match &self.stands {
            Stands::Open(_) => Ok(said.to_owned()),
            _ => self.asking().ok_or(Unread::Nothing)?.in_writing(said),
        }
    }

    pub(super) fn ask_again(&self) -> Option<Output> {
        let ask = match &self.stands {
            Stands::Open(question) => return Some(Output::AskOpen(question.clone())),
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
