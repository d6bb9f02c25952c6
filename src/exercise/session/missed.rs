//! What follows an answer: the truth and the reason, at once or when the learner wants them, and the way there.

use shakmaty::Position;

use super::super::answers::Answered;
use super::super::guide::Guide;
use super::super::output::{Heard, NotHere, Output};
use super::{Session, Stands};
use crate::question::{Truth, Verdict};

impl Session {
    /// Keeps an answer, tells what stands behind it, and goes on.
    pub(super) fn answered(
        &mut self,
        mut answered: Answered,
        told: Vec<Output>,
        outputs: &mut Vec<Output>,
    ) {
        let kind = answered.question.kind();
        let of_all = self.rules.think_millis.map(|think| think.get().into());
        let wished = self.think.of_kinds.get(&kind).copied();
        let longest = wished.filter(|_| self.think.lengthen).unwrap_or(0);
        let think = of_all.map(|all: u64| all.max(longest)).or_else(|| {
            self.rules
                .kind_times
                .think(kind, wished, &self.past.answers)
        });
        answered.think = think.map(|think| think + self.think.more);
        answered.think.take_if(|_| answered.helped);
        answered.late = (answered.think).is_some_and(|think| answered.millis > Some(think));
        self.past.answer(answered.clone());
        outputs.push(Output::Answered(Box::new(answered.clone())));
        outputs.extend(told);
        self.explain(Box::new(answered), outputs);
    }

    /// Explains an answer where that is due, or waits until the learner wants it, and goes on.
    pub(super) fn explain(&mut self, answered: Box<Answered>, outputs: &mut Vec<Output>) {
        if !answered.is_to_be_explained() {
            self.keep_last(answered);
            return self.proceed(outputs);
        }
        if let Stands::Asked(asking) = &self.stands
            && self.truth_waits
            && answered.recital().is_none()
        {
            let held = asking
                .place
                .as_ref()
                .map_or(0, |place| self.past.held(place));
            let guide = Guide::new(asking, &answered, held).map(Box::new);
            // Who gave up a question that leads nowhere back asked for the truth.
            if guide.is_some() || answered.mark.verdict != Verdict::Pass {
                outputs.push(Output::TruthWaits {
                    dialogue: guide.as_ref().map(|guide| guide.dialogue()),
                    tried: false,
                });
                self.last = None;
                self.stands = Stands::Missed {
                    ask: asking.ask.clone(),
                    answered,
                    guide,
                };
                return;
            }
        }
        self.tell(answered, outputs);
    }

    /// Tells the truth that waits, and goes on.
    pub(super) fn tell_truth(&mut self, outputs: &mut Vec<Output>) {
        match std::mem::replace(&mut self.stands, Stands::Over) {
            Stands::Missed { answered, .. } => self.tell(answered, outputs),
            Stands::Guided { answered, guide } => {
                self.past.place = Some(guide.end);
                self.tell(answered, outputs);
            }
            stands => self.stands = stands,
        }
    }

    fn tell(&mut self, answered: Box<Answered>, outputs: &mut Vec<Output>) {
        if let Truth::Placement(_) = answered.truth {
            self.past.show();
        }
        outputs.push(Output::Explained(answered.clone()));
        self.keep_last(answered);
        self.proceed(outputs);
    }

    fn keep_last(&mut self, answered: Box<Answered>) {
        (self.last, self.last_is_past) = (Some(answered), false);
    }

    /// Tells the reason of the last truth, or the truth that waits.
    pub(super) fn why(&mut self, outputs: &mut Vec<Output>) {
        match (&mut self.stands, &self.last) {
            (Stands::Missed { .. } | Stands::Guided { .. }, _) => self.tell_truth(outputs),
            (stands, Some(answered)) => {
                if let Stands::Asked(asking) = stands
                    && self.last_is_past
                    && !(asking.is_turn() || std::mem::replace(&mut asking.helped, true))
                {
                    outputs.push(Output::Helped);
                }
                outputs.push(Output::Explained(answered.clone()));
                outputs.extend(self.ask_again());
            }
            (_, None) => outputs.push(Output::NotHere(NotHere::Why)),
        }
    }

    /// Tells whether a reason can be asked for that is not told by Enter.
    pub(super) const fn can_explain(&self) -> bool {
        let waits = matches!(self.stands, Stands::Missed { .. } | Stands::Guided { .. });
        !waits && self.last.is_some()
    }

    /// Goes back to where the picture held.
    pub(super) fn back(&mut self, outputs: &mut Vec<Output>) {
        match std::mem::replace(&mut self.stands, Stands::Over) {
            Stands::Missed {
                answered,
                guide: Some(mut guide),
                ..
            } => {
                outputs.push(Output::Guided(guide.begin()));
                self.stands = Stands::Guided { answered, guide };
                self.follow(outputs);
            }
            stands => {
                self.stands = stands;
                outputs.push(Output::NotHere(NotHere::Back));
            }
        }
    }

    /// Comes to where the guide has come, and puts its question.
    fn follow(&mut self, outputs: &mut Vec<Output>) {
        if let Stands::Guided { guide, .. } = &self.stands {
            self.past.place = Some(guide.place.clone());
            outputs.extend({ guide.asking.as_ref() }.map(|asking| Output::Ask(asking.ask.clone())));
        }
    }

    pub(super) fn read_on_guided(&mut self, outputs: &mut Vec<Output>) {
        let Stands::Guided { guide, .. } = &mut self.stands else {
            return;
        };
        if let Some(asking) = &guide.asking {
            outputs.push(Output::ReplyWanted(asking.ask.form));
            return;
        }
        let plies = vec![guide.read_on()];
        let position = guide.place.scene().position();
        outputs.push(Output::Heard(Heard {
            plies,
            stalemate: position.is_stalemate(),
        }));
        self.follow(outputs);
    }

    pub(super) fn reply_guided(&mut self, text: String, millis: u64, outputs: &mut Vec<Output>) {
        let Stands::Guided { guide, .. } = &mut self.stands else {
            return;
        };
        let Some(asking) = &mut guide.asking else {
            return;
        };
        match asking.hear(text, millis, &self.past) {
            (None, told) => outputs.extend(told),
            (Some(answered), _) => self.answered_guided(answered, outputs),
        }
    }

    pub(super) fn pass_guided(&mut self, millis: u64, outputs: &mut Vec<Output>) {
        match self.asking().map(|asking| asking.pass(millis, &self.past)) {
            Some(answered) => self.answered_guided(answered, outputs),
            None => self.tell_truth(outputs),
        }
    }

    /// Takes an answer on the way: it goes into the journal and counts nowhere.
    fn answered_guided(&mut self, mut answered: Answered, outputs: &mut Vec<Output>) {
        let Stands::Guided { guide, .. } = &mut self.stands else {
            return;
        };
        (answered.helped, answered.dialogue) = (true, Some(guide.dialogue()));
        (answered.hardness, answered.looks) = (None, 0);
        let told = guide.take(&answered);
        let is_over = told.is_some() || answered.mark.verdict == Verdict::Pass;
        outputs.push(Output::Answered(Box::new(answered)));
        outputs.extend(told.map(Output::Guided));
        if is_over {
            self.tell_truth(outputs);
        } else {
            self.follow(outputs);
        }
    }
}
