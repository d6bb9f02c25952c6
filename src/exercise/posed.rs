//! A question where it stands, and what becomes of a reply to it. Every exercise asks through this.

use std::fmt;

use crate::question::{
    BareQuestion, LineQuestion, Mark, Question, Reply, Scene, Truth, Verdict, Why,
};
use crate::reply::Unread;

use super::Hardness;
use super::output::{Answered, Output, Setting};
use super::step::Place;

/// A question that an exercise puts.
pub(super) trait AskedQuestion: fmt::Debug {
    /// Returns the question where it stands.
    fn here(&self) -> Here<'_>;

    /// Returns the right answer.
    fn truth(&self) -> Truth {
        self.here().truth()
    }
}

impl AskedQuestion for (LineQuestion, Place) {
    fn here(&self) -> Here<'_> {
        Here::Line(self.0, self.1.scene())
    }
}

impl AskedQuestion for BareQuestion {
    fn here(&self) -> Here<'_> {
        Here::Bare(*self)
    }
}

/// A question where it stands.
#[derive(Clone, Copy, Debug)]
pub(super) enum Here<'a> {
    /// Over a line, at a place of it.
    Line(LineQuestion, Scene<'a>),
    /// Over the bare board: it knows all of its truth.
    Bare(BareQuestion),
}

impl Here<'_> {
    pub(super) const fn question(self) -> Question {
        match self {
            Here::Line(question, _) => Question::Line(question),
            Here::Bare(question) => Question::Bare(question),
        }
    }

    fn truth(self) -> Truth {
        match self {
            Here::Line(question, scene) => question.truth(scene),
            Here::Bare(question) => question.truth(),
        }
    }

    pub(super) fn read(self, text: &str) -> Result<Reply, Unread> {
        match self {
            Here::Line(question, scene) => question.read(scene, text),
            Here::Bare(question) => question.form().read(text),
        }
    }

    fn mark(self, truth: &Truth, reply: &Reply) -> Mark {
        match self {
            Here::Line(..) => Mark::new(truth, reply),
            Here::Bare(question) => question.mark(reply),
        }
    }

    fn why(self, mark: &Mark, reply: Option<&Reply>) -> Why {
        match self {
            Here::Line(question, scene) => Why::Line(question.why(scene, mark, reply)),
            Here::Bare(question) => Why::Bare(question.why(mark, reply)),
        }
    }

    /// What makes the question hard, when the board was last seen so many plies ago.
    fn hardness(self, seen_ago: usize) -> Option<Hardness> {
        match self {
            Here::Line(question, scene) => Some(Hardness::new(question, scene, seen_ago)),
            Here::Bare(_) => None,
        }
    }

    fn setting(self) -> Option<Setting> {
        match self {
            Here::Line(_, scene) => Some(Setting::of(scene)),
            Here::Bare(_) => None,
        }
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
pub(super) fn reply(
    posed: &dyn AskedQuestion,
    text: &str,
    effort: Effort,
) -> Result<Answered, Output> {
    let here = posed.here();
    let form = here.question().kind().form();
    let reply = here
        .read(text)
        .map_err(|unread| Output::Unread { unread, form })?;
    let truth = posed.truth();
    let mark = here.mark(&truth, &reply);
    Ok(answered(posed, truth, Some((text, reply)), mark, effort))
}

/// Gives the question up.
pub(super) fn pass(posed: &dyn AskedQuestion, effort: Effort) -> Answered {
    let truth = posed.truth();
    let mark = Mark::pass(&truth);
    answered(posed, truth, None, mark, effort)
}

fn answered(
    posed: &dyn AskedQuestion,
    truth: Truth,
    said: Option<(&str, Reply)>,
    mark: Mark,
    effort: Effort,
) -> Answered {
    let here = posed.here();
    let reply = said.as_ref().map(|(_, reply)| reply.clone());
    let why = (mark.verdict != Verdict::Right).then(|| here.why(&mark, reply.as_ref()));
    Answered {
        question: here.question(),
        setting: here.setting(),
        truth,
        text: said.map_or_else(String::new, |(text, _)| text.to_owned()),
        reply,
        mark,
        why,
        millis: Some(effort.millis),
        late: effort.late,
        repeat: false,
        looks: effort.looks,
        hardness: here.hardness(effort.seen_ago),
        tries: None,
    }
}
