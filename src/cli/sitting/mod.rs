//! One sitting: the loop between a session, the learner at the terminal, and the journal.

mod desk;
mod page;

use super::failure::{Failure, something_was_told};
use crate::exercise::{Awaits, Earlier, Ending, Input, Output, Session};
use crate::learner::{AnswerRecord, EndRecord, Record};
use crate::voice::asides;
use page::Page;

pub(super) use desk::Desk;

/// Holds a session from its beginning, or from where an earlier sitting had stopped, to its end. Where the
/// screen can be wiped, it is held on the alternate screen, and how it went is told on the normal one.
pub(super) fn hold(desk: Desk, session: Session, earlier: Option<Earlier>) -> Result<(), Failure> {
    let page = Page::default();
    let mut sitting = Sitting {
        desk,
        session,
        page,
    };
    sitting.hold(earlier)
}

/// A session that is held.
struct Sitting {
    desk: Desk,
    session: Session,
    /// What has come of the learner's last input so far.
    page: Page,
}

impl Sitting {
    fn hold(&mut self, earlier: Option<Earlier>) -> Result<(), Failure> {
        let opening = match earlier {
            Some(earlier) => self.session.resume(earlier),
            None => self.session.begin(),
        };
        if self.desk.can_wipe() {
            if something_was_told() {
                self.desk.wait_for_enter(asides::BEGIN_PROMPT)?;
            }
            self.desk.screen.enter()?;
        }
        self.take(opening)?;
        while self.session.awaits() != Awaits::Nothing {
            self.desk.tell_of_speech()?;
            let input = self.hear()?;
            let outputs = self.session.hear(input);
            self.take(outputs)?;
            if self.page.holds_what_answers(self.session.awaits()) {
                self.desk.wait_and_wipe()?;
                let question = self.session.hear(Input::Question);
                self.take(question)?;
            }
        }
        self.desk.screen.leave()?;
        if self.desk.interrupted || self.desk.listener.borrow().is_to_end() {
            self.desk.aloud.silence();
        }
        self.desk.tell_of_speech()
    }

    /// Hears what the learner says next.
    fn hear(&mut self) -> Result<Input, Failure> {
        let desk = &mut self.desk;
        let Some(line) = desk.hear(self.session.awaits())? else {
            return Ok(Input::Stop);
        };
        if line.dropped > 0 {
            desk.aside(asides::CUT_SHORT)?;
        }
        desk.aloud.interrupt(desk.manner.way);
        Ok(desk.aloud.understood(Input::read(&line.text, line.millis)))
    }

    /// Takes what the session puts out: what belongs in the journal is on the disk before it is said.
    fn take(&mut self, outputs: Vec<Output>) -> Result<(), Failure> {
        self.write_down(&outputs)?;
        let Sitting {
            desk,
            session,
            page,
        } = self;
        *page = Page::default();
        desk.unread = false;
        for output in outputs {
            if desk.leaving && session.awaits() != Awaits::Nothing {
                return Ok(());
            }
            desk.aloud.say(desk.voice, &output);
            if desk.can_wipe() {
                page.show(desk, session, &output)?;
            } else {
                if let Output::Given(given) = &output {
                    desk.turn_to(given);
                }
                desk.say(&output)?;
            }
        }
        Ok(())
    }

    /// Writes down what was answered, and that the session is over.
    fn write_down(&mut self, outputs: &[Output]) -> Result<(), Failure> {
        let Sitting { desk, session, .. } = self;
        for output in outputs {
            match output {
                Output::Answered(answered) => {
                    let (stamp, game) = (desk.stamp(), desk.game.clone());
                    let answer = AnswerRecord::new(stamp, desk.exercise, game, answered);
                    desk.keep(Record::Answer(Box::new(answer)))?;
                }
                Output::Ended(ending) => desk.keep(Record::End(EndRecord {
                    stamp: desk.stamp(),
                    finished: *ending != Ending::Stopped,
                    plies: session.heard(),
                    looks: session.looks(),
                }))?,
                _ => {}
            }
        }
        Ok(())
    }
}
