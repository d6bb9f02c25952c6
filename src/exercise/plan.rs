//! What will be held: all that another process needs to hold it again.

use serde::{Deserialize, Serialize};

use super::{
    Ahead, AheadSettings, Drill, DrillSettings, Few, FewSettings, Mates, MatesSettings, PlanError,
    Recite, ReciteSettings, Replay, Script, ScriptError, Session, Settings, ThinkTimes,
};
use crate::game::{Game, GameResult, Line, Tags};

/// An exercise with all its settings, as the journal keeps it: a row for each exercise.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Plan {
    /// A game is read, and checkpoints ask.
    Replay(OverGame<Settings>),
    /// A game is said from memory.
    Recite(OverGame<ReciteSettings>),
    /// Plies are read from positions of games.
    Ahead(AheadSettings),
    /// Mates are to be found.
    Mates(MatesSettings),
    /// Questions over the bare board.
    Drill(DrillSettings),
    /// Questions over a few pieces.
    Few(FewSettings),
}

/// An exercise over one game.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OverGame<S> {
    /// The settings.
    pub settings: S,
    script: Script,
    tags: Vec<(String, String)>,
    result: Option<GameResult>,
}

impl<S> OverGame<S> {
    /// Plans an exercise over what `script` reads of a game, whose tags are told by `tags`.
    pub fn new(settings: S, script: Script, game: &Game, tags: Vec<(String, String)>) -> Self {
        OverGame {
            settings,
            script,
            tags,
            result: game.result,
        }
    }

    fn tags(&self) -> Tags {
        self.tags.iter().cloned().collect()
    }
}

impl Plan {
    /// Prepares a session; `think` are the think times of kinds that stand where the plan has none.
    ///
    /// # Errors
    ///
    /// [`PlanError`] when no such session can be held.
    pub fn session(&self, think: ThinkTimes) -> Result<Session, PlanError> {
        Ok(match self {
            Plan::Replay(plan) => {
                let (script, settings) = (plan.script.clone(), plan.settings.clone());
                let replay = Replay::new(script, settings, plan.tags(), plan.result)?;
                Session::new(replay).with_think_times(think)
            }
            Plan::Recite(plan) => {
                let (tags, settings) = (plan.tags(), plan.settings.clone());
                Session::new(Recite::new(&plan.script, settings, tags, plan.result)?)
            }
            Plan::Ahead(settings) => {
                Session::new(Ahead::new(settings.clone())?).with_think_times(think)
            }
            Plan::Mates(settings) => Session::new(Mates::new(settings.clone())?),
            Plan::Drill(settings) => {
                Session::new(Drill::new(settings.clone())).with_think_times(think)
            }
            Plan::Few(settings) => {
                Session::new(Few::new(settings.clone())?).with_think_times(think)
            }
        })
    }

    /// Prepares a session for paper, on which no verdict comes between two questions.
    ///
    /// # Errors
    ///
    /// As for [`Plan::session`].
    pub fn on_paper(&self) -> Result<Session, PlanError> {
        match self {
            Plan::Drill(settings) => Ok(Session::new(Drill::without_returns(settings.clone()))),
            Plan::Replay(_) | Plan::Recite(_) | Plan::Ahead(_) | Plan::Mates(_) | Plan::Few(_) => {
                self.session(ThinkTimes::default())
            }
        }
    }

    /// Returns the exercise's name in the journal, which is that of its command.
    pub const fn exercise(&self) -> &'static str {
        match self {
            Plan::Replay(_) => "replay",
            Plan::Recite(_) => "recite",
            Plan::Ahead(_) | Plan::Mates(_) => "ahead",
            Plan::Drill(_) | Plan::Few(_) => "drill",
        }
    }

    /// Returns how many plies stay readable on a screen.
    pub const fn trail(&self) -> usize {
        match self {
            Plan::Replay(plan) => plan.settings.trail,
            Plan::Recite(_) | Plan::Ahead(_) | Plan::Mates(_) | Plan::Drill(_) | Plan::Few(_) => 0,
        }
    }

    /// Returns the think time that the plan fixes for all kinds, in milliseconds.
    pub const fn think_millis(&self) -> Option<u64> {
        match self {
            Plan::Replay(plan) => plan.settings.think_millis,
            Plan::Recite(plan) => plan.settings.think_millis,
            Plan::Ahead(settings) => settings.think_millis,
            Plan::Mates(settings) => settings.think_millis,
            Plan::Drill(settings) => settings.think_millis,
            Plan::Few(settings) => settings.think_millis,
        }
    }

    /// Returns the line that is gone through when the session is finished; `None` where there is no one
    /// line, or only mates in it were asked.
    ///
    /// # Errors
    ///
    /// When it cannot be played.
    pub fn line(&self) -> Result<Option<Line>, ScriptError> {
        let script = match self {
            Plan::Replay(plan) => &plan.script,
            Plan::Recite(plan) => &plan.script,
            Plan::Ahead(settings) => match settings.games.as_slice() {
                [script] => script,
                _ => return Ok(None),
            },
            Plan::Mates(_) | Plan::Drill(_) | Plan::Few(_) => return Ok(None),
        };
        script.line(0).map(Some)
    }
}
