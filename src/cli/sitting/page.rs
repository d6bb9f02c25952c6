//! What stands before the learner's eyes, on a screen that can be wiped.

use super::desk::Desk;
use crate::cli::failure::Failure;
use crate::exercise::{Awaits, Guided, Heard, Opening, Output, Said, Session, Show};
use crate::question::Verdict;
use crate::terminal::Tone;
use crate::voice::{self, asides};

/// What stands on the screen since the learner said something.
#[derive(Default)]
pub(super) struct Page {
    /// Whether a question was answered.
    answered: bool,
    /// That the answer was right, where there is no more to say.
    right: Option<String>,
    /// Whether something was read out that may answer the next question.
    to_remember: bool,
}

impl Page {
    /// Tells whether what was read out once more stands beside the question that it may answer.
    pub(super) fn holds_what_answers(&self, awaits: Awaits) -> bool {
        self.to_remember && awaits == Awaits::Reply
    }

    /// Says an output on a screen that can be wiped: nothing that was read, shown or answered before stands
    /// there when a question comes, and nothing vanishes before the learner has read it.
    pub(super) fn show(
        &mut self,
        desk: &mut Desk,
        session: &Session,
        output: &Output,
    ) -> Result<(), Failure> {
        let asks_on = session.awaits() == Awaits::Reply;
        match output {
            Output::Heard(heard) => show_plies(desk, session, heard),
            Output::Opening(opening) => {
                // A position alone is read out before it is asked about.
                self.to_remember = asks_on && matches!(**opening, Opening::Replay(_));
                desk.say(output)
            }
            Output::Board { stays: false, .. } => {
                desk.say(output)?;
                desk.wait_and_wipe()
            }
            // What is played is announced on a screen of its own; a slip stays beside the question.
            Output::Said(Said::Opponent(_) | Said::Learner(_)) => {
                self.answered = true;
                Ok(())
            }
            Output::Answered(answered) if answered.is_turn() => {
                self.answered = true;
                if answered.mark.verdict == Verdict::Right {
                    return desk.wipe();
                }
                desk.say(output)
            }
            Output::Answered(answered) => {
                self.answered = true;
                self.right = voice::right_alone(answered);
                // What was missed is explained behind the last reply of a dialogue: the screen stays.
                let is_last = session.awaits() == Awaits::Nothing && answered.dialogue.is_some();
                let is_right = self.right.is_some() || answered.mark.verdict == Verdict::Right;
                if is_right && !is_last {
                    return self.show_right(desk, session.awaits(), output);
                }
                // What is true is told when it is wanted.
                desk.say(output)
            }
            Output::Explained(_) | Output::Said(Said::Open { .. }) => {
                self.answered = true;
                Self::show_truth(desk, session.awaits(), output)
            }
            Output::Clue { .. } | Output::Guided(Guided::Back { .. } | Guided::Pieces { .. }) => {
                desk.wipe()?;
                desk.say(output)
            }
            Output::Given(given) => {
                self.turn_page(desk)?;
                desk.turn_to(given);
                let goes = given.show == Show::List || desk.voice.empty_board;
                self.to_remember = asks_on && goes;
                desk.say(output)
            }
            Output::Again(plies) => {
                self.to_remember |= asks_on && !plies.is_empty();
                desk.say(output)
            }
            Output::Ask(_) | Output::AskOpen(_) if std::mem::take(&mut self.to_remember) => {
                desk.wait_and_wipe()?;
                desk.say(output)
            }
            Output::Ended(_) => {
                desk.leave()?;
                desk.say(output)
            }
            _ => {
                desk.say(output)?;
                desk.unread |= self.answered;
                Ok(())
            }
        }
    }

    /// Shows that a reply was right, and no more of it while the next question stands.
    fn show_right(&self, desk: &mut Desk, awaits: Awaits, output: &Output) -> Result<(), Failure> {
        if self.right.is_none() {
            return Self::show_truth(desk, awaits, output);
        }
        match awaits {
            Awaits::Nothing => desk.screen.leave()?,
            Awaits::Reply => {
                desk.wipe()?;
                return self.say_right(desk);
            }
            Awaits::GoOn | Awaits::Truth | Awaits::Opponent => {}
        }
        desk.say(output)
    }

    /// Shows what is true. It stays until Enter; then the next question stands alone.
    fn show_truth(desk: &mut Desk, awaits: Awaits, output: &Output) -> Result<(), Failure> {
        desk.say(output)?;
        desk.unread = true;
        // Where nothing is asked, Enter reads on where no pace does.
        if awaits == Awaits::Reply || awaits == Awaits::GoOn && desk.pace.is_some() {
            desk.wait_for_enter(asides::READ_PROMPT)?;
        }
        if awaits == Awaits::Reply {
            desk.wipe()?;
        }
        Ok(())
    }

    /// Says once more on a wiped screen that the reply was right.
    fn say_right(&self, desk: &mut Desk) -> Result<(), Failure> {
        match &self.right {
            Some(right) => Ok(desk.screen.say(Tone::Right, right)?),
            None => Ok(()),
        }
    }

    /// Begins another page after an answer, once that has been read.
    fn turn_page(&mut self, desk: &mut Desk) -> Result<(), Failure> {
        if !self.answered {
            return Ok(());
        }
        if desk.unread {
            desk.wait_for_enter(asides::READ_PROMPT)?;
        }
        desk.screen.wipe()?;
        self.say_right(desk)
    }
}

/// Shows plies alone on the screen, with no more before them than the trail allows; when a question
/// comes, none stays.
fn show_plies(desk: &mut Desk, session: &Session, heard: &Heard) -> Result<(), Failure> {
    desk.wipe()?;
    let older = session.rules().trail.saturating_sub(heard.plies.len());
    let trail = session.trail();
    let older = trail.len().saturating_sub(heard.plies.len()).min(older);
    if older > 0 {
        desk.say(&Output::Again(trail[..older].to_vec()))?;
    }
    desk.say(&Output::Heard(heard.clone()))?;
    // After the last plies of all, nothing else wipes the screen.
    desk.unread = session.awaits() == Awaits::Nothing;
    if session.awaits() == Awaits::Reply {
        // As before any other move, so that nothing tells that a question comes.
        desk.wait_for_enter_at(|desk| desk.listen(Awaits::GoOn))?;
        desk.wipe()?;
    }
    Ok(())
}
