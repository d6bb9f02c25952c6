//! Going on where an earlier sitting of the same exercise had stopped.

use super::super::answers::Tries;
use super::super::hearing;
use super::super::input::Input;
use super::super::output::Output;
use super::super::said::Said;
use super::super::step::Ending;
use super::{Awaits, Session, Stands};

/// What an earlier sitting of the same exercise came to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Earlier {
    /// Its answers, in order.
    pub answers: Vec<EarlierAnswer>,
    /// What was said in games beside the learner's moves, each with the number of answers before it.
    pub said: Vec<(usize, Said)>,
    /// How many plies had been heard, as far as that was written down.
    pub heard: usize,
    /// How many looks had been taken in all, as far as that was written down.
    pub looks: u32,
    /// Whether something helped at the question that stood at its end.
    pub helped: bool,
}

/// An answer as it was given in an earlier sitting.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct EarlierAnswer {
    /// The words of the reply; empty where the question was given up.
    pub text: String,
    /// Milliseconds from question to reply.
    pub millis: u64,
    /// How many looks were taken since the answer before.
    pub looks: u32,
    /// How many plies ago the board had been seen, where that is known.
    pub seen_ago: u32,
    /// Whether something helped.
    pub helped: bool,
    /// The tries at a question that had two.
    pub tries: Tries,
}

impl Session {
    /// Goes on where an earlier sitting had stopped, with the same questions still to come: it hears again
    /// what that one heard, and then says where it stands.
    pub fn resume(&mut self, earlier: Earlier) -> Vec<Output> {
        let truth_waits = std::mem::take(&mut self.truth_waits);
        self.proceed(&mut Vec::new());
        let mut said = earlier.said.into_iter().peekable();
        for (at, answer) in earlier.answers.into_iter().enumerate() {
            while let Some((_, said)) = said.next_if(|(before, _)| *before <= at) {
                self.say_again(said);
            }
            self.read_on();
            self.hear_again(answer);
        }
        said.for_each(|(_, said)| self.say_again(said));
        while self.awaits() == Awaits::GoOn && self.past.heard < earlier.heard {
            self.hear(Input::GoOn);
        }
        // Nobody wrote down when these were taken: no more plies are claimed than are certain.
        self.past
            .look(earlier.looks.saturating_sub(self.past.looks), 0);
        self.truth_waits = truth_waits;
        let mut outputs = vec![self.opening(true)];
        if self.awaits() == Awaits::Nothing {
            self.finish(Ending::Read(None), &mut outputs);
            return outputs;
        }
        outputs.extend(self.given.clone());
        if !(self.trail().is_empty() || self.trail_answers()) {
            outputs.push(Output::Again(self.trail().to_vec()));
        }
        match &mut self.stands {
            Stands::Asked(asking) => {
                outputs.push(Output::Ask(asking.ask.clone()));
                let was_helped = earlier.helped && asking.note_earlier_help();
                outputs.extend(was_helped.then_some(Output::Helped));
            }
            Stands::Open(question) => outputs.push(Output::AskOpen(question.clone())),
            _ => {}
        }
        outputs
    }

    fn read_on(&mut self) {
        while self.awaits() == Awaits::GoOn {
            self.hear(Input::GoOn);
        }
    }

    /// Hears again what was said beside the learner's moves.
    fn say_again(&mut self, said: Said) {
        self.read_on();
        self.hear(match said {
            Said::Opponent(said) => Input::Opponent(said),
            Said::Open { reply, .. } if reply.is_empty() => Input::Pass { millis: 0 },
            Said::Open { reply: text, .. } => Input::Reply { text, millis: 0 },
            Said::Learner(word) => Input::Reply {
                text: word.to_string(),
                millis: 0,
            },
        });
    }

    fn hear_again(&mut self, answer: EarlierAnswer) {
        self.past.look(answer.looks, answer.seen_ago as usize);
        if let Stands::Asked(asking) = &mut self.stands {
            asking.helped |= answer.helped;
        }
        let mut before = answer.tries.said;
        if !answer.text.is_empty() {
            // The last try is the reply itself.
            before.pop();
        }
        let hint = answer.tries.hint.then(|| hearing::HINT.to_owned());
        for text in hint.into_iter().chain(before) {
            self.hear(Input::Reply { text, millis: 0 });
        }
        let (text, millis) = (answer.text, answer.millis);
        self.hear(if text.is_empty() {
            Input::Pass { millis }
        } else {
            Input::Reply { text, millis }
        });
    }
}
