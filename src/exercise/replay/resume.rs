//! Going on where an earlier sitting had stopped.

use super::super::Session;
use super::super::output::Output;
use super::super::round::Round;
use super::super::summary::Past;
use super::Replay;

/// How far an earlier session had come.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Progress {
    /// Its answers, in order.
    pub past: Vec<Past>,
    /// How many plies had been heard, as far as that was written down.
    pub heard: usize,
    /// How many looks had been taken in all, as far as that was written down.
    pub looks: u32,
}

impl Replay {
    /// Goes on where an earlier session of the same script and settings had stopped, with the same
    /// questions still to come.
    pub fn resume(&mut self, progress: Progress) -> Vec<Output> {
        let mut answers = progress.past.into_iter().peekable();
        while answers.peek().is_some() && self.opened < self.itinerary.checkpoints().len() {
            self.go_to(self.itinerary.checkpoints()[self.opened]);
            let questions = self.open_checkpoint();
            let mut done = 0;
            while done < questions.len() {
                let Some(past) = answers.next() else { break };
                self.note(past);
                done += 1;
            }
            if done < questions.len() {
                self.round = Some(Round::new(questions, done));
            }
        }
        let mut outputs = vec![self.opening(true)];
        self.pass_checkpoints(progress.heard);
        if self.round.is_none() && progress.heard > self.heard() {
            self.go_to(self.itinerary.spot(progress.heard));
        }
        self.chronicle.account_for(progress.looks, self.heard());
        let trail = self.trail().to_vec();
        if !trail.is_empty() {
            outputs.push(Output::Again(trail));
        }
        match self.ask() {
            Some(ask) => outputs.push(Output::Ask(ask)),
            None => self.arrive(&mut outputs),
        }
        outputs
    }

    /// Passes the checkpoints that lie before what was heard. One that has a question stays open: its
    /// answers were lost.
    fn pass_checkpoints(&mut self, heard: usize) {
        while self.round.is_none()
            && let Some(next) = self.itinerary.checkpoints().get(self.opened).copied()
            && self.itinerary.heard(next) < heard
        {
            self.go_to(next);
            let questions = self.open_checkpoint();
            if !questions.is_empty() {
                self.round = Some(Round::new(questions, 0));
            }
        }
    }
}
