//! What stands before the learner's eyes, on a screen that can be wiped.

use super::Sitting;
use crate::cli::failure::Failure;
use crate::exercise::{Answered, Awaits, GivenPosition, Heard, Input, Output, Session, Show};
use crate::terminal::{Said, Tone, Way};
use crate::voice::{self, asides};

/// What stands on the screen since the learner said something.
#[derive(Default)]
pub(in crate::cli) struct Page {
    /// Whether a question was answered.
    answered: bool,
    /// That the answer was right, where there is no more to say.
    right: Option<String>,
    /// Whether something stands there that has to be read before it goes.
    unread: bool,
    /// Whether something was read out that may answer the next question.
    to_remember: bool,
}

impl Page {
    /// Tells whether what was read out once more stands beside the question that it may answer.
    pub(super) fn holds_what_answers(&self, awaits: Awaits) -> bool {
        self.to_remember && awaits == Awaits::Reply
    }
}

impl Sitting {
    /// Says an output on a screen that can be wiped: nothing that was read, shown or answered before stands
    /// there when a question comes, and nothing vanishes before the learner has read it.
    pub(super) fn show(&mut self, session: &Session, output: &Output) -> Result<(), Failure> {
        let asks_on = session.awaits() == Awaits::Reply;
        match output {
            Output::Heard(heard) => self.show_plies(session, heard),
            Output::Board { .. } => {
                self.say(output)?;
                self.wait_and_wipe()
            }
            Output::Answered(answered) => self.show_answer(session, answered),
            Output::Given(given) => {
                self.turn_page()?;
                self.turn_to(given);
                self.page.to_remember = asks_on && given.show == Show::List;
                self.say(output)
            }
            Output::Again(plies) => {
                self.page.to_remember |= asks_on && !plies.is_empty();
                self.say(output)
            }
            Output::Ask(_) if std::mem::take(&mut self.page.to_remember) => {
                self.wait_and_wipe()?;
                self.say(output)
            }
            Output::Ended(_) => {
                self.leave()?;
                self.say(output)
            }
            _ => {
                self.say(output)?;
                self.page.unread |= self.page.answered;
                Ok(())
            }
        }
    }

    /// Shows a verdict. Where it says more than that the reply was right, it stays until Enter; then the
    /// next question stands alone.
    fn show_answer(&mut self, session: &Session, answered: &Answered) -> Result<(), Failure> {
        let output = Output::Answered(Box::new(answered.clone()));
        self.page.answered = true;
        self.page.right = voice::right_alone(answered);
        let is_short = self.page.right.is_some();
        match session.awaits() {
            Awaits::Reply => {
                if !is_short {
                    self.say(&output)?;
                    self.wait_for_enter(asides::READ_PROMPT)?;
                }
                self.wipe()?;
                self.say_right()
            }
            Awaits::GoOn => {
                self.say(&output)?;
                self.page.unread = !is_short;
                // Enter reads on where no pace does.
                if self.pace.is_some() && !is_short {
                    self.wait_for_enter(asides::READ_PROMPT)?;
                }
                Ok(())
            }
            Awaits::Nothing if is_short => {
                self.screen.leave()?;
                self.say(&output)
            }
            Awaits::Nothing => {
                self.say(&output)?;
                self.page.unread = true;
                Ok(())
            }
        }
    }

    /// Says once more on a wiped screen that the reply was right.
    fn say_right(&mut self) -> Result<(), Failure> {
        match &self.page.right {
            Some(right) => Ok(self.screen.say(Tone::Right, right)?),
            None => Ok(()),
        }
    }

    /// Begins another page after an answer, once that has been read.
    fn turn_page(&mut self) -> Result<(), Failure> {
        if !self.page.answered {
            return Ok(());
        }
        if self.page.unread {
            self.wait_for_enter(asides::READ_PROMPT)?;
        }
        self.before_eyes = None;
        self.wipe()?;
        self.say_right()
    }

    /// Leaves the alternate screen, once what stands there has been read.
    fn leave(&mut self) -> Result<(), Failure> {
        if self.screen.is_entered() && self.page.unread {
            self.wait_for_enter(asides::READ_PROMPT)?;
        }
        Ok(self.screen.leave()?)
    }

    /// Shows plies alone on the screen, with no more before them than the trail allows; when a question
    /// comes, none stays.
    fn show_plies(&mut self, session: &Session, heard: &Heard) -> Result<(), Failure> {
        self.wipe()?;
        let older = self.trail.saturating_sub(heard.plies.len());
        if older > 0 {
            let trail = session.trail();
            let older = trail.len().saturating_sub(heard.plies.len()).min(older);
            self.say(&Output::Again(trail[..older].to_vec()))?;
        }
        self.say(&Output::Heard(heard.clone()))?;
        // After the last plies of all, nothing else wipes the screen.
        self.page.unread = session.awaits() == Awaits::Nothing;
        if session.awaits() == Awaits::Reply {
            // As before any other move, so that nothing tells that a question comes.
            self.wait_for_enter_at(|sitting| sitting.listen(Awaits::GoOn))?;
            self.wipe()?;
        }
        Ok(())
    }

    /// Turns to another position: what was read before is over, and the answers are about its game.
    pub(super) fn turn_to(&mut self, given: &GivenPosition) {
        let game = given.game.and_then(|game| self.games.get(game));
        self.game = game.cloned().or(self.game.take());
        let stays = given.show == Show::Diagram;
        self.before_eyes = stays.then(|| Output::Given(Box::new(given.clone())));
    }

    /// Wipes the screen, but for the position that stays before the eyes.
    fn wipe(&mut self) -> Result<(), Failure> {
        self.screen.wipe()?;
        match self.before_eyes.clone() {
            Some(position) => self.say(&position),
            None => Ok(()),
        }
    }

    pub(super) fn can_wipe(&self) -> bool {
        self.manner.wipes && self.manner.way == Way::Edited
    }

    pub(super) fn wait_and_wipe(&mut self) -> Result<(), Failure> {
        self.wait_for_enter(asides::WIPE_PROMPT)?;
        self.wipe()
    }

    /// Waits until the learner has read what stands on the screen, or leaves.
    pub(super) fn wait_for_enter(&mut self, prompt: &str) -> Result<(), Failure> {
        self.wait_for_enter_at(|sitting| {
            let mut listener = sitting.listener.borrow_mut();
            Ok(listener.line(&mut sitting.screen, prompt)?)
        })
    }

    fn wait_for_enter_at(
        &mut self,
        listen: impl Fn(&mut Self) -> Result<Said, Failure>,
    ) -> Result<(), Failure> {
        self.page.unread = false;
        while !self.leaving {
            let said = self.said(asides::INTERRUPTED, &listen)?;
            match said.map(|line| Input::read(&line.text, 0)) {
                None | Some(Input::Stop) => self.leaving = true,
                Some(Input::GoOn) => break,
                Some(_) => self.aside(asides::ENTER_WANTED)?,
            }
        }
        self.aloud.interrupt(self.manner.way);
        Ok(())
    }
}
