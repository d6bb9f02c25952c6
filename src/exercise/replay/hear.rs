//! What a replay awaits, and what it says to each input.

use super::Replay;
use crate::exercise::{Awaits, Input, Output, Session};
use crate::game::Ply;

impl Session for Replay {
    fn awaits(&self) -> Awaits {
        if self.over {
            Awaits::Nothing
        } else if self.round.is_some() {
            Awaits::Reply
        } else {
            Awaits::GoOn
        }
    }

    fn heard(&self) -> usize {
        self.itinerary.heard(self.spot)
    }

    fn looks(&self) -> u32 {
        self.chronicle.looks()
    }

    fn trail(&self) -> &[Ply] {
        let heard = self.all_heard();
        &heard[heard.len().saturating_sub(self.settings.trail)..]
    }

    fn hear(&mut self, input: Input) -> Vec<Output> {
        let mut outputs = Vec::new();
        if self.over {
            return outputs;
        }
        match input {
            Input::GoOn => self.go_on(&mut outputs),
            Input::Reply { text, millis } => self.reply(&text, millis, &mut outputs),
            Input::Again => outputs.push(match self.trail() {
                [] => Output::NothingHeardYet,
                plies => Output::Again(plies.to_vec()),
            }),
            Input::Question => outputs.push(Output::question_again(self.ask())),
            Input::Look => {
                outputs.push(self.look());
                outputs.extend(self.ask().map(Output::AskAgain));
            }
            Input::Pass { millis } => self.pass(millis, &mut outputs),
            Input::Help => outputs.push(Output::Help {
                form: self.form(),
                again: !self.trail().is_empty(),
                look: self.looks_left() != Some(0),
            }),
            Input::Stop => self.finish(Output::Stopped, &mut outputs),
        }
        outputs
    }
}
