//! The questions of one checkpoint, put one after the other. Every exercise uses it.

use crate::question::{Form, Mark, Question, Reply, Scene, Truth, Verdict};

use super::output::{Answered, Output, Setting};

/// The questions of one checkpoint and how far the learner has come with them.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Round {
    questions: Vec<Question>,
    done: usize,
}

/// How long the learner took, and with what help.
#[derive(Clone, Copy, Debug)]
pub(super) struct Effort {
    pub(super) millis: u64,
    pub(super) late: bool,
    pub(super) looks: u32,
}

impl Round {
    /// Opens a round of which the first `done` questions have been answered before.
    pub(super) fn new(questions: Vec<Question>, done: usize) -> Round {
        Round { questions, done }
    }

    /// Returns the question that stands, unless all are answered.
    pub(super) fn standing(&self) -> Option<&Question> {
        self.questions.get(self.done)
    }

    /// Returns the number of the question that stands, counted from 1, and how many there are.
    pub(super) fn count(&self) -> (usize, usize) {
        (self.done + 1, self.questions.len())
    }

    /// Grades a reply to the question that stands and goes on to the next one. A reply that cannot
    /// be read changes nothing.
    pub(super) fn reply(
        &mut self,
        scene: Scene<'_>,
        text: &str,
        effort: Effort,
    ) -> Result<Answered, Output> {
        let question = self.questions[self.done];
        let truth = question.truth(scene);
        let form = truth.form();
        let reply = form
            .read(text)
            .map_err(|unread| Output::Unread { unread, form })?;
        let mark = Mark::new(&truth, &reply);
        self.done += 1;
        Ok(answered(
            question,
            scene,
            truth,
            Some((text, reply)),
            mark,
            effort,
        ))
    }

    /// Gives the question that stands up and goes on to the next one.
    pub(super) fn pass(&mut self, scene: Scene<'_>, effort: Effort) -> Answered {
        let question = self.questions[self.done];
        let truth = question.truth(scene);
        let mark = Mark::pass(&truth);
        self.done += 1;
        answered(question, scene, truth, None, mark, effort)
    }

    /// Returns the form of the reply that is wanted.
    pub(super) fn form(&self, scene: Scene<'_>) -> Option<Form> {
        self.standing().map(|question| question.truth(scene).form())
    }
}

fn answered(
    question: Question,
    scene: Scene<'_>,
    truth: Truth,
    said: Option<(&str, Reply)>,
    mark: Mark,
    effort: Effort,
) -> Answered {
    let reply = said.as_ref().map(|(_, reply)| reply.clone());
    let why = (mark.verdict != Verdict::Right).then(|| question.why(scene, &mark, reply.as_ref()));
    Answered {
        question,
        setting: Setting::of(scene),
        truth,
        text: said.map_or_else(String::new, |(text, _)| text.to_owned()),
        reply,
        mark,
        why,
        millis: effort.millis,
        late: effort.late,
        looks: effort.looks,
    }
}
