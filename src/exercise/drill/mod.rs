//! Drills over the bare board: question after question, and what was missed or slow comes again.

mod deck;
mod settings;
mod summary;

use std::collections::VecDeque;

use crate::question::{BareQuestion, Kind};

use super::output::{Answered, Ask, Asked, Output};
use super::posed::{self, Effort};
use super::{Awaits, Input, Session, ThinkTimes};

pub use deck::deal;
pub use settings::{DrillSettings, Views, think_millis};
pub use summary::{Advice, Confusion, DrillPast, DrillSummary, SquareCount, subject_squares};

/// A question that was missed or slow comes again after so many others.
const OTHERS: usize = 3;
/// A question comes again so many times at most.
const RETURNS: usize = 2;

/// A drill in progress. Like every session it is driven by [`Drill::begin`] or [`Drill::resume`]
/// once, and then by [`Session::hear`].
#[derive(Debug)]
pub struct Drill {
    settings: DrillSettings,
    /// The questions that have not been put yet, in order.
    fresh: VecDeque<BareQuestion>,
    /// The questions that will come again, and the number of answers after which they do.
    due: VecDeque<(usize, BareQuestion)>,
    standing: Option<BareQuestion>,
    past: Vec<DrillPast>,
    think: ThinkTimes,
    /// How often a question that was missed or slow comes again.
    returns: usize,
    over: bool,
}

impl Drill {
    /// Prepares a drill.
    #[must_use]
    pub fn new(settings: DrillSettings) -> Drill {
        Drill {
            fresh: deck::deal(&settings).into(),
            settings,
            due: VecDeque::new(),
            standing: None,
            past: Vec::new(),
            think: ThinkTimes::default(),
            returns: RETURNS,
            over: false,
        }
    }

    /// Prepares a drill in which nothing comes again, as on paper: whatever the replies, its questions
    /// are those that a learner is asked who misses none.
    #[must_use]
    pub fn without_returns(settings: DrillSettings) -> Drill {
        Drill {
            returns: 0,
            ..Drill::new(settings)
        }
    }

    /// Takes the think times of kinds that stand where the settings have none.
    #[must_use]
    pub fn with_think_times(mut self, think: ThinkTimes) -> Drill {
        self.think = think;
        self
    }

    /// Begins: says what is to come and puts the first question.
    pub fn begin(&mut self) -> Vec<Output> {
        let mut outputs = vec![self.opening(false)];
        self.go_on(&mut outputs);
        outputs
    }

    /// Goes on where an earlier run of the same settings had stopped, with the same question.
    pub fn resume(&mut self, past: Vec<DrillPast>) -> Vec<Output> {
        let mut outputs = vec![self.opening(true)];
        for answer in past {
            self.next_question();
            self.note(answer);
        }
        self.go_on(&mut outputs);
        outputs
    }

    fn opening(&self, resumed: bool) -> Output {
        Output::DrillOpening {
            kinds: self.settings.kinds.clone(),
            count: self.settings.count,
            resumed,
        }
    }

    /// Takes the question that comes now: one that is due again, or a fresh one.
    fn next_question(&mut self) -> Option<BareQuestion> {
        let is_due = |(after, _): &(usize, BareQuestion)| *after <= self.past.len();
        self.standing = if self.past.len() >= self.settings.count {
            None
        } else if self.due.front().is_some_and(is_due) {
            self.due.pop_front().map(|(_, question)| question)
        } else {
            self.fresh.pop_front()
        };
        self.standing
    }

    fn go_on(&mut self, outputs: &mut Vec<Output>) {
        match self.next_question() {
            Some(_) => outputs.extend(self.ask().map(Output::Ask)),
            None => self.finish(Output::DrillFinished, outputs),
        }
    }

    fn ask(&self) -> Option<Ask> {
        let question = self.standing?;
        Some(Ask {
            asked: Asked::Bare(question),
            number: self.past.len() + 1,
            of: self.settings.count,
            form: question.form(),
        })
    }

    fn effort(&self, question: BareQuestion, millis: u64) -> Effort {
        Effort {
            millis,
            late: millis > self.think_millis(question.kind()),
            looks: 0,
            seen_ago: 0,
        }
    }

    fn think_millis(&self, kind: Kind) -> u64 {
        let wished = self.settings.think_millis.or(self.think.of(kind));
        wished.unwrap_or_else(|| think_millis(kind))
    }

    fn answered(
        &mut self,
        question: BareQuestion,
        mut answered: Answered,
        outputs: &mut Vec<Output>,
    ) {
        // On paper no verdict comes between the two.
        answered.repeat = self.returns > 0 && summary::is_repeat(&self.past, &question);
        self.note(DrillPast {
            question,
            reply: answered.reply.clone(),
            verdict: answered.mark.verdict,
            millis: answered.millis,
            late: answered.late,
        });
        outputs.push(Output::Answered(Box::new(answered)));
        self.go_on(outputs);
    }

    /// Keeps an answer; a question that was missed or slow will come again after a few others.
    fn note(&mut self, answer: DrillPast) {
        let put = self
            .past
            .iter()
            .filter(|past| past.question == answer.question)
            .count();
        let shaky = answer.is_shaky();
        let question = answer.question;
        self.past.push(answer);
        if shaky && put < self.returns {
            self.due.push_back((self.past.len() + OTHERS, question));
        }
    }

    fn finish(&mut self, last_word: Output, outputs: &mut Vec<Output>) {
        self.over = true;
        self.standing = None;
        outputs.push(last_word);
        let summary = DrillSummary::new(&self.settings, &self.past);
        outputs.push(Output::DrillSummary(Box::new(summary)));
    }
}

impl Session for Drill {
    fn awaits(&self) -> Awaits {
        if self.over {
            Awaits::Nothing
        } else {
            Awaits::Reply
        }
    }

    fn hear(&mut self, input: Input) -> Vec<Output> {
        let mut outputs = Vec::new();
        let Some(question) = self.standing else {
            return outputs;
        };
        match input {
            Input::Reply { text, millis } => {
                let effort = self.effort(question, millis);
                match posed::reply(&question, &text, effort) {
                    Ok(answered) => self.answered(question, answered, &mut outputs),
                    Err(unread) => outputs.push(unread),
                }
            }
            Input::Pass { millis } => {
                let effort = self.effort(question, millis);
                self.answered(question, posed::pass(&question, effort), &mut outputs);
            }
            Input::Again | Input::Question => outputs.extend(self.ask().map(Output::AskAgain)),
            Input::Look => outputs.push(Output::NothingToSee),
            Input::GoOn => outputs.push(Output::ReplyWanted(question.form())),
            Input::Help => outputs.push(Output::Help {
                form: Some(question.form()),
                again: false,
                look: false,
            }),
            Input::Stop => self.finish(Output::Stopped, &mut outputs),
        }
        outputs
    }
}
