//! What will be held, as a session.

use super::registry::Plan;
use super::script::ScriptError;
use super::session::Session;
use super::settings::PlanError;
use super::step::ThinkTimes;
use crate::game::Line;

impl Plan {
    /// Prepares a session; `think` are the think times of kinds that stand where the plan has none.
    ///
    /// # Errors
    ///
    /// [`PlanError`] when no such session can be held.
    pub fn session(&self, think: ThinkTimes) -> Result<Session, PlanError> {
        let session = Session::new(self.clone().held()?);
        Ok(session.with_think_times(think))
    }

    /// Prepares a session for paper, on which no verdict comes between two questions.
    ///
    /// # Errors
    ///
    /// As for [`Plan::session`].
    pub fn on_paper(&self) -> Result<Session, PlanError> {
        Ok(Session::new(self.clone().held()?).on_paper())
    }

    /// Returns the line that is gone through when the session is finished; `None` where there is no one
    /// line, or only mates in it were asked.
    ///
    /// # Errors
    ///
    /// When it cannot be played.
    pub fn line(&self) -> Result<Option<Line>, ScriptError> {
        self.script().map(|script| script.line(0)).transpose()
    }
}
