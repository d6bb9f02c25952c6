//! Drills over the bare board: question after question, and what was missed or slow comes again.

mod deck;
mod settings;
mod summary;

use std::collections::VecDeque;

use crate::question::{BareQuestion, Question};

use super::output::{Answered, Ending, OfDrill, Opening};
use super::past::Past;
use super::step::{Asking, Exercise, Rules, Step};
use super::summary::Own;

pub use deck::deal;
pub use settings::DrillSettings;
pub use summary::{Advice, Confusion, DrillSummary, SquareCount};

/// A question that was missed or slow comes again after so many others.
const OTHERS: usize = 3;
/// A question comes again so many times at most.
const RETURNS: usize = 2;

/// A drill of the bare board.
#[derive(Debug)]
pub struct Drill {
    settings: DrillSettings,
    /// The questions that have not been put yet, in order.
    fresh: VecDeque<BareQuestion>,
    /// The questions that will come again, and the number of answers after which they do.
    due: VecDeque<(usize, BareQuestion)>,
    /// How often a question that was missed or slow comes again.
    returns: usize,
}

impl Drill {
    /// Prepares a drill.
    #[must_use]
    pub fn new(settings: DrillSettings) -> Drill {
        Drill {
            fresh: deck::deal(&settings).into(),
            settings,
            due: VecDeque::new(),
            returns: RETURNS,
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

    /// Lets a question that was missed or slow come again after a few others.
    fn look_at(&mut self, answers: &[Answered]) {
        let Some(last) = answers.last() else { return };
        let Question::Bare(question) = last.question else {
            return;
        };
        let before = answers[..answers.len() - 1].iter();
        let put = before.filter(|answered| answered.question == last.question);
        if summary::is_shaky(last) && put.count() < self.returns {
            self.due.push_back((answers.len() + OTHERS, question));
        }
    }

    /// Takes the question that comes now: one that is due again, or a fresh one.
    fn next_question(&mut self, answered: usize) -> Option<BareQuestion> {
        let is_due = |(after, _): &(usize, BareQuestion)| *after <= answered;
        if answered >= self.settings.count {
            None
        } else if self.due.front().is_some_and(is_due) {
            self.due.pop_front().map(|(_, question)| question)
        } else {
            self.fresh.pop_front()
        }
    }
}

impl Exercise for Drill {
    fn rules(&self) -> Rules {
        Rules {
            think_millis: self.settings.think_millis,
            usual_millis: |kind| Some(kind.think_millis()),
            ..Rules::free(0)
        }
    }

    fn opening(&self, _: &Past, again: bool) -> Opening {
        Opening::Drill(OfDrill {
            kinds: self.settings.kinds.clone(),
            count: self.settings.count,
            resumed: again,
        })
    }

    fn next(&mut self, past: &Past) -> Step {
        self.look_at(past.answers());
        let answered = past.answers().len();
        match self.next_question(answered) {
            Some(question) => Step::Ask(Asking {
                // On paper no verdict comes between the two.
                repeat: self.returns > 0 && summary::is_repeat(past.answers(), question),
                ..Asking::bare(question, answered + 1, self.settings.count)
            }),
            None => Step::End(Ending::Asked),
        }
    }

    fn summary(&self, past: &Past) -> Own {
        let summary = DrillSummary::new(&self.settings, past.answers());
        Own::Drill(Box::new(summary))
    }
}
