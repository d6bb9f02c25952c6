//! What becomes of a reply to a question that stands.

use super::answers::{Answered, Setting};
use super::asking::{Asked, Asking, Stands};
use super::draft::Draft;
use super::hardness::Hardness;
use super::output::{NotHere, Output};
use super::past::Past;
use super::tries::missed;
use crate::question::{Form, Mark, Reply, Tally, Turn, Verdict, Why};
use crate::reply::Unread;

/// The word that asks for a hint.
pub(super) const HINT: &str = "hint";
/// The score of a reply that was right at the second try, or with the hint.
const HELPED: f64 = 0.5;

/// So many clues are given to a learner who is taught, before the truth is told.
const CLUES: usize = 3;

/// What becomes of a reply: the answer, unless the question stands, and what else is told.
pub(super) type Reaction = (Option<Answered>, Vec<Output>);

impl Asking {
    /// Takes a reply, after all that has happened; one that cannot be read changes nothing.
    pub(super) fn hear(&mut self, text: String, millis: u64, past: &Past) -> Reaction {
        if self.ask.taught.is_some() {
            return self.hear_taught(text, millis, past);
        }
        if self.is_turn() {
            return self.hear_turn(text, millis, past);
        }
        if self.tries.is_some() {
            return self.hear_try(text, millis, past);
        }
        let text = match self.draft.take() {
            Some(draft) => draft.mended(&text),
            None => text,
        };
        match self.read(&text) {
            Ok(reply) => {
                let answered = self.answered(text, Some(reply), None, millis, past);
                (Some(answered), Vec::new())
            }
            Err(unread) => {
                if self.ask.form == Form::Placement {
                    self.draft = Draft::of(&text, |text| self.read(text).err());
                }
                self.unread(unread, millis)
            }
        }
    }

    /// Gives the question up.
    pub(super) fn pass(&self, millis: u64, past: &Past) -> Answered {
        self.answered(String::new(), None, None, millis, past)
    }

    /// Takes a try at a move: the first wrong one costs half.
    fn hear_try(&mut self, text: String, millis: u64, past: &Past) -> Reaction {
        let (Some(place), Some(tries)) = (&self.place, &mut self.tries) else {
            return (None, Vec::new());
        };
        let hint = Output::Hint(place.line.plies()[place.plies].mv.role());
        if text.eq_ignore_ascii_case(HINT) {
            tries.hint = true;
            return (None, vec![hint, Output::AskAgain(self.ask.clone())]);
        }
        let missed = match missed(&place.line, place.plies, &text) {
            Ok(missed) => missed.map(|missed| Output::Missed(Box::new(missed))),
            Err(unread) => return self.unread(unread, millis),
        };
        let is_first = tries.said.is_empty();
        tries.said.push(text.clone());
        if is_first && let Some(missed) = missed {
            let mut told = vec![missed];
            if self.hints_by_itself && !tries.hint {
                tries.hint = true;
                told.push(hint);
            }
            self.spent = self.spent.saturating_add(millis);
            if let Asked::Move { once_more, .. } = &mut self.ask.asked {
                *once_more = true;
            }
            told.push(Output::AskAgain(self.ask.clone()));
            return (None, told);
        }
        let (verdict, score) = match missed {
            Some(_) => (Verdict::Wrong, 0.0),
            None if is_first && !tries.hint => (Verdict::Right, 1.0),
            None => (Verdict::Part, HELPED),
        };
        let mark = Mark {
            verdict,
            score,
            tally: Tally::default(),
        };
        let reply = self.read(&text).ok();
        let answered = self.answered(text, reply, Some(mark), millis, past);
        (Some(answered), Vec::from_iter(missed))
    }

    /// Takes a reply of a learner who is taught: after a miss there is a clue, until it is found. Hints step
    /// by step that let learners find an answer are kept best ("Scaffolding feedback to maximize long-term
    /// error correction", Memory & Cognition 2010, 38:951-961).
    fn hear_taught(&mut self, text: String, millis: u64, past: &Past) -> Reaction {
        let reply = match self.read(&text) {
            Ok(reply) => reply,
            Err(unread) => return self.unread(unread, millis),
        };
        let tries = self.tries.get_or_insert_default();
        tries.said.push(text.clone());
        let number = tries.said.len();
        let answered = self.answered(text, Some(reply), None, millis, past);
        if let (false, Why::Bare(why)) = (answered.is_right(), &answered.why)
            && number <= CLUES
        {
            self.spent = self.spent.saturating_add(millis);
            let why = Box::new(why.clone());
            let again = Output::AskAgain(self.ask.clone());
            return (None, vec![Output::Clue { why, number }, again]);
        }
        (Some(answered), Vec::new())
    }

    /// Takes a move of one's own: any legal one is right, and another one has to be said in the place of an
    /// illegal one.
    fn hear_turn(&mut self, text: String, millis: u64, past: &Past) -> Reaction {
        let reply = match self.read(&text) {
            Ok(reply) => reply,
            Err(Unread::GivesUp) => return (None, vec![Output::NotHere(NotHere::Pass)]),
            Err(unread) => return self.unread(unread, millis),
        };
        let place = self.place.as_ref();
        let is_legal = place.is_some_and(|place| Turn::is_legal(place.scene(), &reply));
        let mark = Mark::all_or_nothing(is_legal);
        let answered = self.answered(text, Some(reply), Some(mark), millis, past);
        (Some(answered), Vec::new())
    }

    /// Tells what could not be read, which costs nothing but the time that it took.
    fn unread(&mut self, unread: Unread, millis: u64) -> Reaction {
        self.spent = self.spent.saturating_add(millis);
        let (form, kept) = (self.ask.form, self.draft.is_some());
        (None, vec![Output::Unread { unread, form, kept }])
    }

    /// Brings a reply that was heard into writing; a board may come side by side.
    pub(super) fn in_writing(&self, said: &str) -> Result<String, Unread> {
        let position = self.place.as_ref().map(|place| place.scene().position());
        let position = position.cloned().unwrap_or_default();
        let written = self.ask.form.in_writing(said, &position);
        match self.read(&written) {
            Ok(_) | Err(Unread::NoSides) => Ok(written),
            Err(unread) => Err(unread),
        }
    }

    fn read(&self, text: &str) -> Result<Reply, Unread> {
        match &self.stands {
            Stands::Line(question, place) => question.read(place.scene(), text),
            Stands::Bare(question) => question.form().read(text),
        }
    }

    /// Grades a reply, where it has no mark yet; none is a pass.
    fn answered(
        &self,
        text: String,
        reply: Option<Reply>,
        mark: Option<Mark>,
        millis: u64,
        past: &Past,
    ) -> Answered {
        let said = reply.as_ref();
        let truth = (self.truth.clone()).unwrap_or_else(|| match &self.stands {
            Stands::Line(question, place) => question.truth(place.scene()),
            Stands::Bare(question) => question.truth(),
        });
        let mark = mark.unwrap_or_else(|| match (&self.stands, said) {
            (_, None) => Mark::pass(&truth),
            (Stands::Line(..), Some(reply)) => Mark::new(&truth, reply),
            (Stands::Bare(question), Some(reply)) => question.mark(reply),
        });
        // What is right is explained as to somebody who has not replied.
        let passed = (mark.verdict == Verdict::Right).then(|| Mark::pass(&truth));
        let (held, said) = passed
            .as_ref()
            .map_or((&mark, said), |passed| (passed, None));
        let (why, setting, hardness) = match &self.stands {
            Stands::Line(question, place) => {
                let scene = place.scene();
                (
                    Why::Line(question.why(scene, held, said)),
                    Some(Setting::of(scene)),
                    Some(Hardness {
                        stretch: self
                            .ask
                            .asked
                            .is_at_checkpoint()
                            .then(|| past.stretch(scene)),
                        ..Hardness::new(*question, scene, past.seen_ago())
                    }),
                )
            }
            Stands::Bare(question) => (Why::Bare(question.why(held, said)), None, None),
        };
        Answered {
            question: self.ask.asked.question(),
            setting,
            truth,
            text,
            why,
            reply,
            mark,
            millis: Some(self.spent.saturating_add(millis)),
            think: None,
            late: false,
            repeat: self.repeat,
            helped: self.helped,
            dialogue: None,
            looks: past.new_looks,
            hardness,
            tries: self.tries.clone(),
        }
    }
}
