//! A question where it stands, and what becomes of a reply to it. Every exercise asks through this.

use std::fmt;

use crate::question::{
    BareQuestion, Form, LineQuestion, Mark, Question, Reply, Truth, Verdict, Why,
};
use crate::reply::Unread;

use super::Hardness;
use super::output::{Answered, Output, Setting};
use super::step::Place;

/// A question where it stands: it knows its truth, grades a reply and explains.
pub(super) trait Posed: fmt::Debug {
    fn question(&self) -> Question;
    fn setting(&self) -> Option<Setting>;
    fn truth(&self) -> Truth;
    fn form(&self) -> Form;
    fn read(&self, text: &str) -> Result<Reply, Unread>;
    fn mark(&self, truth: &Truth, reply: &Reply) -> Mark;
    fn why(&self, mark: &Mark, reply: Option<&Reply>) -> Why;
    /// What makes the question hard, when the board was last seen so many plies ago.
    fn hardness(&self, seen_ago: usize) -> Option<Hardness>;
}

/// A question over a line stands at a place of it.
impl Posed for (LineQuestion, Place) {
    fn question(&self) -> Question {
        Question::Line(self.0)
    }

    fn setting(&self) -> Option<Setting> {
        Some(Setting::of(self.1.scene()))
    }

    fn truth(&self) -> Truth {
        self.0.truth(self.1.scene())
    }

    fn form(&self) -> Form {
        self.0.form()
    }

    fn read(&self, text: &str) -> Result<Reply, Unread> {
        self.0.read(self.1.scene(), text)
    }

    fn mark(&self, truth: &Truth, reply: &Reply) -> Mark {
        Mark::new(truth, reply)
    }

    fn why(&self, mark: &Mark, reply: Option<&Reply>) -> Why {
        Why::Line(self.0.why(self.1.scene(), mark, reply))
    }

    fn hardness(&self, seen_ago: usize) -> Option<Hardness> {
        Some(Hardness::new(self.0, self.1.scene(), seen_ago))
    }
}

/// A question over the bare board knows all of its truth.
impl Posed for BareQuestion {
    fn question(&self) -> Question {
        Question::Bare(*self)
    }

    fn setting(&self) -> Option<Setting> {
        None
    }

    fn truth(&self) -> Truth {
        BareQuestion::truth(self)
    }

    fn form(&self) -> Form {
        BareQuestion::form(self)
    }

    fn read(&self, text: &str) -> Result<Reply, Unread> {
        self.form().read(text)
    }

    fn mark(&self, _: &Truth, reply: &Reply) -> Mark {
        BareQuestion::mark(self, reply)
    }

    fn why(&self, mark: &Mark, reply: Option<&Reply>) -> Why {
        Why::Bare(BareQuestion::why(self, mark, reply))
    }

    fn hardness(&self, _: usize) -> Option<Hardness> {
        None
    }
}

/// How long the learner took, and with what help.
#[derive(Clone, Copy, Debug)]
pub(super) struct Effort {
    pub(super) millis: u64,
    pub(super) late: bool,
    pub(super) looks: u32,
    /// Plies heard since the board was last seen; of no account over the bare board.
    pub(super) seen_ago: usize,
}

/// Reads and grades a reply; one that cannot be read changes nothing and is told as such.
pub(super) fn reply(posed: &dyn Posed, text: &str, effort: Effort) -> Result<Answered, Output> {
    let form = posed.form();
    let reply = posed
        .read(text)
        .map_err(|unread| Output::Unread { unread, form })?;
    let truth = posed.truth();
    let mark = posed.mark(&truth, &reply);
    Ok(answered(posed, truth, Some((text, reply)), mark, effort))
}

/// Gives the question up.
pub(super) fn pass(posed: &dyn Posed, effort: Effort) -> Answered {
    let truth = posed.truth();
    let mark = Mark::pass(&truth);
    answered(posed, truth, None, mark, effort)
}

fn answered(
    posed: &dyn Posed,
    truth: Truth,
    said: Option<(&str, Reply)>,
    mark: Mark,
    effort: Effort,
) -> Answered {
    let reply = said.as_ref().map(|(_, reply)| reply.clone());
    let why = (mark.verdict != Verdict::Right).then(|| posed.why(&mark, reply.as_ref()));
    Answered {
        question: posed.question(),
        setting: posed.setting(),
        truth,
        text: said.map_or_else(String::new, |(text, _)| text.to_owned()),
        reply,
        mark,
        why,
        millis: Some(effort.millis),
        late: effort.late,
        repeat: false,
        looks: effort.looks,
        hardness: posed.hardness(effort.seen_ago),
        tries: None,
    }
}
