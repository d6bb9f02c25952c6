//! Replies to what a recital asks: two tries at a move, one at a whole position.

use super::super::output::{Answered, Output};
use super::super::posed::{self, Effort, Posed};
use super::super::summary::Past;
use super::said::{Missed, Recital};
use super::slip::{self, Tried};
use super::station::Station;
use super::{Recite, RecitePast};
use crate::exercise::Session;
use crate::question::{Mark, Tally, Verdict};

/// The score of a move that was said at the second try, or with the hint.
const HELPED: f64 = 0.5;

impl Recite {
    fn effort(&self, millis: u64) -> Effort {
        let millis = self.spent.saturating_add(millis);
        let think = self.settings.think_millis;
        Effort {
            millis,
            late: think.is_some_and(|think| millis > think),
            looks: self.chronicle.new_looks(),
            seen_ago: self
                .heard()
                .saturating_sub(self.chronicle.seen_at().unwrap_or(0)),
        }
    }

    pub(super) fn reply(&mut self, text: &str, millis: u64, outputs: &mut Vec<Output>) {
        match self.station() {
            Some(Station::Say(ply)) if text.eq_ignore_ascii_case("hint") => {
                self.hint(ply, outputs);
                outputs.extend(self.ask_again());
            }
            Some(Station::Say(ply)) => self.try_move(ply, text, millis, outputs),
            Some(Station::Place(..)) => {
                let effort = self.effort(millis);
                let Some(posed) = self.posed() else { return };
                match posed::reply(&posed, text, effort) {
                    Ok(answered) => self.answered(answered, None, outputs),
                    Err(unread) => outputs.push(unread),
                }
            }
            Some(Station::ReadOut(_)) | None => {}
        }
    }

    fn hint(&mut self, ply: usize, outputs: &mut Vec<Output>) {
        self.tries.hint = true;
        let mover = slip::mover(&self.line, ply);
        outputs.push(Output::Recite(Recital::Hint(mover)));
    }

    fn try_move(&mut self, ply: usize, text: &str, millis: u64, outputs: &mut Vec<Output>) {
        let missed = match slip::held(&self.line, ply, text) {
            Tried::Unread(unread) => {
                let form = self.form();
                outputs.push(Output::Unread { unread, form });
                return;
            }
            Tried::Right => None,
            Tried::Wrong(missed) => Some(missed),
        };
        let first = self.tries.said.is_empty();
        self.tries.said.push(text.to_owned());
        match missed {
            None if first && !self.tries.hint => {
                self.said(text, millis, mark(Verdict::Right, 1.0), None, outputs);
            }
            None => self.said(text, millis, mark(Verdict::Part, HELPED), None, outputs),
            Some(missed) if first => {
                self.spent = self.spent.saturating_add(millis);
                outputs.push(Output::Recite(Recital::Missed(Box::new(missed))));
                if self.settings.hint && !self.tries.hint {
                    self.hint(ply, outputs);
                }
                outputs.extend(self.ask_again());
            }
            Some(missed) => {
                self.said(
                    text,
                    millis,
                    mark(Verdict::Wrong, 0.0),
                    Some(missed),
                    outputs,
                );
            }
        }
    }

    /// Answers the move that stands with a mark of the recital's own, where tries count.
    fn said(
        &mut self,
        text: &str,
        millis: u64,
        mark: Mark,
        missed: Option<Missed>,
        outputs: &mut Vec<Output>,
    ) {
        let effort = self.effort(millis);
        let Some(posed) = self.posed() else { return };
        let mut answered = posed::pass(&posed, effort);
        text.clone_into(&mut answered.text);
        answered.reply = posed.read(text).ok();
        if mark.verdict == Verdict::Right {
            answered.why = None;
        }
        answered.mark = mark;
        self.answered(answered, missed, outputs);
    }

    pub(super) fn pass(&mut self, millis: u64, outputs: &mut Vec<Output>) {
        let effort = self.effort(millis);
        if let Some(posed) = self.posed() {
            let answered = posed::pass(&posed, effort);
            self.answered(answered, None, outputs);
        }
    }

    fn answered(
        &mut self,
        mut answered: Answered,
        missed: Option<Missed>,
        outputs: &mut Vec<Output>,
    ) {
        let tries = std::mem::take(&mut self.tries);
        answered.tries = matches!(self.station(), Some(Station::Say(_))).then(|| tries.clone());
        self.note(RecitePast {
            past: Past::from(&answered),
            tries,
        });
        outputs.push(Output::Answered(Box::new(answered)));
        outputs.extend(missed.map(|missed| Output::Recite(Recital::Missed(Box::new(missed)))));
        self.at += 1;
        self.go_on(outputs);
    }
}

fn mark(verdict: Verdict, score: f64) -> Mark {
    Mark {
        verdict,
        score,
        tally: Tally::default(),
    }
}
